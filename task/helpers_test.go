package task_test

import (
	"strings"
	"sync"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// definitions are the two extremes and each choice alone.
var definitions = []shape.Definitions{
	{},
	{TrapezoidExactlyOne: true},
	{IsoscelesExactlyTwo: true},
	{KiteNotRhombus: true},
	{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true},
}

// polygons lists the simple polygons of a board with up to so many corners, by
// growing paths and asking shape.NewPolygon of each.
func polygons(b *board.Board, most int) []*shape.Polygon {
	var out []*shape.Polygon
	var path []board.Peg
	var grow func()
	grow = func() {
		if len(path) >= 3 && path[1] < path[len(path)-1] {
			if p, ok := shape.NewPolygon(b, path); ok {
				out = append(out, p)
			}
		}
		for next := path[0] + 1; int(next) < b.Pegs() && len(path) < most; next++ {
			if fits(b, path, next) {
				path = append(path, next)
				grow()
				path = path[:len(path)-1]
			}
		}
	}
	for first := range board.Peg(b.Pegs()) {
		path = []board.Peg{first}
		grow()
	}
	return out
}

// fits reports whether a path can go on to a peg without meeting itself.
func fits(b *board.Board, path []board.Peg, next board.Peg) bool {
	n := len(path)
	s := board.Segment{From: path[n-1], To: next}
	for i, p := range path {
		if p == next {
			return false
		}
		if i+1 < n {
			want := board.Apart
			if i+2 == n {
				want = board.SharedEnd
			}
			if b.Meeting(board.Segment{From: p, To: path[i+1]}, s) != want {
				return false
			}
		}
	}
	return true
}

var threeByThree = sync.OnceValue(func() []*shape.Polygon { return polygons(board.MustParse("square:3x3"), 9) })

// some are all of a list, or one in eight of it where time is short.
func some(all []*shape.Polygon) []*shape.Polygon {
	if !testing.Short() && !raceEnabled {
		return all
	}
	var out []*shape.Polygon
	for i := 0; i < len(all); i += 8 {
		out = append(out, all[i])
	}
	return out
}

func figureOf(p *shape.Polygon) board.Figure {
	return board.Figure{Board: p.Board(), Bands: [][]board.Peg{p.Corners()}}
}

func asked(on string, conditions ...string) task.Task {
	return task.Task{Board: board.MustParse(on), Conditions: task.MustParse(conditions...)}
}

func splitConditions(text string) []string { return strings.Split(text, ",") }

func judged(t testing.TB, on, figure string, conditions ...string) task.Verdict {
	t.Helper()
	job := asked(on, conditions...)
	return job.Judge(board.MustParseFigure(job.Board, figure))
}

// All 528 figures of 3×3 are there: everything proved over them is proved.
func TestThereAreFiveHundredAndTwentyEight(t *testing.T) {
	if n := len(threeByThree()); n != 528 {
		t.Errorf("polygons of 3×3 = %d, want 528", n)
	}
}
