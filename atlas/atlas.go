// Package atlas knows every figure that a board can hold: whether conditions
// can be met, in how many ways and how many truly different ones, with
// examples spread over the variety; and when they cannot, why, what comes
// nearest and on which board they can.
//
// On boards up to 25 pegs every polygon with up to 8 corners is looked at, in
// the time that takes. Beyond that the search has a time limit and its answer
// says whether it looked at everything. Theorems answer on any board.
//
// Find is the whole question. Below it, walk meets polygons one by one, table
// makes that quick, classes tells congruent ones apart, and theorem holds what
// needs no search. Start reading at Find.
package atlas

import (
	"context"
	"errors"
	"time"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// The bounds within which every search looks at everything.
const (
	CompletePegs  = 25
	CompleteSides = 8
	smallPegs     = 16 // boards on which polygons of all sizes are looked at
)

// DefaultLimit is how long a search that cannot be known to end may take.
const DefaultLimit = 5 * time.Second

// Question is what Find is asked.
type Question struct {
	Board       *board.Board
	Conditions  task.Conditions
	Definitions shape.Definitions
	Examples    int           // how many examples are wanted
	Limit       time.Duration // for searches that may not end; 0 means DefaultLimit
	// Progress, when set, hears now and then how much of the present part of
	// the search is done, from 0 to 1, and how many figures were looked at. It
	// is called from several goroutines, but never twice at once.
	Progress func(share float64, seen int64)
	// Elsewhere asks for other boards when this one has no answer.
	Elsewhere bool
}

// Answer is what Find found.
type Answer struct {
	Possible  bool
	Complete  bool  // every figure that could answer was looked at
	Count     int64 // figures by position
	Different int   // up to congruence in the plane
	Seen      int64 // figures looked at
	SidesSeen Range // their numbers of sides
	Examples  []Example
	Nearest   []Near         // when impossible
	Why       []Why          // when impossible
	Elsewhere []*board.Board // boards on which it is possible, when asked for
	Elapsed   time.Duration
}

// Range is a range of whole numbers, ends included.
type Range struct{ Least, Most int }

// Example is a figure that answers.
type Example struct {
	Figure  board.Figure
	Polygon *shape.Polygon // nil for figures of lines
	Places  int            // positions on the board of figures congruent to it
}

// Near is a figure that almost answers.
type Near struct {
	Figure   board.Figure
	Polygon  *shape.Polygon
	Fails    task.Conditions // those it does not meet
	Likeness float64
}

// Why is a reason for an empty answer: a theorem with its source, or that none
// of the figures looked at meets the conditions.
type Why struct {
	Theorem Theorem // empty when the search itself is the reason
	Source  string
	Seen    int64
	Sides   Range
}

// ErrStopped is returned by Find when its context ended before the answer.
var ErrStopped = errors.New("the search was stopped")

// Find answers a question. The error is ErrStopped, wrapped with the context's
// own, or nil.
func Find(ctx context.Context, q Question) (Answer, error) {
	start := time.Now()
	if q.Limit <= 0 {
		q.Limit = DefaultLimit
	}
	if q.Progress == nil {
		q.Progress = func(float64, int64) {}
	}
	a, err := find(ctx, q)
	a.Elapsed = time.Since(start)
	return a, err
}

func find(ctx context.Context, q Question) (Answer, error) {
	if q.Conditions.AboutLines() {
		return findLines(ctx, q)
	}
	n := newNeed(q.Board, q.Conditions, q.Definitions)
	proof := n.proof()
	s := newSearch(ctx, q, n)
	if len(proof) == 0 {
		s.run()
	}
	if s.stopped() {
		return Answer{}, errors.Join(ErrStopped, context.Cause(ctx))
	}
	a := s.answer()
	if a.Possible {
		return a, nil
	}
	a.Complete = a.Complete || len(proof) > 0
	a.Nearest, a.Seen, a.SidesSeen = s.nearest()
	a.Why = proof
	if len(proof) == 0 {
		a.Why = []Why{{Seen: a.Seen, Sides: a.SidesSeen}}
	}
	if q.Elsewhere {
		a.Elsewhere = elsewhere(ctx, q)
	}
	if s.stopped() {
		return Answer{}, errors.Join(ErrStopped, context.Cause(ctx))
	}
	return a, nil
}
