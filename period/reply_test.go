package period_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/lesson/closing"
	"pegwright/lesson/sorting"
	"pegwright/lesson/wording"
	"pegwright/period"
	"pegwright/shape"
	"pegwright/task"
)

var defs = shape.Definitions{}

func right(idea ...period.Idea) period.Judgement {
	if len(idea) > 0 {
		return period.Judgement{Idea: idea[0]}
	}
	return period.Judgement{Right: true}
}

func TestReplyRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := period.Reply{
			Figure: rapid.StringMatching(`[A-E][1-5]( [A-E][1-5])*`).Draw(t, "figure"),
			Picks:  rapid.SliceOfN(rapid.IntRange(0, 5), 1, 6).Draw(t, "picks"),
			Words:  rapid.SliceOfN(rapid.SampledFrom(kinds), 1, 3).Draw(t, "words"),
			Sides:  rapid.IntRange(0, 12).Draw(t, "sides"),
			Why:    rapid.StringN(0, 90, 300).Draw(t, "why"),
			Yes:    rapid.Ptr(rapid.Bool(), true).Draw(t, "yes"),
		}
		got, err := period.ParseReply(r.String())
		if err != nil || got.String() != r.String() {
			t.Fatalf("%s: %s, %v", r, got, err)
		}
	})
}

func TestReplyIsRefused(t *testing.T) {
	for name, text := range map[string]string{
		"no JSON":      `yes`,
		"another kind": `{"picks":"all"}`,
		"too long":     `{"why":"` + strings.Repeat("x", period.MaxReply) + `"}`,
	} {
		if _, err := period.ParseReply(text); err == nil || !strings.HasPrefix(err.Error(), "this answer cannot be read") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// answers returns a right and some wrong replies to an item.
func answers(t *testing.T, i period.Item) (good period.Reply, bad []period.Reply) {
	item, ok := i.Closing(defs)
	if !ok {
		t.Fatalf("%+v", i)
	}
	switch i.Kind {
	case closing.Make:
		a, err := atlas.Find(t.Context(), atlas.Question{Board: item.Asked.Board, Conditions: item.Asked.Conditions, Examples: 1})
		if err != nil || len(a.Examples) == 0 {
			t.Fatal(err)
		}
		return period.Reply{Figure: a.Examples[0].Figure.String()}, []period.Reply{{Figure: "A1 B1"}, {Figure: "A1 Z9"}, {}}
	case closing.Mend:
		before := shape.Read(item.Picture.Figure, defs).Polygon
		sorting.Moves(before, func(corners []board.Peg, _ int) {
			if p, ok := shape.NewPolygon(before.Board(), corners); ok && len(item.Word.Lacks(p, defs)) == 0 {
				good.Figure = board.Figure{Board: p.Board(), Bands: [][]board.Peg{p.Corners()}}.String()
			}
		})
		return good, []period.Reply{{Figure: item.Picture.Figure.String()}}
	case closing.Pick:
		for n, o := range item.Options {
			if o.Right {
				good.Picks = append(good.Picks, n)
			}
		}
		return good, []period.Reply{{}, {Picks: []int{0, 1, 2, 3, 4, 5}}, {Picks: good.Picks[1:]}}
	}
	return period.Yes(i.True), []period.Reply{period.Yes(!i.True)}
}

// TestEveryItemIsJudged: the right reply is right, the wrong ones are wrong, and
// where an idea stands behind one it is a sentence in both languages.
func TestEveryItemIsJudged(t *testing.T) {
	c := period.Close{}.Take(items())
	for _, i := range slices.Concat(c.A, c.B) {
		good, bad := answers(t, i)
		if j := i.Judge(good, defs); !j.Right || j.Idea != "" {
			t.Errorf("%s (%s %s): %s is %+v", i.ID, i.Kind, i.Word, good, j)
		}
		for _, r := range bad {
			j := i.Judge(r, defs)
			if j.Right || j.Idea == "" && i.Kind != closing.Make && i.Kind != closing.Mend {
				t.Errorf("%s (%s %s): %s is %+v", i.ID, i.Kind, i.Word, r, j)
			}
			wellSaid(t, j.Idea)
		}
		if j := i.Judge(period.Reply{}, defs); j.Right {
			t.Errorf("%s: no answer is right", i.ID)
		}
	}
}

func wellSaid(t *testing.T, idea period.Idea) {
	t.Helper()
	for _, language := range wording.Languages() {
		if said := wording.In(language).Say(idea.Message()); idea != "" && (strings.Contains(said, "[") || strings.Contains(said, "<no value>")) {
			t.Errorf("%s in %s: %s", idea, language, said)
		}
	}
}

// TestEveryRuleHasASentence, but for those that say nothing about a word.
func TestEveryRuleHasASentence(t *testing.T) {
	for _, rule := range task.Rules() {
		if rule != task.NotClosed && rule != task.CrossesItself {
			wellSaid(t, period.Idea("idea."+strings.ReplaceAll(string(rule), " ", "_")))
		}
	}
}

// TestIdeasOfTheKernel: what a made figure shows is named as the kernel names it.
func TestIdeasOfTheKernel(t *testing.T) {
	i := period.Item{Kind: closing.Make, Word: "hexagon", Board: "square:5x5", Conditions: []string{"sides=6"}}
	for figure, want := range map[string]period.Idea{
		"A1 C1 A3":             "idea.counted_pegs",
		"A2 B1 D1 E2 D4 B4 A3": "idea.neighbouring_name",
		"A1 C1":                "",
		"A1 C1 / C1 C3":        "", // open: that says nothing about hexagons
	} {
		if got := i.Judge(period.Reply{Figure: figure}, defs); got != right(want) {
			t.Errorf("%s: %+v, want %q", figure, got, want)
		}
	}
	sort := period.Card{Board: "square:5x5", Figure: "A1 D1 E3 B3", Lacks: "equilateral=yes"}
	if got := sort.JudgeSort("rhombus", period.Yes(true), defs); got.Idea == "" {
		t.Error("a parallelogram taken for a rhombus shows nothing")
	}
	belongs := period.Card{Board: "square:5x5", Figure: "A1 C1 C3 A3"}
	same(t, "a word without marks on a figure that has it", belongs.JudgeSort("square", period.Yes(true), defs), period.Judgement{})
}

func TestMendingMovesOneCorner(t *testing.T) {
	i := period.Item{
		Kind: closing.Mend, Word: "square", Board: "square:5x5", Conditions: []string{"kind=square"},
		Picture: &period.Picture{Board: "square:5x5", Figure: "A1 C1 C3 A4"},
	}
	for figure, want := range map[string]period.Judgement{
		"A1 C1 C3 A3": right(),
		"C3 A3 A1 C1": right(),
		"B1 D1 D3 B3": {}, // a square, but every corner was moved
		"A1 C1 C3 A4": {},
	} {
		if got := i.Judge(period.Reply{Figure: figure}, defs); got != want {
			t.Errorf("%s: %+v, want %+v", figure, got, want)
		}
	}
}

func TestPicking(t *testing.T) {
	i := period.Item{Kind: closing.Pick, Options: []period.Option{
		{Right: true, Idea: "left 0"},
		{Idea: "taken 1"},
		{Right: true, Idea: "left 2"},
		{Idea: "taken 3"},
	}}
	for _, c := range []struct {
		picks []int
		want  period.Judgement
	}{
		{[]int{0, 2}, right()},
		{[]int{2, 0, 0, 77}, right()},
		{nil, right("left 0")},
		{[]int{0}, right("left 2")},
		{[]int{0, 1, 2, 3}, right("taken 1")},
		{[]int{3}, right("taken 3")},
	} {
		if got := i.Judge(period.Reply{Picks: c.picks}, defs); got != c.want {
			t.Errorf("%v: %+v, want %+v", c.picks, got, c.want)
		}
	}
}

func TestSorting(t *testing.T) {
	card := func(figure string, role sorting.Role) period.Card {
		return period.Card{Board: "square:5x5", Figure: figure, Role: role, Belongs: role != sorting.NearMiss}
	}
	for _, c := range []struct {
		name string
		card period.Card
		said period.Reply
		want period.Judgement
	}{
		{"it belongs", card("A1 C1 C3 A3", sorting.Usual), period.Yes(true), right()},
		{"it does not", card("A1 D1 D2 A2", sorting.NearMiss), period.Yes(false), right()},
		{"nothing said", card("A1 C1 C3 A3", sorting.Usual), period.Reply{}, period.Judgement{}},
		{"a square is no rhombus", card("A1 C1 C3 A3", sorting.Overlap), period.Yes(false), right("idea.special_is_not_general")},
		{"nothing is upright", card("A3 B5 C3 B1", sorting.Turned), period.Yes(false), right("idea.upright_only")},
		{"a plain one refused", card("A1 C1 C3 A3", sorting.Usual), period.Yes(false), period.Judgement{}},
		{"it has a dent", card("A1 C5 E1 C2", sorting.Turned), period.Yes(false), right("idea.convex_only")},
		{"a mark left out", card("A1 E1 E2 A2", sorting.NearMiss), period.Yes(true), right("idea.leaves_out_a_mark?Mark=equilateral%3Dyes")},
		{"it cannot be read", card("Z9", sorting.NearMiss), period.Yes(true), period.Judgement{}},
		{"it is no polygon", card("A1 B1", sorting.Usual), period.Yes(false), period.Judgement{}},
	} {
		if got := c.card.JudgeSort("rhombus", c.said, defs); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
		wellSaid(t, c.want.Idea)
	}
}

// TestTheWholeSetIsJudged: what the set says is right, the other way is wrong.
func TestTheWholeSetIsJudged(t *testing.T) {
	for _, card := range (period.Cards{}).Sort(rhombuses(), sorting.Set{}).A {
		yes, no := card.JudgeSort("rhombus", period.Yes(card.Belongs), defs), card.JudgeSort("rhombus", period.Yes(!card.Belongs), defs)
		if !yes.Right || no.Right || card.Role == sorting.NearMiss && no.Idea == "" {
			t.Errorf("%+v: %+v, %+v", card, yes, no)
		}
		wellSaid(t, no.Idea)
	}
}

func TestNaming(t *testing.T) {
	square := period.Card{Board: "square:5x5", Figure: "A1 C1 C3 A3", True: kinds}
	rectangle := period.Card{Board: "square:5x5", Figure: "A1 D1 D2 A2", True: []string{"rectangle"}}
	for _, c := range []struct {
		name string
		card period.Card
		said []string
		want period.Judgement
	}{
		{"all", square, []string{"rhombus", "square", "rectangle"}, right()},
		{"a word that was not asked", rectangle, []string{"rectangle", "kite"}, right()},
		{"none", square, nil, period.Judgement{}},
		{"a square is only a square", square, []string{"square"}, right("idea.special_is_not_general")},
		{"a rectangle is a rhombus", rectangle, kinds[1:], right("idea.leaves_out_a_mark?Mark=equilateral%3Dyes")},
		{"it cannot be read", period.Card{}, kinds, period.Judgement{}},
	} {
		if got := c.card.JudgeName(kinds, period.Reply{Words: c.said}, defs); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
		wellSaid(t, c.want.Idea)
	}
}

func TestPartnerCheck(t *testing.T) {
	no := period.Yes(false)
	for _, c := range []struct {
		name, figure string
		said         period.Reply
		want         period.Judgement
	}{
		{"counted", "A1 C1 A3", period.Reply{Sides: 3}, right()},
		{"counted and named", "A1 C1 A3", period.Reply{Sides: 3, Words: []string{"triangle", "right-triangle"}}, right()},
		{"pegs were counted", "A1 C1 A3", period.Reply{Sides: 6}, right("idea.counted_pegs")},
		{"miscounted", "A1 C1 A3", period.Reply{Sides: 4}, period.Judgement{}},
		{"nothing said", "A1 C1 A3", period.Reply{}, period.Judgement{}},
		{"another name", "A1 C1 A3", period.Reply{Sides: 3, Words: []string{"quadrilateral"}}, period.Judgement{}},
		{"a name that is close", "A2 B1 C1 D2 C3 B3", period.Reply{Sides: 6, Words: []string{"heptagon"}}, right("idea.neighbouring_name")},
		{"a name of lines", "A1 C1 A3", period.Reply{Sides: 3, Words: []string{"diagonal"}}, period.Judgement{}},
		{"no polygon", "A1 C1", no, right()},
		{"no polygon, and it was counted", "A1 C1", period.Reply{Sides: 2}, period.Judgement{}},
		{"called no polygon", "A1 C1 A3", no, period.Judgement{}},
	} {
		f := board.MustParseFigure(board.MustParse("square:5x5"), c.figure)
		if got := period.Check(f, c.said, defs); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
		wellSaid(t, c.want.Idea)
	}
}

func TestIdeaIsAMessage(t *testing.T) {
	for _, c := range []struct {
		idea period.Idea
		want wording.Message
	}{
		{"", wording.Message{}},
		{"idea.upright_only", wording.Message{ID: "idea.upright_only"}},
		{"idea.leaves_out_a_mark?Mark=sides%3D4", wording.Message{ID: "idea.leaves_out_a_mark", Fill: map[string]string{"Mark": "sides=4"}}},
		{"idea.x?%zz", wording.Message{ID: "idea.x"}},
	} {
		same(t, string(c.idea), c.idea.Message(), c.want)
	}
}
