package board

import (
	"math/big"
	"strings"

	"pegwright/exact"
)

// Segment is a straight piece between two different pegs.
type Segment struct{ From, To Peg }

// Along returns the move along a segment, from its first peg.
func (b *Board) Along(s Segment) Arrow { return b.Arrow(s.From, s.To) }

// Turn returns +1 when the way from p over q to r turns left at q, −1 when it
// turns right, and 0 when the three lie on one line.
func (b *Board) Turn(p, q, r Peg) int {
	if p == q || q == r || p == r {
		return 0
	}
	return b.Cross(b.Arrow(p, q), b.Arrow(q, r))
}

// Between reports whether q lies on the straight way from p to r, strictly
// between them.
func (b *Board) Between(p, q, r Peg) bool {
	if p == q || q == r || p == r {
		return false
	}
	in, out := b.Arrow(p, q), b.Arrow(q, r)
	return b.Cross(in, out) == 0 && b.Dot(in, out) > 0
}

// Over returns the pegs that lie strictly between p and q, in order from p.
func (b *Board) Over(p, q Peg) []Peg {
	if b.kind == Ring {
		if b.centre && b.Between(p, Peg(b.columns), q) {
			return []Peg{Peg(b.columns)}
		}
		return nil
	}
	steps := b.Steps(b.Arrow(p, q))
	var out []Peg
	for k := 1; k < steps; k++ {
		at := b.at[p]
		move := b.Arrow(p, q)
		at.X += move.X / int32(steps) * int32(k)
		at.Y += move.Y / int32(steps) * int32(k)
		if over, ok := b.pegAt(at); ok {
			out = append(out, over)
		}
	}
	return out
}

// Steps returns how many equal hops from lattice point to lattice point a move
// makes; on a ring a move is one hop, or two along a diameter over the centre.
func (b *Board) Steps(a Arrow) int {
	if b.kind != Ring {
		return int(exact.GCD(a.X, a.Y))
	}
	if b.centre && a.Y == 3*int32(b.columns) {
		return 2
	}
	return 1
}

// pegAt returns the peg at a lattice point.
func (b *Board) pegAt(at Arrow) (Peg, bool) {
	row, column := at.Y, at.X
	if b.kind == Staggered {
		column += row / 2
	}
	width := int32(b.columns)
	if row < 0 || row >= int32(b.rows) || column < 0 {
		return 0, false
	}
	if b.kind == Triangle {
		if column >= width-row {
			return 0, false
		}
		return Peg(row*width - row*(row-1)/2 + column), true
	}
	if column >= width {
		return 0, false
	}
	return Peg(row*width + column), true
}

// Meeting says how two segments lie to each other.
type Meeting int

// The ways in which two segments can meet. Crossing is at one point inside
// both; Resting is an end of one inside the other; Overlapping shares more
// than a point.
const (
	Apart Meeting = iota
	SharedEnd
	Crossing
	Resting
	Overlapping
)

// Meeting returns how two segments meet, exactly.
func (b *Board) Meeting(s, t Segment) Meeting {
	a1, a2 := b.Turn(s.From, s.To, t.From), b.Turn(s.From, s.To, t.To)
	if a1 == 0 && a2 == 0 {
		return b.meetingOnLine(s, t)
	}
	b1, b2 := b.Turn(t.From, t.To, s.From), b.Turn(t.From, t.To, s.To)
	switch {
	case s.From == t.From || s.From == t.To || s.To == t.From || s.To == t.To:
		return SharedEnd
	case a1*a2 < 0 && b1*b2 < 0:
		return Crossing
	case a1*a2 <= 0 && b1*b2 <= 0:
		return Resting
	}
	return Apart
}

// meetingOnLine is Meeting for segments on one line.
func (b *Board) meetingOnLine(s, t Segment) Meeting {
	inside := func(p Peg, s Segment) bool { return b.Between(s.From, p, s.To) }
	same := s == t || (s.From == t.To && s.To == t.From)
	switch {
	case same, inside(t.From, s), inside(t.To, s), inside(s.From, t), inside(s.To, t):
		return Overlapping
	case s.From == t.From, s.From == t.To, s.To == t.From, s.To == t.To:
		return SharedEnd
	}
	return Apart
}

// Spot is a place on a board: a peg, or a point between pegs. On a lattice it
// is exact; on a ring points between pegs are known by the lines that meet
// there, and X and Y are for drawing.
type Spot struct {
	Peg   Peg
	OnPeg bool
	X, Y  float64 // as Board.At
	// Across and Up are the distance to the right of the bottom left peg in
	// spacings and the number of rows above it; nil on a ring.
	Across, Up *big.Rat
}

// SpotOf returns the place of a peg.
func (b *Board) SpotOf(p Peg) Spot {
	if b.kind == Ring {
		x, y := b.At(p)
		return Spot{Peg: p, OnPeg: true, X: x, Y: y}
	}
	return b.spotAt(big.NewRat(int64(b.at[p].X), 1), big.NewRat(int64(b.at[p].Y), 1))
}

// spotAt returns the place at rational lattice steps from the origin.
func (b *Board) spotAt(x, y *big.Rat) Spot {
	fx, _ := x.Float64()
	fy, _ := y.Float64()
	s := Spot{Across: x, Up: y}
	s.X, s.Y = b.place(fx, fy)
	if b.kind != Square {
		s.Across = new(big.Rat).Add(x, new(big.Rat).Mul(y, big.NewRat(1, 2)))
	}
	if x.IsInt() && y.IsInt() && x.Num().IsInt64() && y.Num().IsInt64() {
		s.Peg, s.OnPeg = b.pegAt(Arrow{int32(x.Num().Int64()), int32(y.Num().Int64())})
	}
	return s
}

// MiddleOf returns the place half way along a segment.
func (b *Board) MiddleOf(s Segment) Spot {
	if b.kind == Ring {
		if over := b.Over(s.From, s.To); len(over) == 1 {
			return b.SpotOf(over[0])
		}
		x1, y1 := b.At(s.From)
		x2, y2 := b.At(s.To)
		return Spot{X: (x1 + x2) / 2, Y: (y1 + y2) / 2}
	}
	p, q := b.at[s.From], b.at[s.To]
	return b.spotAt(big.NewRat(int64(p.X+q.X), 2), big.NewRat(int64(p.Y+q.Y), 2))
}

// CrossingPoint returns the place where two crossing segments cross.
func (b *Board) CrossingPoint(s, t Segment) Spot {
	if b.kind == Ring {
		return b.ringCrossing(s, t)
	}
	d, e := b.Along(s), b.Along(t)
	gap := b.Arrow(s.From, t.From)
	if s.From == t.From {
		gap = Arrow{}
	}
	along := big.NewRat(cross(gap, e), cross(d, e))
	part := func(start, step int32) *big.Rat {
		move := new(big.Rat).Mul(along, big.NewRat(int64(step), 1))
		return move.Add(move, big.NewRat(int64(start), 1))
	}
	start := b.at[s.From]
	return b.spotAt(part(start.X, d.X), part(start.Y, d.Y))
}

func cross(a, c Arrow) int64 {
	return int64(a.X)*int64(c.Y) - int64(a.Y)*int64(c.X)
}

func (b *Board) ringCrossing(s, t Segment) Spot {
	if over := b.Over(s.From, s.To); len(over) == 1 && b.Between(t.From, over[0], t.To) {
		return b.SpotOf(over[0])
	}
	x1, y1 := b.At(s.From)
	x2, y2 := b.At(s.To)
	x3, y3 := b.At(t.From)
	x4, y4 := b.At(t.To)
	along := ((x3-x1)*(y4-y3) - (y3-y1)*(x4-x3)) / ((x2-x1)*(y4-y3) - (y2-y1)*(x4-x3))
	return Spot{X: x1 + along*(x2-x1), Y: y1 + along*(y2-y1)}
}

// SpotText says where a spot is: a peg's name, or steps from the first peg.
func (b *Board) SpotText(s Spot) string {
	switch {
	case s.OnPeg:
		return b.Name(s.Peg)
	case s.Across == nil:
		return trim(s.X) + " right, " + trim(s.Y) + " up"
	}
	return RatText(s.Across) + " right, " + RatText(s.Up) + " up"
}

func trim(x float64) string {
	return RatText(new(big.Rat).SetFrac64(int64(x*100+0.5*float64(signum(x))), 100))
}

func signum(x float64) int {
	if x < 0 {
		return -1
	}
	return 1
}

// RatText prints a fraction as a decimal where it ends within three places,
// and as a mixed number elsewhere: "2.4", "1 1/3".
func RatText(q *big.Rat) string {
	if places, exactly := q.FloatPrec(); exactly && places <= 3 {
		return q.FloatString(places)
	}
	whole, rest := new(big.Int).QuoRem(q.Num(), q.Denom(), new(big.Int))
	text := new(big.Rat).SetFrac(rest, q.Denom()).RatString()
	if whole.Sign() == 0 {
		return text
	}
	return whole.String() + " " + strings.TrimPrefix(text, "-")
}
