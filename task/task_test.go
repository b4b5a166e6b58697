package task_test

import (
	"math"
	"slices"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

func TestVerdicts(t *testing.T) {
	tests := []struct {
		name, board, figure, conditions string
		want                            task.Standing
	}{
		{"an empty board", "square:5x5", "", "sides=4", task.Unfinished},
		{"an empty board and no conditions to speak of", "square:5x5", "", "sides>=3", task.Unfinished},
		{"one segment", "square:5x5", "A1 C1", "sides=3", task.Unfinished},
		{"an open path", "square:5x5", "A1 C1 / C1 C3", "sides=3", task.Unfinished},
		{"a bow-tie", "square:5x5", "A1 E5 E1 A5", "sides=4", task.Unfinished},
		{"two triangles", "square:5x5", "A1 B1 A2 / D4 E4 D5", "sides=3", task.Unfinished},
		{"three pegs in a row", "square:5x5", "A1 B1 C1", "sides=3", task.Unfinished},
		{"a square", "square:5x5", "A1 C1 C3 A3", "kind=square", task.Fits},
		{"a square on its corner", "square:5x5", "C1 E3 C5 A3", "kind=square", task.Fits},
		{"a square of four bands", "square:5x5", "A1 C1 / C1 C3 / C3 A3 / A3 A1", "kind=square", task.Fits},
		{"a square of four bands where one is asked", "square:5x5", "A1 C1 / C1 C3 / C3 A3 / A3 A1", "kind=square,bands=1", task.NotYet},
		{"a square of one band where four are asked", "square:5x5", "A1 C1 C3 A3", "kind=square,bands=4", task.NotYet},
		{"a square is a rectangle", "square:5x5", "A1 C1 C3 A3", "kind=rectangle", task.Fits},
		{"a square is no rectangle but a square", "square:5x5", "A1 C1 C3 A3", "kind=rectangle,kind!=square", task.NotYet},
		{"a triangle asked to be a square", "square:5x5", "A1 C1 C3", "kind=square", task.Nearly},
		{"a trapezoid one peg from a square", "square:5x5", "A1 D1 C3 A3", "kind=square", task.Nearly},
		{"a long way from a square", "square:5x5", "A1 B1 E2 C5 A2", "kind=square", task.NotYet},
		{"impossible on this board, so never nearly", "square:5x5", "B1 E4 A5", "kind=equilateral-triangle", task.NotYet},
		{"the near-regular hexagon is not regular", "square:5x5", "B1 D1 E3 D5 B5 A3", "kind=regular-hexagon", task.NotYet},
		{"twelve pegs are no corners", "square:5x5", "A1 E1 A5", "sides=12", task.NotYet},
		{"a triangle of three corners and twelve pegs", "square:5x5", "A1 E1 A5", "sides=3,pegs-on-edge=12,pegs-inside=3,area=8", task.Fits},
		{"pegs that a band only passes", "square:5x5", "A1 B1 E1 A5", "sides=3", task.Fits},
		{"the L with its five right angles", "square:5x5", "A1 E1 E3 C3 C5 A5", "sides=6,right-angles=5,not convex", task.Fits},
		{"a regular hexagon on a ring", "ring:12", "1 3 5 7 9 11", "kind=regular-hexagon", task.Fits},
		{"a regular triangle on the triangular lattice", "triangle:5", "A1 E1 A5", "kind=equilateral-triangle", task.Fits},
		{"a nearly regular hexagon on a ring", "ring:12", "1 3 5 7 9 12", "kind=regular-hexagon", task.Nearly},
		{"parallel segments", "square:5x5", "A1 C1 / A2 C2", "segments=2,parallel-pairs=1", task.Fits},
		{"segments that are not parallel", "square:5x5", "A1 C1 / A2 C3", "segments=2,parallel-pairs=1", task.NotYet},
		{"one segment of two", "square:5x5", "A1 C1", "segments=2,parallel-pairs=1", task.NotYet},
		{"no segment at all", "square:5x5", "", "segments=2,parallel-pairs=1", task.Unfinished},
		{"crossing segments", "square:5x5", "A1 C3 / A3 C1", "segments=2,crossing-pairs=1,perpendicular-pairs=1", task.Fits},
		{"segments that meet", "square:5x5", "A1 C1 / C1 C3", "segments=2,meeting-pairs=1,right-angles=1", task.Fits},
		{"a triangle among lines", "square:5x5", "A1 C1 A3", "segments=3,sides=3,convex", task.Fits},
		{"lines that are no triangle", "square:5x5", "A1 C1 / C1 C3 / C3 D4", "segments=3,sides=3", task.NotYet},
		{"two segments that are one line", "square:5x5", "A1 C1 / B1 E1", "segments=1", task.Fits},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judged(t, tt.board, tt.figure, splitConditions(tt.conditions)...)
			if v.Standing != tt.want {
				t.Errorf("Judge(%s) against %s = %s, want %s", tt.figure, tt.conditions, v.Standing, tt.want)
			}
		})
	}
}

// A verdict has a result for each condition, with what the figure has instead.
func TestResults(t *testing.T) {
	v := judged(t, "square:5x5", "A1 E1 A5", "sides=4", "area=8", "convex", "kind=square", "fold-lines>=1", "bands=1", "perimeter>13")
	want := []bool{false, true, true, false, true, true, true}
	for i, r := range v.Results {
		if r.Holds != want[i] || !r.Actual.Known {
			t.Errorf("%s holds: %v, known %v, want %v", r.Condition, r.Holds, r.Actual.Known, want[i])
		}
	}
	a := func(i int) task.Actual { return v.Results[i].Actual }
	if a(0).Count != 3 || a(1).Size.String() != "8" || !a(2).Yes || a(3).Kind != "right isosceles triangle" || a(4).Count != 1 || a(5).Count != 1 || a(6).Size.String() != "8 + 4√2" {
		t.Errorf("the figure has %+v", v.Results)
	}
	if r := v.Results[0].Reason; r.Because != shape.CornersCounted || r.Count != 3 {
		t.Errorf("reason for sides = %+v, want corners counted", r)
	}
	if r := v.Results[3].Reason; r.Because != shape.WrongSideCount || r.Holds {
		t.Errorf("reason for the kind = %+v, want wrong side count", r)
	}
}

// An unfinished figure meets no condition on polygons, and none is known of it.
func TestResultsOfUnfinishedFigures(t *testing.T) {
	v := judged(t, "square:5x5", "A1 E5 E1 A5", "sides=4", "convex=no", "kind!=square", "bands=1")
	for i, r := range v.Results {
		bands := i == 3
		if r.Holds != bands || r.Actual.Known != bands {
			t.Errorf("%s of a bow-tie holds: %v, known: %v, want %v", r.Condition, r.Holds, r.Actual.Known, bands)
		}
	}
}

// HoldFor agrees with Judge, over every figure of 3×3.
func TestHoldForAgreesWithJudge(t *testing.T) {
	for _, conditions := range [][]string{{"sides=4", "convex"}, {"fold-lines=1"}, {"bands=1", "area=1"}, {"segments=4", "parallel-pairs=1"}} {
		job := asked("square:3x3", conditions...)
		for _, p := range some(threeByThree()) {
			f := figureOf(p)
			got, want := job.Conditions.HoldFor(shape.Read(f, job.Definitions)), job.Judge(f).Standing == task.Fits
			if got != want {
				t.Fatalf("%v: HoldFor(%s) = %v, want %v", conditions, f, got, want)
			}
		}
	}
}

// Definitions decide: with exactly one pair a parallelogram is no trapezoid.
func TestVerdictsHeedDefinitions(t *testing.T) {
	tests := []struct {
		name, figure, condition string
		inclusive, exclusive    bool
	}{
		{"a parallelogram as a trapezoid", "A1 B1 C2 B2", "kind=trapezoid", true, false},
		{"a trapezoid as a trapezoid", "A1 C1 B2 A2", "kind=trapezoid", true, true},
		{"a rhombus as a kite", "B1 C2 B3 A2", "kind=kite", true, false},
		{"a square as a rectangle", "A1 B1 B2 A2", "kind=rectangle", true, true},
		{"an isosceles triangle", "A1 C1 B3", "kind=isosceles", true, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			job := asked("square:3x3", tt.condition)
			f := board.MustParseFigure(job.Board, tt.figure)
			for _, d := range []shape.Definitions{{}, {TrapezoidExactlyOne: true, KiteNotRhombus: true, IsoscelesExactlyTwo: true}} {
				job.Definitions = d
				want := tt.inclusive
				if d.KiteNotRhombus {
					want = tt.exclusive
				}
				if got := job.Judge(f).Standing == task.Fits; got != want {
					t.Errorf("%s by %+v fits: %v, want %v", tt.figure, d, got, want)
				}
			}
		})
	}
}

// Shortfalls put near misses in order: the farther off, the larger.
func TestShortfall(t *testing.T) {
	tests := []struct{ name, board, condition, nearer, farther string }{
		{"fewer right angles", "square:5x5", "right-angles=4", "A1 C1 D3 A3", "A1 C1 D3 B4"},
		{"a smaller area", "square:5x5", "area=4", "A1 C1 C2 A3", "A1 B1 A2"},
		{"less equal sides", "square:5x5", "equilateral", "A1 C1 C3 A4", "A1 B1 B4 A5"},
		{"less equal angles", "square:5x5", "equiangular", "A1 C1 C3 A4", "A1 B1 E5 A2"},
		{"less like the regular one", "square:5x5", "kind=regular-pentagon", "A1 D1 E3 C5 A4", "A1 B1 E1 C2 A2"},
		{"a regular hexagon", "square:5x5", "regular", "C1 E2 E4 C5 A4 A2", "A1 E1 E3 C3 C5 A5"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := board.MustParse(tt.board)
			c := task.MustParse(tt.condition)[0]
			short := func(text string) float64 {
				f := board.MustParseFigure(b, text)
				p := shape.EmptyPolygon(b)
				p.Reset(f.Bands[0])
				if c.Holds(p, shape.Definitions{}) {
					t.Fatalf("%s holds for %s", c, text)
				}
				return c.Shortfall(p)
			}
			if near, far := short(tt.nearer), short(tt.farther); near >= far || near <= 0 {
				t.Errorf("Shortfall(%s) = %v and of %s %v, want a larger one", tt.nearer, near, tt.farther, far)
			}
		})
	}
	p := threeByThree()[0]
	for _, text := range []string{"convex=no", "kind=dart", "equilateral=no"} {
		if got := task.MustParse(text)[0].Shortfall(p); math.Abs(got-1) > 1 {
			t.Errorf("Shortfall(%s) = %v, want at most 2", text, got)
		}
	}
}

// Every name of a property is read, once, and Properties lists them in order.
func TestProperties(t *testing.T) {
	all := task.Properties()
	if all[0] != task.Sides || all[len(all)-1] != task.Kind || len(all) != 25 {
		t.Errorf("Properties() = %v, want 25 from sides to kind", all)
	}
	sorted := slices.Clone(all)
	slices.Sort(sorted)
	if len(slices.Compact(sorted)) != len(all) {
		t.Error("Properties() has a name twice")
	}
}

// The angles and pairs of lines are counted on open figures too.
func TestLineProperties(t *testing.T) {
	tests := []struct {
		name, figure, condition string
		want                    int
	}{
		{"pieces that run into one", "A1 C1 / B1 E1", "segments=1", 1},
		{"pieces that stay two", "A1 C1 / D1 E1", "segments=2", 2},
		{"pieces on one line are not parallel", "A1 B1 / D1 E1", "parallel-pairs=0", 0},
		{"three parallels make three pairs", "A1 B1 / A2 C2 / A3 E3", "parallel-pairs=3", 3},
		{"slanted ones of different lengths", "A1 E3 / B4 D5", "parallel-pairs=1", 1},
		{"nearly parallel ones", "A1 D3 / A2 E5", "parallel-pairs=0", 0},
		{"perpendicular and apart", "A1 C1 / E2 E4", "perpendicular-pairs=1", 1},
		{"crossing between pegs", "A1 B2 / A2 B1", "crossing-pairs=1", 1},
		{"resting is not crossing", "A1 C1 / B1 B3", "crossing-pairs=0", 0},
		{"meeting at ends", "A1 C1 / C1 E4", "meeting-pairs=1", 1},
		{"a right angle of two pieces", "A2 B5 / B5 E4", "right-angles=1", 1},
		{"an acute one", "A1 E1 / A1 E2", "acute-angles=1", 1},
		{"an obtuse one", "A1 C1 / C1 E2", "obtuse-angles=1", 1},
		{"two bands", "A1 C1 / C1 E2", "bands=2", 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judged(t, "square:5x5", tt.figure, "segments>=1", tt.condition)
			if r := v.Results[1]; r.Actual.Count != tt.want || !r.Holds || v.Standing != task.Fits {
				t.Errorf("%s of %s = %d, %s, want %d, fits", tt.condition, tt.figure, r.Actual.Count, v.Standing, tt.want)
			}
		})
	}
}
