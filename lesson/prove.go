package lesson

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"sync"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// Fault says what is wrong with a task before it reaches a child. Each is a
// message of the room wording, with "fault." in front.
type Fault string

// The faults.
const (
	CannotBeDone     Fault = "cannot_be_done"     // no figure answers
	CanBeDone        Fault = "can_be_done"        // meant to be impossible, and is not
	NotSettled       Fault = "not_settled"        // too large to look at everything
	LeadsNowhere     Fault = "leads_nowhere"      // the way in cannot be completed
	StretchCannot    Fault = "stretch_cannot"     // no figure answers the stretch
	StretchCan       Fault = "stretch_can"        // meant to be impossible, and is not
	StretchUnsettled Fault = "stretch_unsettled"  // too large to look at everything
	NotTheLargest    Fault = "not_the_largest"    // there is a larger one
	NoOther          Fault = "no_other"           // all answers are one figure
	WordElsewhere    Fault = "word_has_no_figure" // no picture of the way in's word answers the task
)

// Proof is what the atlas says of a task, its way in and its stretch.
type Proof struct {
	Task    Task
	Answer  atlas.Answer
	Start   *board.Figure // what the way in leads to
	Stretch atlas.Answer  // zero when the stretch asks for nothing further
	Faults  []Fault
}

// Shown is how many sample answers a proof comes with.
const Shown = 6

// Prove asks the atlas about a task, its way in and its stretch. A task without
// faults can be set: it is possible, or proved impossible where that is the
// point; its way in can be completed; its stretch is what it says. The error is
// atlas.ErrStopped.
func Prove(ctx context.Context, t Task, d shape.Definitions) (Proof, error) {
	p := prover{ctx: ctx, definitions: d, proof: Proof{Task: t}}
	p.proof.Answer = p.ask(atlas.Question{Board: t.Board, Conditions: t.withBands(t.Conditions), Examples: Shown, Elsewhere: true})
	switch a := p.proof.Answer; {
	case t.Impossible:
		p.settled(a, CanBeDone, NotSettled)
	case !a.Possible && a.Complete:
		p.fault(CannotBeDone)
	case !a.Possible:
		p.fault(NotSettled)
	}
	p.wayIn(t)
	p.stretch(t)
	return p.proof, p.err
}

type prover struct {
	ctx         context.Context
	definitions shape.Definitions
	proof       Proof
	err         error
}

func (p *prover) fault(f Fault) { p.proof.Faults = append(p.proof.Faults, f) }

func (p *prover) find(b *board.Board, cs task.Conditions) atlas.Answer {
	return p.ask(atlas.Question{Board: b, Conditions: cs, Examples: Shown})
}

func (p *prover) ask(q atlas.Question) atlas.Answer {
	if p.err != nil {
		return atlas.Answer{}
	}
	q.Definitions = p.definitions
	a, err := atlas.Find(p.ctx, q)
	p.err = err
	return a
}

// settled records a fault unless an answer is a proof that there is none.
func (p *prover) settled(a atlas.Answer, can, unsettled Fault) {
	switch {
	case a.Possible:
		p.fault(can)
	case !a.Complete:
		p.fault(unsettled)
	}
}

func (p *prover) wayIn(t Task) {
	switch w := t.WayIn; {
	case w.Begun != nil:
		figure, ok := Complete(t.Asked(p.definitions), *w.Begun)
		if !ok {
			p.fault(LeadsNowhere)
			return
		}
		p.proof.Start = &figure
	case w.Board != nil:
		a := p.find(w.Board, t.withBands(t.Conditions))
		if !a.Possible {
			p.fault(LeadsNowhere)
			return
		}
		p.proof.Start = &a.Examples[0].Figure
	case w.Word != "":
		if p.proof.Start = p.shown(w.Word, t); p.proof.Start == nil {
			p.fault(WordElsewhere)
		}
	}
}

// shown returns the first picture of a word that answers a task, whatever board
// it is on.
func (p *prover) shown(id string, t Task) *board.Figure {
	w, _ := word.Find(id)
	for _, picture := range w.Show {
		if t.Conditions.HoldFor(shape.Read(picture.Figure, p.definitions)) {
			return &picture.Figure
		}
	}
	return nil
}

func (p *prover) stretch(t Task) {
	switch t.Stretch.Goal {
	case Another:
		if p.proof.Answer.Possible && p.proof.Answer.Different < 2 {
			p.fault(NoOther)
		}
		return
	case "":
		return
	}
	a := p.find(t.Board, t.Stretched())
	p.proof.Stretch = a
	switch {
	case t.Stretch.Goal == Impossible:
		p.settled(a, StretchCan, StretchUnsettled)
	case !a.Possible:
		p.fault(StretchCannot)
	case t.Stretch.Goal == Largest:
		larger := t.Stretch.Area[0]
		larger.Comparison = task.MoreThan
		p.settled(p.find(t.Board, t.withBands(append(slices.Clone(t.Conditions), larger))), NotTheLargest, StretchUnsettled)
	}
}

// Hopes returns the sample answers worth hoping for: those that are not the
// picture in every head (a dent, no upright side), the rarest first.
func (p Proof) Hopes() []atlas.Example {
	var out []atlas.Example
	for _, e := range p.Answer.Examples {
		if e.Polygon != nil && (!e.Polygon.Convex() || e.Polygon.UprightSides() == 0) {
			out = append(out, e)
		}
	}
	slices.SortStableFunc(out, func(a, b atlas.Example) int { return cmp.Compare(a.Places, b.Places) })
	return out
}

// mostAdded bounds the pegs or pieces that Complete adds to a figure begun.
const mostAdded = 4

// Complete finishes a figure begun with as few pegs, or pieces, as possible, so
// that it fits a task: the straight pieces that are there stay. It reports
// whether it can, adding at most four.
func Complete(t task.Task, begun board.Figure) (board.Figure, bool) {
	grow := growth{task: t, holds: t.Conditions.Compile(t.Board, t.Definitions), polygon: shape.EmptyPolygon(t.Board)}
	for added := 0; added <= mostAdded; added++ {
		if t.Conditions.AboutLines() {
			if f, ok := grow.pieces(begun, 0, added); ok {
				return f, true
			}
			if added == 2 {
				break // three hundred pieces each: a third takes too long
			}
			continue
		}
		if len(begun.Bands) != 1 {
			break // a polygon is begun as one path
		}
		if f, ok := grow.path(slices.Clone(begun.Bands[0]), added); ok {
			return f, true
		}
	}
	return board.Figure{}, false
}

type growth struct {
	task    task.Task
	holds   task.Test
	polygon *shape.Polygon
}

// pieces adds so many straight pieces, in the order of their pegs.
func (g growth) pieces(f board.Figure, from, more int) (board.Figure, bool) {
	if more == 0 {
		return f, g.task.Conditions.HoldFor(shape.Read(f, g.task.Definitions))
	}
	n := g.task.Board.Pegs()
	for i := from; i < n*n; i++ {
		p, q := board.Peg(i/n), board.Peg(i%n)
		if p >= q {
			continue
		}
		longer := board.Figure{Board: f.Board, Bands: append(slices.Clip(f.Bands), []board.Peg{p, q})}
		if done, ok := g.pieces(longer, i+1, more-1); ok {
			return done, true
		}
	}
	return board.Figure{}, false
}

// path adds so many pegs at the end of a path and closes it.
func (g growth) path(pegs []board.Peg, more int) (board.Figure, bool) {
	if more == 0 {
		return g.closed(pegs)
	}
	for p := range board.Peg(g.task.Board.Pegs()) {
		if slices.Contains(pegs, p) || !g.clear(pegs, p) {
			continue
		}
		if f, ok := g.path(append(slices.Clip(pegs), p), more-1); ok {
			return f, true
		}
	}
	return board.Figure{}, false
}

// clear reports whether the piece from the end of a path to a peg leaves the
// path simple, with a corner at its end.
func (g growth) clear(pegs []board.Peg, p board.Peg) bool {
	last := len(pegs) - 1
	next := board.Segment{From: pegs[last], To: p}
	for i := range last {
		want := board.Apart
		if i == last-1 {
			want = board.SharedEnd
		}
		if g.task.Board.Meeting(board.Segment{From: pegs[i], To: pegs[i+1]}, next) != want {
			return false
		}
	}
	return last == 0 || g.task.Board.Turn(pegs[last-1], pegs[last], p) != 0
}

func (g growth) closed(pegs []board.Peg) (board.Figure, bool) {
	if _, ok := shape.NewPolygon(g.task.Board, pegs); !ok {
		return board.Figure{}, false
	}
	g.polygon.Reset(pegs)
	return board.Figure{Board: g.task.Board, Bands: [][]board.Peg{slices.Clone(pegs)}}, g.holds(g.polygon)
}

// ProvePlan proves every task of a plan, several at a time, in the order of
// Plan.Tasks. The error is atlas.ErrStopped.
func ProvePlan(ctx context.Context, p Plan, d shape.Definitions) ([]Proof, error) {
	tasks := p.Tasks()
	proofs, errs := make([]Proof, len(tasks)), make([]error, len(tasks))
	var work sync.WaitGroup
	for i, t := range tasks {
		work.Go(func() { proofs[i], errs[i] = Prove(ctx, t, d) })
	}
	work.Wait()
	return proofs, errors.Join(errs...)
}
