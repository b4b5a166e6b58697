package desk

import (
	"context"
	"errors"
	"fmt"
	"html/template"
	"net/http"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/page"
)

// answerPiece is the atlas's answer to the builder's question.
type answerPiece struct {
	*say.Speaker
	Fault     string
	Empty     bool // no condition yet
	Late      bool // the search was stopped by its time limit
	Possible  bool
	Headline  string
	Why       []whyLine
	Examples  []samplePicture
	Wrong     []samplePicture
	Nearest   []samplePicture
	Elsewhere string
}

type whyLine struct{ Words, Source string }

// samplePicture is a figure with a few words below it.
type samplePicture struct {
	Picture template.HTML
	Words   string
	Text    string // the figure as it is written
}

// Answer hands out the atlas's answer as a piece of the builder.
func (d *Desk) Answer(w http.ResponseWriter, r *http.Request) error {
	f := readForm(r)
	for _, text := range r.Form["condition"] {
		if c, err := task.ParseCondition(text); err == nil {
			f.Rows = append(f.Rows, rowOf(c))
		}
	}
	return buildTemplate.WritePiece(w, "answer", d.answerPiece(r, page.Speaker(r), f, d.definitionsOf(r)))
}

// definitionsOf returns the definitions of the class of a run, the product's
// own when none is named.
func (d *Desk) definitionsOf(r *http.Request) shape.Definitions {
	run, err := d.Store.Run(r.Context(), r.FormValue("run"))
	if err != nil {
		return shape.Definitions{}
	}
	c, err := d.Store.Class(r.Context(), run.ClassID)
	if err != nil {
		return shape.Definitions{}
	}
	return c.Definitions
}

// answerPiece asks the atlas what the form's question comes to.
func (d *Desk) answerPiece(r *http.Request, s *say.Speaker, f form, defs shape.Definitions) answerPiece {
	p := answerPiece{Speaker: s}
	b, err := board.Parse(f.Board)
	if err != nil {
		p.Fault = s.Text("build.fault_board")
		return p
	}
	cs, err := task.Parse(f.conditions())
	if err != nil {
		p.Fault = conditionFault(s, err)
		return p
	}
	if len(cs) == 0 {
		p.Empty = true
		return p
	}
	ctx, stop := context.WithTimeout(r.Context(), answerLimit)
	defer stop()
	a, err := d.answers.ask(ctx, atlas.Question{
		Board: b, Conditions: cs, Definitions: defs, Examples: mostExamples, Limit: answerLimit / 2, Elsewhere: true,
	})
	if err != nil {
		p.Late = true
		if !errors.Is(err, context.Canceled) && !errors.Is(err, context.DeadlineExceeded) && !errors.Is(err, atlas.ErrStopped) {
			d.Log.ErrorContext(r.Context(), "the atlas has no answer", "err", err)
		}
		return p
	}
	p.fill(a, task.Task{Board: b, Conditions: cs, Definitions: defs})
	return p
}

// fill says an answer.
func (p *answerPiece) fill(a atlas.Answer, t task.Task) {
	s := p.Speaker
	p.Possible, p.Headline = a.Possible, s.Sentence(s.Possible(a))
	for _, w := range a.Why {
		p.Why = append(p.Why, whyLine{s.Sentence(s.Why(w)), w.Source})
	}
	for i, e := range a.Examples {
		r := shape.Read(e.Figure, t.Definitions)
		p.Examples = append(p.Examples, samplePicture{
			page.Figure(s, fmt.Sprintf("example-%d", i), r, page.Small), page.Name(s, r), e.Figure.String(),
		})
	}
	for i, w := range wrongOnes(a, t) {
		r := shape.Read(w.Figure, t.Definitions)
		p.Wrong = append(p.Wrong, samplePicture{
			page.Figure(s, fmt.Sprintf("wrong-%d", i), r, page.Small), s.Sentence(s.Text("answer_piece.fails", "Asked", s.Condition(w.Fails))), w.Figure.String(),
		})
	}
	for i, n := range a.Nearest[:min(len(a.Nearest), mostWrong)] {
		r := shape.Read(n.Figure, t.Definitions)
		p.Nearest = append(p.Nearest, samplePicture{
			page.Figure(s, fmt.Sprintf("near-%d", i), r, page.Small), s.Sentence(s.Near(n)), n.Figure.String(),
		})
	}
	p.Elsewhere = s.Elsewhere(a)
}
