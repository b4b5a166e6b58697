package atlas

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

func question(on string, examples int, conditions string) Question {
	return Question{Board: board.MustParse(on), Examples: examples, Conditions: task.MustParse(strings.Split(conditions, ",")...)}
}

// Examples meet the conditions, no two are congruent, and a second search
// gives the same ones.
func TestExamplesAnswer(t *testing.T) {
	tests := []struct{ board, conditions string }{
		{"square:5x5", "sides=5"},
		{"square:5x5", "sides=5,right-angles=2,not convex"},
		{"square:5x5", "kind=square"},
		{"square:5x5", "kind=rhombus,kind!=square"},
		{"square:5x5", "sides=4,bands=4"},
		{"square:5x5", "sides=4,bands=2"},
		{"square:5x5", "sides=3,bands=7"},
		{"square:4x4", "sides<=6,area=4"},
		{"square:6x6", "kind=isosceles-trapezoid"},
		{"staggered:4x4", "kind=equilateral-triangle"},
		{"triangle:5", "kind=regular-hexagon"},
		{"ring:12", "regular"},
		{"ring:12", "kind=kite,fold-lines=1"},
		{"ring:12+centre", "not convex,sides=4"},
		{"ring:24", "sides=3,right-angles=1"},
	}
	for _, tt := range tests {
		t.Run(tt.board+" "+tt.conditions, func(t *testing.T) {
			q := question(tt.board, 8, tt.conditions)
			a, again := askAs(t, q), askAs(t, q)
			if len(a.Examples) != min(8, a.Different) {
				t.Errorf("Find gives %d examples of %d classes, want %d", len(a.Examples), a.Different, min(8, a.Different))
			}
			for i, e := range a.Examples {
				if v := (task.Task{Board: q.Board, Conditions: q.Conditions}).Judge(e.Figure); v.Standing != task.Fits {
					t.Errorf("example %s %s, want fits", e.Figure, v.Standing)
				}
				for _, other := range a.Examples[:i] {
					if shape.Congruent(e.Polygon, other.Polygon) {
						t.Errorf("examples %s and %s are congruent", e.Figure, other.Figure)
					}
				}
				if a.Complete && again.Examples[i].Figure.String() != e.Figure.String() {
					t.Errorf("example %d is %s, then %s", i, e.Figure, again.Examples[i].Figure)
				}
			}
		})
	}
}

// Examples are spread over the variety: dented and not, with and without an
// upright side, that fold and do not; and rare ones beside common ones.
func TestExamplesAreVaried(t *testing.T) {
	slow(t)
	a := askAs(t, question("square:5x5", 8, "sides=6"))
	met := map[variety]bool{}
	least, most := math.MaxInt, 0
	for _, e := range a.Examples {
		met[varietyOf(e.Polygon)] = true
		least, most = min(least, e.Places), max(most, e.Places)
	}
	if len(met) < 6 {
		t.Errorf("8 examples show %d varieties, want 6 or more", len(met))
	}
	if a := askAs(t, question("square:5x5", 16, "sides=6")); len(a.Examples) == 16 {
		rare := slices.ContainsFunc(a.Examples, func(e Example) bool { return e.Places <= 2 })
		common := slices.ContainsFunc(a.Examples, func(e Example) bool { return e.Places >= 48 })
		if !rare || !common {
			t.Errorf("16 examples: a rare one %v, a common one %v, want both", rare, common)
		}
	}
}

// Places are counted once, on boards that are searched in two parts too.
func TestPlacesOfExamples(t *testing.T) {
	for n := 3; n <= 8; n++ {
		a := askAs(t, question(fmt.Sprintf("square:%dx%d", n, n), 1000, "kind=square,upright-sides=4"))
		if len(a.Examples) != n-1 {
			t.Fatalf("%d×%d: %d sizes of upright square, want %d", n, n, len(a.Examples), n-1)
		}
		for _, e := range a.Examples {
			side := int(math.Sqrt(float64(e.Polygon.Length(0))))
			// On a board of 6 and more the square of side 5 is also tilted: 3, 4.
			if want := (n - side) * (n - side); e.Places != want {
				t.Errorf("%d×%d: squares of side %d have %d places, want %d", n, n, side, e.Places, want)
			}
		}
	}
}

func TestBandsOfExamples(t *testing.T) {
	tests := []struct {
		conditions string
		want       int
	}{
		{"sides=4", 1},
		{"sides=4,bands=4", 4},
		{"sides=4,bands>=2", 4},
		{"sides=4,bands!=1,bands<4", 2},
		{"sides=4,bands=9", 9},
		{"sides=4,bands>200", 201},
	}
	for _, tt := range tests {
		a := askAs(t, question("square:3x3", 1, tt.conditions))
		if got := len(a.Examples[0].Figure.Bands); got != tt.want {
			t.Errorf("Find(%s) makes it with %d bands, want %d", tt.conditions, got, tt.want)
		}
	}
}

// Near misses say honestly which conditions they fail, come in order, and no
// two are congruent.
func TestNearest(t *testing.T) {
	tests := []struct {
		board, conditions string
		first             string  // the nearest, "" where it is of no matter
		likeness          float64 // of the nearest, to four places, 0 likewise
		fails             string
	}{
		{"square:5x5", "kind=regular-pentagon", "A1 D1 E3 C5 A4", 0.9890, "kind=regular-pentagon"},
		{"square:5x5", "sides=6,regular", "C1 E2 E4 C5 A4 A2", 0.9949, "regular=yes"},
		{"square:5x5", "kind=equilateral-triangle", "", 0.9996, "kind=equilateral-triangle"},
		{"square:3x3", "sides=5,fold-lines=2", "", 0, "fold-lines=2"},
		{"square:3x3", "sides=7,convex,right-angles>=3", "", 0, "convex=yes"},
		{"triangle:4", "kind=square", "", 0, "kind=square"},
		{"ring:12", "sides=7,regular", "", 0, "regular=yes"},
		{"square:4x4", "sides=4,area=7.25", "", 0, "area=29/4"},
	}
	for _, tt := range tests {
		t.Run(tt.board+" "+tt.conditions, func(t *testing.T) {
			q := question(tt.board, 1, tt.conditions)
			a := askAs(t, q)
			if a.Possible || len(a.Nearest) != nearWanted {
				t.Fatalf("Find = %d figures and %d near misses, want none and %d", a.Count, len(a.Nearest), nearWanted)
			}
			n := a.Nearest[0]
			if tt.first != "" && n.Figure.String() != tt.first {
				t.Errorf("the nearest is %s, want %s", n.Figure, tt.first)
			}
			if tt.likeness > 0 && math.Abs(n.Likeness-tt.likeness) >= 0.00005 {
				t.Errorf("Likeness(%s) = %.5f, want %.4f", n.Figure, n.Likeness, tt.likeness)
			}
			if got := strings.Join(n.Fails.Texts(), ","); got != tt.fails {
				t.Errorf("%s fails %s, want %s", n.Figure, got, tt.fails)
			}
			checkNearest(t, q, a.Nearest)
		})
	}
}

func checkNearest(t *testing.T, q Question, nearest []Near) {
	t.Helper()
	for i, n := range nearest {
		for _, c := range q.Conditions {
			if got, want := slices.Contains(n.Fails.Texts(), c.String()), !c.Holds(n.Polygon, q.Definitions); got != want {
				t.Errorf("%s fails %s: %v, want %v", n.Figure, c, got, want)
			}
		}
		for _, m := range nearest[:i] {
			if len(m.Fails) > len(n.Fails) {
				t.Errorf("%s fails more than %s after it", m.Figure, n.Figure)
			}
			if shape.Congruent(m.Polygon, n.Polygon) {
				t.Errorf("%s and %s are congruent", m.Figure, n.Figure)
			}
		}
	}
}

// The nearest are those that a list of all figures puts first.
func TestNearestAgainstAList(t *testing.T) {
	for _, on := range []string{"square:3x3", "square:3x4", "triangle:4", "ring:8"} {
		q := question(on, 1, "sides=5,regular,fold-lines=2")
		if on == "ring:8" {
			q = question(on, 1, "sides=5,regular")
		}
		best := 0.0
		for _, p := range everyPolygon(q.Board, 5) {
			if p.Sides() == 5 {
				best = max(best, p.Likeness())
			}
		}
		a := askAs(t, q)
		fewest := len(q.Conditions)
		for _, p := range everyPolygon(q.Board, 5) {
			fails := 0
			for _, c := range q.Conditions {
				if !c.Holds(p, q.Definitions) {
					fails++
				}
			}
			if p.Sides() == 5 {
				fewest = min(fewest, fails)
			}
		}
		if got := len(a.Nearest[0].Fails); got != fewest {
			t.Errorf("%s: the nearest fails %d, want %d", on, got, fewest)
		}
		if got := a.Nearest[0].Likeness; len(q.Conditions) == 2 && math.Abs(got-best) > 1e-9 {
			t.Errorf("%s: Likeness(nearest) = %v, want %v", on, got, best)
		}
	}
}

func TestElsewhere(t *testing.T) {
	tests := []struct {
		name, board, conditions string
		want                    string // boards among the answers
	}{
		{"a regular heptagon is for a ring of seven", "square:4x4", "kind=regular-heptagon", "ring:7"},
		{"an equilateral triangle for the triangular lattice", "square:5x5", "kind=equilateral-triangle", "triangle:4"},
		{"a square for square boards", "triangle:5", "kind=square", "square:3x3"},
		{"a convex octagon for 4×4", "square:3x3", "convex,sides=8", "square:4x4"},
		{"a dent for boards that are no ring", "ring:8", "not convex", "square:3x3"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.board == "ring:8" {
				slow(t) // it looks at three boards to their ends
			}
			q := question(tt.board, 1, tt.conditions)
			q.Elsewhere = true
			a := askAs(t, q)
			var got []string
			for _, b := range a.Elsewhere {
				got = append(got, b.String())
				if b.Pegs() > 12 {
					continue
				}
				q.Board = b
				if !askAs(t, q).Possible {
					t.Errorf("Elsewhere names %s, where it is impossible", b)
				}
			}
			if !slices.Contains(got, tt.want) || len(got) > elsewhereWanted {
				t.Errorf("Elsewhere = %v, want %s among them", got, tt.want)
			}
		})
	}
	slow(t)
	q := question("square:5x5", 1, "sides=30")
	q.Elsewhere = true
	if a := askAs(t, q); slices.ContainsFunc(a.Elsewhere, func(b *board.Board) bool { return b.Pegs() < 30 }) {
		t.Errorf("Elsewhere(sides=30) = %v, want boards of 30 pegs or more", a.Elsewhere)
	}
}

// Every board that is tried elsewhere can be made.
func TestBoardsTried(t *testing.T) {
	for _, text := range boardsTried {
		if _, err := board.Parse(text); err != nil {
			t.Errorf("Parse(%s): %v", text, err)
		}
	}
}

// A search that is stopped says so, whatever it was doing, and soon.
func TestFindStops(t *testing.T) {
	tests := []struct{ name, board, conditions string }{
		{"while it looks at everything", "square:5x5", "sides<=8"},
		{"while it looks at everything once more for near misses", "square:5x5", "sides=8,area=1/4"},
		{"on a board with a time limit", "square:12x12", "sides=9,area=1/2"},
		{"among lines", "square:12x12", "segments=2,crossing-pairs=1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			ctx, cancel := context.WithCancelCause(context.Background())
			q := question(tt.board, 1, tt.conditions)
			q.Limit = time.Hour
			why := errors.New("the bell rang")
			q.Progress = func(float64, int64) { cancel(why) }
			time.AfterFunc(200*time.Millisecond, func() { cancel(why) })
			done := make(chan error, 1)
			go func() {
				_, err := Find(ctx, q)
				done <- err
			}()
			select {
			case err := <-done:
				if !errors.Is(err, ErrStopped) || !errors.Is(err, why) {
					t.Errorf("Find = %v, want ErrStopped and the cause", err)
				}
			case <-time.After(30 * time.Second):
				t.Error("Find goes on after it was stopped")
			}
		})
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Find(ctx, question("square:3x3", 1, "sides=3")); !errors.Is(err, ErrStopped) || !errors.Is(err, context.Canceled) {
		t.Errorf("Find stopped before it starts = %v, want ErrStopped and context.Canceled", err)
	}
}

// Progress never goes back within a part of the search, never comes twice at
// once, and ends every part that ends at 1.
func TestProgress(t *testing.T) {
	for _, conditions := range []string{"sides=5", "sides=5,regular", "sides=6,area=1/4", "segments=1", "segments=2,parallel-pairs=1"} {
		q := question("square:4x4", 1, conditions)
		var busy atomic.Bool
		last, seen, calls, ends := 0.0, int64(0), 0, 0
		q.Progress = func(share float64, n int64) {
			if !busy.CompareAndSwap(false, true) {
				t.Error("Progress is called twice at once")
			}
			defer busy.Store(false)
			if last == 1 {
				last, seen = 0, 0 // the next part
			}
			if share <= last || share > 1 || n < seen {
				t.Errorf("Progress(%v, %d) after (%v, %d)", share, n, last, seen)
			}
			last, seen = share, n
			calls++
			if share == 1 {
				ends++
			}
		}
		a := askAs(t, q)
		if last != 1 || calls < 10 || ends == 0 {
			t.Errorf("%s: the last of %d calls is Progress(%v), want 1", conditions, calls, last)
		}
		if seen != a.Seen {
			t.Errorf("%s: Progress ends with %d seen, Find with %d", conditions, seen, a.Seen)
		}
	}
}

// A search with a time limit says that it is not complete, unless it came to
// its end or a theorem knows.
func TestLimits(t *testing.T) {
	tests := []struct {
		name, board, conditions string
		complete, possible      bool
	}{
		{"a heptagon on 12×12", "square:12x12", "sides=7", false, true},
		{"a nonagon on 5×5", "square:5x5", "sides=9", false, true},
		{"nothing found on 12×12", "square:12x12", "sides=9,area=1/2", false, false},
		{"a theorem on 12×12", "square:12x12", "sides=9,equilateral", true, false},
		{"a triangle on 6×6", "square:6x6", "sides=3", true, true},
		{"lines on 12×12", "square:12x12", "segments=2,parallel-pairs=1", false, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			q := question(tt.board, 3, tt.conditions)
			q.Limit = 100 * time.Millisecond
			if tt.possible {
				q.Limit = time.Second
			}
			a := askAs(t, q)
			if a.Complete != tt.complete || a.Possible != tt.possible {
				t.Errorf("Find = complete %v, possible %v, want %v, %v", a.Complete, a.Possible, tt.complete, tt.possible)
			}
			for _, e := range a.Examples {
				if v := (task.Task{Board: q.Board, Conditions: q.Conditions}).Judge(e.Figure); v.Standing != task.Fits {
					t.Errorf("example %s %s, want fits", e.Figure, v.Standing)
				}
			}
			if !a.Possible && len(a.Why) == 0 {
				t.Error("Find gives no reason")
			}
		})
	}
}

// What a part of a board holds, the board is said to hold at once.
func TestLargeBoardsStartWithAPart(t *testing.T) {
	q := question("square:12x12", 2, "sides=6,fold-lines=2,right-angles=0")
	q.Limit = time.Millisecond
	if a := askAs(t, q); !a.Possible || a.Count < 4 || len(a.Examples) != 2 || a.Complete {
		t.Errorf("Find = %d figures, %d examples, complete %v, want some of 5×5", a.Count, len(a.Examples), a.Complete)
	}
}

// The reason of a search without a theorem says what was looked at.
func TestWhyCountsWhatWasSeen(t *testing.T) {
	a := ask(t, "square:4x4", "sides=5", "area=1/2")
	want := []Why{{Seen: 7608, Sides: Range{5, 5}}}
	if diff := cmp.Diff(want, a.Why); diff != "" || a.Seen != 7608 {
		t.Errorf("Why of Find(sides=5, area=1/2), seen %d (-want +got):\n%s", a.Seen, diff)
	}
}

// Definitions decide what is found: with exactly one parallel pair no
// parallelogram is a trapezoid.
func TestFindHeedsDefinitions(t *testing.T) {
	q := question("square:3x3", 1, "kind=trapezoid,kind=parallelogram")
	if a := askAs(t, q); a.Count != 22 {
		t.Errorf("Find by inclusive definitions = %d, want 22", a.Count)
	}
	q.Definitions.TrapezoidExactlyOne = true
	if a := askAs(t, q); a.Possible || !a.Complete {
		t.Errorf("Find by exclusive definitions = %d, want none", a.Count)
	}
}
