package gathering_test

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/lesson/gathering"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
)

var five = board.MustParse("square:5x5")

func asks(conditions ...string) task.Task {
	return task.Task{Board: five, Conditions: task.MustParse(conditions...)}
}

func boards(figures ...string) []gathering.Board {
	var out []gathering.Board
	for i, f := range figures {
		out = append(out, gathering.Board{ID: fmt.Sprint(i + 1), Figure: board.MustParseFigure(five, f)})
	}
	return out
}

func summary(picks []gathering.Pick) []string {
	var out []string
	for _, p := range picks {
		out = append(out, fmt.Sprintf("%s:%s", p.Board.ID, p.Why))
	}
	return out
}

func TestChoose(t *testing.T) {
	cases := []struct {
		name    string
		task    task.Task
		figures []string
		want    []string
	}{
		{"nothing shown", asks("kind=square"), nil, nil},
		{"empty boards", asks("kind=square"), []string{"", ""}, nil},
		{"all the same", asks("kind=square"), []string{"A1 B1 B2 A2", "C1 D1 D2 C2", "A3 B3 B4 A4"}, []string{"1:common"}},
		{
			"two squares that look unlike, a rhombus and one corner out", asks("kind=square"),
			[]string{"A1 D1 D4 A4", "B1 E1 E4 B4", "A2 B4 D3 C1", "A2 C1 E2 C3", "A1 E1 D4 A4"},
			[]string{"1:common", "3:different", "4:surprise", "5:near"},
		},
		{"little fits", asks("kind=square"), []string{"A1 E1 E3 C5 A3", "A1 B1 A2", "A1 E1 D3 B3 A5", "A1 E1 C5"}, nil},
		{
			"hexagons: one common, one with a dent that is alone, one that counts pegs", asks("sides=6"),
			[]string{"B1 D1 E3 D5 B5 A3", "B1 D1 E3 D5 B5 A3", "A1 E1 E3 C3 C5 A5", "A1 C1 C2 A2"},
			[]string{"1:common", "3:different", "4:surprise"},
		},
		{
			"lines: level ones, slanted ones, and a pair that crosses", asks("segments=2", "parallel-pairs=1"),
			[]string{"A1 E1 / A2 E2", "A3 E3 / A5 E5", "A1 C5 / C1 D3", "A1 E5 / A5 E1"},
			[]string{"4:trying", "1:common", "3:different"},
		},
	}
	for _, c := range cases {
		got := summary(gathering.Choose(c.task, boards(c.figures...)))
		if c.name == "little fits" {
			if len(got) < gathering.Least {
				t.Errorf("%s: only %v", c.name, got)
			}
			continue
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestTheLeastShownPupilIsTaken(t *testing.T) {
	list := boards("A1 B1 B2 A2", "C1 D1 D2 C2", "A3 B3 B4 A4")
	list[0].Shown, list[2].Shown = 2, 1
	if got := gathering.Choose(asks("kind=square"), list); got[0].Board.ID != "2" || got[0].Same != 3 {
		t.Errorf("%+v", got)
	}
}

// classroom draws up to 36 figures that children make: closed and open, crossing
// and in several pieces, many the same.
func classroom(t *rapid.T) []gathering.Board {
	pegs := rapid.SliceOfNDistinct(rapid.IntRange(0, 24), 2, 7, rapid.ID[int])
	var out []gathering.Board
	var pool []board.Figure
	for i := range rapid.IntRange(0, 36).Draw(t, "n") {
		if len(pool) == 0 || rapid.IntRange(0, 2).Draw(t, "new") > 0 {
			var band []board.Peg
			for _, p := range pegs.Draw(t, "band") {
				band = append(band, board.Peg(p))
			}
			f, err := board.NewFigure(five, [][]board.Peg{band})
			if err != nil {
				t.Fatal(err)
			}
			pool = append(pool, f)
		}
		out = append(out, gathering.Board{ID: fmt.Sprint(i), Figure: rapid.SampledFrom(pool).Draw(t, "figure"), Shown: rapid.IntRange(0, 2).Draw(t, "shown")})
	}
	return out
}

var someTasks = []task.Task{asks("kind=square"), asks("sides=4"), asks("sides=5", "convex=no"), asks("sides=3", "upright-sides=0"), asks("segments=1"), asks("regular=yes")}

// TestChoiceLaws: never more than five, three where there are three kinds; no
// two picks the same; grounds that are true; one choice for one class.
func TestChoiceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		asked := rapid.SampledFrom(someTasks).Draw(t, "task")
		list := classroom(t)
		picks := gathering.Choose(asked, list)
		if len(picks) > gathering.Most {
			t.Fatalf("%d picks", len(picks))
		}
		texts := map[string]bool{}
		for _, b := range list {
			texts[b.Figure.String()] = true
		}
		if len(picks) == 0 && len(texts) > 0 {
			t.Fatal("nothing was chosen")
		}
		order := []gathering.Why{gathering.Trying, gathering.Common, gathering.Different, gathering.Unusual, gathering.Rare, gathering.Surprise, gathering.Near}
		last := -1
		for i, p := range picks {
			if at := slices.Index(order, p.Why); at < last {
				t.Fatalf("the order is %v", summary(picks))
			} else {
				last = at
			}
			checkGround(t, asked, p)
			for _, q := range picks[:i] {
				a, b := shape.Read(p.Board.Figure, shape.Definitions{}).Polygon, shape.Read(q.Board.Figure, shape.Definitions{}).Polygon
				if a != nil && b != nil && shape.Congruent(a, b) && (a.UprightSides() > 0) == (b.UprightSides() > 0) && p.Standing == q.Standing && !asked.Conditions.AboutLines() {
					t.Fatalf("%s and %s show the same", p.Board.Figure, q.Board.Figure)
				}
			}
		}
		if again := gathering.Choose(asked, list); !reflect.DeepEqual(again, picks) {
			t.Fatal("two choices for one class")
		}
	})
}

// checkGround holds the reason for a pick against the kernel.
func checkGround(t *rapid.T, asked task.Task, p gathering.Pick) {
	standing := asked.Judge(p.Board.Figure).Standing
	if standing != p.Standing {
		t.Fatalf("%s is %s, said to be %s", p.Board.Figure, standing, p.Standing)
	}
	switch p.Why {
	case gathering.Common, gathering.Different, gathering.Unusual, gathering.Rare:
		if standing != task.Fits {
			t.Fatalf("%s is picked as %s and does not fit", p.Board.Figure, p.Why)
		}
	case gathering.Near:
		if standing != task.Nearly {
			t.Fatalf("%s is picked as near and is %s", p.Board.Figure, standing)
		}
	default:
		if standing == task.Fits {
			t.Fatalf("%s is picked as %s and fits", p.Board.Figure, p.Why)
		}
	}
	if p.Why == gathering.Rare && p.Same != 1 {
		t.Fatalf("a rare board that %d have", p.Same)
	}
}

func TestReasonsAndQuestionsAreWritten(t *testing.T) {
	for _, language := range wording.Languages() {
		for _, why := range []gathering.Why{gathering.Trying, gathering.Common, gathering.Different, gathering.Unusual, gathering.Rare, gathering.Surprise, gathering.Near} {
			p := gathering.Pick{Why: why, Same: 3}
			for _, m := range []wording.Message{p.Reason(), p.Question()} {
				if text := wording.In(language).Say(m); text == "" || text[0] == '[' {
					t.Errorf("%s: no message %s", language, m.ID)
				}
			}
		}
	}
}

// hardClass is 36 different figures, none of which fits, so that every one needs
// a hint searched.
func hardClass() []gathering.Board {
	var out []gathering.Board
	for i := range 36 {
		a, b := board.Peg(i%5), board.Peg(20+i/8)
		f, err := board.NewFigure(five, [][]board.Peg{{a, board.Peg(14 + i%5 - 5*(i%2)), b, board.Peg(10 + (i/5)%3)}})
		if err == nil {
			out = append(out, gathering.Board{ID: fmt.Sprint(i), Figure: f})
		}
	}
	return out
}

func BenchmarkChoose(b *testing.B) {
	list := hardClass()
	for b.Loop() {
		gathering.Choose(asks("kind=square", "upright-sides=0"), list)
	}
}
