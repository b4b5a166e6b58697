// Package lesson holds plans: what a teacher does in one period, step by step
// with minutes, as a file that can be read and edited by hand, and the eight
// built-in lessons that make a unit.
//
// A plan says what is asked; whether a board can answer it is proved by Prove,
// from the atlas. Choosing boards to talk about, figures to sort and items to
// close with are the rooms below: gathering, sorting, closing. Start reading at
// Plan, then at Parse.
package lesson

import (
	"slices"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// Plan is a lesson.
type Plan struct {
	Name  string // of its file, without the ending
	Title Text
	Aim   Text
	Words []string // ids of the words that it teaches
	Older []string // ids of words of earlier lessons that it comes back to
	Steps []Step
}

// Text is something said in one or two languages. ES is empty where a teacher
// wrote one text for every language.
type Text struct{ EN, ES string }

// In returns the text in a language, or the only one there is.
func (t Text) In(language string) string {
	if language == "es" && t.ES != "" {
		return t.ES
	}
	return t.EN
}

// Kind is the kind of a step.
type Kind string

// The kinds of steps.
const (
	Recall Kind = "recall" // words called, actions made, standing or seated
	Teach  Kind = "teach"  // words with pictures, examples and non-examples
	Make   Kind = "make"   // tasks on the boards
	Gather Kind = "gather" // boards chosen to talk about
	Sort   Kind = "sort"   // figures that belong to a word and figures that do not
	Naming Kind = "name"   // figures with all the words that are true of them
	Close  Kind = "close"  // quick items without feedback
	Note   Kind = "note"   // materials and cautions, for the teacher
)

// Kinds lists the kinds of steps.
func Kinds() []Kind { return []Kind{Recall, Teach, Make, Gather, Sort, Naming, Close, Note} }

// Step is one part of a plan.
type Step struct {
	Kind    Kind
	Minutes int
	Say     Text     // what the teacher says or has in mind
	Words   []string // recall, teach, name; one word for sort
	Tasks   []Task   // make
	Of      int      // gather: the task of the make step before it, from 1
	From    Source   // sort and name: where the figures come from
	Items   int      // close
	Talk    []Text   // questions to ask
	Expect  []Text   // what to expect
}

// Source says where figures to sort or name come from.
type Source string

// The sources.
const (
	FromClass Source = "class" // the class's own boards, filled up from the atlas
	FromAtlas Source = "atlas"
)

// Feedback says how much a seat tells its pupil about a showing.
type Feedback string

// The feedback policies, from nothing to everything, as package class has them.
const (
	NoFeedback    Feedback = "none"
	CountFeedback Feedback = "count"
	HintFeedback  Feedback = "hint"
	AllFeedback   Feedback = "all"
)

// Task is something to make.
type Task struct {
	Say        Text // to the pupils
	Board      *board.Board
	Conditions task.Conditions
	Bands      int // 0 for any number
	Minutes    int // 0 for no limit
	Feedback   Feedback
	Impossible bool // the point is that no figure does it
	Because    Text // why it is impossible
	WayIn      WayIn
	Stretch    Stretch
}

// WayIn is a start for those who need one; only one of the fields is set.
type WayIn struct {
	Begun *board.Figure // a figure begun: its pieces can be kept
	Board *board.Board  // a smaller board
	Word  string        // the word's picture
}

// None reports whether there is no way in.
func (w WayIn) None() bool { return w.Begun == nil && w.Board == nil && w.Word == "" }

// Goal is what a stretch is after.
type Goal string

// The goals.
const (
	Another    Goal = "another"    // one that nobody else has
	Largest    Goal = "largest"    // of all, with its area
	Also       Goal = "also"       // with more conditions
	Impossible Goal = "impossible" // a question whose answer is no, with why
)

// Stretch is more for those who finish.
type Stretch struct {
	Goal       Goal // empty for none
	Say        Text
	Area       task.Conditions // largest: one condition, area=N
	Conditions task.Conditions // also, impossible
	Because    Text            // impossible: why
}

// Minutes returns the length of the whole lesson.
func (p Plan) Minutes() int {
	sum := 0
	for _, s := range p.Steps {
		sum += s.Minutes
	}
	return sum
}

// Tasks lists the tasks of all make steps, in order.
func (p Plan) Tasks() []Task {
	var out []Task
	for _, s := range p.Steps {
		out = append(out, s.Tasks...)
	}
	return out
}

// Boards lists the boards that the tasks need, each once.
func (p Plan) Boards() []*board.Board {
	var out []*board.Board
	for _, t := range p.Tasks() {
		if !slices.ContainsFunc(out, func(b *board.Board) bool { return b.String() == t.Board.String() }) {
			out = append(out, t.Board)
		}
	}
	return out
}

// AllWords lists every word that the plan uses, each once.
func (p Plan) AllWords() []string {
	out := slices.Concat(p.Words, p.Older)
	for _, s := range p.Steps {
		out = append(out, s.Words...)
		for _, t := range s.Tasks {
			if t.WayIn.Word != "" {
				out = append(out, t.WayIn.Word)
			}
		}
	}
	var once []string
	for _, id := range out {
		if !slices.Contains(once, id) {
			once = append(once, id)
		}
	}
	return once
}

// Asked returns what the task asks for, with the limit on bands as a condition.
func (t Task) Asked(d shape.Definitions) task.Task {
	return task.Task{Board: t.Board, Conditions: t.withBands(t.Conditions), Definitions: d}
}

// withBands adds the limit on bands to conditions.
func (t Task) withBands(cs task.Conditions) task.Conditions {
	out := slices.Clone(cs)
	if t.Bands > 0 {
		out = append(out, task.Condition{Property: task.Bands, Comparison: task.AtMost, Count: t.Bands})
	}
	return out
}

// Stretched returns the conditions of the stretch of a task: those of the task
// with the further ones, or the stretch's own question.
func (t Task) Stretched() task.Conditions {
	switch t.Stretch.Goal {
	case Largest:
		return t.withBands(slices.Concat(t.Conditions, t.Stretch.Area))
	case Also:
		return t.withBands(slices.Concat(t.Conditions, t.Stretch.Conditions))
	case Impossible:
		return t.withBands(t.Stretch.Conditions)
	}
	return t.withBands(t.Conditions)
}
