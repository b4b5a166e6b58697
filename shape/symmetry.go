package shape

import (
	"math"

	"pegwright/board"
	"pegwright/exact"
)

// FoldLine is a line through a polygon along which it might fold, given by the
// two places where it leaves the polygon: corners, or middles of sides.
type FoldLine struct {
	From, To  board.Spot
	FromEdge  board.Segment // the corner twice, or the side whose middle it is
	ToEdge    board.Segment
	swapsWith int // corner j goes to corner swapsWith − j
}

// Landing is the proof that a line is not a fold line: fold along it, and this
// corner lands where no corner is.
type Landing struct {
	Line   FoldLine
	Corner board.Peg
	Lands  board.Spot
}

// FoldAxes returns the fold lines of p.
func (p *Polygon) FoldAxes() []FoldLine {
	var out []FoldLine
	for s := range p.corners {
		if p.foldsOn(s) {
			out = append(out, p.axis(s))
		}
	}
	return out
}

// axis returns the line that would swap corners j and s−j: through the corners
// with 2j = s and the middles of the sides with 2j+1 = s, counted round the
// polygon; there are always two such places.
func (p *Polygon) axis(s int) FoldLine {
	k := len(p.corners)
	var places []board.Spot
	var edges []board.Segment
	for j := range p.corners {
		if (2*j-s)%k == 0 {
			places = append(places, p.board.SpotOf(p.Corner(j)))
			edges = append(edges, board.Segment{From: p.Corner(j), To: p.Corner(j)})
		}
		if (2*j+1-s)%k == 0 {
			places = append(places, p.board.MiddleOf(p.Side(j)))
			edges = append(edges, p.Side(j))
		}
	}
	return FoldLine{places[0], places[1], edges[0], edges[1], s}
}

// Landings returns, for each line that a child might take for a fold line and
// that is none, a corner and where it lands. Such lines pass through opposite
// corners, or opposite middles, or a corner and the middle opposite: one for
// each corner and side.
func (p *Polygon) Landings() []Landing {
	var out []Landing
	for s := range p.corners {
		if p.foldsOn(s) {
			continue
		}
		if l, ok := p.landing(p.axis(s)); ok {
			out = append(out, l)
		}
	}
	return out
}

// landing folds every corner along a line until one misses all corners.
func (p *Polygon) landing(line FoldLine) (Landing, bool) {
	for _, c := range p.corners {
		spot, onCorner := p.fold(c.peg, line)
		if !onCorner {
			return Landing{line, c.peg, spot}, true
		}
	}
	return Landing{}, false
}

// fold returns where a peg lands when the board is folded along a line, and
// whether a corner of p is there.
func (p *Polygon) fold(peg board.Peg, line FoldLine) (board.Spot, bool) {
	var spot board.Spot
	if p.board.Kind() == board.Ring {
		return p.foldOnRing(peg, line)
	}
	spot = p.board.Mirror(peg, line.From, line.To)
	return spot, spot.OnPeg && p.hasCorner(spot.Peg)
}

func (p *Polygon) hasCorner(peg board.Peg) bool {
	for _, c := range p.corners {
		if c.peg == peg {
			return true
		}
	}
	return false
}

// foldOnRing decides exactly where a ring's corner lands: onto corner q when
// the line is the mirror line of the two, which holds when both its places are
// equally far from the peg and from q. Distances to middles of sides are
// compared as cyclotomic numbers.
func (p *Polygon) foldOnRing(peg board.Peg, line FoldLine) (board.Spot, bool) {
	for _, c := range p.corners {
		if p.sameDistance(peg, c.peg, line.FromEdge) && p.sameDistance(peg, c.peg, line.ToEdge) &&
			(c.peg != peg || p.onLine(peg, line)) {
			return p.board.SpotOf(c.peg), true
		}
	}
	x, y := p.board.At(peg)
	mx, my := mirror(x, y, line)
	return board.Spot{X: mx, Y: my}, false
}

// onLine reports whether a ring's peg lies on the line of a fold.
func (p *Polygon) onLine(peg board.Peg, line FoldLine) bool {
	b := p.board
	a := b.Number(line.FromEdge.From).Plus(b.Number(line.FromEdge.To))
	c := b.Number(line.ToEdge.From).Plus(b.Number(line.ToEdge.To))
	z := b.Number(peg).Plus(b.Number(peg))
	u, v := z.Minus(a), c.Minus(a)
	product := u.Mul(v.Conj())
	return product.Minus(product.Conj()).IsZero() // no imaginary part
}

// sameDistance reports whether the middle of an edge is as far from p as from q.
func (p *Polygon) sameDistance(a, c board.Peg, edge board.Segment) bool {
	b := p.board
	middle := b.Number(edge.From).Plus(b.Number(edge.To))
	u := b.Number(a).Plus(b.Number(a)).Minus(middle)
	v := b.Number(c).Plus(b.Number(c)).Minus(middle)
	return u.Mul(u.Conj()).Minus(v.Mul(v.Conj())).IsZero()
}

func mirror(x, y float64, line FoldLine) (float64, float64) {
	dx, dy := line.To.X-line.From.X, line.To.Y-line.From.Y
	along := ((x-line.From.X)*dx + (y-line.From.Y)*dy) / (dx*dx + dy*dy)
	footX, footY := line.From.X+along*dx, line.From.Y+along*dy
	return 2*footX - x, 2*footY - y
}

// Congruent reports whether two polygons have one shape and one size: whether
// turning, flipping and moving in the plane lays one on the other. Boards
// measured in different units (spacings and radii) have no congruent figures.
func Congruent(p, q *Polygon) bool {
	if (p.board.Kind() == board.Ring) != (q.board.Kind() == board.Ring) {
		return false
	}
	return matches(p, q, true)
}

// Similar reports whether two polygons have one shape, whatever their size.
func Similar(p, q *Polygon) bool { return matches(p, q, false) }

// matches tries every start and both directions. The sides, as complex
// numbers, must keep one ratio; the polygons are congruent when its magnitude
// is 1. All of it is whole-number arithmetic on roots of unity, so figures of
// any two boards can be compared.
func matches(p, q *Polygon, sameSize bool) bool {
	k := len(p.corners)
	if k != len(q.corners) || !anglesCanMatch(p, q) {
		return false
	}
	order := exact.LCM(len(p.board.Number(0)), len(q.board.Number(0)))
	e, f := p.sideNumbers(order), q.sideNumbers(order)
	flipped := make([]exact.Cyclotomic, k)
	for i := range f {
		flipped[i] = f[k-1-i].Conj()
	}
	if sameSize && !sameLengths(p, q, e, f) {
		return false
	}
	for shift := range k {
		if oneRatio(e, f, shift) || oneRatio(e, flipped, shift) {
			return true
		}
	}
	return false
}

// anglesCanMatch is the filter in front: the float64 angles agree as multisets
// as closely as rounding allows. It never decides that two polygons match.
func anglesCanMatch(p, q *Polygon) bool {
	sumP, sumQ := 0.0, 0.0
	for i := range p.corners {
		sumP += math.Pow(p.board.Degrees(p.Angle(i)), 2)
		sumQ += math.Pow(q.board.Degrees(q.Angle(i)), 2)
	}
	return math.Abs(sumP-sumQ) < 1e-3
}

// sameLengths reports whether the perimeters of similar polygons can be equal:
// the shortest sides are compared exactly.
func sameLengths(p, q *Polygon, e, f []exact.Cyclotomic) bool {
	i, j := p.shortest(), q.shortest()
	return e[i].Mul(e[i].Conj()).Minus(f[j].Mul(f[j].Conj())).IsZero()
}

func (p *Polygon) shortest() int {
	least := 0
	for i, c := range p.corners {
		if c.length < p.corners[least].length {
			least = i
		}
	}
	return least
}

// sideNumbers returns the sides as cyclotomic numbers of a common order.
func (p *Polygon) sideNumbers(order int) []exact.Cyclotomic {
	out := make([]exact.Cyclotomic, len(p.corners))
	for i := range p.corners {
		s := p.Side(i)
		out[i] = p.board.Number(s.To).Minus(p.board.Number(s.From)).Lift(order)
	}
	return out
}

// oneRatio reports whether e[i]/f[i+shift] is one number for all i.
func oneRatio(e, f []exact.Cyclotomic, shift int) bool {
	k := len(e)
	for i := 1; i < k; i++ {
		if !e[i].Mul(f[shift]).Minus(e[0].Mul(f[(i+shift)%k])).IsZero() {
			return false
		}
	}
	return true
}
