package board

import (
	"cmp"
	"math"
	"math/big"

	"pegwright/exact"
)

// Arrow is a straight move from one peg to another. On a lattice X and Y are
// its whole steps (on the triangular lattice along directions 60° apart). On a
// ring X is its direction in 4N-ths of a turn and Y its Length. Arrows of one
// board may be compared with ==.
type Arrow struct{ X, Y int32 }

// Length is the length of a move as a whole number that orders and identifies
// it on its kind of board: the squared length on a lattice; on a ring six
// times the steps of arc a chord spans, which makes the radius N. Numbers of
// different kinds of board do not compare.
type Length int32

// Angle is the exact angle at a corner. On a lattice it holds the dot and
// cross products of the corner's arms, in units of the lattice; on a ring Dot
// is the angle in 4N-ths of a turn. Compare angles with Board.SameAngle.
type Angle struct{ Dot, Cross int32 }

// AngleKind names an angle by its size.
type AngleKind int

// The kinds of angle, by size: below 90°, 90°, below 180°, 180°, above.
const (
	Acute AngleKind = iota
	Right
	Obtuse
	Straight
	Reflex
)

// String returns the kind's name.
func (k AngleKind) String() string {
	return [...]string{"acute", "right", "obtuse", "straight", "reflex"}[k]
}

// Arrow returns the move from p to q, which must be different pegs.
//
// On a ring the direction follows from the half-sum of two angles: the chord
// from angle α to angle β points along (α+β)/2, a quarter turn on when β is
// the larger number and a quarter turn back when it is not. So chords are
// parallel exactly when their ends have the same sum.
func (b *Board) Arrow(p, q Peg) Arrow {
	if b.kind != Ring {
		from, to := b.at[p], b.at[q]
		return Arrow{to.X - from.X, to.Y - from.Y}
	}
	n := int32(b.columns)
	i, j := int32(p), int32(q)
	switch {
	case i == n:
		return Arrow{b.turn(n - 4*j), n}
	case j == n:
		return Arrow{b.turn(3*n - 4*i), n}
	}
	apart := max(i-j, j-i)
	quarter := -n
	if j < i {
		quarter = n
	}
	return Arrow{b.turn(n - 2*(i+j) + quarter), 6 * min(apart, n-apart)}
}

// turn brings a direction into 0..4N−1.
func (b *Board) turn(direction int32) int32 {
	full := 4 * int32(b.columns)
	return ((direction % full) + full) % full
}

// Reverse returns the move the other way.
func (b *Board) Reverse(a Arrow) Arrow {
	if b.kind == Ring {
		return Arrow{b.turn(a.X + 2*int32(b.columns)), a.Y}
	}
	return Arrow{-a.X, -a.Y}
}

// Cross returns the sign of the cross product of two moves: +1 when the second
// points to the left of the first, −1 to its right, 0 when they are parallel.
func (b *Board) Cross(a, c Arrow) int {
	if b.kind != Ring {
		return sign(a.X*c.Y - a.Y*c.X)
	}
	half := 2 * int32(b.columns)
	switch d := b.turn(c.X - a.X); {
	case d == 0 || d == half:
		return 0
	case d < half:
		return 1
	}
	return -1
}

// Dot returns the sign of the dot product of two moves: 0 when they are
// perpendicular, +1 when they point into one half of the plane.
func (b *Board) Dot(a, c Arrow) int {
	switch n := int32(b.columns); b.kind {
	case Square:
		return sign(a.X*c.X + a.Y*c.Y)
	case Ring:
		switch d := b.turn(c.X - a.X); {
		case d == n || d == 3*n:
			return 0
		case d < n || d > 3*n:
			return 1
		}
		return -1
	}
	return sign(eisensteinDot(a, c))
}

// eisensteinDot returns twice the dot product of two moves on the triangular
// lattice, whose two unit steps have the dot product 1/2.
func eisensteinDot(a, c Arrow) int32 {
	return 2*a.X*c.X + a.X*c.Y + a.Y*c.X + 2*a.Y*c.Y
}

func sign(n int32) int {
	switch {
	case n > 0:
		return 1
	case n < 0:
		return -1
	}
	return 0
}

// Length returns the length of a move, exactly.
func (b *Board) Length(a Arrow) Length {
	switch b.kind {
	case Square:
		return Length(a.X*a.X + a.Y*a.Y)
	case Ring:
		return Length(a.Y)
	}
	return Length(a.X*a.X + a.X*a.Y + a.Y*a.Y)
}

// LengthNumber returns a length as a number, in peg spacings or radii: √l on a
// lattice, 2·sin(30°·l/N) on a ring.
func (b *Board) LengthNumber(l Length) exact.Number {
	if b.kind != Ring {
		return exact.Root(int64(l))
	}
	return b.LengthSum([]Length{l})
}

// LengthSum returns the sum of lengths as a number.
func (b *Board) LengthSum(lengths []Length) exact.Number {
	if b.kind == Ring {
		total := exact.NewSines(6 * b.columns)
		for _, l := range lengths {
			total.Add(int(l), big.NewRat(2, 1))
		}
		return total
	}
	total := exact.Roots{}
	for _, l := range lengths {
		total = total.Plus(int64(l), big.NewRat(1, 1))
	}
	return total
}

// Compare compares m·l with n·k for two lengths l and k and positive whole
// numbers m and n, exactly.
func (b *Board) Compare(l Length, m int64, k Length, n int64) int {
	if b.kind != Ring {
		return cmp.Compare(m*m*int64(l), n*n*int64(k))
	}
	difference := exact.NewSines(6 * b.columns)
	difference.Add(int(l), big.NewRat(m, 1))
	difference.Add(int(k), big.NewRat(-n, 1))
	return difference.Cmp(exact.Roots{})
}

// LengthFloat returns a length as a float64, for showing.
func (b *Board) LengthFloat(l Length) float64 {
	if b.kind == Ring {
		return 2 * math.Sin(math.Pi*float64(l)/float64(6*b.columns))
	}
	return math.Sqrt(float64(l))
}

// Angle returns the angle to the left of a path that comes in by one move and
// leaves by the next: the interior angle of a polygon run anticlockwise.
func (b *Board) Angle(in, out Arrow) Angle {
	switch b.kind {
	case Square:
		return Angle{-(in.X*out.X + in.Y*out.Y), in.X*out.Y - in.Y*out.X}
	case Ring:
		return Angle{Dot: b.turn(in.X + 2*int32(b.columns) - out.X)}
	}
	return Angle{-eisensteinDot(in, out), in.X*out.Y - in.Y*out.X}
}

// SameAngle reports whether two angles are equal.
func (b *Board) SameAngle(a, c Angle) bool {
	if b.kind == Ring {
		return a == c
	}
	return sign(a.Dot) == sign(c.Dot) && sign(a.Cross) == sign(c.Cross) &&
		int64(a.Dot)*int64(c.Cross) == int64(a.Cross)*int64(c.Dot)
}

// Reduced returns the one representative of all angles equal to a, so that
// equal angles of one board become equal values.
func (b *Board) Reduced(a Angle) Angle {
	if b.kind == Ring {
		return a
	}
	g := exact.GCD(a.Dot, a.Cross)
	return Angle{a.Dot / g, a.Cross / g}
}

// AngleKind names an angle by its size, exactly.
func (b *Board) AngleKind(a Angle) AngleKind {
	if b.kind == Ring {
		n := int32(b.columns)
		switch {
		case a.Dot < n:
			return Acute
		case a.Dot == n:
			return Right
		case a.Dot < 2*n:
			return Obtuse
		case a.Dot == 2*n:
			return Straight
		}
		return Reflex
	}
	switch {
	case a.Cross < 0:
		return Reflex
	case a.Cross == 0:
		return Straight
	case a.Dot > 0:
		return Acute
	case a.Dot == 0:
		return Right
	}
	return Obtuse
}

// Degrees returns the size of an angle in degrees, as a float64.
func (b *Board) Degrees(a Angle) float64 {
	if b.kind == Ring {
		return 90 * float64(a.Dot) / float64(b.columns)
	}
	rise := float64(a.Cross)
	if b.Triangular() {
		rise *= math.Sqrt(3)
	}
	degrees := math.Atan2(rise, float64(a.Dot)) * 180 / math.Pi
	if degrees <= 0 {
		degrees += 360
	}
	return degrees
}

// WholeDegrees returns the size of an angle exactly where it is a rational
// number of degrees: always on a ring; on the square lattice only multiples of
// 45°, on the triangular lattice only multiples of 30° (Niven, Irrational
// Numbers, 1956, corollary 3.12; from memory).
func (b *Board) WholeDegrees(a Angle) (*big.Rat, bool) {
	if b.kind == Ring {
		return big.NewRat(90*int64(a.Dot), int64(b.columns)), true
	}
	step := int64(45)
	special := a.Dot == 0 || a.Cross == 0 || a.Dot == a.Cross || a.Dot == -a.Cross
	if b.Triangular() {
		step = 30
		special = special || a.Dot == 3*a.Cross || a.Dot == -3*a.Cross
	}
	if !special {
		return nil, false
	}
	return big.NewRat(step*int64(math.Round(b.Degrees(a)/float64(step))), 1), true
}

// Upright reports whether a move goes level or straight up on the board as it
// lies: along a row or square to one. On a ring that is square to, or along,
// the line from the middle to peg 1.
func (b *Board) Upright(a Arrow) bool {
	switch b.kind {
	case Square:
		return a.X == 0 || a.Y == 0
	case Ring:
		return a.X%int32(b.columns) == 0
	}
	return a.Y == 0 || 2*a.X+a.Y == 0
}
