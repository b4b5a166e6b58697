package closing_test

import (
	"fmt"
	"slices"
	"testing"

	"pegwright/board"
	"pegwright/lesson/closing"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
	"pegwright/word/level"
)

func options(i closing.Item, right bool) []string {
	var out []string
	for _, o := range i.Options {
		if o.Right == right {
			out = append(out, fmt.Sprint(o.Picture.Figure, o.Picture.Pegs, o.Picture.On))
		}
	}
	return out
}

// TestPickShowsThreeOfEach for words with enough figures, none of them twice on
// one paper or on both.
func TestPickShowsThreeOfEach(t *testing.T) {
	for _, id := range []string{"rectangle", "rhombus", "isosceles-triangle", "trapezoid", "hexagon", "right-triangle"} {
		f := build(t, closing.Question{Words: words(id), Board: five, Items: 3, Seed: 1})
		for n, i := range f.A {
			if i.Kind != closing.Pick {
				continue
			}
			both := slices.Concat(options(i, true), options(i, false), options(f.B[n], true), options(f.B[n], false))
			if len(both) != 12 || len(options(i, true)) != 3 || len(options(f.B[n], false)) != 3 {
				t.Errorf("%s: %d figures on both papers", id, len(both))
			}
			slices.Sort(both)
			if len(slices.Compact(both)) != 12 {
				t.Errorf("%s: a figure stands twice: %v", id, both)
			}
		}
	}
}

// TestPicksOfEveryWord: whatever the word, a single lesson on it makes items that
// are true, also on boards that cannot show it, from the word's own pictures.
func TestPicksOfEveryWord(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("asks the atlas about every word")
	}
	b := board.MustParse("square:4x4")
	for _, w := range word.All() {
		f := build(t, closing.Question{Words: []word.Word{w}, Board: b, Items: 3, Seed: 2})
		for _, i := range slices.Concat(f.A, f.B) {
			checkItem(t, i, shape.Definitions{})
		}
	}
}

// TestEveryRuleHasAnIdea: each rule of the kernel has its message in the table
// idea, so that every wrong option can be named.
func TestEveryRuleHasAnIdea(t *testing.T) {
	names := map[task.Rule]string{
		task.CountedPegs: "counted_pegs", task.NeighbouringName: "neighbouring_name", task.UprightOnly: "upright_only",
		task.ConvexOnly: "convex_only", task.LooksAlike: "looks_alike", task.EqualSidesOnly: "equal_sides_are_enough", task.EqualAnglesOnly: "equal_angles_are_enough",
	}
	for _, r := range task.Rules() {
		name, ok := names[r]
		if !ok && r != task.CrossesItself && r != task.NotClosed {
			t.Errorf("no idea for the rule %s", r)
		}
		for _, language := range wording.Languages() {
			if text := wording.In(language).Text("idea." + name); ok && text[0] == '[' {
				t.Errorf("%s: no message for the rule %s", language, r)
			}
		}
	}
}

// TestIdeasFollowTheFigure: leaving out a tilted square is named upright only,
// leaving out a square among rectangles that the special kind is refused,
// picking a rhombus for a square that equal sides are enough.
func TestIdeasFollowTheFigure(t *testing.T) {
	if raceDetector {
		t.Skip("asks the atlas many questions")
	}
	seen := map[string]bool{}
	for seed := range uint64(8) {
		f := build(t, closing.Question{Words: words("square", "rectangle", "rhombus"), Board: five, Items: 6, Seed: seed})
		for _, i := range f.A {
			for _, o := range i.Options {
				seen[fmt.Sprintf("%s %v %s", i.Word.ID, o.Right, o.Idea.ID)] = true
				p := shape.Read(o.Picture.Figure, shape.Definitions{}).Polygon
				if o.Right && o.Idea.ID == "idea.upright_only" && p.UprightSides() > 0 {
					t.Errorf("%s has upright sides", o.Picture.Figure)
				}
				if o.Right && o.Idea.ID == "idea.special_is_not_general" && p.BestName(shape.Definitions{}) == i.Word.Kind {
					t.Errorf("%s is nothing more special than %s", o.Picture.Figure, i.Word.ID)
				}
			}
		}
	}
	for _, want := range []string{"square true idea.upright_only", "rectangle true idea.special_is_not_general", "square false idea.equal_sides_are_enough"} {
		if !seen[want] {
			t.Errorf("never seen: %s", want)
		}
	}
}

// TestInclusionsBothWays: each square is a rectangle, not each rectangle is a
// square; over some seeds both are asked, and no other answer is given.
func TestInclusionsBothWays(t *testing.T) {
	if raceDetector {
		t.Skip("asks the atlas many questions")
	}
	asked := map[string]bool{}
	for seed := range uint64(12) {
		f := build(t, closing.Question{Words: words("square", "rectangle"), Board: five, Items: 8, Seed: seed})
		for _, i := range slices.Concat(f.A, f.B) {
			if i.Kind != closing.All {
				continue
			}
			key := i.First.ID + " " + i.Word.ID
			asked[key] = true
			if i.True != (key == "square rectangle") {
				t.Errorf("each %s is a %s: %v", i.First.ID, i.Word.ID, i.True)
			}
			want := "idea.general_is_special"
			if i.True {
				want = "idea.special_is_not_general"
			}
			if i.Idea.ID != want {
				t.Errorf("each %s is a %s: %s", i.First.ID, i.Word.ID, i.Idea.ID)
			}
		}
	}
	if len(asked) != 2 {
		t.Errorf("asked: %v", asked)
	}
}

// TestPromptsCanBeRead by children of grade 3.
func TestPromptsCanBeRead(t *testing.T) {
	var taught []string
	for _, w := range word.All() {
		text := w.Text("en", shape.Definitions{})
		taught = append(taught, text.Name, text.Plural)
	}
	for seed := range seeds(3) {
		for _, i := range build(t, quads(8, seed)).A {
			if prompt := i.Prompt("en", shape.Definitions{}); level.Grade(prompt, taught) > 3 {
				t.Errorf("grade %.1f: %q", level.Grade(prompt, taught), prompt)
			}
		}
	}
}

// TestOtherBoards: items are true on the triangle board and on the ring, where
// the second form has the same board.
func TestOtherBoards(t *testing.T) {
	for _, c := range []struct{ word, board string }{{"rhombus", "triangle:5"}, {"rectangle", "ring:12"}, {"triangle", "ring:8"}} {
		f := build(t, closing.Question{Words: words(c.word), Board: board.MustParse(c.board), Items: 5, Seed: 4})
		for _, i := range slices.Concat(f.A, f.B) {
			checkItem(t, i, shape.Definitions{})
		}
	}
}

func TestSecondFormHasANarrowerBoard(t *testing.T) {
	f := build(t, quads(8, 3))
	n := 0
	for i := range f.A {
		if f.A[i].Kind == closing.Make {
			n++
			if a, b := f.A[i].Asked.Board.String(), f.B[i].Asked.Board.String(); a != "square:5x5" || b != "square:4x5" {
				t.Errorf("made on %s and %s", a, b)
			}
		}
	}
	if n == 0 {
		t.Error("nothing to make")
	}
}

func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		build(b, quads(8, 21))
	}
}
