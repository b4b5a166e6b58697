package closing

import (
	"slices"

	"pegwright/atlas"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// allAre says that each of one kind is of another, this word with the words of
// the lesson and the older ones. What holds for every figure by the definitions
// is true; where the board has a figure that is of the one kind and not of the
// other, it is not, and that figure is the reason.
func (b *builder) allAre(w word.Word) (one, two Item, ok bool) {
	if w.Kind == "" || !w.OfPolygons() {
		return one, two, false
	}
	var items []Item
	for _, other := range mixed(slices.Concat(b.Words, b.Older), b.random) {
		for _, pair := range [][2]word.Word{{other, w}, {w, other}} {
			item, found := b.inclusion(pair[0], pair[1])
			if !found || len(items) == 1 && item.True != items[0].True {
				continue
			}
			if items = append(items, item); len(items) == 2 {
				return items[0], items[1], true
			}
		}
	}
	if len(items) == 1 {
		return items[0], items[0], true
	}
	return one, two, false
}

// inclusion makes an item "each first is a second". Kinds with different numbers
// of sides are too plain to ask about, and a kind is not asked about itself.
func (b *builder) inclusion(first, second word.Word) (Item, bool) {
	sides, known := shape.Named(first.Kind)
	other, also := shape.Named(second.Kind)
	if first.ID == second.ID || !known || !also || sides != other || sides == 0 || first.Kind == second.Kind {
		return Item{}, false
	}
	item := Item{Kind: All, Word: second, First: first, Idea: wording.Message{ID: "idea.looks_alike"}}
	if b.byDefinition(second, first) {
		item.Idea.ID = "idea.general_is_special"
	}
	not := task.Condition{Property: task.Kind, Comparison: task.NotEqual, Kind: second.Kind}
	a, err := atlas.Find(b.ctx, atlas.Question{Board: b.Board, Conditions: append(first.Conditions(), not), Definitions: b.Definitions, Examples: 1})
	switch {
	case err != nil:
		b.err = err
		return Item{}, false
	case a.Possible:
		item.Picture = word.Picture{Figure: a.Examples[0].Figure}
		item.Lacks, _ = b.lacks(second, item.Picture)
		return item, true
	case !a.Complete || !b.byDefinition(first, second):
		return Item{}, false // none on this board is no proof for all
	}
	examples := b.stockOf(first).members
	if len(examples) == 0 {
		return Item{}, false
	}
	item.True, item.Picture = true, examples[0]
	item.Idea = wording.Message{ID: "idea.special_is_not_general"}
	return item, true
}

// byDefinition reports whether the first kind is one of the second by its
// definition: the kernel lists it among the consequences, or the second asks
// for nothing but the number of sides, or for marks that follow. Where a class's
// narrower definitions undo that, the board has a figure that shows it.
func (b *builder) byDefinition(first, second word.Word) bool {
	if len(second.Conditions().Without(task.Sides)) == 0 {
		return true
	}
	is := task.Condition{Property: task.Kind, Comparison: task.Equal, Kind: first.Kind}
	listed := slices.ContainsFunc(task.Conditions{is}.Consequences(), func(c task.Condition) bool {
		return c.Property == task.Kind && c.Comparison == task.Equal && c.Kind == second.Kind
	})
	return listed || b.marksFollow(first, second)
}

// marksFollow reports whether every mark of the second kind is among the
// consequences of the first.
func (b *builder) marksFollow(first, second word.Word) bool {
	have := append(first.Conditions(), task.Condition{Property: task.Kind, Comparison: task.Equal, Kind: first.Kind}).Consequences().Texts()
	for _, mark := range second.Conditions().Texts() {
		if !slices.Contains(have, mark) {
			return false
		}
	}
	return true
}
