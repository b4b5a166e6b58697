package sorting_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"testing"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/lesson/sorting"
	"pegwright/shape"
	"pegwright/word"
)

var five = board.MustParse("square:5x5")

func build(t testing.TB, q sorting.Question) sorting.Set {
	t.Helper()
	s, err := sorting.Build(context.Background(), q)
	if err != nil {
		t.Fatalf("%s: %v", q.Word.ID, err)
	}
	return s
}

func roles(s sorting.Set) map[sorting.Role]int {
	out := map[sorting.Role]int{}
	for _, c := range s.Cards {
		out[c.Role]++
	}
	return out
}

// sortable are the words of polygons with up to six sides.
func sortable() []word.Word {
	var out []word.Word
	for _, w := range word.All() {
		sides, _ := shape.Named(w.Kind)
		if w.OfPolygons() && sides < 7 {
			out = append(out, w)
		}
	}
	return out
}

// TestEverySetIsTrue: whatever the word, members have all marks, near misses
// lack exactly the one that is named, overlaps have the other word, and nothing
// is there twice.
func TestEverySetIsTrue(t *testing.T) {
	for i, w := range sortable() {
		if raceDetector && i%4 > 0 {
			continue // the detector slows arithmetic down tenfold and finds nothing in it
		}
		on := five
		if w.ID == "equilateral-triangle" {
			on = board.MustParse("triangle:5")
		}
		s := build(t, sorting.Question{Word: w, Board: on, Seed: 7})
		if got := roles(s); got[sorting.Usual] < 1 || got[sorting.NearMiss] != 2 || got[sorting.Turned] < 1 {
			t.Errorf("%s: %v", w.ID, got)
		}
		for i, c := range s.Cards {
			checkCard(t, w, c)
			for _, d := range s.Cards[:i] {
				if shape.Congruent(c.Polygon, d.Polygon) && c.Polygon.UprightSides() == d.Polygon.UprightSides() {
					t.Errorf("%s: %s and %s are the same", w.ID, c.Figure(), d.Figure())
				}
			}
		}
	}
}

func checkCard(t *testing.T, w word.Word, c sorting.Card) {
	t.Helper()
	lacks := w.Lacks(c.Polygon, shape.Definitions{})
	switch {
	case c.Belongs() != (len(lacks) == 0):
		t.Errorf("%s: %s is a %s and lacks %v", w.ID, c.Figure(), c.Role, lacks.Texts())
	case c.Role == sorting.NearMiss && (len(lacks) != 1 || lacks[0].String() != c.Lacks.String()):
		t.Errorf("%s: the near miss %s lacks %v, said to lack %s", w.ID, c.Figure(), lacks.Texts(), c.Lacks)
	case c.Role == sorting.Overlap && (c.Also == "" || len(word.MustFind(c.Also).Lacks(c.Polygon, shape.Definitions{})) > 0):
		t.Errorf("%s: the overlap %s is no %s", w.ID, c.Figure(), c.Also)
	}
}

// TestFullSets: the words of the sort steps get two usual, two turned, two near
// misses and one overlap.
func TestFullSets(t *testing.T) {
	for _, id := range []string{"isosceles-triangle", "right-triangle", "trapezoid", "parallelogram", "rectangle", "rhombus", "quadrilateral", "pentagon", "hexagon"} {
		got := roles(build(t, sorting.Question{Word: word.MustFind(id), Board: five, Seed: 3}))
		want := map[sorting.Role]int{sorting.Usual: 2, sorting.Turned: 2, sorting.NearMiss: 2, sorting.Overlap: 1}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v, want %v", id, got, want)
		}
	}
}

func TestTurnedCardsAreTurned(t *testing.T) {
	s := build(t, sorting.Question{Word: word.MustFind("rectangle"), Board: five})
	for _, c := range s.Cards {
		if c.Role == sorting.Turned && c.Polygon.UprightSides() > 0 || c.Role == sorting.Usual && c.Polygon.UprightSides() == 0 {
			t.Errorf("%s is %s", c.Figure(), c.Role)
		}
	}
}

// TestTheClassComesFirst: boards of the class are used where they serve.
func TestTheClassComesFirst(t *testing.T) {
	var class []board.Figure
	for _, text := range []string{"A1 E1 E3 A3", "A2 B1 E4 D5", "A1 D1 E3 B3", "A1 E1 C4 A4", "A1 E5 / A5 E1", ""} {
		class = append(class, board.MustParseFigure(five, text))
	}
	s := build(t, sorting.Question{Word: word.MustFind("rectangle"), Board: five, Class: class})
	n := 0
	for _, c := range s.Cards {
		if c.FromClass {
			n++
			if !slices.ContainsFunc(class, func(f board.Figure) bool {
				p := shape.Read(f, shape.Definitions{}).Polygon
				return p != nil && slices.Equal(p.Corners(), c.Polygon.Corners())
			}) {
				t.Errorf("%s is not on a board of the class", c.Figure())
			}
		}
	}
	if n < 3 {
		t.Errorf("%d cards from the class", n)
	}
}

func TestOneQuestionOneSet(t *testing.T) {
	q := sorting.Question{Word: word.MustFind("kite"), Board: five, Seed: 11}
	first := build(t, q)
	if !reflect.DeepEqual(texts(first), texts(build(t, q))) {
		t.Error("two sets for one question")
	}
	q.Seed = 12
	if reflect.DeepEqual(texts(first), texts(build(t, q))) {
		t.Error("another seed, the same order")
	}
}

func texts(s sorting.Set) []string {
	var out []string
	for _, c := range s.Cards {
		out = append(out, c.Figure().String())
	}
	return out
}

func TestBuildRefuses(t *testing.T) {
	var bad *sorting.WordError
	for id, on := range map[string]string{"parallel": "square:5x5", "equilateral-triangle": "square:4x4"} {
		_, err := sorting.Build(context.Background(), sorting.Question{Word: word.MustFind(id), Board: board.MustParse(on)})
		if !errors.As(err, &bad) || bad.Word != id || bad.Error() == "" {
			t.Errorf("%s on %s: %v", id, on, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := sorting.Build(ctx, sorting.Question{Word: word.MustFind("hexagon"), Board: five}); !errors.Is(err, atlas.ErrStopped) {
		t.Errorf("stopped: %v", err)
	}
}

// TestDefinitionsDecide: with exactly one parallel pair, no parallelogram
// belongs to the trapezoids.
func TestDefinitionsDecide(t *testing.T) {
	s := build(t, sorting.Question{Word: word.MustFind("trapezoid"), Board: five, Definitions: shape.Definitions{TrapezoidExactlyOne: true}})
	for _, c := range s.Cards {
		if c.Belongs() && c.Polygon.ParallelPairs() != 1 {
			t.Errorf("%s belongs, with %d pairs", c.Figure(), c.Polygon.ParallelPairs())
		}
	}
}

func TestMatchWords(t *testing.T) {
	var words []word.Word
	for _, id := range []string{"quadrilateral", "parallelogram", "rectangle", "rhombus", "square", "kite"} {
		words = append(words, word.MustFind(id))
	}
	var figures []board.Figure
	for _, text := range []string{"A1 D1 D4 A4", "C1 E3 C5 A3", "A1 E1 E3 A3", "A2 C1 E2 C3", "A1 D1 E3 B3", "C1 E4 C5 A4", "A1 E1 C5", "A1 C1 C3 A3", "A1 B1"} {
		figures = append(figures, board.MustParseFigure(five, text))
	}
	got := sorting.MatchWords(words, figures, shape.Definitions{}, 6, 5)
	if len(got) != 6 {
		t.Fatalf("%d figures", len(got))
	}
	for _, w := range words {
		yes, no := 0, 0
		for _, m := range got {
			if slices.Contains(m.True, w.ID) {
				yes++
			} else {
				no++
			}
		}
		if yes == 0 || no == 0 {
			t.Errorf("%s is true of %d and untrue of %d", w.ID, yes, no)
		}
	}
	for _, m := range got {
		p := shape.Read(m.Figure, shape.Definitions{}).Polygon
		for _, w := range words {
			if (len(w.Lacks(p, shape.Definitions{})) == 0) != slices.Contains(m.True, w.ID) {
				t.Errorf("%s: %s is %v", m.Figure, w.ID, m.True)
			}
		}
	}
	if !reflect.DeepEqual(got, sorting.MatchWords(words, figures, shape.Definitions{}, 6, 5)) {
		t.Error("two choices for one seed")
	}
	if none := sorting.MatchWords(words, nil, shape.Definitions{}, 6, 5); len(none) != 0 {
		t.Errorf("of nothing: %v", none)
	}
}
