package pegs

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/say"
)

func TestLayoutKeepsPegsApartAndInside(t *testing.T) {
	for _, text := range []string{"square:5x5", "square:12x12", "square:2x2", "staggered:5x5", "triangle:6", "ring:3", "ring:12+centre", "ring:36"} {
		b := board.MustParse(text)
		l := LayoutOf(b)
		if len(l.Pegs) != b.Pegs() {
			t.Errorf("%s: %d pegs, want %d", text, len(l.Pegs), b.Pegs())
		}
		for i, p := range l.Pegs {
			if p.X < 0.4 || p.Y < 0.4 || p.X > l.Width-0.4 || p.Y > l.Height-0.4 {
				t.Errorf("%s: %s lies at %v, %v of %v by %v", text, p.Name, p.X, p.Y, l.Width, l.Height)
			}
			for _, q := range l.Pegs[:i] {
				if d := (p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y); d < 0.99 {
					t.Errorf("%s: %s and %s are closer than one unit", text, p.Name, q.Name)
				}
			}
		}
	}
}

func TestSmallBoardFitsATelephone(t *testing.T) {
	if gap := (390 - 16) / LayoutOf(board.MustParse("square:5x5")).Width; gap < 44 {
		t.Errorf("pegs are %.0f px apart on 390 px, want 44", gap)
	}
}

var blank = regexp.MustCompile(`\{\w+\}`)

func TestTextsAreThereInEveryLanguage(t *testing.T) {
	english := Texts(say.In("en"))
	for _, language := range say.Languages() {
		s := say.In(language)
		for id, text := range Texts(s) {
			if text == "" || strings.HasPrefix(text, "[") {
				t.Errorf("%s: %s is missing", language, id)
			}
			for _, b := range blank.FindAllString(english[id], -1) {
				if !strings.Contains(text, b) {
					t.Errorf("%s: %s lacks %s", language, id, b)
				}
			}
		}
		for _, html := range []string{string(Bench(s)), string(Tools(s)), string(Help(s))} {
			if html == "" || strings.Contains(html, "[pegboard") {
				t.Errorf("%s: %s", language, html)
			}
		}
	}
}

// TestScriptUsesTheTexts holds the texts against the scripts: none missing,
// none left over.
func TestScriptUsesTheTexts(t *testing.T) {
	var all strings.Builder
	for _, name := range []string{"words.ts", "view.ts", "board.ts"} {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(text)
	}
	for id := range texts {
		stem, _, _ := strings.Cut(id, "_")
		if !strings.Contains(all.String(), `"`+id+`"`) && !strings.Contains(all.String(), `"`+stem+`_"`) {
			t.Errorf("no script uses %s", id)
		}
	}
	for _, m := range regexp.MustCompile(`fill\(texts, "(\w+)"`).FindAllStringSubmatch(all.String(), -1) {
		if _, ok := texts[m[1]]; !ok && !strings.HasSuffix(m[1], "_") {
			t.Errorf("a script uses %s, which is no text", m[1])
		}
	}
}
