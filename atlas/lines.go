package atlas

import (
	"context"
	"errors"
	"slices"
	"time"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// mostLines is the largest number of straight pieces that findLines tries.
const mostLines = 3

// lineSearch looks at figures of straight pieces: one to three of them.
type lineSearch struct {
	ctx      context.Context
	question Question
	segments []board.Segment
	deadline time.Time
	answer   Answer
	kinds    map[string]int // number of each congruence class in examples
	examples []Example
	skipped  bool // a figure that may answer was not made
}

// findLines answers a question about lines. Figures of up to two pieces are
// all looked at on boards up to CompletePegs; the rest has a time limit. A
// figure is a set of straight pieces, however many bands it is made with.
func findLines(ctx context.Context, q Question) (Answer, error) {
	s := &lineSearch{ctx: ctx, question: q, kinds: map[string]int{}, deadline: time.Now().Add(q.Limit)}
	n := board.Peg(q.Board.Pegs())
	for p := range n {
		for r := p + 1; r < n; r++ {
			s.segments = append(s.segments, board.Segment{From: p, To: r})
		}
	}
	s.answer.Complete = true
	need := newNeed(q.Board, q.Conditions, q.Definitions)
	for k := 1; k <= mostLines; k++ {
		if need.allows(task.Segments, k) && !s.extend(nil, 0, k) {
			s.answer.Complete = false
		}
	}
	if need.allows(task.Segments, mostLines+1) || s.skipped {
		s.answer.Complete = false
	}
	if ctx.Err() != nil {
		return Answer{}, errors.Join(ErrStopped, context.Cause(ctx))
	}
	return s.finish(), nil
}

// extend tries every way to add pieces until there are k; it returns false
// when it ran out of time.
func (s *lineSearch) extend(chosen []board.Segment, from, k int) bool {
	if len(chosen) == k {
		s.look(chosen)
		return s.ctx.Err() == nil && (k < mostLines && s.question.Board.Pegs() <= CompletePegs || time.Now().Before(s.deadline))
	}
	for i := from; i < len(s.segments); i++ {
		if !s.extend(append(chosen, s.segments[i]), i+1, k) {
			return false
		}
		if len(chosen) == 0 {
			s.question.Progress(float64(i+1)/float64(len(s.segments)), s.answer.Seen)
		}
	}
	return true
}

// look holds one figure against the conditions. Pieces that run into one
// longer piece are that figure's business, not this one's.
func (s *lineSearch) look(chosen []board.Segment) {
	cs := s.question.Conditions
	f := board.Figure{Board: s.question.Board}
	for _, c := range chosen {
		f.Bands = append(f.Bands, []board.Peg{c.From, c.To})
	}
	r := shape.Read(f, s.question.Definitions)
	if len(r.Outline.Segments) != len(chosen) {
		return
	}
	s.answer.Seen++
	if !cs.Without(task.Bands).HoldFor(r) || !s.rebanded(&r) {
		return
	}
	s.answer.Count++
	word := s.spell(chosen)
	if i, known := s.kinds[word]; known {
		s.examples[i].Places++
		return
	}
	s.kinds[word] = len(s.examples)
	s.examples = append(s.examples, Example{Figure: r.Figure, Polygon: r.Polygon, Places: 1})
}

// rebanded makes the figure of a reading with one band a piece of as many
// bands as the conditions allow, and reports whether it could. More bands lie
// over pieces. Fewer need a band that turns its way round a closed loop, since
// it turns at no peg twice: round a polygon, which is done, or round three
// pieces that stick out beyond a triangle, which is skipped.
func (s *lineSearch) rebanded(r *shape.Reading) bool {
	pieces := len(r.Figure.Bands)
	n := bandsFrom(s.question.Conditions, pieces)
	switch {
	case n == pieces:
	case r.Polygon != nil:
		r.Figure = banded(s.question, r.Polygon.Corners())
	case n > pieces:
		for i := 0; len(r.Figure.Bands) < n; i++ {
			r.Figure.Bands = append(r.Figure.Bands, r.Figure.Bands[i])
		}
	default:
		apart := slices.ContainsFunc(r.Outline.Pairs(), func(q shape.Pair) bool { return q.Meeting == board.Apart })
		s.skipped = s.skipped || pieces > 2 && !apart
		return false
	}
	return true
}

// spell writes pieces as a word that congruent ones share: the least list of
// the distances between all their ends, over the orders of the pieces and of
// the ends of each.
func (s *lineSearch) spell(chosen []board.Segment) string {
	least := ""
	eachOrder(chosen, func(ends []board.Peg) {
		word := make([]uint32, 0, len(ends)*len(ends)/2)
		for i, p := range ends {
			for _, q := range ends[:i] {
				length := board.Length(0)
				if p != q {
					length = s.question.Board.Length(s.question.Board.Arrow(p, q))
				}
				word = append(word, uint32(length))
			}
		}
		if spelt := spellLong(word); least == "" || spelt < least {
			least = spelt
		}
	})
	return least
}

// eachOrder visits the ends of segments in every order of segments and of the
// two ends of each.
func eachOrder(rest []board.Segment, visit func(ends []board.Peg)) {
	var place func(ends []board.Peg, rest []board.Segment)
	place = func(ends []board.Peg, rest []board.Segment) {
		if len(rest) == 0 {
			visit(ends)
			return
		}
		for i, c := range rest {
			others := slices.Delete(slices.Clone(rest), i, i+1)
			place(append(slices.Clip(ends), c.From, c.To), others)
			place(append(slices.Clip(ends), c.To, c.From), others)
		}
	}
	place(nil, rest)
}

// finish chooses examples, evenly from the classes in the order they were met.
func (s *lineSearch) finish() Answer {
	a := s.answer
	a.Possible, a.Different = a.Count > 0, len(s.examples)
	wanted := min(s.question.Examples, len(s.examples))
	for i := range wanted {
		a.Examples = append(a.Examples, s.examples[i*len(s.examples)/wanted])
	}
	if !a.Possible {
		a.Why = []Why{{Seen: a.Seen}}
	}
	return a
}
