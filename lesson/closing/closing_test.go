package closing_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/lesson"
	"pegwright/lesson/closing"
	"pegwright/lesson/wording"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

var five = board.MustParse("square:5x5")

func words(ids ...string) []word.Word {
	var out []word.Word
	for _, id := range ids {
		out = append(out, word.MustFind(id))
	}
	return out
}

func build(t testing.TB, q closing.Question) closing.Forms {
	t.Helper()
	f, err := closing.Build(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// quads is a lesson whose words allow every kind of item.
func quads(items int, seed uint64) closing.Question {
	return closing.Question{
		Words: words("rectangle", "rhombus", "square"), Older: words("parallelogram", "parallel", "kite"),
		Board: five, Items: items, Seed: seed,
	}
}

// TestEveryItemIsProved: whatever the seed and the lesson, the kernel says the
// same as the key of each item, in both forms.
func TestEveryItemIsProved(t *testing.T) {
	for seed := range seeds(3) {
		f := build(t, quads(8, seed))
		for _, item := range slices.Concat(f.A, f.B) {
			checkItem(t, item, shape.Definitions{})
		}
	}
}

// seeds is how many seeds a test tries: one under the race detector.
func seeds(n uint64) uint64 {
	if testing.Short() || raceDetector {
		return 1
	}
	return n
}

// TestEveryLessonCloses: the close step of every built-in lesson gets its items.
func TestEveryLessonCloses(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("asks the atlas many questions")
	}
	for _, p := range lesson.Unit() {
		for _, s := range p.Steps {
			if s.Kind != lesson.Close {
				continue
			}
			f := build(t, closing.Question{Words: words(p.Words...), Older: words(p.Older...), Board: five, Items: s.Items, Seed: 1})
			if len(f.A) != s.Items || len(f.B) != s.Items {
				t.Errorf("%s: %d and %d items, want %d", p.Name, len(f.A), len(f.B), s.Items)
			}
			for _, item := range append(f.A, f.B...) {
				checkItem(t, item, shape.Definitions{})
			}
		}
	}
}

func checkItem(t *testing.T, i closing.Item, d shape.Definitions) {
	t.Helper()
	what := string(i.Kind) + " " + i.Word.ID
	switch i.Kind {
	case closing.Make:
		a, err := atlas.Find(context.Background(), atlas.Question{Board: i.Asked.Board, Conditions: i.Asked.Conditions, Definitions: d, Examples: 1})
		if err != nil || !a.Possible {
			t.Errorf("%s cannot be made on %s", what, i.Asked.Board)
		}
	case closing.Pick:
		right := 0
		for _, o := range i.Options {
			if i.Word.Holds(o.Picture, d) != o.Right {
				t.Errorf("%s: %s is marked %v", what, o.Picture.Figure, o.Right)
			}
			if o.Right {
				right++
			}
			checkMessage(t, what, o.Idea)
		}
		if right < 2 || right == len(i.Options) {
			t.Errorf("%s: %d of %d are right", what, right, len(i.Options))
		}
	case closing.Mend:
		v := i.Asked.Judge(i.Picture.Figure)
		if v.Standing == task.Fits || !oneMove(i.Asked, v.Reading.Polygon) {
			t.Errorf("%s: %s is %s and no move of one corner mends it", what, i.Picture.Figure, v.Standing)
		}
	case closing.Is:
		if i.Word.Holds(i.Picture, d) != i.True {
			t.Errorf("%s: %s is marked %v", what, i.Picture.Figure, i.True)
		}
		checkMessage(t, what, i.Idea)
	case closing.All:
		checkInclusion(t, i, d)
		checkMessage(t, what, i.Idea)
	}
}

func oneMove(asked task.Task, p *shape.Polygon) bool {
	for i := range p.Sides() {
		for peg := range board.Peg(p.Board().Pegs()) {
			corners := p.Corners()
			if slices.Contains(corners, peg) {
				continue
			}
			corners[i] = peg
			if asked.Judge(board.Figure{Board: p.Board(), Bands: [][]board.Peg{corners}}).Standing == task.Fits {
				return true
			}
		}
	}
	return false
}

// checkInclusion holds "each first is a second" against every figure of a board:
// if it is said to be true there is no other, if not its picture is one.
func checkInclusion(t *testing.T, i closing.Item, d shape.Definitions) {
	t.Helper()
	if !i.First.Holds(i.Picture, d) || i.Word.Holds(i.Picture, d) != i.True {
		t.Errorf("each %s is a %s: %s does not show it", i.First.ID, i.Word.ID, i.Picture.Figure)
	}
	if !i.True {
		return
	}
	not := task.Condition{Property: task.Kind, Comparison: task.NotEqual, Kind: i.Word.Kind}
	a, err := atlas.Find(context.Background(), atlas.Question{Board: five, Conditions: append(i.First.Conditions(), not), Definitions: d})
	if err != nil || a.Possible || !a.Complete {
		t.Errorf("each %s is a %s: not on %s", i.First.ID, i.Word.ID, five)
	}
}

func checkMessage(t *testing.T, what string, m wording.Message) {
	t.Helper()
	for _, language := range wording.Languages() {
		if text := wording.In(language).Say(m); text == "" || text[0] == '[' {
			t.Errorf("%s: %s has no message %q", what, language, m.ID)
		}
	}
}

// TestFormsTestTheSame: item by item, the same kind, word and key; what is shown
// differs, but for items that have a single version.
func TestFormsTestTheSame(t *testing.T) {
	differ, items := 0, 0
	for seed := range seeds(4) {
		f := build(t, quads(8, seed))
		for i := range f.A {
			a, b := f.A[i], f.B[i]
			if a.Kind != b.Kind || a.True != b.True || len(a.Options) != len(b.Options) || a.Kind != closing.All && a.Word.ID != b.Word.ID || a.Older != b.Older {
				t.Errorf("item %d: %s of %s and %s of %s", i+1, a.Kind, a.Word.ID, b.Kind, b.Word.ID)
			}
			if a.Kind == closing.Mend && !slices.Equal(a.Lacks.Texts(), b.Lacks.Texts()) {
				t.Errorf("item %d: to mend %v and %v", i+1, a.Lacks.Texts(), b.Lacks.Texts())
			}
			items++
			if !reflect.DeepEqual(a, b) {
				differ++
			}
		}
	}
	if differ*10 < items*9 {
		t.Errorf("%d of %d items differ between the forms", differ, items)
	}
}

// TestKindsTakeTurnsAndOlderWordsClose: all kinds in eight items, two older words
// at the end.
func TestKindsTakeTurnsAndOlderWordsClose(t *testing.T) {
	kinds := map[closing.Kind]bool{}
	f := build(t, quads(8, 3))
	for i, item := range f.A {
		kinds[item.Kind] = true
		if item.Older != (i >= 6) {
			t.Errorf("item %d: older %v", i+1, item.Older)
		}
	}
	if len(kinds) != 5 {
		t.Errorf("kinds: %v", kinds)
	}
}

func TestOneQuestionOneAnswer(t *testing.T) {
	a, b := build(t, quads(5, 9)), build(t, quads(5, 9))
	if !reflect.DeepEqual(prompts(a), prompts(b)) {
		t.Error("two answers to one question")
	}
	if c := build(t, quads(5, 10)); reflect.DeepEqual(prompts(a), prompts(c)) {
		t.Error("another seed, the same items")
	}
}

func prompts(f closing.Forms) []string {
	var out []string
	for _, i := range append(slices.Clone(f.A), f.B...) {
		line := i.Prompt("en", shape.Definitions{}) + " " + i.Picture.Figure.String()
		for _, o := range i.Options {
			line += " / " + o.Picture.Figure.String()
		}
		out = append(out, line)
	}
	return out
}

// TestPromptsAndReasonsInBothLanguages: nothing in brackets, no blank open, the
// word itself in it, and a reason for everything that is true or not.
func TestPromptsAndReasonsInBothLanguages(t *testing.T) {
	f := build(t, quads(8, 3))
	parts := build(t, closing.Question{Words: words("point", "diagonal", "vertex", "ray"), Board: five, Items: 8, Seed: 2})
	for _, language := range wording.Languages() {
		for _, i := range slices.Concat(f.A, parts.A, parts.B) {
			prompt := i.Prompt(language, shape.Definitions{})
			if strings.ContainsAny(prompt, "[{") || len(prompt) < 8 {
				t.Errorf("%s: %q", language, prompt)
			}
			because := i.Because(language, shape.Definitions{}, say.In(language).Condition)
			if strings.ContainsAny(because, "[{") || (i.Kind == closing.Is || i.Kind == closing.All) == (because == "") && i.Kind != closing.Mend {
				t.Errorf("%s: %s: because %q", language, prompt, because)
			}
		}
	}
}

// TestWordsThatNoPolygonDecides still make items: parallel lines, a diagonal, a
// point.
func TestWordsThatNoPolygonDecides(t *testing.T) {
	f := build(t, closing.Question{Words: words("point", "parallel", "diagonal", "right-angle"), Board: five, Items: 8})
	for _, item := range append(f.A, f.B...) {
		checkItem(t, item, shape.Definitions{})
	}
}

// TestDefinitionsDecide: in a class where a trapezoid has exactly one pair, not
// each parallelogram is one.
func TestDefinitionsDecide(t *testing.T) {
	narrow := shape.Definitions{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true}
	q := closing.Question{Words: words("trapezoid", "parallelogram", "kite"), Older: words("rhombus"), Board: five, Items: 8, Definitions: narrow}
	f := build(t, q)
	for _, item := range append(f.A, f.B...) {
		checkItem(t, item, narrow)
	}
}

func TestBuildRefuses(t *testing.T) {
	for _, q := range []closing.Question{{}, {Words: words("square"), Board: five, Items: 2}, {Words: words("square"), Board: five, Items: 9}, {Board: five, Items: 4}} {
		_, err := closing.Build(context.Background(), q)
		var bad *closing.CountError
		if !errors.As(err, &bad) || !strings.Contains(bad.Error(), "ask for 3 to 8") {
			t.Errorf("%d items over %d words: %v", q.Items, len(q.Words), err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := closing.Build(ctx, quads(4, 1)); !errors.Is(err, atlas.ErrStopped) {
		t.Errorf("stopped: %v", err)
	}
}

func TestMirrored(t *testing.T) {
	p := word.MustFind("ray").Show[1] // D5 B1, running on at B1
	m, ok := closing.Mirrored(p)
	if !ok || m.Figure.String() != "B5 D1" || five.Name(m.On[0]) != "D1" {
		t.Errorf("Mirrored = %s on %v, %v", m.Figure, m.On, ok)
	}
	if _, ok := closing.Mirrored(word.MustFind("point").Show[0]); ok {
		t.Error("the middle peg has a mirror image elsewhere")
	}
	for _, w := range word.All() {
		for _, p := range w.Show {
			if m, ok := closing.Mirrored(p); ok && !w.Holds(m, shape.Definitions{}) {
				t.Errorf("%s: the mirror image of %s lost the word", w.ID, p.Figure)
			}
		}
	}
}
