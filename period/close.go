package period

import (
	"slices"

	"pegwright/board"
	"pegwright/class"
	"pegwright/lesson/closing"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// Close is the state of a close step: the items as they were built, who has
// which form, which item the class is at, and whether the teacher has given the
// answers.
type Close struct {
	A     []Item          `json:"a,omitempty"`
	B     []Item          `json:"b,omitempty"`
	Built int             `json:"built,omitempty"` // how often the items were built
	Forms map[string]Form `json:"forms,omitempty"`
	At    int             `json:"at"`
	Shown bool            `json:"shown,omitempty"`
}

// Item is a closing.Item that can be kept. It holds all that decides its answer,
// so that it stays the same when the program learns to build others.
type Item struct {
	ID         string       `json:"id"` // "a1": what class.Answer.Item says
	Kind       closing.Kind `json:"kind"`
	Word       string       `json:"word"`
	First      string       `json:"first,omitempty"`
	Board      string       `json:"board,omitempty"` // make, mend: of the task
	Conditions []string     `json:"conditions,omitempty"`
	Picture    *Picture     `json:"picture,omitempty"`
	Options    []Option     `json:"options,omitempty"`
	True       bool         `json:"true,omitempty"`
	Lacks      []string     `json:"lacks,omitempty"`
	Idea       Idea         `json:"idea,omitempty"`
	Older      bool         `json:"older,omitempty"`
}

// Option is a picture to pick or leave.
type Option struct {
	Picture Picture `json:"picture"`
	Right   bool    `json:"right,omitempty"`
	Idea    Idea    `json:"idea,omitempty"`
}

// Picture is a word.Picture that can be kept.
type Picture struct {
	Board  string   `json:"board"`
	Figure string   `json:"figure"`
	Pegs   []string `json:"pegs,omitempty"`
	Line   []string `json:"line,omitempty"` // its two ends
	On     []string `json:"on,omitempty"`
}

// Take takes over items in two forms. Answers to the items before no longer count.
func (c Close) Take(f closing.Forms) Close {
	built := c.Built + 1
	return Close{A: kept(FormA, f.A, built), B: kept(FormB, f.B, built), Built: built, Forms: c.Forms}
}

func kept(f Form, items []closing.Item, built int) []Item {
	var out []Item
	for i, from := range items {
		item := keepItem(from)
		item.ID = f.name(i, built)
		out = append(out, item)
	}
	return out
}

func keepItem(from closing.Item) Item {
	item := Item{
		Kind: from.Kind, Word: from.Word.ID, First: from.First.ID, True: from.True,
		Lacks: from.Lacks.Texts(), Idea: ideaOf(from.Idea), Older: from.Older,
	}
	if from.Asked.Board != nil {
		item.Board, item.Conditions = from.Asked.Board.String(), from.Asked.Conditions.Texts()
	}
	if from.Picture.Figure.Board != nil {
		p := keepPicture(from.Picture)
		item.Picture = &p
	}
	for _, o := range from.Options {
		item.Options = append(item.Options, Option{keepPicture(o.Picture), o.Right, ideaOf(o.Idea)})
	}
	return item
}

func keepPicture(p word.Picture) Picture {
	b := p.Figure.Board
	out := Picture{Board: b.String(), Figure: p.Figure.String(), Pegs: b.Names(p.Pegs), On: b.Names(p.On)}
	if p.Line != nil {
		out.Line = []string{b.Name(p.Line.From), b.Name(p.Line.To)}
	}
	return out
}

// Assign gives a form to every pupil who has none yet, neighbours different ones.
func (c Close) Assign(pupils []class.Pupil) Close {
	c.Forms = assign(c.Forms, pupils)
	return c
}

// Of returns the items of a pupil.
func (c Close) Of(pupilID string) []Item { return formOf(c.A, c.B, c.Forms, pupilID) }

// Item returns the item of an ID and its place from 0, the same in both forms,
// and whether there is one.
func (c Close) Item(id string) (item Item, place int, ok bool) {
	for _, items := range [][]Item{c.A, c.B} {
		if i := slices.IndexFunc(items, func(one Item) bool { return one.ID == id }); i >= 0 {
			return items[i], i, true
		}
	}
	return Item{}, 0, false
}

// Next goes to the next item; the last one stays.
func (c Close) Next() Close { return c.GoTo(c.At + 1) }

// Previous goes to the item before.
func (c Close) Previous() Close { return c.GoTo(c.At - 1) }

// GoTo goes to an item by its place, or the nearest one.
func (c Close) GoTo(at int) Close {
	c.At = clamp(at, len(c.A))
	return c
}

// Show gives the answers.
func (c Close) Show() Close {
	c.Shown = len(c.A) > 0
	return c
}

// Closing returns the item as package closing has it, for its prompt and its
// reason, and false when its word is no longer in the vocabulary or a figure
// cannot be read.
func (i Item) Closing(d shape.Definitions) (closing.Item, bool) {
	w, ok := word.Find(i.Word)
	first, known := word.Find(i.First)
	asked, err := i.asked(d)
	lacks, err2 := task.Parse(i.Lacks)
	if !ok || !known && i.First != "" || err != nil || err2 != nil {
		return closing.Item{}, false
	}
	out := closing.Item{
		Kind: i.Kind, Word: w, First: first, Asked: asked, True: i.True,
		Lacks: lacks, Idea: i.Idea.Message(), Older: i.Older,
	}
	if i.Picture != nil {
		if out.Picture, ok = i.Picture.Read(); !ok {
			return closing.Item{}, false
		}
	}
	for _, o := range i.Options {
		p, ok := o.Picture.Read()
		if !ok {
			return closing.Item{}, false
		}
		out.Options = append(out.Options, closing.Option{Picture: p, Right: o.Right, Idea: o.Idea.Message()})
	}
	return out, true
}

// asked returns the task of an item to make or mend, a zero one for others.
func (i Item) asked(d shape.Definitions) (task.Task, error) {
	if i.Board == "" {
		return task.Task{}, nil
	}
	b, err := board.Parse(i.Board)
	if err != nil {
		return task.Task{}, err
	}
	cs, err := task.Parse(i.Conditions)
	return task.Task{Board: b, Conditions: cs, Definitions: d}, err
}

// Read returns the picture, and whether it can be read.
func (p Picture) Read() (word.Picture, bool) {
	f, err := readFigure(p.Board, p.Figure)
	if err != nil {
		return word.Picture{}, false
	}
	pegs, ok := pegsOf(f.Board, p.Pegs)
	on, ok2 := pegsOf(f.Board, p.On)
	line, ok3 := pegsOf(f.Board, p.Line)
	out := word.Picture{Figure: f, Pegs: pegs, On: on}
	if len(line) == 2 {
		out.Line = &board.Segment{From: line[0], To: line[1]}
	}
	return out, ok && ok2 && ok3
}

func pegsOf(b *board.Board, names []string) ([]board.Peg, bool) {
	var out []board.Peg
	for _, name := range names {
		peg, ok := b.Peg(name)
		if !ok {
			return nil, false
		}
		out = append(out, peg)
	}
	return out, true
}
