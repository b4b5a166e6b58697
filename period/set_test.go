package period_test

import (
	"testing"

	"pgregory.net/rapid"

	"pegwright/class"
	"pegwright/lesson/closing"
	"pegwright/lesson/sorting"
	"pegwright/period"
	"pegwright/shape"
	"pegwright/word"
)

func TestNeighboursHaveDifferentForms(t *testing.T) {
	c := period.Close{}.Take(items()).Assign(pupils("ann", "bob", "cem", "dee"))
	same(t, "forms", c.Forms, map[string]period.Form{"ann": "a", "bob": "b", "cem": "a", "dee": "b"})
	same(t, "ann's", c.Of("ann"), c.A)
	same(t, "bob's", c.Of("bob"), c.B)
	same(t, "somebody who came late", c.Of("zoe"), c.A)
	c.B = nil
	same(t, "only one form", c.Of("bob"), c.A)
}

// TestNobodysFormChanges when others come, and whoever comes between two has
// another one than the neighbour before.
func TestNobodysFormChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all, first []class.Pupil
		for i, here := range rapid.SliceOfN(rapid.Bool(), 1, 20).Draw(t, "here at first") {
			p := class.Pupil{ID: string(rune('a' + i)), Number: i}
			all = append(all, p)
			if here {
				first = append(first, p)
			}
		}
		before := period.Cards{}.Assign(first)
		after := before.Assign(all)
		for i, p := range all {
			form, had := before.Forms[p.ID]
			if had && after.Forms[p.ID] != form || !had && i > 0 && after.Forms[p.ID] == after.Forms[all[i-1].ID] {
				t.Fatalf("%v then %v", before.Forms, after.Forms)
			}
		}
		if len(before.Forms) != len(first) || len(after.Forms) != len(all) {
			t.Fatal("somebody has no form, or the map was shared")
		}
	})
}

func TestSortKeepsTheSet(t *testing.T) {
	set := rhombuses()
	c := period.Cards{}.Sort(set, sorting.Set{})
	same(t, "word", c.Words, []string{"rhombus"})
	same(t, "cards", len(c.A), len(set.Cards))
	for i, card := range c.A {
		from := set.Cards[i]
		f, err := card.Read()
		if err != nil || f.String() != from.Figure().String() || f.Board.String() != from.Polygon.Board().String() {
			t.Errorf("card %d: %v, %v", i, f, err)
		}
		if card.Belongs != from.Belongs() || card.Role != from.Role || card.Also != from.Also || (card.Lacks != "") != (from.Lacks != nil) {
			t.Errorf("card %d: %+v from %+v", i, card, from)
		}
		if found, ok := c.Card(card.ID); !ok || found.Figure != card.Figure {
			t.Errorf("card %s: %+v, %v", card.ID, found, ok)
		}
	}
	if _, ok := c.Card("b1"); ok {
		t.Error("a card of a form that is not there")
	}
	if _, err := (period.Card{Board: "nonsense"}).Read(); err == nil {
		t.Error("a card on no board was read")
	}
}

func TestNameKeepsTheFigures(t *testing.T) {
	m := matches()
	c := period.Cards{}.Name(kinds, m[:2], m[2:])
	same(t, "forms", []int{len(c.A), len(c.B)}, []int{2, len(m) - 2})
	card, ok := c.Card("b1")
	if !ok || card.Figure != m[2].Figure.String() {
		t.Errorf("b1: %+v, %v", card, ok)
	}
	same(t, "words", card.True, m[2].True)
}

func TestCardsAreShownOneByOne(t *testing.T) {
	c := period.Cards{}.Sort(rhombuses(), sorting.Set{})
	c = c.Next().Show()
	same(t, "the same card again keeps its answer", c.GoTo(1), c)
	same(t, "another one is shown without", c.Next().Shown, false)
	same(t, "the one before", c.Previous().At, 0)
	same(t, "the last", c.GoTo(99).At, len(c.A)-1)
	same(t, "nothing to show", period.Cards{}.Next().Show(), period.Cards{})
}

// TestKeptItemsAreTheSame: an item that was kept has the prompt, the figures, the
// ideas and the answers that it had.
func TestKeptItemsAreTheSame(t *testing.T) {
	d := shape.Definitions{}
	c := period.Close{}.Take(items())
	seen := map[closing.Kind]bool{}
	for _, form := range []struct {
		kept  []period.Item
		built []closing.Item
	}{{c.A, items().A}, {c.B, items().B}} {
		for i, item := range form.kept {
			want := form.built[i]
			seen[want.Kind] = true
			got, ok := item.Closing(d)
			if !ok {
				t.Fatalf("%s cannot be read: %+v", item.ID, item)
			}
			same(t, item.ID+" prompt", got.Prompt("es", d), want.Prompt("es", d))
			same(t, item.ID+" lacks", got.Lacks.Texts(), want.Lacks.Texts())
			same(t, item.ID+" conditions", got.Asked.Conditions.Texts(), want.Asked.Conditions.Texts())
			same(t, item.ID+" idea", got.Idea, want.Idea)
			same(t, item.ID+" rest", []any{got.Kind, got.True, got.Older, got.First.ID}, []any{want.Kind, want.True, want.Older, want.First.ID})
			same(t, item.ID+" options", len(got.Options), len(want.Options))
			for n, o := range want.Options {
				if got.Options[n].Right != o.Right || got.Options[n].Picture.Figure.String() != o.Picture.Figure.String() {
					t.Errorf("%s: option %d is %+v", item.ID, n, got.Options[n])
				}
				same(t, item.ID+" option's idea", got.Options[n].Idea, o.Idea)
				same(t, item.ID+" option's picture", got.Options[n].Picture.Line, o.Picture.Line)
				same(t, item.ID+" option's pegs", got.Options[n].Picture.Pegs, o.Picture.Pegs)
			}
			if found, place, ok := c.Item(item.ID); !ok || place != i || found.ID != item.ID {
				t.Errorf("Item(%s) = %v, %d, %v", item.ID, found.ID, place, ok)
			}
		}
	}
	if len(seen) < 4 {
		t.Errorf("only the kinds %v were tested", seen)
	}
}

// TestEveryPictureIsKept of every word, with what is meant in it.
func TestEveryPictureIsKept(t *testing.T) {
	for _, w := range word.All() {
		item := closing.Item{Kind: closing.Pick, Word: w}
		for _, p := range w.Show {
			item.Options = append(item.Options, closing.Option{Picture: p, Right: true})
		}
		for _, n := range w.Not {
			item.Options = append(item.Options, closing.Option{Picture: n.Picture})
		}
		got, ok := (period.Close{}).Take(closing.Forms{A: []closing.Item{item}}).A[0].Closing(defs)
		if !ok {
			t.Errorf("%s cannot be read", w.ID)
			continue
		}
		for i, o := range got.Options {
			want := item.Options[i]
			if w.Holds(o.Picture, defs) != want.Right || o.Picture.Figure.String() != want.Picture.Figure.String() {
				t.Errorf("%s: option %d is %+v", w.ID, i, o)
			}
			same(t, w.ID+": line", o.Picture.Line, want.Picture.Line)
			same(t, w.ID+": pegs", o.Picture.Pegs, want.Picture.Pegs)
			same(t, w.ID+": ends", o.Picture.On, want.Picture.On)
		}
	}
}

// TestAnotherSetHasOtherNames, so that answers to the one before do not count, and
// everybody keeps the form.
func TestAnotherSetHasOtherNames(t *testing.T) {
	class := pupils("ann", "bob")
	c := period.Close{}.Take(items()).Assign(class).Take(items())
	same(t, "names", []string{c.A[0].ID, c.B[7].ID}, []string{"a1.2", "b8.2"})
	same(t, "forms", c.Forms, map[string]period.Form{"ann": "a", "bob": "b"})
	same(t, "answered", c.Results(gave("ann a1 +", "bob b1.2 +"), class)[0].Right, []string{"bob"})
	cards := period.Cards{}.Sort(rhombuses(), sorting.Set{}).Assign(class).Name(kinds, matches(), nil)
	same(t, "cards", cards.A[0].ID, "a1.2")
	same(t, "forms of cards", len(cards.Forms), 2)
}

func TestItemsThatCannotBeRead(t *testing.T) {
	bad := &period.Picture{Board: "square:3x3", Figure: "A1 B2 Z9"}
	pegs := &period.Picture{Board: "square:3x3", Figure: "A1 B2 C1", Pegs: []string{"Z9"}}
	for name, item := range map[string]period.Item{
		"a word that is gone":     {Word: "squircle"},
		"another that is gone":    {Word: "square", First: "squircle"},
		"a board that is none":    {Word: "square", Board: "oval:3"},
		"a condition that is odd": {Word: "square", Board: "ring:8", Conditions: []string{"sides=many"}},
		"a mark that is odd":      {Word: "square", Lacks: []string{"many"}},
		"a figure off the board":  {Word: "square", Picture: bad},
		"a peg off the board":     {Word: "square", Picture: pegs},
		"an option off the board": {Word: "square", Options: []period.Option{{Picture: *bad}}},
	} {
		if _, ok := item.Closing(shape.Definitions{}); ok {
			t.Errorf("%s was read", name)
		}
		if j := item.Judge(period.Reply{}, shape.Definitions{}); j.Right && len(item.Options) == 0 {
			t.Errorf("%s was answered rightly", name)
		}
	}
}

func TestCloseGoesItemByItem(t *testing.T) {
	c := period.Close{}.Take(items())
	same(t, "places", []int{c.Previous().At, c.Next().At, c.GoTo(99).Next().At}, []int{0, 1, 7})
	same(t, "shown", []bool{c.Shown, c.Show().Shown, period.Close{}.Show().Shown}, []bool{false, true, false})
	if _, _, ok := c.Item("c1"); ok {
		t.Error("an item of no form")
	}
}
