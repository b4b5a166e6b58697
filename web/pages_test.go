package web_test

import (
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// void are the elements without an end.
var void = []string{"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}

// faults reads a page and says what is wrong with it: tags that do not close
// in order, ids used twice, fields without a label, words that are missing.
func faults(page string) []string {
	f := &finder{ids: map[string]int{}, labels: map[string]bool{}}
	z := html.NewTokenizer(strings.NewReader(page))
	for {
		kind := z.Next()
		if kind == html.ErrorToken {
			break
		}
		f.token(kind, z.Token())
	}
	return f.report()
}

type finder struct {
	open   []string
	ids    map[string]int
	labels map[string]bool
	fields []html.Token
	out    []string
}

func (f *finder) token(kind html.TokenType, t html.Token) {
	switch kind {
	case html.StartTagToken:
		f.attributes(t)
		if !slices.Contains(void, t.Data) {
			f.open = append(f.open, t.Data)
		}
	case html.SelfClosingTagToken:
		f.attributes(t)
	case html.EndTagToken:
		if len(f.open) == 0 || f.open[len(f.open)-1] != t.Data {
			f.out = append(f.out, "</"+t.Data+"> closes nothing; open are "+strings.Join(f.open, " "))
			return
		}
		f.open = f.open[:len(f.open)-1]
	}
}

func attr(t html.Token, name string) string {
	for _, a := range t.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func (f *finder) attributes(t html.Token) {
	if id := attr(t, "id"); id != "" {
		f.ids[id]++
	}
	if t.Data == "label" {
		f.labels[attr(t, "for")] = true
	}
	if slices.Contains([]string{"input", "select", "textarea"}, t.Data) && attr(t, "type") != "hidden" {
		f.fields = append(f.fields, t)
	}
	for _, a := range t.Attr {
		if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
			f.out = append(f.out, "the policy forbids "+a.Key+" in "+t.String())
		}
		if strings.Contains(a.Val, "ZgotmplZ") {
			f.out = append(f.out, "a value was not safe in "+t.String())
		}
	}
}

func (f *finder) report() []string {
	for id, n := range f.ids {
		if n > 1 {
			f.out = append(f.out, "twice the id "+id)
		}
	}
	for _, t := range f.fields {
		if !f.labels[attr(t, "id")] && attr(t, "aria-label") == "" {
			f.out = append(f.out, "no label for "+t.String())
		}
	}
	if len(f.open) > 0 {
		f.out = append(f.out, "left open: "+strings.Join(f.open, " "))
	}
	return f.out
}

func TestFaultsAreFound(t *testing.T) {
	for page, want := range map[string]int{
		`<p>good</p>`:                            0,
		`<p><b>crossed</p></b>`:                  2,
		`<i id="a"></i><i id="a"></i>`:           1,
		`<input name="n">`:                       1,
		`<label for="n">N</label><input id="n">`: 0,
		`<p style="color:red"></p>`:              1,
	} {
		if got := faults(page); len(got) != want {
			t.Errorf("faults(%s) = %q, want %d", page, got, want)
		}
	}
}

// TestPagesAreWellFormed reads every page of the desk and the front, in both
// languages.
func TestPagesAreWellFormed(t *testing.T) {
	h := newHouse(t)
	sc := h.scene("kite", 4)
	shown := h.show(sc, "showing-of-kite-1", 0, "A1 C1 C3")
	h.show(sc, "showing-of-kite-2", 1, "A1 C3")
	h.show(sc, "showing-of-kite-3", 0, "A1 C1 C3 A3")
	h.live.Move(sc.Run.ID, sc.Pupils[2].ID, "A1 B1")
	b := h.teacher()
	front := "/front/" + sc.Run.ID
	check := func(path string, a answer) {
		t.Helper()
		for _, fault := range faults(a.body) {
			t.Errorf("%s: %s", path, fault)
		}
		for _, open := range unspoken.FindAllString(a.body, -1) {
			t.Errorf("%s: no message for %s", path, open)
		}
		if strings.Contains(a.body, "<main") && strings.Count(a.body, "<h1") != 1 {
			t.Errorf("%s: %d headings of the page", path, strings.Count(a.body, "<h1"))
		}
	}
	for _, language := range []string{"en", "es"} {
		b.carry("pegwright_language", language)
		for _, r := range routesOf(sc, shown.ID) {
			if r.method == "GET" {
				check(language+" "+r.path, b.get(r.path))
			}
		}
		for _, path := range []string{"/desk/nothing", "/desk/class/nothing", "/desk/run/" + sc.Run.ID + "/pupil/" + sc.Pupils[1].ID} {
			check(language+" "+path, b.get(path))
		}
		check("builder with a fault", b.post("/desk/run/"+sc.Run.ID+"/task", "words", "", "board", "square:5x5"))
		check("class with a fault", b.post("/desk/class", "name", "Owls", "nicknames", ""))
		for _, kind := range []string{"join", "task", "blank"} {
			b.post("/desk/run/"+sc.Run.ID+"/front", "kind", kind)
			check(kind, b.get(front))
		}
		b.post("/desk/run/"+sc.Run.ID+"/front", "add", shown.ID)
		check("boards", b.get(front))
	}
	fresh := newHouse(t)
	check("setup", fresh.browser().get("/desk/setup"))
	fresh.browser().post("/desk/setup", "passphrase", words)
	for _, kind := range []string{"login", "recover"} {
		check(kind, fresh.browser().get("/desk/"+kind))
	}
	check("wrong key", fresh.browser().post("/desk/login", "passphrase", "wrong wrong wrong"))
}
