package demo

import (
	"fmt"
	"math/rand/v2"
	"sync"
	"testing"

	"pegwright/board"
	"pegwright/class"
	"pegwright/shape"
	"pegwright/task"
)

// tasksSet are tasks of many kinds, on every kind of board, some of them
// impossible. Most are on boards small enough to be searched in no time.
var tasksSet = thinned([]class.Task{
	on("square:4x4", "sides=3"),
	on("square:4x4", "sides=4"),
	on("square:4x4", "sides=5"),
	on("square:4x4", "sides=6"),
	on("square:4x4", "sides=7"),
	on("square:4x4", "sides=8"),
	on("square:4x4", "sides=6", "fold-lines>=1"),
	on("square:4x4", "sides=4", "convex=no"),
	on("square:4x4", "kind=square"),
	on("square:4x4", "kind=rhombus"),
	on("square:4x4", "kind=dart"),
	on("square:4x4", "kind=hexagon"),
	on("square:4x4", "kind=heptagon", "convex=no"),
	on("square:4x4", "right-angles>=1"),
	on("square:4x4", "fold-lines>=1"),
	on("square:4x4", "convex=no"),
	on("square:4x4", "area=4"),
	on("square:4x4", "sides=6", "regular=yes"), // impossible
	on("square:4x4", "segments=2", "crossing-pairs=1"),
	on("square:3x3", "sides=8"),
	on("square:3x3", "sides=10"), // impossible
	on("staggered:4x4", "sides=6", "regular=yes"),
	on("triangle:4", "sides=4"),
	on("ring:12", "sides=6"),
	on("ring:12", "sides=7"),
	on("ring:12+centre", "sides=5"),
	on("ring:12", "kind=square"),
})

func on(b string, conditions ...string) class.Task {
	return class.Task{Words: "Make it.", Board: b, Conditions: conditions}
}

// known are the choices for tasks that were looked for before: a search is
// made once for all tests.
var known sync.Map

func choicesOf(t *testing.T, set class.Task) *Choices {
	t.Helper()
	key := fmt.Sprint(set.Board, set.Conditions)
	if c, ok := known.Load(key); ok {
		return c.(*Choices)
	}
	c := freshChoices(t, set)
	known.Store(key, c)
	return c
}

func freshChoices(t *testing.T, set class.Task) *Choices {
	t.Helper()
	c, err := NewChoices(set)
	must(t, err)
	return c
}

func random(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

// overAll calls check with the first figures of a character over all tasks.
func overAll(t *testing.T, who Character, check func(set class.Task, asked task.Task, f board.Figure, v task.Verdict)) {
	t.Helper()
	for _, set := range tasksSet {
		c := choicesOf(t, set)
		for seed := range uint64(5) {
			f := c.First(who, random(seed), "")
			if f.Board.String() != c.asked.Board.String() {
				t.Errorf("%s: a figure on %s", set.Board, f.Board)
			}
			// It is a real figure on the task's board as the server reads it.
			if _, err := board.ParseFigure(c.asked.Board, f.String()); err != nil {
				t.Errorf("%s %v: %v", set.Board, set.Conditions, err)
			}
			check(set, c.asked, f, c.asked.Judge(f))
		}
	}
}

// possible reports whether anything fits a task.
func possible(t *testing.T, set class.Task) bool {
	c := choicesOf(t, set)
	return len(c.of(c.asked.Conditions)) > 0
}

func TestTheCarefulAndTheSlowFit(t *testing.T) {
	for _, who := range []Character{Careful, Slow, Dropper, Copier} {
		overAll(t, who, func(set class.Task, _ task.Task, f board.Figure, v task.Verdict) {
			if v.Standing != task.Fits && possible(t, set) {
				t.Errorf("%s: %s %v: %s is %s", who, set.Board, set.Conditions, f, v.Standing)
			}
		})
	}
}

func TestTheQuickFitOrSlipByOneCorner(t *testing.T) {
	count := map[task.Standing]int{}
	overAll(t, Quick, func(set class.Task, _ task.Task, f board.Figure, v task.Verdict) {
		count[v.Standing]++
		if v.Standing != task.Fits && v.Standing != task.Nearly && possible(t, set) {
			t.Errorf("%s %v: %s is %s", set.Board, set.Conditions, f, v.Standing)
		}
	})
	if (count[task.Fits] == 0 || count[task.Nearly] == 0) && !raced {
		t.Errorf("standings %v, want both", count)
	}
}

func TestThePegCounterCountsPegs(t *testing.T) {
	wrong := 0
	overAll(t, PegCounter, func(set class.Task, asked task.Task, f board.Figure, v task.Verdict) {
		n, ok := sidesOf(asked.Conditions)
		if !ok || n > asked.Board.Pegs() {
			return
		}
		p := v.Reading.Polygon
		if got := p.Sides() + len(p.PassedOver()); got != n {
			t.Errorf("%s %v: %s has %d pegs on its band, want %d", set.Board, set.Conditions, f, got, n)
		}
		if v.Standing == task.Fits {
			return
		}
		wrong++
		if p.Sides() != n && !showsIdea(v, task.CountedPegs) {
			t.Errorf("%s %v: %s does not show the idea", set.Board, set.Conditions, f)
		}
	})
	if wrong < 20 && !raced {
		t.Errorf("only %d wrong figures", wrong)
	}
}

func showsIdea(v task.Verdict, rule task.Rule) bool {
	for _, i := range v.Ideas {
		if i.Rule == rule {
			return true
		}
	}
	return false
}

func TestTheNameSwapperSwapsSixAndSeven(t *testing.T) {
	overAll(t, NameSwapper, func(set class.Task, asked task.Task, f board.Figure, v task.Verdict) {
		n, ok := sidesOf(asked.Conditions)
		switch {
		case ok && (n == 6 || n == 7):
			if got := v.Reading.Polygon.Sides(); got != 13-n {
				t.Errorf("%s %v: %s has %d sides, want %d", set.Board, set.Conditions, f, got, 13-n)
			}
		case possible(t, set) && v.Standing != task.Fits:
			t.Errorf("%s %v: %s is %s", set.Board, set.Conditions, f, v.Standing)
		}
	})
}

func TestUprightSquaresOnly(t *testing.T) {
	overAll(t, UprightSquares, func(set class.Task, asked task.Task, f board.Figure, v task.Verdict) {
		n, ok := sidesOf(asked.Conditions)
		if !ok || n != 4 || asked.Board.Kind() != board.Square {
			return
		}
		p := v.Reading.Polygon
		if !p.Is(shape.Square, asked.Definitions) || p.UprightSides() != 4 {
			t.Errorf("%s %v: %s is no upright square", set.Board, set.Conditions, f)
		}
	})
}

func TestConvexOnly(t *testing.T) {
	overAll(t, ConvexOnly, func(set class.Task, asked task.Task, f board.Figure, v task.Verdict) {
		if !asked.Conditions.AboutLines() && !v.Reading.Polygon.Convex() {
			// A square board of nine pegs holds no convex octagon.
			if n, ok := sidesOf(asked.Conditions); ok && n > 7 && asked.Board.Pegs() == 9 {
				return
			}
			t.Errorf("%s %v: %s turns in", set.Board, set.Conditions, f)
		}
	})
}

func TestTheCopierCopies(t *testing.T) {
	c := choicesOf(t, on("square:5x5", "sides=6"))
	if got := c.First(Copier, random(1), "B1 D1 D3 B3").String(); got != "B1 D1 D3 B3" {
		t.Errorf("copied %s", got)
	}
	if got := c.First(Careful, random(1), "B1 D1 D3 B3").String(); got == "B1 D1 D3 B3" {
		t.Error("the careful one copied")
	}
	if got := c.First(Copier, random(1), "B1 Z9"); c.asked.Judge(got).Standing != task.Fits {
		t.Errorf("what cannot be copied became %s", got)
	}
}

func TestEveryCharacterIsRepeatable(t *testing.T) {
	for _, who := range Characters() {
		for _, set := range tasksSet {
			a, b := choicesOf(t, set), freshChoices(t, set)
			if f, g := a.First(who, random(3), ""), b.First(who, random(3), ""); f.String() != g.String() {
				t.Errorf("%s: %s %v: %s and then %s", who, set.Board, set.Conditions, f, g)
			}
		}
	}
}

func TestASecondGoFits(t *testing.T) {
	for _, set := range tasksSet {
		c := choicesOf(t, set)
		for _, who := range Characters() {
			f := c.First(who, random(2), "")
			again, ok := c.Again(f, random(2))
			switch v := c.asked.Judge(f); {
			case v.Standing == task.Fits && ok:
				t.Errorf("%s %v: a second go after %s, which fits", set.Board, set.Conditions, f)
			case ok && c.asked.Judge(again).Standing != task.Fits:
				t.Errorf("%s %v: the second go %s does not fit", set.Board, set.Conditions, again)
			}
		}
	}
}

func TestAnotherIsDifferent(t *testing.T) {
	c := choicesOf(t, on("square:3x3", "kind=square"))
	var made []string
	for f, ok := c.Another(made, random(1)); ok; f, ok = c.Another(made, random(1)) {
		made = append(made, f.String())
		if len(made) > 10 {
			t.Fatal("it never runs out")
		}
	}
	if len(made) != 3 {
		t.Errorf("%v, want the three squares of different size", made)
	}
}

func TestSteps(t *testing.T) {
	b := board.MustParse("square:5x5")
	got := steps(board.MustParseFigure(b, "A1 D1 D3 / E1 E2"))
	want := []string{"A1 D1", "A1 D1 D3", "A1 D1 D3 / E1 E2"}
	if len(got) != len(want) {
		t.Fatalf("steps %q, want %q", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("step %d = %q, want %q", i, got[i], want[i])
		}
	}
}
