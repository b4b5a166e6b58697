package atlas

import (
	"cmp"
	"math"
	"slices"
	"sync"
	"time"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// nearWanted is how many near misses an answer gives.
const nearWanted = 3

// near is a near miss with its order: fewer failing conditions first, then
// smaller shortfall, then greater likeness to the regular figure, then place.
type near struct {
	word      string
	corners   []board.Peg
	fails     int
	shortfall float64
	likeness  float64
}

func (a near) compare(c near) int {
	return cmp.Or(cmp.Compare(a.fails, c.fails), cmp.Compare(a.shortfall, c.shortfall),
		cmp.Compare(c.likeness, a.likeness), slices.Compare(a.corners, c.corners))
}

// nearest looks again at the figures with the numbers of sides asked for and
// keeps those that come closest, no two congruent. It also returns how many
// figures it looked at and with how many sides.
func (s *search) nearest() ([]Near, int64, Range) {
	sides := s.need.sides
	if len(sides) == 0 {
		return nil, 0, Range{}
	}
	again := newSearch(s.ctx, s.question, s.need)
	again.need.convex, again.need.equilateral = false, false
	seen := Range{sides[0], sides[0]}
	if bound := again.boundedSides(); sides[0] <= bound {
		seen.Most = min(sides[len(sides)-1], bound)
	} else {
		again.deadline = time.Now().Add(s.question.Limit / 4)
	}
	var lock sync.Mutex
	var all []near
	again.eachPolygon(seen.Least, seen.Most, func() visitor {
		return again.keepNear(func(n near) {
			lock.Lock()
			defer lock.Unlock()
			all = insertNear(all, n)
		})
	})
	var out []Near
	for _, n := range all {
		out = append(out, s.describe(n))
	}
	return out, again.seen.Load(), seen
}

// keepNear returns a visitor that passes on each polygon that would be among
// the best it has seen itself.
func (s *search) keepNear(found func(near)) visitor {
	var best []near
	var word []uint32
	var tests []task.Test
	for _, c := range s.question.Conditions {
		tests = append(tests, task.Conditions{c}.Compile(s.question.Board, s.question.Definitions))
	}
	return func(p *shape.Polygon, _ int) {
		if !s.need.allowsSides(p.Sides()) {
			return
		}
		n := s.score(p, tests)
		if len(best) == nearWanted && rough(n, best[nearWanted-1]) > 0 {
			return
		}
		word = s.classes.word(p, word[:0])
		n.word, n.corners = spellLong(word), p.Corners()
		best = insertNear(best, n)
		found(n)
	}
}

// rough compares scores only.
func rough(a, c near) int {
	return cmp.Or(cmp.Compare(a.fails, c.fails), cmp.Compare(a.shortfall, c.shortfall), cmp.Compare(c.likeness, a.likeness))
}

// insertNear keeps the best near misses, one of each congruence class.
func insertNear(best []near, n near) []near {
	if i := slices.IndexFunc(best, func(b near) bool { return b.word == n.word }); i >= 0 {
		if n.compare(best[i]) >= 0 {
			return best
		}
		best = slices.Delete(best, i, i+1)
	}
	at, _ := slices.BinarySearchFunc(best, n, near.compare)
	best = slices.Insert(best, at, n)
	return best[:min(len(best), nearWanted)]
}

// score holds a polygon against the conditions, each with its test. It rounds
// what it compares, so that congruent figures score alike.
func (s *search) score(p *shape.Polygon, tests []task.Test) near {
	var n near
	for i, c := range s.question.Conditions {
		if !tests[i](p) {
			n.fails++
			n.shortfall += c.Shortfall(p)
		}
	}
	n.shortfall = round(n.shortfall)
	n.likeness = round(p.Likeness())
	return n
}

func round(x float64) float64 { return math.Round(x*1e9) / 1e9 }

func (s *search) describe(n near) Near {
	p := shape.EmptyPolygon(s.question.Board)
	p.Reset(n.corners)
	out := Near{Figure: banded(s.question, p.Corners()), Polygon: p, Likeness: p.Likeness()}
	for _, c := range s.question.Conditions {
		if !c.Holds(p, s.question.Definitions) && c.Property != task.Bands {
			out.Fails = append(out.Fails, c)
		}
	}
	return out
}
