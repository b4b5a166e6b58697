package shape_test

import (
	"math"
	"slices"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// plain is a board laid out a second time in the plainest way, with the
// geometry of schoolbooks, to check the readings against. A peg is at
// (x·u, y·v), where u² : v² is 1 : weight. On lattices x and y are whole
// numbers (half spacings and rows on the triangular one, which makes the
// weight 3), so float64 arithmetic on them is exact; on a ring they are sines,
// and every sign that is not clear by far fails the test.
type plain struct {
	t      testing.TB
	b      *board.Board
	x, y   []float64
	weight float64
	unit   float64 // length of a step in x
	margin float64
}

func layOut(t testing.TB, b *board.Board) *plain {
	t.Helper()
	p := &plain{t: t, b: b, weight: 1, unit: 1}
	put := func(x, y float64) { p.x, p.y = append(p.x, x), append(p.y, y) }
	w, h := b.Columns(), b.Rows()
	switch b.Kind() {
	case board.Square:
		for k := range w * h {
			put(float64(k%w), float64(k/w))
		}
	case board.Staggered:
		p.weight, p.unit = 3, 0.5
		for k := range w * h {
			put(float64(2*(k%w)+k/w%2), float64(k/w))
		}
	case board.Triangle:
		p.weight, p.unit = 3, 0.5
		for row := range h {
			for column := range w - row {
				put(float64(2*column+row), float64(row))
			}
		}
	case board.Ring:
		p.margin = 1e-6
		for k := range w {
			turn := 2 * math.Pi * float64(k) / float64(w)
			put(math.Sin(turn), math.Cos(turn))
		}
		if b.HasCentre() {
			put(0, 0)
		}
	}
	return p
}

// sign returns the sign of v and fails the test if rounding could decide it.
func (p *plain) sign(v float64) int {
	switch {
	case v > p.margin:
		return 1
	case v < -p.margin:
		return -1
	case math.Abs(v) > p.margin*p.margin:
		p.t.Errorf("the margin does not hold: %v", v)
	}
	return 0
}

func (p *plain) turn(a, b, c board.Peg) int {
	return p.sign((p.x[b]-p.x[a])*(p.y[c]-p.y[a]) - (p.y[b]-p.y[a])*(p.x[c]-p.x[a]))
}

// dot is the dot product of a→b and c→d, in steps of x.
func (p *plain) dot(a, b, c, d board.Peg) float64 {
	return (p.x[b]-p.x[a])*(p.x[d]-p.x[c]) + p.weight*(p.y[b]-p.y[a])*(p.y[d]-p.y[c])
}

// slope is the sign of the cross product of a→b and c→d.
func (p *plain) slope(a, b, c, d board.Peg) int {
	return p.sign((p.x[b]-p.x[a])*(p.y[d]-p.y[c]) - (p.y[b]-p.y[a])*(p.x[d]-p.x[c]))
}

func (p *plain) squared(a, b board.Peg) float64 { return p.dot(a, b, a, b) }

func (p *plain) between(a, b, c board.Peg) bool {
	return a != b && b != c && a != c && p.turn(a, b, c) == 0 && p.sign(p.dot(b, a, b, c)) < 0
}

// clash reports whether two segments without a common end share a point.
func (p *plain) clash(a, b, c, d board.Peg) bool {
	if p.between(a, c, b) || p.between(a, d, b) || p.between(c, a, d) || p.between(c, b, d) {
		return true
	}
	return p.turn(a, b, c)*p.turn(a, b, d) < 0 && p.turn(c, d, a)*p.turn(c, d, b) < 0
}

// search lists simple polygons naively: it draws sides one after another from
// the lowest corner on, never turning back and never letting two sides meet.
type search struct {
	p     *plain
	edge  [][]int    // number of the edge between two pegs
	meets [][]uint64 // for each edge, the edges it meets, one bit each
	turns [][][]bool // whether the path turns at the middle peg
}

func newSearch(p *plain) *search {
	n := len(p.x)
	s := &search{p: p, edge: make([][]int, n), turns: make([][][]bool, n)}
	var ends [][2]board.Peg
	for i := range n {
		s.edge[i] = make([]int, n)
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			s.edge[i][j], s.edge[j][i] = len(ends), len(ends)
			ends = append(ends, [2]board.Peg{board.Peg(i), board.Peg(j)})
		}
	}
	for _, e := range ends {
		meets := make([]uint64, (len(ends)+63)/64)
		for k, f := range ends {
			if e[0] != f[0] && e[0] != f[1] && e[1] != f[0] && e[1] != f[1] && p.clash(e[0], e[1], f[0], f[1]) {
				meets[k/64] |= 1 << (k % 64)
			}
		}
		s.meets = append(s.meets, meets)
	}
	for i := range n {
		s.turns[i] = make([][]bool, n)
		for j := range n {
			s.turns[i][j] = make([]bool, n)
			for k := range n {
				s.turns[i][j][k] = i != j && j != k && i != k && p.turn(board.Peg(i), board.Peg(j), board.Peg(k)) != 0
			}
		}
	}
	return s
}

// each visits every simple polygon with at most so many corners once, from its
// lowest corner, in the direction in which the second corner is lower than the
// last. Of all polygons it visits those whose first side is in the given part
// of the parts.
func (s *search) each(most, part, parts int, visit func(pegs []board.Peg)) {
	n := len(s.p.x)
	blocked := make([][]uint64, n+1) // by number of corners so far
	for i := range blocked {
		blocked[i] = make([]uint64, len(s.meets[0]))
	}
	used := make([]bool, n)
	path := make([]board.Peg, 0, n)
	var extend func()
	add := func(next int) bool {
		k := len(path)
		e := s.edge[path[k-1]][next]
		if used[next] || blocked[k-1][e/64]>>(e%64)&1 == 1 || k > 1 && !s.turns[path[k-2]][path[k-1]][next] {
			return false
		}
		for i, m := range s.meets[e] {
			blocked[k][i] = blocked[k-1][i] | m
		}
		path = append(path, board.Peg(next))
		used[next] = true
		return true
	}
	extend = func() {
		if k := len(path); k >= 3 && path[1] < path[k-1] {
			e := s.edge[path[k-1]][path[0]]
			if blocked[k-1][e/64]>>(e%64)&1 == 0 && s.turns[path[k-2]][path[k-1]][path[0]] && s.turns[path[k-1]][path[0]][path[1]] {
				visit(path)
			}
		}
		if len(path) == most {
			return
		}
		for next := int(path[0]) + 1; next < n; next++ {
			if add(next) {
				extend()
				path = path[:len(path)-1]
				used[next] = false
			}
		}
	}
	for first := range n {
		path = append(path[:0], board.Peg(first))
		for second := first + 1; second < n; second++ {
			if s.edge[first][second]%parts == part && add(second) {
				extend()
				path = path[:1]
				used[second] = false
			}
		}
	}
}

// polygons lists the simple polygons on a board with at most so many corners.
func polygons(t testing.TB, b *board.Board, most int) []*shape.Polygon {
	t.Helper()
	var out []*shape.Polygon
	newSearch(layOut(t, b)).each(most, 0, 1, func(pegs []board.Peg) {
		p, ok := shape.NewPolygon(b, pegs)
		if !ok {
			t.Fatalf("%s: NewPolygon(%v) is none", b, b.Names(pegs))
		}
		out = append(out, p)
	})
	return out
}

// facts works out what can be said of a polygon with corners pegs, the naive
// way. Likeness, SideSpread and AngleSpread are left out, and Area2 on rings.
func (p *plain) facts(pegs []board.Peg) shape.Facts {
	k := len(pegs)
	at := func(i int) board.Peg { return pegs[(i+k)%k] }
	f := shape.Facts{Sides: k, Equilateral: true, Equiangular: true}
	area := 0.0
	for i := range k {
		area += p.x[at(i)]*p.y[at(i+1)] - p.x[at(i+1)]*p.y[at(i)]
	}
	way := p.sign(area)
	if p.b.Kind() != board.Ring {
		f.Area2 = int(math.Round(math.Abs(area) * p.unit))
		if p.weight == 3 { // steps are half a spacing by a row: two make a triangle of area √3/4
			f.Area2 = int(math.Round(math.Abs(area) / 2))
		}
	}
	for i := range k {
		arms := p.dot(at(i), at(i-1), at(i), at(i+1))
		switch turn := p.turn(at(i-1), at(i), at(i+1)) * way; {
		case turn < 0:
			f.ReflexAngles++
		case p.sign(arms) > 0:
			f.AcuteAngles++
		case p.sign(arms) == 0:
			f.RightAngles++
		default:
			f.ObtuseAngles++
		}
		a, b := at(i), at(i+1)
		if p.sign(p.x[a]-p.x[b]) == 0 || p.sign(p.y[a]-p.y[b]) == 0 {
			f.UprightSides++
		}
		equal := 0
		for j := range k {
			c, d := at(j), at(j+1)
			if p.sign(p.squared(a, b)-p.squared(c, d)) == 0 {
				equal++
			}
			if j <= i {
				continue
			}
			if p.slope(a, b, c, d) == 0 && p.turn(a, b, c) != 0 {
				f.ParallelPairs++
			}
			if p.sign(p.dot(a, b, c, d)) == 0 {
				f.PerpendicularPairs++
			}
		}
		f.EqualSides = max(f.EqualSides, equal)
		if !p.sameCorner(at(i-1), at(i), at(i+1), at(-1), at(0), at(1), way) {
			f.Equiangular = false
		}
	}
	f.Equilateral = f.EqualSides == k
	f.Convex = f.ReflexAngles == 0
	f.Regular = f.Equilateral && f.Equiangular
	for s := range k {
		if p.isometry(pegs, func(j int) int { return (s - j + k) % k }) {
			f.FoldLines++
		}
		if p.isometry(pegs, func(j int) int { return (s + j) % k }) {
			f.TurnOrder++
		}
	}
	for peg := range p.x {
		switch on, in := p.place(pegs, board.Peg(peg)); {
		case on:
			f.PegsOnEdge++
		case in:
			f.PegsInside++
		}
	}
	return f
}

// sameCorner reports whether two corners have one interior angle: one ratio of
// cross and dot products, and one sign of each.
func (p *plain) sameCorner(a, b, c, d, e, f board.Peg, way int) bool {
	dot1, dot2 := p.dot(b, a, b, c), p.dot(e, d, e, f)
	cross := func(a, b, c board.Peg) float64 {
		return (p.x[c]-p.x[b])*(p.y[a]-p.y[b]) - (p.y[c]-p.y[b])*(p.x[a]-p.x[b])
	}
	cross1, cross2 := cross(a, b, c)*float64(way), cross(d, e, f)*float64(way)
	return p.sign(dot1) == p.sign(dot2) && p.sign(cross1) == p.sign(cross2) && p.sign(dot1*cross2-dot2*cross1) == 0
}

// isometry reports whether a renumbering of the corners keeps all distances.
func (p *plain) isometry(pegs []board.Peg, to func(int) int) bool {
	for i := range pegs {
		for j := range i {
			if p.sign(p.squared(pegs[i], pegs[j])-p.squared(pegs[to(i)], pegs[to(j)])) != 0 {
				return false
			}
		}
	}
	return true
}

// place says whether a peg is on the edge of a polygon, and whether it is
// inside, by counting the sides that a ray to the right of it crosses.
func (p *plain) place(pegs []board.Peg, peg board.Peg) (on, in bool) {
	k := len(pegs)
	for i := range k {
		a, b := pegs[i], pegs[(i+1)%k]
		if peg == a || p.between(a, peg, b) {
			return true, false
		}
		aAbove, bAbove := p.sign(p.y[a]-p.y[peg]) > 0, p.sign(p.y[b]-p.y[peg]) > 0
		if aAbove != bAbove && (p.turn(a, b, peg) > 0) == bAbove {
			in = !in
		}
	}
	return false, in
}

// matchKey reports whether two polygons have equal distances between their
// corners under one of the 2k ways of running round.
func (p *plain) congruent(a, b []board.Peg) bool {
	k := len(a)
	if k != len(b) {
		return false
	}
	for s := range k {
		for _, step := range []int{1, k - 1} {
			if p.sameDistances(a, b, s, step) {
				return true
			}
		}
	}
	return false
}

func (p *plain) sameDistances(a, b []board.Peg, start, step int) bool {
	k := len(a)
	for i := range k {
		for j := range i {
			if p.sign(p.squared(a[i], a[j])-p.squared(b[(start+i*step)%k], b[(start+j*step)%k])) != 0 {
				return false
			}
		}
	}
	return true
}

// countClasses counts polygons by corners, up to an equivalence.
func countClasses(all []*shape.Polygon, same func(p, q *shape.Polygon) bool) map[int]int {
	first := map[int][]*shape.Polygon{}
	for _, p := range all {
		k := p.Sides()
		if !slices.ContainsFunc(first[k], func(q *shape.Polygon) bool { return same(p, q) }) {
			first[k] = append(first[k], p)
		}
	}
	out := map[int]int{}
	for k, classes := range first {
		out[k] = len(classes)
	}
	return out
}
