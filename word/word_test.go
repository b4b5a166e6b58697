package word_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// narrow are the definitions that leave special kinds out.
var narrow = shape.Definitions{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true}

func texts(marks []word.Mark) []string {
	var out []string
	for _, m := range marks {
		out = append(out, m.String())
	}
	return out
}

func TestThereAreWordsFromPointToDodecagon(t *testing.T) {
	ids := word.IDs()
	if len(ids) < 45 || ids[0] != "point" || !slices.Contains(ids, "dodecagon") {
		t.Errorf("%d words from %s", len(ids), ids[0])
	}
	for i, id := range ids {
		if slices.Contains(ids[:i], id) {
			t.Errorf("the word %s stands twice", id)
		}
	}
}

// TestEveryPictureHasItsWord, whichever definitions the class takes.
func TestEveryPictureHasItsWord(t *testing.T) {
	for _, w := range word.All() {
		if len(w.Show) < 2 {
			t.Errorf("%s has %d pictures; it needs the usual one and a turned one", w.ID, len(w.Show))
		}
		for i, p := range w.Show {
			for _, d := range []shape.Definitions{{}, narrow} {
				if lacks := w.Fails(p, d); len(lacks) > 0 {
					t.Errorf("%s, picture %d (%s) lacks %v", w.ID, i+1, p.Figure, texts(lacks))
				}
			}
		}
	}
}

// TestEveryNearMissFailsOneMark: a near miss lacks exactly the mark that the
// data names, and nothing else.
func TestEveryNearMissFailsOneMark(t *testing.T) {
	for _, w := range word.All() {
		if len(w.Not) != 2 {
			t.Errorf("%s has %d non-examples, want 2", w.ID, len(w.Not))
		}
		for i, n := range w.Not {
			lacks := texts(w.Fails(n.Picture, shape.Definitions{}))
			if !slices.Equal(lacks, []string{n.Fails.String()}) {
				t.Errorf("%s, non-example %d (%s) lacks %v, want only %s", w.ID, i+1, n.Picture.Figure, lacks, n.Fails)
			}
		}
	}
}

// TestPicturesDiffer: the turned pictures of a polygon are turned in earnest, so
// one of them has no more upright sides than it must, or turns in.
func TestPicturesDiffer(t *testing.T) {
	for _, w := range word.All() {
		for i, p := range w.Show {
			for _, q := range w.Show[:i] {
				if p.Figure.String() == q.Figure.String() && slices.Equal(p.Pegs, q.Pegs) && p.Line == q.Line {
					t.Errorf("%s shows %s twice", w.ID, p.Figure)
				}
			}
		}
	}
}

// TestMarksAgreeWithTheKernel: over every polygon of two boards, the marks of a
// word hold for exactly those polygons that the kernel gives its name to. Three
// counts prove it: marks, name, and both together are the same number.
func TestMarksAgreeWithTheKernel(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("goes through every polygon of two boards for each word")
	}
	for _, on := range []string{"square:4x4", "triangle:4"} {
		for _, w := range word.All() {
			if w.Kind == "" || !w.OfPolygons() {
				continue
			}
			kind := task.Condition{Property: task.Kind, Comparison: task.Equal, Kind: w.Kind}
			for _, d := range []shape.Definitions{{}, narrow} {
				marks, name, both := count(t, on, d, w.Conditions()), count(t, on, d, task.Conditions{kind}), count(t, on, d, append(w.Conditions(), kind))
				if marks != name || both != name {
					t.Errorf("%s on %s: %d polygons have the marks, %d the name, %d both", w.ID, on, marks, name, both)
				}
			}
		}
	}
}

func count(t *testing.T, on string, d shape.Definitions, cs task.Conditions) int64 {
	t.Helper()
	a, err := atlas.Find(context.Background(), atlas.Question{Board: board.MustParse(on), Conditions: cs, Definitions: d})
	if err != nil || !a.Complete {
		t.Fatalf("Find(%s, %v): complete %v, %v", on, cs.Texts(), a.Complete, err)
	}
	return a.Count
}

// TestPolygonIsThePolygonOfTheKernel: the marks of "polygon" say the same as the
// status of the outline.
func TestPolygonIsThePolygonOfTheKernel(t *testing.T) {
	w := word.MustFind("polygon")
	b := board.MustParse("square:3x3")
	for _, text := range []string{
		"", "A1 B1", "A1 C1 C3", "A1 C3 C1 A3", "A1 B1 / B1 B2", "A1 B1 A2 / C3 B3 C2", "A1 C1 B2 C3 A3 / A2 B2",
		"A1 C1 / C1 C3 / C3 A1", "A1 B1 / A1 A2 / A1 B2", "A1 C1 B3 / B1 B3", "A2 C2 / B1 B3",
	} {
		p := word.Picture{Figure: board.MustParseFigure(b, text)}
		want := shape.Trace(p.Figure).Status == shape.ClosedPolygon
		if got := w.Holds(p, shape.Definitions{}); got != want {
			t.Errorf("%q: polygon = %v, want %v (%s)", text, got, want, shape.Trace(p.Figure).Status)
		}
	}
}

func TestOfPolygonsHasConditions(t *testing.T) {
	cases := map[string]bool{"rhombus": true, "regular": true, "parallel": false, "diagonal": false, "point": false, "polygon": false, "turn-symmetry": true}
	for id, want := range cases {
		if got := word.MustFind(id).OfPolygons(); got != want {
			t.Errorf("%s: OfPolygons() = %v, want %v", id, got, want)
		}
	}
	p, _ := shape.NewPolygon(board.MustParse("square:5x5"), word.MustFind("rhombus").Show[0].Figure.Bands[0])
	if lacks := word.MustFind("square").Lacks(p, shape.Definitions{}).Texts(); !slices.Equal(lacks, []string{"right-angles=4"}) {
		t.Errorf("a rhombus lacks %v for a square", lacks)
	}
}

// TestConfusedWordsMakePaths: a word has at most two others that it is confused
// with, and they run in no circle, so that a call order can put every pair side
// by side.
func TestConfusedWordsMakePaths(t *testing.T) {
	links, reached := 0, map[string]bool{}
	parts := 0
	for _, w := range word.All() {
		links += len(w.Confused)
		if len(w.Confused) > 2 {
			t.Errorf("%s is confused with %v", w.ID, w.Confused)
		}
		for _, other := range w.Confused {
			if !slices.Contains(word.MustFind(other).Confused, w.ID) {
				t.Errorf("%s is confused with %s, but not the other way", w.ID, other)
			}
		}
		if !reached[w.ID] {
			parts++
			spread(w.ID, reached)
		}
	}
	if n := len(word.IDs()); links/2 != n-parts {
		t.Errorf("%d pairs join %d words into %d parts: there is a circle", links/2, n, parts)
	}
}

func spread(id string, reached map[string]bool) {
	if reached[id] {
		return
	}
	reached[id] = true
	for _, other := range word.MustFind(id).Confused {
		spread(other, reached)
	}
}

func TestNearest(t *testing.T) {
	cases := map[string]string{"rombus": "rhombus", "Quadrilatral": "quadrilateral", "paralel": "parallel", "line of symmetry": "line-of-symmetry", strings.Repeat("x", 200): "", "": ""}
	for typed, want := range cases {
		if got, _ := word.Nearest(typed); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", typed, got, want)
		}
	}
	if _, ok := word.Find("rombus"); ok {
		t.Error("Find takes a misspelt id")
	}
	defer func() {
		if recover() == nil {
			t.Error("MustFind takes an unknown id")
		}
	}()
	word.MustFind("rombus")
}

func TestEverySourceIsNamed(t *testing.T) {
	for _, w := range word.All() {
		if len(w.Source) < 10 {
			t.Errorf("%s: the source of the definition is %q", w.ID, w.Source)
		}
	}
}

func TestStandards(t *testing.T) {
	if got := strings.Join(word.Frameworks(), " "); got != "CCSS-M England Texas Florida Ontario Australia" {
		t.Errorf("Frameworks() = %s", got)
	}
	seen := map[string]bool{}
	for _, s := range word.Standards() {
		id := s.Framework + " " + s.Code
		if seen[id] {
			t.Errorf("%s stands twice", id)
		}
		seen[id] = true
		if s.Text("en") == "" || s.Text("es") == "" || s.Text("en") == s.Text("es") || s.Grade == "" || s.Checked != "seen" && s.Checked != "memory" {
			t.Errorf("%s is not complete: %+v", id, s)
		}
		for _, w := range s.Words {
			if _, ok := word.Find(w); !ok {
				t.Errorf("%s names the word %s, which is not there", id, w)
			}
		}
	}
	// These are taught for the sake of the others; no curriculum names them.
	unnamed := []string{"closed", "convex", "concave", "dart"}
	for _, w := range word.All() {
		if (len(w.Standards()) == 0) != slices.Contains(unnamed, w.ID) {
			t.Errorf("%s is named by %d standards", w.ID, len(w.Standards()))
		}
	}
}
