package page

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/jba/templatecheck"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
)

func TestTemplatesFitTheirStructs(t *testing.T) {
	if err := templatecheck.CheckHTML(sorryPage.Template().Lookup("frame"), sorry{}); err != nil {
		t.Error(err)
	}
	for name, data := range map[string]any{"timeline": Timer{}, "timewords": Timer{}, "code": Code{}, "bar": Frame{}} {
		if err := templatecheck.CheckHTML(sorryPage.Template().Lookup(name), data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestAPageIsSentWholeOrNotAtAll: a template that fails half-way sends nothing.
func TestAPageIsSentWholeOrNotAtAll(t *testing.T) {
	broken := Parse(fstest.MapFS{"broken.html": {Data: []byte(`{{define "main"}}half{{.Missing.Deep}}{{end}}`)}}, "broken.html")
	type data struct {
		Frame
		Missing *struct{ Deep string }
	}
	w := httptest.NewRecorder()
	if err := broken.Write(w, http.StatusOK, data{Frame: Frame{Speaker: say.In("en")}}); err == nil {
		t.Error("a broken page was drawn")
	}
	if w.Body.Len() > 0 {
		t.Errorf("half a page was sent: %s", w.Body)
	}
}

func TestSpeakerFollowsTheCookie(t *testing.T) {
	for cookie, want := range map[string]string{"": "en", "es": "es", "en": "en", "xx": "en"} {
		r := httptest.NewRequest("GET", "/", nil)
		if cookie != "" {
			r.AddCookie(&http.Cookie{Name: LanguageCookie, Value: cookie})
		}
		if got := Speaker(r).Language(); got != want {
			t.Errorf("Speaker(%q) = %s, want %s", cookie, got, want)
		}
	}
}

func TestSorryLeadsBack(t *testing.T) {
	for address, back := range map[string]string{"/": `href="/"`, "/seat": `href="/"`, "/desk/run/x": `href="/desk"`} {
		w := httptest.NewRecorder()
		if err := Sorry(w, httptest.NewRequest("GET", address, nil), http.StatusNotFound, "sorry.not_found"); err != nil {
			t.Fatal(err)
		}
		body := w.Body.String()
		if w.Code != http.StatusNotFound || !strings.Contains(body, back) || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %d %q\n%s", address, w.Code, w.Header(), body)
		}
	}
}

func TestTimerSaysMinutesBegun(t *testing.T) {
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	s := say.In("en")
	if NewTimer(s, class.Task{Started: noon}, noon) != nil {
		t.Error("a task without a limit has a timer")
	}
	for after, want := range map[time.Duration]Timer{
		0:                 {Left: 300, Share: 1000, Words: "5 minutes left"},
		time.Second:       {Left: 299, Share: 996, Words: "5 minutes left"},
		61 * time.Second:  {Left: 239, Share: 796, Words: "4 minutes left"},
		250 * time.Second: {Left: 50, Share: 166, Words: "the last minute"},
		300 * time.Second: {Share: 0, Over: true, Words: "the last minute"},
	} {
		got := NewTimer(s, class.Task{Started: noon, Minutes: 5}, noon.Add(after))
		if got == nil || got.Left != want.Left || got.Share != want.Share || got.Over != want.Over || got.Words != want.Words {
			t.Errorf("after %v: %+v, want %+v", after, got, want)
		}
	}
}

// TestFiguresNameThemselves: a picture has a title and a description, and every
// id in it begins with its own.
func TestFiguresNameThemselves(t *testing.T) {
	f := board.MustParseFigure(board.MustParse("square:5x5"), "A1 D1 D3")
	for _, detail := range []Detail{Small, Lettered, Full} {
		picture := string(Figure(say.In("en"), "mine", shape.Read(f, shape.Definitions{}), detail))
		if !strings.Contains(picture, "<title") || !strings.Contains(picture, "<desc") || strings.Contains(picture, "style=") {
			t.Errorf("detail %d: %s", detail, picture)
		}
		for _, id := range strings.Split(picture, ` id="`)[1:] {
			if !strings.HasPrefix(id, "mine") {
				t.Errorf("detail %d: an id begins %.12q", detail, id)
			}
		}
	}
}

func TestCodeHasItsRim(t *testing.T) {
	c := NewCode("http://192.0.2.7:8080/?word=amber-otter")
	if c == nil || len(c.Bars) == 0 {
		t.Fatal("no code")
	}
	for _, b := range c.Bars {
		if b.X < quiet || b.Y < quiet || b.X+b.Width > c.Size-quiet || b.Y >= c.Size-quiet {
			t.Errorf("a bar lies in the rim: %+v", b)
		}
	}
	if NewCode(strings.Repeat("long", 2000)) != nil {
		t.Error("a code of 8000 letters")
	}
}
