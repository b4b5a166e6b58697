package lesson_test

import (
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/lesson"
	"pegwright/shape"
	"pegwright/task"
)

// completions finds by trying every list of pegs whether a path can be finished
// with at most so many more.
func completions(t task.Task, path []board.Peg, more int) bool {
	if _, ok := shape.NewPolygon(t.Board, path); ok {
		f := board.Figure{Board: t.Board, Bands: [][]board.Peg{path}}
		if r := shape.Read(f, t.Definitions); len(r.Polygon.Corners()) == len(path) && t.Conditions.HoldFor(r) {
			return true
		}
	}
	if more == 0 {
		return false
	}
	for p := range board.Peg(t.Board.Pegs()) {
		used := false
		for _, q := range path {
			used = used || p == q
		}
		if !used && completions(t, append(path[:len(path):len(path)], p), more-1) {
			return true
		}
	}
	return false
}

// TestCompleteAgreesWithTryingEverything on small boards.
func TestCompleteAgreesWithTryingEverything(t *testing.T) {
	b := board.MustParse("square:3x3")
	tasks := []task.Conditions{
		task.MustParse("sides=4", "convex=no"), task.MustParse("kind=square"), task.MustParse("sides=5"), task.MustParse("fold-lines>=1"),
		task.MustParse("right-angles>=2"), task.MustParse("kind=right-triangle"), task.MustParse("area=3"),
	}
	rapid.Check(t, func(t *rapid.T) {
		asked := task.Task{Board: b, Conditions: rapid.SampledFrom(tasks).Draw(t, "task")}
		var path []board.Peg
		for _, p := range rapid.SliceOfNDistinct(rapid.IntRange(0, 8), 2, 3, rapid.ID[int]).Draw(t, "path") {
			path = append(path, board.Peg(p))
		}
		done, ok := lesson.Complete(asked, board.Figure{Board: b, Bands: [][]board.Peg{path}})
		if want := completions(asked, path, 4); ok != want {
			t.Fatalf("%v from %v: %v, want %v", asked.Conditions.Texts(), b.Names(path), ok, want)
		}
		if ok && asked.Judge(done).Standing != task.Fits {
			t.Fatalf("%s does not fit %v", done, asked.Conditions.Texts())
		}
	})
}

// TestCompletePieces: lines are finished by a further piece, or need none.
func TestCompletePieces(t *testing.T) {
	b := board.MustParse("square:3x3")
	cases := []struct {
		begun      string
		conditions []string
		want       bool
	}{
		{"A1 B1", []string{"segments=1"}, true},
		{"A1 B1", []string{"segments=2", "parallel-pairs=1"}, true},
		{"A1 C3", []string{"segments=2", "perpendicular-pairs=1", "crossing-pairs=1"}, true},
		{"A1 B1", []string{"segments=2", "crossing-pairs=1"}, false},
		{"A1 B1 / A2 B2", []string{"segments=1"}, false},
		{"A1 C1", []string{"segments=3", "parallel-pairs=3"}, true},
	}
	for _, c := range cases {
		asked := task.Task{Board: b, Conditions: task.MustParse(c.conditions...)}
		done, ok := lesson.Complete(asked, board.MustParseFigure(b, c.begun))
		if ok != c.want || ok && !asked.Conditions.HoldFor(shape.Read(done, shape.Definitions{})) {
			t.Errorf("%s to %v: %s, %v", c.begun, c.conditions, done, ok)
		}
	}
}
