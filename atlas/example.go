package atlas

import (
	"bytes"
	"cmp"
	"slices"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// variety is what makes answers look different to a child. Examples are taken
// from every variety in turn.
type variety struct {
	concave, tilted, folds bool
}

func varietyOf(p *shape.Polygon) variety {
	return variety{!p.Convex(), p.UprightSides() == 0, p.FoldLines() > 0}
}

// candidate is a class that may be shown.
type candidate struct {
	corners []byte
	places  int
}

// maxSampled bounds the classes that examples are chosen from; of more, one in
// so many is taken, the same ones every time.
const maxSampled = 100_000

// examples chooses among the classes found: in every variety the commonest and
// the rarest by positions in turn, and the varieties in turn, the one with the
// most classes first.
func (s *search) examples() []Example {
	groups := s.byVariety()
	var out []Example
	for round := 0; len(out) < s.question.Examples && len(groups) > 0; round++ {
		for i := 0; i < len(groups) && len(out) < s.question.Examples; i++ {
			g := groups[i]
			pick := 0 // the commonest
			if round%2 == 1 {
				pick = len(g) - 1 // the rarest
			}
			out = append(out, s.example(g[pick]))
			groups[i] = slices.Delete(g, pick, pick+1)
		}
		groups = slices.DeleteFunc(groups, func(g []candidate) bool { return len(g) == 0 })
	}
	return out
}

func (s *search) byVariety() [][]candidate {
	by := map[variety][]candidate{}
	every := uint32(1 + s.classes.count()/maxSampled)
	p := shape.EmptyPolygon(s.question.Board)
	s.classes.each(func(corners []byte, places int) {
		if every > 1 && mix(corners)%every != 0 {
			return
		}
		p.Reset(pegs(corners))
		v := varietyOf(p)
		by[v] = append(by[v], candidate{corners, places})
	})
	var groups [][]candidate
	for _, g := range by {
		slices.SortFunc(g, func(a, c candidate) int {
			return cmp.Or(cmp.Compare(c.places, a.places), cmp.Compare(len(a.corners), len(c.corners)), bytes.Compare(a.corners, c.corners))
		})
		groups = append(groups, g)
	}
	slices.SortFunc(groups, func(a, c []candidate) int {
		return cmp.Or(cmp.Compare(len(c), len(a)), bytes.Compare(a[0].corners, c[0].corners))
	})
	return groups
}

// mix spreads corners over the whole numbers (FNV-1a; from memory).
func mix(corners []byte) uint32 {
	h := uint32(2166136261)
	for _, c := range corners {
		h = (h ^ uint32(c)) * 16777619
	}
	return h
}

func pegs(corners []byte) []board.Peg {
	out := make([]board.Peg, len(corners))
	for i, c := range corners {
		out[i] = board.Peg(c)
	}
	return out
}

func (s *search) example(c candidate) Example {
	p := shape.EmptyPolygon(s.question.Board)
	p.Reset(pegs(c.corners))
	return Example{Figure: banded(s.question, p.Corners()), Polygon: p, Places: c.places}
}

// banded makes a figure of corners with as many bands as the conditions allow:
// one if they do; or one a side; or one round it and the others along sides,
// over it.
func banded(q Question, corners []board.Peg) board.Figure {
	n := bandsWanted(q.Conditions, len(corners))
	f := board.Figure{Board: q.Board}
	if n < len(corners) {
		f.Bands = append(f.Bands, corners)
	}
	for i := 0; len(f.Bands) < n; i++ {
		f.Bands = append(f.Bands, []board.Peg{corners[i%len(corners)], corners[(i+1)%len(corners)]})
	}
	return f
}

// bandsWanted returns the number of bands to make an answer with: the first
// allowed of one, one a side, and the numbers from two up.
func bandsWanted(cs task.Conditions, sides int) int {
	for _, n := range []int{1, sides} {
		if allowsBands(cs, n) {
			return n
		}
	}
	return bandsFrom(cs, 2)
}

func allowsBands(cs task.Conditions, n int) bool {
	return !slices.ContainsFunc(cs, func(c task.Condition) bool { return c.Property == task.Bands && !c.Allows(n) })
}

// bandsFrom returns the least number of bands that the conditions allow, from
// so many up, 0 when there is none. What a condition says changes only at its
// number and after it, so no other numbers need to be tried.
func bandsFrom(cs task.Conditions, from int) int {
	least := 0
	try := func(n int) {
		if n >= from && (least == 0 || n < least) && allowsBands(cs, n) {
			least = n
		}
	}
	try(from)
	for _, c := range cs {
		if c.Property == task.Bands {
			try(c.Count)
			try(c.Count + 1)
		}
	}
	return least
}
