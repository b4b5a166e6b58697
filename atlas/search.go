package atlas

import (
	"context"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"pegwright/board"
	"pegwright/shape"
)

// walker meets every polygon that starts with two pegs; walk and wideWalk are
// the two kinds.
type walker interface {
	from(first, second board.Peg) bool
	deepest() int // the longest path met, in corners
}

// search looks at the polygons of a board with all cores.
type search struct {
	ctx      context.Context
	question Question
	need     need
	table    *table // nil on boards too large for one
	images   *symmetries
	classes  *classes

	firstOnly  bool      // one answer is enough
	part       bool      // this is the start on a larger board, see startSmall
	deadline   time.Time // zero while everything is to be looked at
	matches    atomic.Int64
	foundSmall int64 // matches on a part of the board, see startSmall
	seen       atomic.Int64
	full       atomic.Bool // no room for another class
	complete   bool
	covered    Range // the numbers of sides that were looked at completely
}

func newSearch(ctx context.Context, q Question, n need) *search {
	s := &search{ctx: ctx, question: q, need: n, images: newSymmetries(q.Board), classes: newClasses(q.Board)}
	if q.Board.Pegs() <= maxTablePegs {
		s.table = newTable(q.Board)
	}
	return s
}

// found returns how many figures that answer are known.
func (s *search) found() int64 { return max(s.matches.Load(), s.foundSmall) }

func (s *search) stopped() bool { return s.ctx.Err() != nil }

func (s *search) late() bool {
	return s.stopped() || s.firstOnly && s.matches.Load() > 0 || !s.deadline.IsZero() && time.Now().After(s.deadline)
}

// boundedSides returns up to how many sides polygons are looked at however
// long it takes.
func (s *search) boundedSides() int {
	switch n := s.question.Board.Pegs(); {
	case s.part:
		return partSides
	case n <= smallPegs:
		return n
	case n <= CompletePegs:
		return CompleteSides
	}
	return 0
}

// run looks at the polygons that may answer: first together those that are
// looked at however long it takes, then with a time limit one number of sides
// after another.
func (s *search) run() {
	sides := s.need.sides
	least, most := sides[0], sides[len(sides)-1]
	s.complete = true
	small := s.startSmall()
	next := least
	if bound := s.boundedSides(); least <= bound {
		next = min(most, bound) + 1
		s.pass(least, next-1)
		s.covered = Range{least, next - 1}
	}
	limit := s.question.Limit / 2
	if s.found() > 0 {
		limit /= 2 // the answer is known; this only counts further
	}
	s.deadline = time.Now().Add(limit)
	for k := next; k <= most && s.complete; k++ {
		if !s.need.allowsSides(k) {
			continue
		}
		deepest := s.pass(k, k)
		if s.complete {
			s.covered = Range{least, k}
		}
		if deepest < k-1 {
			break // no path is long enough, so none longer will be
		}
	}
	if small != nil {
		s.classes.join(small.classes, func(corners []board.Peg) []board.Peg {
			return s.question.Board.Widen(small.question.Board, corners)
		})
	}
	s.complete = s.complete && !s.full.Load()
}

// partSides is up to how many sides the part of a larger board is looked at
// however long it takes, which is well under a second.
const partSides = 6

// startSmall looks first, on a board too large to be looked at completely, at
// the part of it round its first peg that is not: what that part can hold, the
// board can. The search that follows may find the same figures again, so the
// larger of the two counts bounds the count from below. It returns the search
// of the part, nil when there was none.
func (s *search) startSmall() *search {
	part := s.question.Board.Part(CompletePegs)
	if part == nil || s.firstOnly {
		return nil
	}
	q := s.question
	q.Board, q.Progress, q.Limit = part, func(float64, int64) {}, q.Limit/4
	n := newNeed(part, q.Conditions, q.Definitions)
	if len(n.proof()) > 0 {
		return nil
	}
	small := newSearch(s.ctx, q, n)
	small.part = true
	small.run()
	s.foundSmall = small.matches.Load()
	return small
}

// unit is a piece of the search: the polygons that start with two pegs.
type unit struct{ first, second board.Peg }

// units lists the pieces; shuffled when the search may not come to its end, so
// that what it does see is spread over the board.
func (s *search) units() []unit {
	var out []unit
	n := board.Peg(s.question.Board.Pegs())
	for p := range n {
		for q := p + 1; q < n; q++ {
			out = append(out, unit{p, q})
		}
	}
	if !s.deadline.IsZero() {
		rand.New(rand.NewPCG(1, 2)).Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	}
	return out
}

// pass looks at the polygons with least to most corners and returns the length
// of the longest path met.
func (s *search) pass(least, most int) int {
	return s.eachPolygon(least, most, func() visitor {
		return func(p *shape.Polygon, weight int) {
			if !s.need.holds(p) {
				return
			}
			s.matches.Add(int64(weight))
			if !s.classes.add(p, weight) {
				s.full.Store(true)
			}
		}
	})
}

// visitor is shown polygons, each with the number of its images under the
// symmetries of the board that it stands for.
type visitor func(p *shape.Polygon, weight int)

// eachPolygon walks with all cores. Each core calls newVisitor for a visitor
// of its own. When the deadline passes, complete becomes false.
func (s *search) eachPolygon(least, most int, newVisitor func() visitor) int {
	units := s.units()
	var next, deepest atomic.Int64
	var cut atomic.Bool
	var wait sync.WaitGroup
	var reporting sync.Mutex
	ended := 0
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			seen := int64(0)
			w := s.walker(least, most, s.sieve(newVisitor(), &seen))
			for i := next.Add(1) - 1; i < int64(len(units)); i = next.Add(1) - 1 {
				if s.late() || !w.from(units[i].first, units[i].second) {
					cut.Store(true)
				}
				s.seen.Add(seen)
				seen = 0
				reporting.Lock()
				ended++
				s.question.Progress(float64(ended)/float64(len(units)), s.seen.Load())
				reporting.Unlock()
			}
			raise(&deepest, int64(w.deepest()))
		})
	}
	wait.Wait()
	if cut.Load() {
		s.complete = false
	}
	return int(deepest.Load())
}

// sieve passes on to a visitor one polygon of each set of images.
func (s *search) sieve(visit visitor, seen *int64) func([]board.Peg) bool {
	p := shape.EmptyPolygon(s.question.Board)
	return func(corners []board.Peg) bool {
		weight := 1
		if len(s.images.halves) > 0 {
			m := set(0)
			for _, c := range corners {
				m |= 1 << c
			}
			weight = s.images.weight(m)
		}
		*seen++
		if weight > 0 {
			p.Reset(corners)
			visit(p, weight)
		}
		return true
	}
}

// raise makes v at least n.
func raise(v *atomic.Int64, n int64) {
	for old := v.Load(); old < n && !v.CompareAndSwap(old, n); old = v.Load() {
	}
}

// unitSteps bounds the steps of one piece of a search with a time limit, so
// that it does not spend all its time in one corner of the board.
const unitSteps = 1 << 20

func (s *search) walker(least, most int, visit func([]board.Peg) bool) walker {
	if s.table == nil {
		return &wideWalk{
			board: s.question.Board, least: least, most: most, visit: visit, stop: s.late,
			convex: s.need.convex, equilateral: s.need.equilateral,
		}
	}
	w := newWalk(s.table, least, most)
	w.convex, w.equilateral = s.need.convex, s.need.equilateral
	w.visit, w.stop = visit, s.late
	if !s.deadline.IsZero() {
		w.steps = unitSteps
	}
	return w
}

// answer gathers what run found.
func (s *search) answer() Answer {
	a := Answer{
		Count: s.found(), Different: s.classes.count(), Complete: s.complete,
		Seen: s.seen.Load(), SidesSeen: s.covered,
	}
	a.Possible = a.Count > 0
	a.Examples = s.examples()
	return a
}
