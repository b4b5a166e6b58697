package task_test

import (
	"math"
	"slices"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// change is a change of one corner as a child would make it: what it makes and
// how far a corner travels.
type change struct {
	after  []board.Peg
	effort float64
}

// changes lists every change of one corner whatever it makes, by hand: each
// corner moved to each peg, a corner put at each peg on each side, each corner
// taken away.
func changes(b *board.Board, corners []board.Peg) []change {
	var out []change
	k := len(corners)
	for i, p := range corners {
		next, before := corners[(i+1)%k], corners[(i+k-1)%k]
		out = append(out, change{slices.Delete(slices.Clone(corners), i, i+1), far(b, p, before, next)})
		for q := range board.Peg(b.Pegs()) {
			if slices.Contains(corners, q) {
				continue
			}
			moved := slices.Clone(corners)
			moved[i] = q
			out = append(out, change{moved, far(b, q, p, p)}, change{slices.Insert(slices.Clone(corners), i+1, q), far(b, q, p, next)})
		}
	}
	return out
}

// far is how far a peg is from the middle of two others.
func far(b *board.Board, p, q, r board.Peg) float64 {
	x, y := b.At(p)
	x1, y1 := b.At(q)
	x2, y2 := b.At(r)
	return math.Hypot(x-(x1+x2)/2, y-(y1+y2)/2)
}

var hintTasks = [][]string{
	{"kind=square"},
	{"sides=6", "convex"},
	{"sides=5", "right-angles=3"},
	{"fold-lines=1", "sides=4"},
	{"kind=trapezoid", "right-angles=0"},
	{"sides=7"},
	{"area=2", "turn-order=2"},
	{"kind=dart"},
	{"kind=scalene-triangle", "obtuse-angles=1"},
	{"upright-sides=0", "sides>=4"},
	{"kind=equilateral-triangle"},
}

// Over every figure of 3×3 and a list of tasks: a figure that does not fit is
// nearly there exactly when some change of one corner makes a polygon that
// fits; the hint is one, and none takes less effort.
func TestHintsAreTheSmallestChanges(t *testing.T) {
	checkHints(t, "square:3x3", threeByThree(), hintTasks)
}

func TestHintsOnOtherBoards(t *testing.T) {
	tasks := [][]string{{"kind=equilateral-triangle"}, {"sides=4", "parallel-pairs=1"}, {"sides=5", "not convex"}, {"kind=kite"}, {"right-angles=1"}}
	for _, text := range []string{"triangle:4", "ring:6+centre", "ring:8", "staggered:3x3"} {
		all := polygons(board.MustParse(text), 5)
		stride := 1 + len(all)/200
		var sparse []*shape.Polygon
		for i := 0; i < len(all); i += stride {
			sparse = append(sparse, all[i])
		}
		checkHints(t, text, sparse, tasks)
	}
}

func checkHints(t *testing.T, on string, figures []*shape.Polygon, tasks [][]string) {
	t.Helper()
	for i, conditions := range tasks {
		if (testing.Short() || raceEnabled) && i%4 > 0 {
			continue
		}
		job := asked(on, conditions...)
		fits := func(corners []board.Peg) bool {
			p, ok := shape.NewPolygon(job.Board, corners)
			return ok && !slices.ContainsFunc(job.Conditions, func(c task.Condition) bool { return !c.Holds(p, job.Definitions) })
		}
		for _, p := range figures {
			v := job.Judge(figureOf(p))
			corners := p.Corners()
			if fits(corners) != (v.Standing == task.Fits) {
				t.Fatalf("%v: Judge(%s) = %s", conditions, figureOf(p), v.Standing)
			}
			if v.Standing == task.Fits {
				if v.Hint != nil || v.Ideas != nil {
					t.Fatalf("%v: %s fits, with a hint or an idea", conditions, figureOf(p))
				}
				continue
			}
			least := math.Inf(1)
			for _, c := range changes(job.Board, corners) {
				if c.effort < least-1e-6 && fits(c.after) {
					least = c.effort
				}
			}
			checkHint(t, job, figureOf(p), v, least)
		}
	}
}

func checkHint(t *testing.T, job task.Task, f board.Figure, v task.Verdict, least float64) {
	t.Helper()
	if nearly := !math.IsInf(least, 1); nearly != (v.Standing == task.Nearly) || nearly != (v.Hint != nil) {
		t.Fatalf("%v: Judge(%s) = %s, want nearly: %v", job.Conditions.Texts(), f, v.Standing, nearly)
	}
	if v.Hint == nil {
		return
	}
	h := v.Hint
	if again := job.Judge(h.Change.After); again.Standing != task.Fits {
		t.Fatalf("%v: after the hint %s is %s, which %s", job.Conditions.Texts(), f, h.Change.After, again.Standing)
	}
	if got := effort(job.Board, f.Bands[0], h.Change); math.Abs(got-least) > 1e-6 {
		t.Fatalf("%v: hint for %s takes %v, want %v", job.Conditions.Texts(), f, got, least)
	}
	fails := func(r task.Result) bool { return !r.Holds && r.Condition.String() == h.Nudge.String() }
	if !slices.ContainsFunc(v.Results, fails) {
		t.Fatalf("%v: hint for %s nudges to %s, which holds", job.Conditions.Texts(), f, h.Nudge)
	}
}

// effort measures a hint from what it says, and checks that what it says makes
// the figure it shows.
func effort(b *board.Board, corners []board.Peg, c task.Change) float64 {
	i := slices.Index(corners, c.From)
	k := len(corners)
	after := slices.Clone(corners)
	out := 0.0
	switch c.Op {
	case task.Move:
		after[i] = c.To
		out = far(b, c.To, c.From, c.From)
	case task.Add:
		if corners[(i+1)%k] != c.Beside {
			return math.NaN()
		}
		after = slices.Insert(after, i+1, c.To)
		out = far(b, c.To, c.From, c.Beside)
	case task.Drop:
		after = slices.Delete(after, i, i+1)
		out = far(b, c.From, corners[(i+1)%k], corners[(i+k-1)%k])
	}
	if !slices.Equal(after, c.After.Bands[0]) {
		return math.NaN()
	}
	return out
}

// A band that crosses itself can be mended too, and stays unfinished.
func TestHintsForUnfinishedFigures(t *testing.T) {
	tests := []struct {
		name, figure, conditions string
		hinted                   bool
	}{
		{"a bow-tie that could be a triangle", "A1 C3 C1 A3", "sides=3", true},
		{"a bow-tie is no corner away from a pentagon", "A1 C3 C1 A3", "sides=5", false},
		{"a bow-tie far from a heptagon", "A1 C3 C1 A3", "sides=7", false},
		{"an open path has no corner to change", "A1 C1 / C1 C3", "sides=3", false},
		{"an empty board", "", "sides=3", false},
		{"three pegs in a row", "A1 B1 C1", "sides=3", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judged(t, "square:3x3", tt.figure, tt.conditions)
			if v.Standing != task.Unfinished || (v.Hint != nil) != tt.hinted {
				t.Fatalf("Judge(%s) = %s, hint %v, want unfinished, hint %v", tt.figure, v.Standing, v.Hint, tt.hinted)
			}
			if v.Hint == nil {
				return
			}
			if again := asked("square:3x3", tt.conditions).Judge(v.Hint.Change.After); again.Standing != task.Fits {
				t.Errorf("after the hint it is %s, which %s", v.Hint.Change.After, again.Standing)
			}
		})
	}
}

// A hint for a figure of several bands is made of several bands, when the task
// allows them.
func TestHintsKeepTheBands(t *testing.T) {
	figure := "A1 C1 / C1 C3 / C3 B3 / B3 A1"
	v := judged(t, "square:3x3", figure, "kind=square")
	if v.Hint == nil || len(v.Hint.Change.After.Bands) != 4 {
		t.Errorf("hint for %s = %+v, want a square of four bands", figure, v.Hint)
	}
	if v := judged(t, "square:3x3", figure, "kind=square", "bands=1"); v.Hint != nil || v.Standing != task.NotYet {
		t.Errorf("Judge(%s, bands=1) = %s, hint %v, want not yet and none", figure, v.Standing, v.Hint)
	}
}

// Every loop of four pegs on 3×3 that crosses or touches itself gets a hint
// exactly when a change of one corner makes a polygon that fits.
func TestHintsForEveryCrossingLoop(t *testing.T) {
	b := board.MustParse("square:3x3")
	for _, conditions := range [][]string{{"sides=4"}, {"sides=3"}, {"kind=parallelogram"}, {"sides=5", "not convex"}} {
		job := asked("square:3x3", conditions...)
		hints, loops := 0, 0
		eachLoop(b, func(loop []board.Peg) {
			f := board.Figure{Board: b, Bands: [][]board.Peg{loop}}
			if shape.Trace(f).Status == shape.ClosedPolygon {
				return
			}
			loops++
			want := slices.ContainsFunc(changes(b, loop), func(c change) bool {
				p, ok := shape.NewPolygon(b, c.after)
				return ok && !slices.ContainsFunc(job.Conditions, func(e task.Condition) bool { return !e.Holds(p, job.Definitions) })
			})
			v := job.Judge(f)
			if v.Standing != task.Unfinished || (v.Hint != nil) != want {
				t.Fatalf("%v: Judge(%s) = %s, hint %v, want unfinished, hint %v", conditions, f, v.Standing, v.Hint != nil, want)
			}
			if v.Hint != nil {
				hints++
			}
		})
		if hints == 0 || loops == 0 {
			t.Errorf("%v: %d hints for %d loops, want some", conditions, hints, loops)
		}
	}
}

// eachLoop visits every loop through four pegs.
func eachLoop(b *board.Board, visit func(loop []board.Peg)) {
	n := board.Peg(b.Pegs())
	for p := range n {
		for q := p + 1; q < n; q++ {
			for r := p + 1; r < n; r++ {
				for s := q + 1; s < n; s++ {
					if r != q && r != s {
						visit([]board.Peg{p, q, r, s})
					}
				}
			}
		}
	}
}
