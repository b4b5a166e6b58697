package atlas

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pegwright/board"
)

// plain lists the polygons of a small board a second time, by another method
// and from other numbers: every order of every set of pegs, held against a
// table of which pairs of segments meet. Pegs lie at (x, y·√weight); on
// lattices these are whole numbers (half spacings and rows on the triangular
// lattice), so float64 is exact; on rings a sign that rounding could decide
// fails the test.
type plain struct {
	t      testing.TB
	x, y   []float64
	weight float64
	margin float64
	meet   [][]bool // by pairs of segments, see segment
	far    [][]int  // number of each distance among the distances
}

// figure is a polygon with a word that congruent ones share.
type plainFigure struct {
	corners []board.Peg
	word    string
}

func newPlain(t testing.TB, b *board.Board) *plain {
	t.Helper()
	p := &plain{t: t, weight: 1}
	for k := range board.Peg(b.Pegs()) {
		row, column := b.Row(k)
		x, y := float64(column), float64(row)
		switch b.Kind() {
		case board.Staggered:
			x, p.weight = 2*x+float64(row%2), 3
		case board.Triangle:
			x, p.weight = 2*x+y, 3
		case board.Ring:
			p.margin = 1e-6
			if x, y = b.At(k); math.Abs(math.Hypot(x, y)-1) > 1e-12 && (x != 0 || y != 0) {
				t.Fatalf("At(%s) = %v, %v, not on the ring or in its middle", b.Name(k), x, y)
			}
		}
		p.x, p.y = append(p.x, x), append(p.y, y)
	}
	p.number()
	p.pair()
	return p
}

func (p *plain) sign(v float64) int {
	switch {
	case v > p.margin:
		return 1
	case v < -p.margin:
		return -1
	case math.Abs(v) > p.margin*p.margin:
		p.t.Fatalf("the margin does not hold: %v", v)
	}
	return 0
}

func (p *plain) turn(a, b, c int) int {
	return p.sign((p.x[b]-p.x[a])*(p.y[c]-p.y[a]) - (p.y[b]-p.y[a])*(p.x[c]-p.x[a]))
}

func (p *plain) squared(a, b int) float64 {
	dx, dy := p.x[a]-p.x[b], p.y[a]-p.y[b]
	return dx*dx + p.weight*dy*dy
}

// on reports whether c lies on the segment from a to b, ends included.
func (p *plain) on(a, b, c int) bool {
	return p.turn(a, b, c) == 0 && p.sign(p.squared(a, c)-p.squared(a, b)) <= 0 && p.sign(p.squared(b, c)-p.squared(a, b)) <= 0
}

// number gives every distance its place among the distances of the board.
func (p *plain) number() {
	var all []float64
	for a := range p.x {
		for b := range a {
			all = append(all, p.squared(a, b))
		}
	}
	slices.Sort(all)
	place := func(d float64) int {
		n := 0
		for i := 1; i < len(all) && all[i] <= d+p.margin; i++ {
			n += p.sign(all[i] - all[i-1])
		}
		return n + 1
	}
	p.far = make([][]int, len(p.x))
	for a := range p.x {
		p.far[a] = make([]int, len(p.x))
		for b := range p.x {
			if a != b {
				p.far[a][b] = place(p.squared(a, b))
			}
		}
	}
}

func (p *plain) segment(a, b int) int { return a*len(p.x) + b }

// pair tabulates which segments have a point in common.
func (p *plain) pair() {
	n := len(p.x)
	p.meet = make([][]bool, n*n)
	for s := range p.meet {
		p.meet[s] = make([]bool, n*n)
		for u := range p.meet[s] {
			a, b, c, d := s/n, s%n, u/n, u%n
			crossing := p.turn(a, b, c)*p.turn(a, b, d) < 0 && p.turn(c, d, a)*p.turn(c, d, b) < 0
			p.meet[s][u] = crossing || p.on(a, b, c) || p.on(a, b, d) || p.on(c, d, a) || p.on(c, d, b)
		}
	}
}

// figures lists every polygon of the board once: the first corner is the
// lowest, and the second is lower than the last.
func (p *plain) figures() []plainFigure {
	var out []plainFigure
	var path []int
	var grow func()
	grow = func() {
		if len(path) >= 3 && path[1] < path[len(path)-1] && p.simple(path) {
			f := plainFigure{word: p.word(path)}
			for _, c := range path {
				f.corners = append(f.corners, board.Peg(c))
			}
			out = append(out, f)
		}
		for next := path[0] + 1; next < len(p.x); next++ {
			if !slices.Contains(path, next) {
				path = append(path, next)
				grow()
				path = path[:len(path)-1]
			}
		}
	}
	for first := range p.x {
		path = []int{first}
		grow()
	}
	return out
}

// simple holds every pair of sides against the table, and every corner.
func (p *plain) simple(path []int) bool {
	k := len(path)
	for i := range path {
		j := (i + 1) % k
		if p.turn(path[i], path[j], path[(i+2)%k]) == 0 {
			return false
		}
		for m := i + 2; m < k && (i > 0 || m < k-1); m++ {
			if p.meet[p.segment(path[i], path[j])][p.segment(path[m], path[(m+1)%k])] {
				return false
			}
		}
	}
	return true
}

// word is the least of the tables of distances between all corners, over every
// start and both directions: definition D2 of congruence.
func (p *plain) word(path []int) string {
	least := ""
	k := len(path)
	for start := range path {
		for _, step := range []int{1, k - 1} {
			var w strings.Builder
			for i := range path {
				for j := range i {
					w.WriteByte(byte(p.far[path[(start+i*step)%k]][path[(start+j*step)%k]]))
				}
			}
			if least == "" || w.String() < least {
				least = w.String()
			}
		}
	}
	return fmt.Sprintf("%d:%s", k, least)
}

// tiny are boards of every kind that plain can list.
var tiny = []string{
	"square:2x2", "square:2x4", "square:3x3", "staggered:2x3", "staggered:3x3", "triangle:3", "triangle:4",
	"ring:5", "ring:6", "ring:7", "ring:8", "ring:5+centre", "ring:6+centre", "ring:8+centre",
}
