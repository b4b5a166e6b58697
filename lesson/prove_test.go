package lesson_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/lesson"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
)

func figure(t testing.TB, on, text string) *board.Figure {
	t.Helper()
	f := board.MustParseFigure(board.MustParse(on), text)
	return &f
}

func TestProveFindsFaults(t *testing.T) {
	b := board.MustParse("square:3x3")
	square := lesson.Task{Board: b, Conditions: task.MustParse("kind=square"), Bands: 1}
	with := func(change func(*lesson.Task)) lesson.Task {
		x := square
		change(&x)
		return x
	}
	cases := []struct {
		name string
		task lesson.Task
		want []lesson.Fault
	}{
		{"a good task", square, nil},
		{"an impossible one", with(func(x *lesson.Task) { x.Conditions = task.MustParse("kind=equilateral-triangle") }), []lesson.Fault{lesson.CannotBeDone}},
		{"meant to be impossible, and is", with(func(x *lesson.Task) {
			x.Conditions, x.Impossible = task.MustParse("kind=equilateral-triangle"), true
		}), nil},
		{"meant to be impossible, and is not", with(func(x *lesson.Task) { x.Impossible = true }), []lesson.Fault{lesson.CanBeDone}},
		{"a way in that cannot be completed", with(func(x *lesson.Task) { x.WayIn.Begun = figure(t, "square:3x3", "A1 B3") }), []lesson.Fault{lesson.LeadsNowhere}},
		{"a way in of two bands for a polygon", with(func(x *lesson.Task) { x.WayIn.Begun = figure(t, "square:3x3", "A1 B1 / B1 B2") }), []lesson.Fault{lesson.LeadsNowhere}},
		{"a good way in", with(func(x *lesson.Task) { x.WayIn.Begun = figure(t, "square:3x3", "A2 B1") }), nil},
		{"a smaller board without an answer", lesson.Task{Board: board.MustParse("square:4x4"), Conditions: task.MustParse("kind=square", "area=9"), WayIn: lesson.WayIn{Board: b}}, []lesson.Fault{lesson.LeadsNowhere}},
		{"the word of the way in is gone", with(func(x *lesson.Task) { x.WayIn.Word = "oblong" }), []lesson.Fault{lesson.WordElsewhere}},
		{"the word of the way in does not answer", with(func(x *lesson.Task) { x.WayIn.Word = "triangle" }), []lesson.Fault{lesson.WordElsewhere}},
		{"the word of the way in", with(func(x *lesson.Task) { x.WayIn.Word = "square" }), nil},
		{"another, but there is none", with(func(x *lesson.Task) {
			x.Conditions, x.Stretch.Goal = task.MustParse("kind=square", "area=4"), lesson.Another
		}), []lesson.Fault{lesson.NoOther}},
		{"another", with(func(x *lesson.Task) { x.Stretch.Goal = lesson.Another }), nil},
		{"the largest", with(func(x *lesson.Task) {
			x.Stretch = lesson.Stretch{Goal: lesson.Largest, Area: task.MustParse("area=4")}
		}), nil},
		{"there is a larger one", with(func(x *lesson.Task) {
			x.Stretch = lesson.Stretch{Goal: lesson.Largest, Area: task.MustParse("area=2")}
		}), []lesson.Fault{lesson.NotTheLargest}},
		{"there is none of that area", with(func(x *lesson.Task) {
			x.Stretch = lesson.Stretch{Goal: lesson.Largest, Area: task.MustParse("area=3")}
		}), []lesson.Fault{lesson.StretchCannot}},
		{"a stretch that cannot be done", with(func(x *lesson.Task) {
			x.Stretch = lesson.Stretch{Goal: lesson.Also, Conditions: task.MustParse("pegs-inside=3")}
		}), []lesson.Fault{lesson.StretchCannot}},
		{"an impossible stretch that can be done", with(func(x *lesson.Task) {
			x.Stretch = lesson.Stretch{Goal: lesson.Impossible, Conditions: task.MustParse("sides=7")}
		}), []lesson.Fault{lesson.StretchCan}},
		{"an impossible stretch", with(func(x *lesson.Task) {
			x.Stretch = lesson.Stretch{Goal: lesson.Impossible, Conditions: task.MustParse("sides=8", "convex=yes")}
		}), nil},
	}
	for _, c := range cases {
		p, err := lesson.Prove(context.Background(), c.task, shape.Definitions{})
		if err != nil || !slices.Equal(p.Faults, c.want) {
			t.Errorf("%s: %v, %v, want %v", c.name, p.Faults, err, c.want)
		}
	}
}

// TestProvePlanIsInOrder: the proofs of a plan are those of its tasks, in order.
func TestProvePlanIsInOrder(t *testing.T) {
	p := plan(t, "8-folds")
	proofs, err := lesson.ProvePlan(context.Background(), p, shape.Definitions{})
	if err != nil || len(proofs) != len(p.Tasks()) {
		t.Fatalf("%d proofs, %v", len(proofs), err)
	}
	for i, proof := range proofs {
		if proof.Task.Say != p.Tasks()[i].Say || len(proof.Faults) > 0 {
			t.Errorf("proof %d: %q, %v", i+1, proof.Task.Say.EN, proof.Faults)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := lesson.ProvePlan(ctx, p, shape.Definitions{}); !errors.Is(err, atlas.ErrStopped) {
		t.Errorf("stopped: %v", err)
	}
}

func TestProveStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := lesson.Prove(ctx, lesson.Task{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("sides=6")}, shape.Definitions{})
	if !errors.Is(err, atlas.ErrStopped) {
		t.Errorf("error %v, want ErrStopped", err)
	}
}

// TestCompleteKeepsWhatIsThere: the pieces begun are in the figure, and it fits.
func TestCompleteKeepsWhatIsThere(t *testing.T) {
	for _, p := range lesson.Unit() {
		for i, x := range p.Tasks() {
			if x.WayIn.Begun == nil {
				continue
			}
			asked := x.Asked(shape.Definitions{})
			done, ok := lesson.Complete(asked, *x.WayIn.Begun)
			if !ok || asked.Judge(done).Standing != task.Fits {
				t.Errorf("%s, task %d: %s does not lead on: %s", p.Name, i+1, x.WayIn.Begun, done)
				continue
			}
			for _, want := range begunPieces(asked, *x.WayIn.Begun) {
				if !slices.Contains(done.Segments(), want) {
					t.Errorf("%s, task %d: %s loses a piece of %s", p.Name, i+1, done, x.WayIn.Begun)
				}
			}
		}
	}
}

// begunPieces are the pieces of a figure begun: a path of one band does not run
// back to its start.
func begunPieces(t task.Task, f board.Figure) []board.Segment {
	out := f.Segments()
	if !t.Conditions.AboutLines() && len(out) > 1 {
		out = out[:len(out)-1]
	}
	return out
}

func TestHopesAreNotThePictureInEveryHead(t *testing.T) {
	p, err := lesson.Prove(context.Background(), lesson.Task{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("kind=square")}, shape.Definitions{})
	if err != nil {
		t.Fatal(err)
	}
	hopes := p.Hopes()
	if len(hopes) == 0 {
		t.Fatal("no square is worth hoping for")
	}
	for i, h := range hopes {
		if h.Polygon.UprightSides() > 0 || i > 0 && hopes[i-1].Places > h.Places {
			t.Errorf("hope %d: %s in %d places", i, h.Figure, h.Places)
		}
	}
}

func TestFaultsAreWritten(t *testing.T) {
	for _, language := range wording.Languages() {
		for _, f := range []lesson.Fault{
			lesson.CannotBeDone, lesson.CanBeDone, lesson.NotSettled, lesson.LeadsNowhere, lesson.StretchCannot,
			lesson.StretchCan, lesson.StretchUnsettled, lesson.NotTheLargest, lesson.NoOther, lesson.WordElsewhere,
		} {
			if text := wording.In(language).Text("fault." + string(f)); text[0] == '[' {
				t.Errorf("%s: no message for %s", language, f)
			}
		}
	}
}
