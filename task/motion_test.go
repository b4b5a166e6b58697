package task_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// motions are the eight turns and flips of a 5×5 board, as maps of column and
// row counted from the middle.
var motions = []func(x, y int) (int, int){
	func(x, y int) (int, int) { return x, y },
	func(x, y int) (int, int) { return -y, x },
	func(x, y int) (int, int) { return -x, -y },
	func(x, y int) (int, int) { return y, -x },
	func(x, y int) (int, int) { return -x, y },
	func(x, y int) (int, int) { return x, -y },
	func(x, y int) (int, int) { return y, x },
	func(x, y int) (int, int) { return -y, -x },
}

func moved(corners []board.Peg, motion func(x, y int) (int, int)) []board.Peg {
	out := make([]board.Peg, len(corners))
	for i, p := range corners {
		x, y := motion(int(p)%5-2, int(p)/5-2)
		out[i] = board.Peg(x + 2 + 5*(y+2))
	}
	return out
}

// drawLoop draws a loop of three to eight pegs of a 5×5 board, crossing or not.
func drawLoop(t *rapid.T) []board.Peg {
	return rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) board.Peg {
		return board.Peg(rapid.IntRange(0, 24).Draw(t, "peg"))
	}), 3, 8, rapid.ID).Draw(t, "loop")
}

// A verdict does not change when the figure is turned, flipped, or written
// from another corner or the other way round; nor does the effort of its hint,
// nor what it is thought to show.
func TestVerdictsDoNotDependOnTheSide(t *testing.T) {
	texts := propertyTexts()
	rapid.Check(t, func(t *rapid.T) {
		loop := drawLoop(t)
		var chosen []string
		for range rapid.IntRange(1, 3).Draw(t, "conditions") {
			chosen = append(chosen, rapid.SampledFrom(texts).Draw(t, "condition"))
		}
		cs, err := task.Parse(chosen)
		if err != nil {
			return
		}
		job := task.Task{Board: board.MustParse("square:5x5"), Conditions: cs}
		first := job.Judge(board.Figure{Board: job.Board, Bands: [][]board.Peg{loop}})
		motion := rapid.SampledFrom(motions).Draw(t, "motion")
		start := rapid.IntRange(0, len(loop)-1).Draw(t, "start")
		other := moved(append(loop[start:len(loop):len(loop)], loop[:start]...), motion)
		second := job.Judge(board.Figure{Board: job.Board, Bands: [][]board.Peg{other}})
		if first.Standing != second.Standing {
			t.Fatalf("%v: Judge(%v) = %s, moved %s", chosen, job.Board.Names(loop), first.Standing, second.Standing)
		}
		for i := range first.Results {
			a, b := first.Results[i], second.Results[i]
			if a.Holds != b.Holds || a.Actual.Count != b.Actual.Count || a.Actual.Yes != b.Actual.Yes || a.Actual.Kind != b.Actual.Kind {
				t.Fatalf("%v: %s of %v is %+v, moved %+v", chosen, a.Condition, job.Board.Names(loop), a.Actual, b.Actual)
			}
		}
		if one, two := travelled(first, loop), travelled(second, other); math.Abs(one-two) > 1e-6 {
			t.Fatalf("%v: hint for %v travels %v, moved %v", chosen, job.Board.Names(loop), one, two)
		}
		if one, two := fmt.Sprint(ruleNames(first.Ideas)), fmt.Sprint(ruleNames(second.Ideas)); one != two {
			t.Fatalf("%v: ideas behind %v are %s, moved %s", chosen, job.Board.Names(loop), one, two)
		}
	})
}

// travelled is how far a verdict's hint takes a corner, −1 without a hint.
func travelled(v task.Verdict, loop []board.Peg) float64 {
	if v.Hint == nil {
		return -1
	}
	b, c := v.Reading.Figure.Board, v.Hint.Change
	if v.Reading.Polygon != nil {
		loop = v.Reading.Polygon.Corners()
	}
	return effort(b, loop, c)
}

// Judging is total: whatever pegs the bands go round, there is a verdict, with
// a result for each condition, and only what fits has no way to go.
func TestEveryFigureHasAVerdict(t *testing.T) {
	boards := []string{"square:2x2", "square:5x5", "staggered:4x5", "triangle:5", "ring:12", "ring:7+centre"}
	texts := append(propertyTexts(), "segments=2", "crossing-pairs=1", "meeting-pairs=0", "bands=2")
	rapid.Check(t, func(t *rapid.T) {
		b := board.MustParse(rapid.SampledFrom(boards).Draw(t, "board"))
		f := board.Figure{Board: b}
		for range rapid.IntRange(0, 4).Draw(t, "bands") {
			band := rapid.SliceOfNDistinct(rapid.IntRange(0, b.Pegs()-1), 2, min(7, b.Pegs()), rapid.ID).Draw(t, "band")
			pegs := make([]board.Peg, len(band))
			for i, p := range band {
				pegs[i] = board.Peg(p)
			}
			f.Bands = append(f.Bands, pegs)
		}
		c, err := task.ParseCondition(rapid.SampledFrom(texts).Draw(t, "condition"))
		if err != nil {
			t.Fatal(err)
		}
		job := task.Task{Board: b, Conditions: task.Conditions{c}}
		v := job.Judge(f)
		switch {
		case len(v.Results) != 1:
			t.Fatalf("Judge(%s) has %d results, want 1", f, len(v.Results))
		case v.Standing == task.Fits && (!v.Results[0].Holds || v.Hint != nil || v.Ideas != nil):
			t.Fatalf("Judge(%s) fits, with %+v", f, v)
		case v.Standing == task.Nearly && v.Hint == nil, v.Standing == task.NotYet && v.Hint != nil:
			t.Fatalf("Judge(%s) = %s, hint %v", f, v.Standing, v.Hint)
		case v.Reading.Outline.Status == shape.Empty && v.Standing != task.Unfinished:
			t.Fatalf("Judge(%s) = %s of an empty board", f, v.Standing)
		}
		if v.Hint == nil {
			return
		}
		if again := job.Judge(v.Hint.Change.After); again.Standing != task.Fits {
			t.Fatalf("after the hint %s is %s, which %s", f, v.Hint.Change.After, again.Standing)
		}
	})
}
