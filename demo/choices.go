package demo

import (
	"context"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"time"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/class"
	"pegwright/task"
)

// Choices are the figures that pupils may think of for one task. They are
// looked for in the atlas once for the whole class.
type Choices struct {
	asked task.Task

	mu    sync.Mutex
	found map[string][]atlas.Example
}

// The bounds of the search: as many figures as a class has ideas, no more sides
// than a child has patience for where the task does not say how many, and on
// larger boards first a part that can be searched whole.
const (
	ideas    = 60
	patience = 6
	limit    = 2 * time.Second
)

// NewChoices makes the choices for a task as it was set.
func NewChoices(t class.Task) (*Choices, error) {
	asked, err := t.Asked()
	if err != nil {
		return nil, err
	}
	return &Choices{asked: asked, found: map[string][]atlas.Example{}}, nil
}

// of returns figures that meet conditions, in the order of the atlas.
func (c *Choices) of(cs task.Conditions) []atlas.Example {
	c.mu.Lock()
	defer c.mu.Unlock()
	key := strings.Join(cs.Texts(), ";")
	if found, ok := c.found[key]; ok {
		return found
	}
	found := c.find(cs)
	c.found[key] = found
	return found
}

// find asks the atlas: of a part of the board that it can search whole, then of
// the board.
func (c *Choices) find(cs task.Conditions) []atlas.Example {
	if small := c.asked.Board.Part(atlas.CompletePegs); small != nil {
		if found := c.search(small, cs); len(found) > 0 {
			return c.widen(small, found)
		}
	}
	return c.search(c.asked.Board, cs)
}

func (c *Choices) search(b *board.Board, cs task.Conditions) []atlas.Example {
	q := atlas.Question{Board: b, Conditions: bounded(cs), Definitions: c.asked.Definitions, Examples: ideas, Limit: limit}
	a, err := atlas.Find(context.Background(), q)
	if err == nil && !a.Possible && len(q.Conditions) > len(cs) {
		q.Conditions = cs
		a, err = atlas.Find(context.Background(), q)
	}
	if err != nil {
		return nil
	}
	return a.Examples
}

// bounded adds a bound on the sides where the conditions leave them open.
func bounded(cs task.Conditions) task.Conditions {
	if cs.AboutLines() || slices.ContainsFunc(cs.Consequences(), func(c task.Condition) bool { return c.Property == task.Sides && c.Comparison != task.AtLeast }) {
		return cs
	}
	return also(cs, task.Condition{Property: task.Sides, Comparison: task.AtMost, Count: patience})
}

// widen brings figures of a part of the board onto the board.
func (c *Choices) widen(small *board.Board, found []atlas.Example) []atlas.Example {
	out := slices.Clone(found)
	for i, e := range out {
		bands := make([][]board.Peg, len(e.Figure.Bands))
		for j, band := range e.Figure.Bands {
			bands[j] = c.asked.Board.Widen(small, band)
		}
		if f, err := board.NewFigure(c.asked.Board, bands); err == nil {
			out[i].Figure = f
		}
	}
	return out
}

// First returns the figure that a character makes at first. Beside is the
// figure on the neighbour's board, as text, "" for none. It is always a figure
// on the task's board.
func (c *Choices) First(who Character, random *rand.Rand, beside string) board.Figure {
	if who == Copier && beside != "" {
		if f, err := board.ParseFigure(c.asked.Board, beside); err == nil {
			return f
		}
	}
	for _, cs := range who.asks(c.asked) {
		if found := c.of(cs); len(found) > 0 {
			return who.pick(c, found, random)
		}
	}
	return c.fallback(random)
}

// fallback is what is made of a task that cannot be done: a triangle.
func (c *Choices) fallback(random *rand.Rand) board.Figure {
	found := c.of(task.Conditions{{Property: task.Sides, Comparison: task.Equal, Count: 3}})
	if len(found) == 0 {
		return board.Figure{Board: c.asked.Board}
	}
	return found[random.IntN(len(found))].Figure
}

// Again returns the figure of a second go after one that did not fit: the
// smallest change that mends it, or else another one that fits. There is none
// after a figure that fits, nor where nothing does.
func (c *Choices) Again(f board.Figure, random *rand.Rand) (board.Figure, bool) {
	v := c.asked.Judge(f)
	if v.Standing == task.Fits {
		return f, false
	}
	if v.Hint != nil {
		return v.Hint.Change.After, true
	}
	found := c.of(c.asked.Conditions)
	if len(found) == 0 {
		return f, false
	}
	return found[random.IntN(len(found))].Figure, true
}

// Another returns a figure that fits and is none of those made before.
func (c *Choices) Another(made []string, random *rand.Rand) (board.Figure, bool) {
	found := c.of(c.asked.Conditions)
	for _, i := range random.Perm(len(found)) {
		if f := found[i].Figure; !slices.Contains(made, f.String()) {
			return f, true
		}
	}
	return board.Figure{}, false
}

// slips is how often a slip of one corner is tried before it is given up.
const slips = 40

// slip returns a figure with one corner on a wrong peg, so that moving it back
// would mend it; the figure itself when none is found.
func (c *Choices) slip(f board.Figure, random *rand.Rand) board.Figure {
	if len(f.Bands) != 1 {
		return f
	}
	for range slips {
		band := slices.Clone(f.Bands[0])
		band[random.IntN(len(band))] = board.Peg(random.IntN(c.asked.Board.Pegs()))
		wrong, err := board.NewFigure(c.asked.Board, [][]board.Peg{band})
		if err != nil {
			continue
		}
		if v := c.asked.Judge(wrong); v.Standing == task.Nearly {
			return wrong
		}
	}
	return f
}

// also returns conditions with more, those that the words contradict left as
// they are for the atlas to find nothing.
func also(cs task.Conditions, more ...task.Condition) task.Conditions {
	return append(slices.Clone(cs), more...)
}
