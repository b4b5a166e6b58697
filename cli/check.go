package cli

import (
	"strings"

	"pegwright/report"
	"pegwright/say"
	"pegwright/task"
)

// checkCommand holds a figure against conditions.
type checkCommand struct {
	boardFlag
	wordFlags
	JSON       bool     `help:"Write JSON (docs/json.md names the fields)."`
	Figure     string   `arg:"" help:"The figure, in quotes."`
	Conditions []string `arg:"" name:"condition" predictor:"condition" help:"What is asked for: sides=6, right-angles>=2, kind=rhombus, convex=no."`
}

// Help returns examples.
func (checkCommand) Help() string {
	return `Examples:

  pegwright check "A1 D1 D3" sides=3 right-angles=1
  pegwright check "A1 E1 E3 A3" kind=rhombus
  pegwright check --board ring:12 "1 5 9" regular=yes

The exit code is 0 when the figure fits and 1 when it does not.`
}

// Run judges the figure.
func (c checkCommand) Run(env Env) error {
	b, err := c.board()
	if err != nil {
		return err
	}
	f, err := figure(b, c.Figure)
	if err != nil {
		return err
	}
	asked, err := conditions(c.Conditions)
	if err != nil {
		return err
	}
	v := task.Task{Board: b, Conditions: asked, Definitions: c.definitions()}.Judge(f)
	if c.JSON {
		err = writeJSON(env.Out, report.OfVerdict(v, c.speaker()))
	} else {
		err = newPage(env, c.speaker()).verdict(v)
	}
	if err == nil && v.Standing != task.Fits {
		return errNo
	}
	return err
}

// verdict writes a verdict with its reasons, hints and ideas.
func (p *page) verdict(v task.Verdict) error {
	b := v.Reading.Figure.Board
	if err := p.picture(v.Reading.Figure); err != nil {
		return err
	}
	p.summary(v.Reading)
	p.line(p.env.paint.strong(p.say.Standing(v.Standing)))
	for _, r := range v.Results {
		mark := p.env.paint.no("✗ ")
		if r.Holds {
			mark = p.env.paint.yes("✓ ")
		}
		p.line(mark + strings.Join(wrap(p.say.Result(b, r), labelWidth+lineWidth), "\n  "))
	}
	if v.Hint != nil {
		p.row(say.LabelNudge, p.say.Nudge(*v.Hint))
		p.row(say.LabelChange, p.say.Change(*v.Hint))
	}
	var ideas []string
	for _, i := range v.Ideas {
		ideas = append(ideas, p.say.Idea(b, i))
	}
	p.row(say.LabelIdeas, ideas...)
	return p.write()
}
