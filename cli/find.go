package cli

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"time"

	"pegwright/atlas"
	"pegwright/report"
	"pegwright/say"
	"pegwright/shape"
)

// findCommand searches a board.
type findCommand struct {
	boardFlag
	wordFlags
	JSON       bool          `help:"Write JSON (docs/json.md names the fields)."`
	Examples   int           `default:"6" help:"How many examples to show (6)."`
	Limit      time.Duration `default:"5s" help:"How long a search may take that cannot look at everything (5s)."`
	Draw       string        `placeholder:"FILE" predictor:"picture" help:"Draw the examples into a file: .svg, .pdf or .png."`
	Conditions []string      `arg:"" name:"condition" predictor:"condition" help:"What is asked for: sides=7, fold-lines=1, kind!=square."`
}

// Help returns examples.
func (findCommand) Help() string {
	return `Examples:

  pegwright find sides=7 fold-lines=1
  pegwright find --board staggered:5x5 sides=6 regular=yes
  pegwright find --examples 4 --draw kites.svg kind=kite upright-sides=0
  pegwright find sides=5 regular=yes

The exit code is 0 when it is possible and 1 when it is not.`
}

// Run answers the question.
func (c findCommand) Run(env Env) error {
	q, err := c.question(env)
	if err != nil {
		return err
	}
	if c.Draw != "" {
		if _, err := formatOf(c.Draw); err != nil {
			return err
		}
	}
	ctx, cancel := signal.NotifyContext(context.Background(), os.Interrupt)
	defer cancel()
	a, err := atlas.Find(ctx, q)
	env.wipe()
	if err != nil {
		return err
	}
	if err := c.tell(env, q, a); err != nil {
		return err
	}
	if !a.Possible {
		return errNo
	}
	return nil
}

func (c findCommand) question(env Env) (atlas.Question, error) {
	b, err := c.board()
	if err != nil {
		return atlas.Question{}, err
	}
	asked, err := conditions(c.Conditions)
	if err != nil {
		return atlas.Question{}, err
	}
	if c.Examples < 0 || c.Examples > 1000 {
		return atlas.Question{}, &misuse{fmt.Sprintf("--examples=%d is out of range", c.Examples), "ask for 0 to 1000 examples"}
	}
	if c.Limit <= 0 {
		return atlas.Question{}, &misuse{fmt.Sprintf("--limit=%s is no time to search", c.Limit), "write a time such as 5s or 2m"}
	}
	return atlas.Question{
		Board: b, Conditions: asked, Definitions: c.definitions(), Examples: c.Examples,
		Limit: c.Limit, Elsewhere: true, Progress: env.progress(),
	}, nil
}

func (c findCommand) tell(env Env, q atlas.Question, a atlas.Answer) error {
	if c.Draw != "" {
		figures := make([]shape.Reading, len(a.Examples))
		for i, e := range a.Examples {
			figures[i] = shape.Read(e.Figure, q.Definitions)
		}
		if len(figures) > 0 {
			if err := drawing(figures, c.speaker()).save(c.Draw); err != nil {
				return err
			}
		}
	}
	if c.JSON {
		return writeJSON(env.Out, report.OfAnswer(q, a, c.speaker()))
	}
	return newPage(env, c.speaker()).answer(q, a)
}

// answer writes what a search found.
func (p *page) answer(q atlas.Question, a atlas.Answer) error {
	p.line(p.env.paint.strong(p.say.Possible(a)))
	var examples, why, near []string
	for _, e := range a.Examples {
		examples = append(examples, exampleLine(p.say, q, e))
	}
	for _, w := range a.Why {
		why = append(why, p.say.Why(w))
	}
	for _, n := range a.Nearest {
		near = append(near, p.say.Near(n))
	}
	p.row(say.LabelExamples, examples...)
	p.row(say.LabelWhy, why...)
	p.row(say.LabelNearest, near...)
	if text := p.say.Elsewhere(a); text != "" {
		p.line(text)
	}
	return p.write()
}

func exampleLine(s *say.Speaker, q atlas.Question, e atlas.Example) string {
	name := s.Status(shape.Trace(e.Figure).Status)
	if e.Polygon != nil {
		name = s.Name(e.Polygon.BestName(q.Definitions))
	}
	return fmt.Sprintf("%-24s %s", e.Figure, name)
}

// progress returns what shows a person how far a search is, a few times a
// second; nothing when nobody looks.
func (e Env) progress() func(float64, int64) {
	if !e.Watched {
		return nil
	}
	var last time.Time
	return func(share float64, seen int64) {
		if now := e.Now(); now.Sub(last) > 200*time.Millisecond {
			last = now
			fmt.Fprintf(e.Err, "\r%3.0f %%  %d", share*100, seen)
		}
	}
}

// wipe clears the line of progress.
func (e Env) wipe() {
	if e.Watched {
		fmt.Fprint(e.Err, "\r"+strings.Repeat(" ", 40)+"\r")
	}
}
