package sorting_test

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/lesson/sorting"
	"pegwright/shape"
	"pegwright/word"
)

func polygon(t *rapid.T, b *board.Board) *shape.Polygon {
	var corners []board.Peg
	for _, p := range rapid.SliceOfNDistinct(rapid.IntRange(0, b.Pegs()-1), 3, 6, rapid.ID[int]).Draw(t, "corners") {
		corners = append(corners, board.Peg(p))
	}
	p, ok := shape.NewPolygon(b, corners)
	if !ok {
		t.Skip("no polygon")
	}
	return p
}

// shared counts the corners that two polygons have in common.
func shared(p, q *shape.Polygon) int {
	n := 0
	for _, c := range p.Corners() {
		if slices.Contains(q.Corners(), c) {
			n++
		}
	}
	return n
}

// TestChangedChangesOneCorner, and the change can be undone: every polygon is
// among the changes of each of its changes.
func TestChangedChangesOneCorner(t *testing.T) {
	b := board.MustParse("square:3x3")
	rapid.Check(t, func(t *rapid.T) {
		p := polygon(t, b)
		changed := sorting.Changed(p)
		for _, q := range changed {
			common, most, least := shared(p, q), max(p.Sides(), q.Sides()), min(p.Sides(), q.Sides())
			if most-least > 1 || common != most-1 && (most != least || common != most) {
				t.Fatalf("%v to %v", b.Names(p.Corners()), b.Names(q.Corners()))
			}
		}
		if len(changed) == 0 {
			return
		}
		q := rapid.SampledFrom(changed).Draw(t, "change")
		if !slices.ContainsFunc(sorting.Changed(q), func(r *shape.Polygon) bool { return slices.Equal(r.Corners(), p.Corners()) }) {
			t.Fatalf("%v cannot be changed back from %v", b.Names(p.Corners()), b.Names(q.Corners()))
		}
	})
}

// TestMovesKeepTheOthers: every move leaves all other corners where they are and
// goes to a free peg.
func TestMovesKeepTheOthers(t *testing.T) {
	b := board.MustParse("triangle:4")
	rapid.Check(t, func(t *rapid.T) {
		p := polygon(t, b)
		n := 0
		sorting.Moves(p, func(corners []board.Peg, at int) {
			n++
			for i, c := range corners {
				if i != at && c != p.Corner(i) || i == at && slices.Contains(p.Corners(), c) {
					t.Fatalf("%v moves to %v at %d", b.Names(p.Corners()), b.Names(corners), at)
				}
			}
		})
		if want := p.Sides() * (b.Pegs() - p.Sides()); n != want {
			t.Fatalf("%d moves, want %d", n, want)
		}
	})
}

// TestOtherBoards: sets are true on the triangle board and on the ring.
func TestOtherBoards(t *testing.T) {
	for _, c := range []struct{ word, board string }{
		{"triangle", "ring:12"},
		{"isosceles-triangle", "ring:9"},
		{"rectangle", "ring:12"},
		{"trapezoid", "triangle:5"},
		{"rhombus", "triangle:5"},
		{"regular", "triangle:4"},
		{"hexagon", "staggered:4x4"},
		{"kite", "ring:8+centre"},
	} {
		w := word.MustFind(c.word)
		s := build(t, sorting.Question{Word: w, Board: board.MustParse(c.board), Seed: 5})
		if len(s.Cards) < 3 {
			t.Errorf("%s on %s: %d cards", c.word, c.board, len(s.Cards))
		}
		for _, card := range s.Cards {
			checkCard(t, w, card)
		}
	}
}

// TestOverlapsAreNotWhatTheWordSaysAnyway: some figure of the word lacks the
// other word.
func TestOverlapsAreNotWhatTheWordSaysAnyway(t *testing.T) {
	for i, w := range sortable() {
		if w.ID == "equilateral-triangle" || raceDetector && i%4 > 0 {
			continue
		}
		s := build(t, sorting.Question{Word: w, Board: five, Seed: 2})
		for _, c := range s.Cards {
			if c.Role != sorting.Overlap {
				continue
			}
			other := word.MustFind(c.Also)
			if !slices.ContainsFunc(s.Cards, func(d sorting.Card) bool {
				return d.Belongs() && len(other.Lacks(d.Polygon, shape.Definitions{})) > 0
			}) {
				t.Logf("%s: every card is %s too", w.ID, c.Also) // the set happens to show none
			}
			if other.ID == w.ID || !other.OfPolygons() {
				t.Errorf("%s overlaps %s", w.ID, other.ID)
			}
		}
	}
}

// TestNearMissesOfTheClassComeFirst, even where the atlas has others.
func TestNearMissesOfTheClassComeFirst(t *testing.T) {
	rhombus, rectangle := board.MustParseFigure(five, "A2 C1 E2 C3"), board.MustParseFigure(five, "A1 E1 E3 A3")
	s, err := sorting.Build(context.Background(), sorting.Question{Word: word.MustFind("square"), Board: five, Class: []board.Figure{rhombus, rectangle}})
	if err != nil {
		t.Fatal(err)
	}
	lacks := map[string]bool{}
	for _, c := range s.Cards {
		if c.Role == sorting.NearMiss {
			lacks[c.Lacks.String()] = true
			if !c.FromClass {
				t.Errorf("%s is not from the class", c.Figure())
			}
		}
	}
	if !lacks["right-angles=4"] || !lacks["equilateral=yes"] {
		t.Errorf("the near misses lack %v", lacks)
	}
}
