package desk

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/page"
)

func itoa(n int) string { return strconv.Itoa(n) }

// How much is asked of the atlas for a builder, and how long it may take.
const (
	mostExamples = 6
	mostWrong    = 4
	answerLimit  = 4 * time.Second
	mostAnswers  = 200
)

// answers remembers what the atlas answered. One question is asked once,
// however many wait for it, and a search that nobody waits for any more ends.
type answers struct {
	find func(context.Context, atlas.Question) (atlas.Answer, error)
	mu   sync.Mutex
	by   map[string]atlas.Answer
	room chan struct{} // two searches at a time
}

func newAnswers(find func(context.Context, atlas.Question) (atlas.Answer, error)) *answers {
	return &answers{find: find, by: map[string]atlas.Answer{}, room: make(chan struct{}, 2)}
}

// ask answers a question, from memory where it can.
func (a *answers) ask(ctx context.Context, q atlas.Question) (atlas.Answer, error) {
	key := q.Board.String() + "\x00" + strings.Join(q.Conditions.Texts(), "\x00") + definitionsKey(q.Definitions)
	if answer, ok := a.known(key); ok {
		return answer, nil
	}
	select {
	case a.room <- struct{}{}:
		defer func() { <-a.room }()
	case <-ctx.Done():
		return atlas.Answer{}, fmt.Errorf("answer: %w", ctx.Err())
	}
	if answer, ok := a.known(key); ok {
		return answer, nil
	}
	answer, err := a.find(ctx, q)
	if err != nil {
		return answer, err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if len(a.by) >= mostAnswers {
		clear(a.by)
	}
	a.by[key] = answer
	return answer, nil
}

func (a *answers) known(key string) (atlas.Answer, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	answer, ok := a.by[key]
	return answer, ok
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

// wrongOne is a figure that fails exactly one condition.
type wrongOne struct {
	Figure board.Figure
	Fails  task.Condition
}

// mostJudgedWrong bounds the work of looking for wrong ones.
const mostJudgedWrong = 4000

// wrongOnes looks for figures that children come to by a small slip: one
// corner of an answer moved or left out, so that exactly one condition fails.
// Those with which a known idea goes come first, each idea and each condition
// once, and no two are congruent.
func wrongOnes(a atlas.Answer, t task.Task) []wrongOne {
	found := slips(a, t)
	var out []wrongOne
	seen := map[string]bool{}
	var shapes []*shape.Polygon
	for _, withIdea := range []bool{true, false} {
		for _, w := range found {
			if len(out) == mostWrong {
				return out
			}
			key := w.Fails.String()
			v := t.Judge(w.Figure)
			if withIdea && len(v.Ideas) == 0 {
				continue
			}
			if withIdea {
				key = string(v.Ideas[0].Rule)
			}
			p := v.Reading.Polygon
			if seen[key] || p == nil || slices.ContainsFunc(shapes, func(o *shape.Polygon) bool { return shape.Congruent(o, p) }) {
				continue
			}
			seen[key] = true
			shapes = append(shapes, p)
			out = append(out, w)
		}
		clear(seen)
	}
	return out
}

// mostSlips is how many wrong figures are held against each other.
const mostSlips = 40

// slips changes one corner of the answers' figures and keeps those that fail
// exactly one condition.
func slips(a atlas.Answer, t task.Task) []wrongOne {
	var out []wrongOne
	looked := 0
	for _, e := range a.Examples {
		if e.Polygon == nil {
			continue
		}
		corners := e.Polygon.Corners()
		for i := range corners {
			for peg := -1; peg < t.Board.Pegs(); peg++ {
				if looked++; looked > mostJudgedWrong || len(out) >= mostSlips {
					return out
				}
				if w, ok := slip(t, corners, i, peg); ok {
					out = append(out, w)
					break
				}
			}
		}
	}
	return out
}

// slip moves a corner to a peg, or leaves it out for peg −1.
func slip(t task.Task, corners []board.Peg, i, peg int) (wrongOne, bool) {
	pegs := slices.Clone(corners)
	if peg < 0 {
		pegs = slices.Delete(pegs, i, i+1)
	} else {
		pegs[i] = board.Peg(peg)
	}
	p, ok := shape.NewPolygon(t.Board, pegs)
	if !ok {
		return wrongOne{}, false
	}
	var fails []task.Condition
	for _, c := range t.Conditions {
		if !c.Holds(p, t.Definitions) {
			fails = append(fails, c)
		}
	}
	f, err := board.NewFigure(t.Board, [][]board.Peg{pegs})
	if err != nil || len(fails) != 1 {
		return wrongOne{}, false
	}
	return wrongOne{f, fails[0]}, true
}
