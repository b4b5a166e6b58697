package closing

import (
	"fmt"
	"slices"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/lesson/sorting"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// makeIt asks to make the word. The second form is on a board with one column
// more or fewer, where the layout allows it and the word can be made there, so
// that a neighbour's pegs cannot be copied one by one.
func (b *builder) makeIt(w word.Word) (one, two Item, ok bool) {
	cs := w.Conditions()
	if len(cs) == 0 {
		return one, two, false
	}
	item := func(on *board.Board) (Item, bool) {
		a, err := atlas.Find(b.ctx, atlas.Question{Board: on, Conditions: b.bounded(cs), Definitions: b.Definitions})
		if err != nil {
			b.err = err
		}
		return Item{Kind: Make, Word: w, Asked: task.Task{Board: on, Conditions: cs, Definitions: b.Definitions}}, a.Possible
	}
	if one, ok = item(b.Board); !ok {
		return one, two, false
	}
	if narrower, made := narrower(b.Board); made {
		if two, ok = item(narrower); ok {
			return one, two, true
		}
	}
	return one, one, true
}

// bounded keeps the search short for words that fix no number of sides.
func (b *builder) bounded(cs task.Conditions) task.Conditions {
	fixed := slices.ContainsFunc(cs.Consequences(), func(c task.Condition) bool { return c.Property == task.Sides && c.Comparison == task.Equal })
	if fixed || cs.AboutLines() {
		return cs
	}
	return append(slices.Clone(cs), mostSides)
}

// narrower returns a square board with one column fewer.
func narrower(b *board.Board) (*board.Board, bool) {
	if b.Kind() != board.Square || b.Columns() < 4 {
		return nil, false
	}
	out, err := board.Parse(fmt.Sprintf("square:%dx%d", b.Columns()-1, b.Rows()))
	return out, err == nil
}

// The number of right and wrong pictures to pick from.
const (
	rights = 3
	wrongs = 3
)

// pick asks to pick all that have the word: three do and three do not, each wrong
// one a near miss.
func (b *builder) pick(w word.Word) (one, two Item, ok bool) {
	s := b.stockOf(w)
	if len(s.members) == 0 || len(s.misses) == 0 {
		return one, two, false
	}
	item := func(form int) Item {
		i := Item{Kind: Pick, Word: w}
		for n := range min(rights, len(s.members)) {
			p := s.members[(form*rights+n)%len(s.members)]
			i.Options = append(i.Options, Option{Picture: p, Right: true, Idea: b.behindLeaving(w, p)})
		}
		for n := range min(wrongs, len(s.misses)) {
			p := s.misses[(form*wrongs+n)%len(s.misses)]
			i.Options = append(i.Options, Option{Picture: p, Idea: b.behindPicking(w, p)})
		}
		b.random.Shuffle(len(i.Options), func(x, y int) { i.Options[x], i.Options[y] = i.Options[y], i.Options[x] })
		return i
	}
	return item(0), item(1), true
}

// mend asks to move one corner of a figure that is one move away from the word.
func (b *builder) mend(w word.Word) (one, two Item, ok bool) {
	if !w.OfPolygons() {
		return one, two, false
	}
	s := b.stockOf(w)
	var items []Item
	for _, p := range s.misses {
		q := shape.Read(p.Figure, b.Definitions).Polygon
		if q == nil || !b.canMove(w, q) {
			continue
		}
		lacks := w.Lacks(q, b.Definitions)
		// Both forms lack the same marks, or the second tests something else.
		if len(items) == 1 && !slices.Equal(lacks.Texts(), items[0].Lacks.Texts()) {
			continue
		}
		items = append(items, Item{
			Kind: Mend, Word: w, Picture: p, Lacks: lacks,
			Asked: task.Task{Board: p.Figure.Board, Conditions: w.Conditions(), Definitions: b.Definitions},
		})
		if len(items) == 2 {
			return items[0], items[1], true
		}
	}
	return one, two, false
}

// canMove reports whether moving one corner of a polygon gives it the word.
func (b *builder) canMove(w word.Word, q *shape.Polygon) bool {
	found := false
	sorting.Moves(q, func(corners []board.Peg, _ int) {
		if found {
			return
		}
		if p, ok := shape.NewPolygon(q.Board(), corners); ok {
			found = len(w.Lacks(p, b.Definitions)) == 0
		}
	})
	return found
}

// isIt shows a figure and says that it has the word. Both forms are true, or
// both are not.
func (b *builder) isIt(w word.Word) (one, two Item, ok bool) {
	s := b.stockOf(w)
	from, right := s.misses, false
	if b.random.IntN(2) == 0 {
		from, right = s.members, true
	}
	if len(from) == 0 {
		return one, two, false
	}
	item := func(form int) Item {
		// From the other end than pick, so that one paper shows a figure once.
		p := from[len(from)-1-form%len(from)]
		i := Item{Kind: Is, Word: w, Picture: p, True: right}
		if right {
			i.Idea = b.behindLeaving(w, p)
			return i
		}
		i.Lacks, _ = b.lacks(w, p)
		i.Idea = b.behindPicking(w, p)
		return i
	}
	return item(0), item(1), true
}
