package class_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pegwright/board"
	"pegwright/class"
	"pegwright/shape"
	"pegwright/task"
)

var triangles = class.Task{ID: "t", Board: "square:5x5", Conditions: []string{"sides=3"}, Model: "A1 B1 A2"}

// room makes pupils and showings of triangles in the order received, written
// as a pupil's number and a figure.
func room(t *testing.T, pupils int, shown ...string) ([]class.Showing, []class.Pupil) {
	var all []class.Showing
	for i, text := range shown {
		var pupil int
		var figure string
		fmt.Sscanf(text, "%d", &pupil)
		figure = text[2:]
		v, err := class.Judge(triangles, figure)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, class.Showing{ID: fmt.Sprint("s", i), TaskID: "t", PupilID: fmt.Sprint("p", pupil), Figure: figure, Standing: v.Standing})
	}
	var list []class.Pupil
	for i := 1; i <= pupils; i++ {
		list = append(list, class.Pupil{ID: fmt.Sprint("p", i), Number: i})
	}
	return all, list
}

func TestIdeasOfNobody(t *testing.T) {
	g := class.Ideas(triangles, nil, nil)
	if g.Different != 0 || len(g.Kinds)+len(g.Others)+len(g.Latest)+len(g.Waiting) != 0 {
		t.Errorf("%+v", g)
	}
}

func TestIdeas(t *testing.T) {
	showings, pupils := room(t, 9,
		"1 A1 E1 A2", // moves on later
		"2 A1 B1 A2", // the model
		"3 B2 B1 A1", // the model turned
		"4 A1 E1 A2", // now the only one of its kind, not the first
		"5 A1 B1 / B1 A2 / A2 A1",
		"6 A1 B1 B2 A2", // a square
		"7 A1 B2",       // open
		"1 C3 D3 C4",    // the model moved
		"8 ",            // empty
	)
	showings[1].Looked = time.Unix(1, 0)
	showings = append(showings,
		class.Showing{ID: "x", TaskID: "t", PupilID: "of another class", Figure: "A1 C1 A2"},
		class.Showing{ID: "y", TaskID: "another", PupilID: "p9", Figure: "A1 C1 A2"})
	g := class.Ideas(triangles, showings, pupils)

	got := map[string]any{
		"latest": ids(g.Latest), "others": ids(g.Others), "unlooked": ids(g.Unlooked), "standings": g.Standings,
		"different": g.Different, "fitting": g.Fitting, "copies": g.Copies, "waiting": g.Waiting,
	}
	want := map[string]any{
		"latest": "s7 s1 s2 s3 s4 s5 s6 s8", "others": "s6 s8", "unlooked": "s7 s2 s3 s4 s5 s6 s8",
		"standings": map[task.Standing]int{task.Fits: 5, task.Nearly: 1, task.Unfinished: 2},
		"different": 3, "fitting": 2, "copies": 4, "waiting": []class.Pupil{pupils[8]},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("want - got +\n%s", diff)
	}
	wantKinds(t, g,
		"s1 s2 s4 s7: first s1 by p2, model true, 4 fit, only false",
		"s3: first s0 by p1, model false, 1 fit, only true",
		"s5: first s5 by p6, model false, 0 fit, only true")

	if k, ok := g.KindOf(showings[3]); !ok || !k.Only() || k.IsFirst(showings[3]) {
		t.Errorf("the only one of its kind is not seen, or taken for the first: %+v, %t", k, ok)
	}
	if k, ok := g.KindOf(showings[1]); !ok || !k.IsFirst(showings[1]) || k.IsFirst(showings[2]) {
		t.Errorf("the first of its kind is not seen: %+v, %t", k, ok)
	}
	if _, ok := g.KindOf(showings[0]); ok {
		t.Error("a showing whose pupil has moved on is of a kind")
	}
}

func TestIdeasOfATaskThatCannotBeRead(t *testing.T) {
	showings, pupils := room(t, 2, "1 A1 B1 A2")
	broken := triangles
	broken.Board = "round:5"
	g := class.Ideas(broken, showings, pupils)
	if len(g.Others) != 1 || g.Different != 0 || len(g.Waiting) != 1 {
		t.Errorf("%+v", g)
	}
	showings[0].Figure = "of paper"
	if g := class.Ideas(triangles, showings, pupils); len(g.Others) != 1 {
		t.Errorf("%+v", g)
	}
}

// TestIdeasAgreeWithPairwiseCongruence compares kinds with every pair of
// boards asked one by one, for classes at random, and checks the laws of Ideas.
func TestIdeasAgreeWithPairwiseCongruence(t *testing.T) {
	for _, name := range []string{"square:3x3", "triangle:4", "staggered:3x3", "ring:8+centre"} {
		b := board.MustParse(name)
		random := rand.New(rand.NewPCG(3, 14))
		for range 40 {
			tk := class.Task{ID: "t", Board: name, Conditions: []string{"sides=3"}}
			showings, pupils := randomRoom(tk, b, random)
			g := class.Ideas(tk, showings, pupils)
			grouped, standings := len(g.Others), 0
			for _, k := range g.Kinds {
				grouped += len(k.Showings)
			}
			for _, n := range g.Standings {
				standings += n
			}
			if grouped != len(g.Latest) || standings != len(g.Latest) || len(g.Latest)+len(g.Waiting) != len(pupils) {
				t.Fatalf("%s: %d grouped, %d by standing, %d latest, %d waiting, %d pupils", name, grouped, standings, len(g.Latest), len(g.Waiting), len(pupils))
			}
			checkPairs(t, tk, g)
		}
	}
}

func randomRoom(tk class.Task, b *board.Board, random *rand.Rand) (showings []class.Showing, pupils []class.Pupil) {
	for i := range 12 {
		pupils = append(pupils, class.Pupil{ID: fmt.Sprint(i)})
	}
	for i := range 20 {
		var pegs []board.Peg
		for _, p := range random.Perm(b.Pegs())[:2+random.IntN(3)] {
			pegs = append(pegs, board.Peg(p))
		}
		f, _ := board.NewFigure(b, [][]board.Peg{pegs})
		v, _ := class.Judge(tk, f.String())
		showings = append(showings, class.Showing{ID: fmt.Sprint("s", i), TaskID: tk.ID, PupilID: pupils[random.IntN(len(pupils))].ID, Figure: f.String(), Standing: v.Standing})
	}
	return showings, pupils
}

func checkPairs(t *testing.T, tk class.Task, g class.Gathering) {
	t.Helper()
	for _, s := range g.Latest {
		p := tk.Polygon(s.Figure)
		k, ok := g.KindOf(s)
		if ok != (p != nil) {
			t.Fatalf("%s is of a kind: %t", s.Figure, ok)
		}
		for _, o := range g.Latest {
			q := tk.Polygon(o.Figure)
			if p == nil || q == nil {
				continue
			}
			together := slices.ContainsFunc(k.Showings, func(x class.Showing) bool { return x.ID == o.ID })
			if together != shape.Congruent(p, q) {
				t.Fatalf("%s and %s on %s: one kind %t, congruent %t", s.Figure, o.Figure, tk.Board, together, !together)
			}
		}
	}
}

func wantKinds(t *testing.T, g class.Gathering, want ...string) {
	t.Helper()
	var got []string
	for _, k := range g.Kinds {
		got = append(got, fmt.Sprintf("%s: first %s by %s, model %t, %d fit, only %t", ids(k.Showings), k.First.ID, k.First.PupilID, k.Model, k.Fits, k.Only()))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("kinds: want - got +\n%s", diff)
	}
}

func ids(showings []class.Showing) string {
	text := ""
	for i, s := range showings {
		if i > 0 {
			text += " "
		}
		text += s.ID
	}
	return text
}

func BenchmarkIdeas(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 1))
	grid := board.MustParse("square:5x5")
	showings, pupils := randomRoom(triangles, grid, random)
	for range 3 {
		more, _ := randomRoom(triangles, grid, random)
		showings = append(showings, more...)
	}
	for b.Loop() {
		class.Ideas(triangles, showings, pupils)
	}
}
