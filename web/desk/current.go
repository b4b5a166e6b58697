package desk

import (
	"html/template"
	"strings"
	"time"

	"pegwright/class"
	"pegwright/say"
	"pegwright/task"
	"pegwright/web/page"
)

// taskPiece is the current task with its controls.
type taskPiece struct {
	*say.Speaker
	Path     string
	Set      bool
	Task     class.Task
	Asked    string
	Board    string
	Limits   string
	Feedback string
	Timer    *page.Timer
	Cautions bool // whether they lie open
	Picture  template.HTML
}

func (d *Desk) taskPiece(say *say.Speaker, s *scene) taskPiece {
	p := taskPiece{Speaker: say, Path: s.path("")}
	if s.Task == nil {
		return p
	}
	t := *s.Task
	p.Set, p.Task, p.Cautions = true, t, t.Ordinal == 1 && d.Now().Sub(t.Started) < cautionFor
	p.Asked, p.Board = askedOf(say, t), say.Board(s.Board)
	p.Limits = limitsOf(say, t)
	p.Feedback = say.Text("task.hears", "What", say.Text("feedback."+string(t.Feedback)))
	p.Timer = page.NewTimer(say, t, d.Now())
	if t.Model != "" {
		p.Picture = page.Figure(say, "model", d.judged.reading(s.Board, t.Model, t.Definitions), page.Small)
	}
	return p
}

// askedOf says what a task asks for, as a sentence.
func askedOf(say *say.Speaker, t class.Task) string {
	cs, err := task.Parse(t.Conditions)
	if err != nil || len(cs) == 0 {
		return say.Text("task.any_figure")
	}
	return say.Sentence(say.Conditions(cs))
}

// limitsOf says the limits of a task.
func limitsOf(say *say.Speaker, t class.Task) string {
	limits := []string{say.Text("task.any_bands")}
	if t.MaxBands > 0 {
		limits[0] = say.Counted("task.bands", t.MaxBands)
	}
	if t.Minutes > 0 {
		limits = append(limits, say.Counted("task.minutes", t.Minutes))
	}
	return say.Capital(strings.Join(limits, " · "))
}

// cautionFor is how long the cautions lie open after the first task is set.
const cautionFor = 90 * time.Second
