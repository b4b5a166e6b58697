package period

import (
	"slices"

	"pegwright/board"
	"pegwright/class"
	"pegwright/lesson/sorting"
)

// Cards is the state of a sort or a name step: the set as it was built, who has
// which form, the card at the front, and whether its answer is there.
type Cards struct {
	Words []string        `json:"words,omitempty"` // to sort by, one; or to match with
	A     []Card          `json:"a,omitempty"`
	B     []Card          `json:"b,omitempty"`     // the parallel form, if there is one
	Built int             `json:"built,omitempty"` // how often the set was built
	Forms map[string]Form `json:"forms,omitempty"`
	At    int             `json:"at"`
	Shown bool            `json:"shown,omitempty"`
}

// Card is a figure to sort, or to name by words.
type Card struct {
	ID        string       `json:"id"` // "a1": what class.Answer.Item says
	Board     string       `json:"board"`
	Figure    string       `json:"figure"`
	Role      sorting.Role `json:"role,omitempty"` // sort
	Belongs   bool         `json:"belongs,omitempty"`
	Lacks     string       `json:"lacks,omitempty"` // near misses: the one condition that fails
	Also      string       `json:"also,omitempty"`  // overlaps: the other word that is true
	FromClass bool         `json:"class,omitempty"`
	True      []string     `json:"true,omitempty"` // name: the words that are true
}

// Sort takes over sets to sort by one word, the second one as the parallel form;
// it may be without cards. The cards of a class say that they are, and not whose.
// Answers to the set before no longer count.
func (c Cards) Sort(a, b sorting.Set) Cards {
	out := Cards{Words: []string{a.Word.ID}, Built: c.Built + 1, Forms: c.Forms}
	out.A, out.B = sorted(FormA, a, out.Built), sorted(FormB, b, out.Built)
	return out
}

func sorted(f Form, set sorting.Set, built int) []Card {
	var out []Card
	for i, from := range set.Cards {
		c := Card{
			ID: f.name(i, built), Board: from.Polygon.Board().String(), Figure: from.Figure().String(),
			Role: from.Role, Belongs: from.Belongs(), Also: from.Also, FromClass: from.FromClass,
		}
		if from.Lacks != nil {
			c.Lacks = from.Lacks.String()
		}
		out = append(out, c)
	}
	return out
}

// Name takes over figures to match with words, the second list as the parallel
// form; it may be empty. Answers to the set before no longer count.
func (c Cards) Name(words []string, a, b []sorting.Match) Cards {
	out := Cards{Words: slices.Clone(words), Built: c.Built + 1, Forms: c.Forms}
	out.A, out.B = matched(FormA, a, out.Built), matched(FormB, b, out.Built)
	return out
}

func matched(f Form, matches []sorting.Match, built int) []Card {
	var out []Card
	for i, m := range matches {
		out = append(out, Card{
			ID: f.name(i, built), Board: m.Figure.Board.String(), Figure: m.Figure.String(), True: slices.Clone(m.True),
		})
	}
	return out
}

// Assign gives a form to every pupil who has none yet, neighbours different ones.
func (c Cards) Assign(pupils []class.Pupil) Cards {
	c.Forms = assign(c.Forms, pupils)
	return c
}

// Of returns the cards of a pupil.
func (c Cards) Of(pupilID string) []Card { return formOf(c.A, c.B, c.Forms, pupilID) }

// Card returns the card of an ID, and whether there is one.
func (c Cards) Card(id string) (Card, bool) {
	for _, one := range slices.Concat(c.A, c.B) {
		if one.ID == id {
			return one, true
		}
	}
	return Card{}, false
}

// Next shows the next card at the front, without its answer; the last one stays.
func (c Cards) Next() Cards { return c.GoTo(c.At + 1) }

// Previous shows the card before, without its answer.
func (c Cards) Previous() Cards { return c.GoTo(c.At - 1) }

// GoTo shows a card by its index in A, or the nearest one, without its answer.
func (c Cards) GoTo(at int) Cards {
	if at = clamp(at, len(c.A)); at != c.At {
		c.At, c.Shown = at, false
	}
	return c
}

// Show shows the answer of the card at the front.
func (c Cards) Show() Cards {
	c.Shown = len(c.A) > 0
	return c
}

// Read returns the figure of a card. The error is that of package board.
func (c Card) Read() (board.Figure, error) { return readFigure(c.Board, c.Figure) }

func readFigure(layout, figure string) (board.Figure, error) {
	b, err := board.Parse(layout)
	if err != nil {
		return board.Figure{}, err
	}
	return board.ParseFigure(b, figure)
}
