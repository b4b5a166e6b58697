package seat

import (
	"bytes"
	"compress/gzip"
	"strings"
	"testing"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/asset"
	"pegwright/web/pegs"
)

// budget is what the whole board page may weigh on the wire, fonts and all.
const budget = 80_000

func TestBoardPageIsSmall(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", func(t *class.Task) { t.Board, t.Model = "square:12x12", "A1 D1 D3" })
	_, body := r.sitting(0).get("/seat")
	var z bytes.Buffer
	w := gzip.NewWriter(&z)
	_, err := w.Write([]byte(body))
	must(t, err)
	must(t, w.Close())
	total := z.Len()
	t.Logf("page: %d of %d", z.Len(), len(body))
	for _, name := range []string{"type.css", "regular.ttf", "bold.ttf", "pegs.css", "seat.css", "seat.js"} {
		t.Logf("%s: %d", name, asset.Size(name))
		total += asset.Size(name)
	}
	t.Logf("all: %d", total)
	if total >= budget {
		t.Errorf("%d bytes, want less than %d", total, budget)
	}
	if plain := len(body); plain-z.Len()+total >= budget {
		t.Errorf("%d bytes when the page itself is sent plain, want less than %d", plain-z.Len()+total, budget)
	}
}

func TestTemplatesWriteEveryText(t *testing.T) {
	for _, language := range say.Languages() {
		s := say.In(language)
		out := textsOf(s)
		for id, text := range out {
			if text == "" || strings.HasPrefix(text, "[") {
				t.Errorf("%s: %s is missing", language, id)
			}
		}
		for id := range pegs.Texts(s) {
			if _, ours := scriptTexts[id]; ours {
				t.Errorf("%s is a text of the board and of the page", id)
			}
		}
		r := newRoom(t, language)
		d := r.device()
		_, join := d.get("/")
		d.post("/join", map[string][]string{"word": {"amber-otter"}})
		_, tiles := d.get("/room/" + r.run.ID)
		d = r.sitting(0)
		_, wait := d.get("/seat")
		r.set("task-triangle-0001", func(t *class.Task) { t.MaxBands, t.Model = 1, "A1 D1 D3" })
		_, board := d.get("/seat")
		for name, html := range map[string]string{"join": join, "tiles": tiles, "wait": wait, "board": board} {
			for _, hole := range []string{"[seat.", "[pegboard.", "<no value>"} {
				if strings.Contains(html, hole) {
					t.Errorf("%s in %s: %s", hole, name, html)
				}
			}
		}
	}
}
