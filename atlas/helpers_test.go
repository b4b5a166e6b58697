package atlas

import (
	"context"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// exclusive are the definitions that leave the special kinds out.
var exclusive = shape.Definitions{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true}

func ask(t testing.TB, on string, conditions ...string) Answer {
	t.Helper()
	return askAs(t, Question{Board: board.MustParse(on), Conditions: task.MustParse(conditions...)})
}

func askAs(t testing.TB, q Question) Answer {
	t.Helper()
	a, err := Find(context.Background(), q)
	if err != nil {
		t.Fatalf("Find(%s, %v): %v", q.Board, q.Conditions.Texts(), err)
	}
	return a
}

// searchOnly looks at everything, whatever the theorems say.
func searchOnly(t testing.TB, on string, conditions ...string) *search {
	t.Helper()
	q := Question{Board: board.MustParse(on), Conditions: task.MustParse(conditions...), Limit: DefaultLimit, Progress: func(float64, int64) {}}
	s := newSearch(context.Background(), q, newNeed(q.Board, q.Conditions, q.Definitions))
	s.run()
	return s
}

// everyPolygon lists the polygons of a board as the walk meets them.
func everyPolygon(b *board.Board, most int) []*shape.Polygon {
	var out []*shape.Polygon
	w := newWalk(newTable(b), 3, most)
	w.visit = func(corners []board.Peg) bool {
		p := shape.EmptyPolygon(b)
		p.Reset(corners)
		out = append(out, p)
		return true
	}
	walkAll(w, b)
	return out
}

func walkAll(w walker, b *board.Board) {
	for p := range board.Peg(b.Pegs()) {
		for q := p + 1; int(q) < b.Pegs(); q++ {
			w.from(p, q)
		}
	}
}

// slow skips a test that takes long, in short runs and with the race detector.
func slow(t *testing.T) {
	t.Helper()
	if testing.Short() || raceEnabled {
		t.Skip("takes long")
	}
}
