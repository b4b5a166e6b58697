// Package shape reads figures: it says exactly what the bands on a board make,
// and everything that is true of it, each fact with its reason.
//
// Read does the whole job. Trace merges the bands into an outline and names
// its status; Polygon answers one question at a time about a closed outline
// (the atlas asks millions); Measure collects the answers as Facts. Which
// facts a task wants, and sentences about them, are other packages' work.
package shape

import (
	"math"
	"math/big"
	"slices"

	"pegwright/board"
	"pegwright/exact"
)

// Polygon is a simple polygon on a board, its corners in anticlockwise order
// from the one with the lowest number. Every method answers from exact
// arithmetic, except the three that compare with the ideal figure (Likeness,
// SideSpread, AngleSpread), which are for showing.
type Polygon struct {
	board   *board.Board
	corners []corner
}

// corner is a corner with the side that leaves it.
type corner struct {
	peg    board.Peg
	side   board.Arrow
	length board.Length
	angle  board.Angle // interior
}

// NewPolygon returns the polygon with these corners, in either direction and
// from any start, and whether they make one: three or more, none passed
// straight through, no side meeting another except neighbours at their corner.
func NewPolygon(b *board.Board, pegs []board.Peg) (*Polygon, bool) {
	if !simple(b, pegs) {
		return nil, false
	}
	p := &Polygon{board: b}
	p.Reset(pegs)
	return p, true
}

// EmptyPolygon returns a polygon to be Reset, for a search that looks at very
// many and keeps none.
func EmptyPolygon(b *board.Board) *Polygon { return &Polygon{board: b} }

// Reset makes p the polygon with these corners, which the caller knows to make
// one. It allocates only when p has never held so many.
func (p *Polygon) Reset(pegs []board.Peg) {
	k := len(pegs)
	if cap(p.corners) < k {
		p.corners = make([]corner, k)
	}
	p.corners = p.corners[:k]
	first := 0
	for i := range pegs {
		if pegs[i] < pegs[first] {
			first = i
		}
	}
	// The lowest-numbered corner is an extreme point of the figure on every
	// board, so the path turns there as it runs.
	step := p.board.Turn(pegs[(first+k-1)%k], pegs[first], pegs[(first+1)%k])
	at := first
	for i := range p.corners {
		p.corners[i].peg = pegs[at]
		at += step
		if at == k {
			at = 0
		} else if at < 0 {
			at = k - 1
		}
	}
	p.measure()
}

func (p *Polygon) measure() {
	b, k := p.board, len(p.corners)
	for i := range p.corners {
		c := &p.corners[i]
		next := i + 1
		if next == k {
			next = 0
		}
		c.side = b.Arrow(c.peg, p.corners[next].peg)
		c.length = b.Length(c.side)
	}
	in := p.corners[k-1].side
	for i := range p.corners {
		c := &p.corners[i]
		c.angle = b.Angle(in, c.side)
		in = c.side
	}
}

// simple reports whether pegs are the corners of a simple polygon.
func simple(b *board.Board, pegs []board.Peg) bool {
	k := len(pegs)
	if k < 3 {
		return false
	}
	for i := range pegs {
		if b.Turn(pegs[i], pegs[(i+1)%k], pegs[(i+2)%k]) == 0 {
			return false
		}
		for j := i + 2; j < k; j++ {
			if i == 0 && j == k-1 {
				continue
			}
			s, t := board.Segment{From: pegs[i], To: pegs[i+1]}, board.Segment{From: pegs[j], To: pegs[(j+1)%k]}
			if b.Meeting(s, t) != board.Apart {
				return false
			}
		}
	}
	return true
}

// Board returns the board the polygon is on.
func (p *Polygon) Board() *board.Board { return p.board }

// Sides returns the number of sides, which is the number of corners.
func (p *Polygon) Sides() int { return len(p.corners) }

// Corners returns the pegs at the corners.
func (p *Polygon) Corners() []board.Peg {
	out := make([]board.Peg, len(p.corners))
	for i, c := range p.corners {
		out[i] = c.peg
	}
	return out
}

// Corner returns the peg at corner i; i may run past the last corner.
func (p *Polygon) Corner(i int) board.Peg { return p.corners[i%len(p.corners)].peg }

// Side returns side i, from corner i to corner i+1.
func (p *Polygon) Side(i int) board.Segment {
	return board.Segment{From: p.Corner(i), To: p.Corner(i + 1)}
}

// Length returns the length of side i.
func (p *Polygon) Length(i int) board.Length { return p.corners[i].length }

// Angle returns the interior angle at corner i.
func (p *Polygon) Angle(i int) board.Angle { return p.corners[i].angle }

// AngleKind returns the kind of the interior angle at corner i.
func (p *Polygon) AngleKind(i int) board.AngleKind { return p.board.AngleKind(p.corners[i].angle) }

// CountAngles returns how many interior angles are of one kind.
func (p *Polygon) CountAngles(kind board.AngleKind) int {
	n := 0
	for i := range p.corners {
		if p.AngleKind(i) == kind {
			n++
		}
	}
	return n
}

// Convex reports whether no corner turns in.
func (p *Polygon) Convex() bool {
	return !slices.ContainsFunc(p.corners, func(c corner) bool { return p.board.AngleKind(c.angle) == board.Reflex })
}

// Equilateral reports whether all sides are equally long.
func (p *Polygon) Equilateral() bool {
	return !slices.ContainsFunc(p.corners, func(c corner) bool { return c.length != p.corners[0].length })
}

// Equiangular reports whether all interior angles are equal.
func (p *Polygon) Equiangular() bool {
	first := p.corners[0].angle
	return !slices.ContainsFunc(p.corners, func(c corner) bool { return !p.board.SameAngle(c.angle, first) })
}

// Regular reports whether all sides and all angles are equal.
func (p *Polygon) Regular() bool { return p.Equilateral() && p.Equiangular() }

// ParallelPairs counts the pairs of sides that run in one direction on
// different lines.
func (p *Polygon) ParallelPairs() int {
	n := 0
	p.eachPair(func(i, j int) {
		if p.parallel(i, j) {
			n++
		}
	})
	return n
}

// PerpendicularPairs counts the pairs of sides whose directions are at right
// angles, whether or not they meet.
func (p *Polygon) PerpendicularPairs() int {
	n := 0
	p.eachPair(func(i, j int) {
		if p.perpendicular(i, j) {
			n++
		}
	})
	return n
}

func (p *Polygon) eachPair(visit func(i, j int)) {
	for i := range p.corners {
		for j := i + 1; j < len(p.corners); j++ {
			visit(i, j)
		}
	}
}

func (p *Polygon) parallel(i, j int) bool {
	return p.board.Cross(p.corners[i].side, p.corners[j].side) == 0 &&
		p.board.Turn(p.Corner(i), p.Corner(i+1), p.Corner(j)) != 0
}

func (p *Polygon) perpendicular(i, j int) bool {
	return p.board.Dot(p.corners[i].side, p.corners[j].side) == 0
}

// UprightSides counts the sides that go level or straight up.
func (p *Polygon) UprightSides() int {
	n := 0
	for _, c := range p.corners {
		if p.board.Upright(c.side) {
			n++
		}
	}
	return n
}

// LengthsUsed counts the different lengths among the sides.
func (p *Polygon) LengthsUsed() int { return len(p.SideClasses()) }

// EqualSides returns the size of the largest set of equally long sides, 1 when
// all differ.
func (p *Polygon) EqualSides() int {
	most := 0
	for i := range p.corners {
		n := 0
		for j := range p.corners {
			if p.corners[i].length == p.corners[j].length {
				n++
			}
		}
		most = max(most, n)
	}
	return most
}

// SideClasses groups the sides by length, shortest first.
func (p *Polygon) SideClasses() [][]int {
	order := make([]int, len(p.corners))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return int(p.corners[i].length - p.corners[j].length) })
	var out [][]int
	for n, i := range order {
		if n == 0 || p.corners[i].length != p.corners[order[n-1]].length {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], i)
	}
	return out
}

// FoldLines counts the lines along which the polygon folds onto itself.
//
// A fold sends corner j to corner s−j for one of k values of s, and it is one
// exactly when the lengths and angles read the same both ways from there: the
// palindrome test on the cyclic list of sides and angles.
func (p *Polygon) FoldLines() int {
	n := 0
	for s := range p.corners {
		if p.foldsOn(s) {
			n++
		}
	}
	return n
}

// foldsOn reports whether the axis that swaps corners j and s−j is a fold line.
func (p *Polygon) foldsOn(s int) bool {
	k := len(p.corners)
	there := s // runs over s−j for j = 0, 1, …
	for j := range p.corners {
		across := there - 1 // the side that side j folds onto
		if across < 0 {
			across = k - 1
		}
		if p.corners[j].length != p.corners[across].length || p.corners[j].angle != p.corners[there].angle {
			return false
		}
		there = across
	}
	return true
}

// TurnOrder returns in how many positions the polygon fits onto itself in one
// full turn, 1 when only in the first.
func (p *Polygon) TurnOrder() int {
	n := 0
	for s := range p.corners {
		if p.fitsTurned(s) {
			n++
		}
	}
	return n
}

func (p *Polygon) fitsTurned(s int) bool {
	k := len(p.corners)
	for j, c := range p.corners {
		d := p.corners[(j+s)%k]
		if c.length != d.length || c.angle != d.angle {
			return false
		}
	}
	return true
}

// Area2 returns twice the area in units of the lattice: of the unit square on
// a square board, of √3/2 on the triangular lattice (so one for each smallest
// triangle). It is 0 on a ring, whose areas are sums of sines.
//
// It is the shoelace sum (Meister 1769; from memory).
func (p *Polygon) Area2() int {
	if p.board.Kind() == board.Ring {
		return 0
	}
	// The sum of cross products of each side with the way from the first
	// corner, which is the doubled area whatever point it is taken from.
	sum, at := int32(0), board.Arrow{}
	for _, c := range p.corners {
		sum += at.X*c.side.Y - at.Y*c.side.X
		at.X += c.side.X
		at.Y += c.side.Y
	}
	return int(sum)
}

// Area returns the area exactly, in squares of the peg spacing or the radius.
func (p *Polygon) Area() exact.Number {
	switch {
	case p.board.Kind() == board.Square:
		return exact.Rational(int64(p.Area2()), 2)
	case p.board.Triangular():
		return exact.Roots{}.Plus(3, big.NewRat(int64(p.Area2()), 4))
	}
	n := p.board.Columns()
	total := exact.NewSines(n)
	for i := range p.corners {
		from, to := int(p.Corner(i)), int(p.Corner(i+1))
		if from < n && to < n {
			total.Add(2*(from-to), big.NewRat(1, 2))
		}
	}
	return total
}

// AreaFloat returns the area as a float64, for showing.
func (p *Polygon) AreaFloat() float64 {
	switch {
	case p.board.Kind() == board.Square:
		return float64(p.Area2()) / 2
	case p.board.Triangular():
		return float64(p.Area2()) * math.Sqrt(3) / 4
	}
	n := p.board.Columns()
	sum := 0.0
	for i := range p.corners {
		from, to := int(p.Corner(i)), int(p.Corner(i+1))
		if from < n && to < n {
			sum += math.Sin(2*math.Pi*float64(from-to)/float64(n)) / 2
		}
	}
	return sum
}

// Perimeter returns the distance round, exactly, in spacings or radii.
func (p *Polygon) Perimeter() exact.Number {
	lengths := make([]board.Length, len(p.corners))
	for i, c := range p.corners {
		lengths[i] = c.length
	}
	return p.board.LengthSum(lengths)
}

// PegsOnEdge counts the pegs that the band touches, corners included.
func (p *Polygon) PegsOnEdge() int {
	n := 0
	for _, c := range p.corners {
		n += p.board.Steps(c.side)
	}
	return n
}

// PegsInside counts the pegs inside the band.
//
// On a lattice it is Pick's theorem, A = I + B/2 − 1 (Pick 1899): every board
// fills the outline of its pegs, so no lattice point inside a polygon lacks
// its peg. Inside a ring there is only the centre.
func (p *Polygon) PegsInside() int {
	if p.board.Kind() != board.Ring {
		return (p.Area2() - p.PegsOnEdge() + 2) / 2
	}
	if p.board.HasCentre() && p.aroundCentre() {
		return 1
	}
	return 0
}

// aroundCentre reports whether the middle of a ring is strictly inside: no
// corner is there and every side spans less than half the ring.
func (p *Polygon) aroundCentre() bool {
	n := p.board.Columns()
	for i := range p.corners {
		from, to := int(p.Corner(i)), int(p.Corner(i+1))
		if from == n || to == n {
			return false
		}
		// Anticlockwise is downwards in peg numbers.
		if 2*((from-to+n)%n) >= n {
			return false
		}
	}
	return true
}

// PassedOver returns the pegs that sides pass straight over, in order.
func (p *Polygon) PassedOver() []board.Peg {
	var out []board.Peg
	for i := range p.corners {
		s := p.Side(i)
		out = append(out, p.board.Over(s.From, s.To)...)
	}
	return out
}

// Likeness says how close the polygon comes to the regular one with as many
// corners, from 0 to 1: the share of its Fourier energy in the first harmonic,
// |Z1|²/Σ|Zm|² over m ≠ 0, the larger of the two directions. Only the regular
// polygon itself has likeness 1; whether a polygon is regular is decided by
// Regular, never by this.
//
// The sum over m comes from Parseval's theorem: k·Σ|z|² − |Σz|².
func (p *Polygon) Likeness() float64 {
	k := len(p.corners)
	x0, y0 := p.board.At(p.corners[0].peg)
	var sum, first, back complex128
	energy := 0.0
	root := complex(1, 0)
	sin, cos := math.Sincos(2 * math.Pi / float64(k))
	for _, c := range p.corners {
		x, y := p.board.At(c.peg)
		z := complex(x-x0, y-y0)
		sum += z
		energy += real(z)*real(z) + imag(z)*imag(z)
		first += z * root
		back += z * complex(real(root), -imag(root))
		root *= complex(cos, sin)
	}
	all := float64(k)*energy - square(sum)
	return min(1, max(square(first), square(back))/all)
}

func square(z complex128) float64 { return real(z)*real(z) + imag(z)*imag(z) }

// SideSpread says by what share the longest side is longer than the shortest,
// 0 when all are equal.
func (p *Polygon) SideSpread() float64 {
	short, long := p.corners[0].length, p.corners[0].length
	for _, c := range p.corners {
		short, long = min(short, c.length), max(long, c.length)
	}
	if short == long {
		return 0
	}
	return p.board.LengthFloat(long)/p.board.LengthFloat(short) - 1
}

// AngleSpread returns the largest interior angle less the smallest, in degrees.
func (p *Polygon) AngleSpread() float64 {
	if p.Equiangular() {
		return 0
	}
	least, most := 360.0, 0.0
	for _, c := range p.corners {
		d := p.board.Degrees(c.angle)
		least, most = min(least, d), max(most, d)
	}
	return most - least
}
