package browser

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// faulty is a page with planted faults: a picture without words, a script that
// the policy keeps out, a complaint, and an exception.
const faulty = `<!doctype html><html lang="en"><title>Faulty</title><main><h1>Faulty</h1>
<img src="/picture"><script>document.title = "inline"</script><script src="/script" defer></script>
<input id="word" aria-label="Word"><button id="go">Go</button></main></html>`

const script = `console.error("a complaint");
document.querySelector("#go").addEventListener("click", () => { document.title = "clicked " + document.cookie; });
document.addEventListener("mousedown", e => { window.from = e.clientX; });
document.addEventListener("mouseup", e => { window.to = e.clientX; });
addEventListener("offline", () => { window.cut = true; });
throw new Error("an exception");`

func newPage(t *testing.T) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.HandleFunc("/{$}", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Security-Policy", "default-src 'self'")
		_, _ = io.WriteString(w, faulty)
	})
	mux.HandleFunc("/script", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/javascript")
		_, _ = io.WriteString(w, script)
	})
	mux.HandleFunc("/picture", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "image/svg+xml")
		_, _ = io.WriteString(w, `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>`)
	})
	mux.HandleFunc("/favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	s := httptest.NewServer(mux)
	t.Cleanup(s.Close)
	return s.URL
}

func TestPlantedFaultsAreFound(t *testing.T) {
	p, page := Start(t).Device(t), newPage(t)
	p.Open(page)
	p.Until(`document.readyState === "complete"`)
	faults := strings.Join(p.Faults(), "\n")
	for _, want := range []string{"a complaint", "an exception", "Content Security Policy"} {
		if !strings.Contains(faults, want) {
			t.Errorf("%q is not among %s", want, faults)
		}
	}
	if again := p.Faults(); len(again) > 0 {
		t.Errorf("told twice: %q", again)
	}
	if unfair := p.Unfair(); len(unfair) != 1 || !strings.HasPrefix(unfair[0], "image-alt") {
		t.Errorf("unfair: %q, want the picture without words alone", unfair)
	}
}

func TestHands(t *testing.T) {
	p, page := Start(t).Device(t), newPage(t)
	p.Size(800, 600)
	p.Open(page)
	p.Fill("#word", "first")
	p.Fill("#word", "second")
	p.Keys(kb.Backspace, "d")
	if got := Eval[string](p, `document.querySelector("#word").value`); got != "second" {
		t.Errorf("the field holds %q", got)
	}
	p.Click("#go")
	p.Until(`document.title.startsWith("clicked")`)
	p.Drag(Point{300, 300}, Point{400, 300})
	if got := Eval[string](p, `window.from + " " + window.to + " " + innerWidth`); got != "300 400 800" {
		t.Errorf("dragged %s", got)
	}
	p.Slow(2)
	p.Slow(1)
}

func TestDevicesHaveTheirOwnCookies(t *testing.T) {
	b, page := Start(t), newPage(t)
	one := b.Device(t)
	one.Open(page)
	Eval[string](one, `document.cookie = "place=1"`)
	same, other := one.Another(), b.Device(t)
	for p, want := range map[*Tab]string{same: "place=1", other: ""} {
		p.Open(page)
		if got := Eval[string](p, "document.cookie"); got != want {
			t.Errorf("cookie %q, want %q", got, want)
		}
	}
}

func TestTheNetworkIsCut(t *testing.T) {
	p, page := Start(t).Device(t), newPage(t)
	p.Open(page)
	fetched := fmt.Sprintf(`fetch(%q).then(() => "there", () => "gone")`, page+"/script")
	for _, step := range []struct {
		cut  bool
		want string
	}{{true, "gone"}, {false, "there"}} {
		p.Cut(step.cut)
		if got := Eval[string](p, fetched); got != step.want {
			t.Errorf("cut %v: %s", step.cut, got)
		}
	}
	if !Eval[bool](p, "window.cut === true") {
		t.Error("the page was not told")
	}
}
