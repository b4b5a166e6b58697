package desk

import (
	"net/http"
	"sync"
	"time"

	"pegwright/web/page"
)

// codePage shows the recovery code, once.
type codePage struct {
	page.Frame
	Code string
	Date string
}

var codeTemplate = page.Parse(files, "code.html")

// Code shows a recovery code that was just made; it is shown once.
func (d *Desk) Code(w http.ResponseWriter, r *http.Request) error {
	code, ok := d.fresh.take(r.FormValue("show"), d.Now())
	if !ok {
		return see(w, r, "/desk")
	}
	return codeTemplate.Write(w, http.StatusOK, codePage{
		Frame: d.plainFrame(r, page.Speaker(r).Text("code.title")), Code: code, Date: d.Now().Local().Format("2006-01-02"),
	})
}

// freshCodes are recovery codes that were made and not yet shown.
type freshCodes struct {
	mu sync.Mutex
	by map[string]freshCode
}

type freshCode struct {
	code string
	made time.Time
}

// freshFor is how long a code waits to be shown.
const freshFor = 5 * time.Minute

func newFreshCodes() *freshCodes { return &freshCodes{by: map[string]freshCode{}} }

func (f *freshCodes) put(show, code string, now time.Time) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for k, c := range f.by {
		if now.Sub(c.made) > freshFor {
			delete(f.by, k)
		}
	}
	f.by[show] = freshCode{code, now}
}

func (f *freshCodes) take(show string, now time.Time) (string, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	c, ok := f.by[show]
	delete(f.by, show)
	return c.code, ok && now.Sub(c.made) <= freshFor
}
