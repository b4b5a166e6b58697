package board

import (
	"math/big"

	"pegwright/exact"
)

// Number returns the place of a peg as a cyclotomic number, in spacings from
// the first lattice point or in radii from the middle of a ring: of order 4 on
// a square board, 12 on the triangular lattice, 4N on a ring. With these,
// figures of different boards can be compared exactly.
func (b *Board) Number(p Peg) exact.Cyclotomic {
	switch {
	case b.kind == Ring:
		n := b.columns
		out := make(exact.Cyclotomic, 4*n)
		if int(p) < n {
			out.Add(n-4*int(p), 1)
		}
		return out
	case b.kind == Square:
		return exact.Cyclotomic{int64(b.at[p].X), int64(b.at[p].Y), 0, 0}
	}
	out := make(exact.Cyclotomic, 12)
	out.Add(0, int64(b.at[p].X))
	out.Add(2, int64(b.at[p].Y))
	return out
}

// Mirror returns where a peg of a lattice board lands when the board is folded
// along the line through two different spots, exactly.
func (b *Board) Mirror(p Peg, from, to Spot) Spot {
	x0, y0 := b.steps(from)
	x1, y1 := b.steps(to)
	dx, dy := new(big.Rat).Sub(x1, x0), new(big.Rat).Sub(y1, y0)
	vx := new(big.Rat).Sub(big.NewRat(int64(b.at[p].X), 1), x0)
	vy := new(big.Rat).Sub(big.NewRat(int64(b.at[p].Y), 1), y0)
	// The mirror image of v in the line of d is 2·(v·d)/(d·d)·d − v.
	along := new(big.Rat).Quo(b.dotRat(vx, vy, dx, dy), b.dotRat(dx, dy, dx, dy))
	along.Mul(along, big.NewRat(2, 1))
	image := func(start, d, v *big.Rat) *big.Rat {
		m := new(big.Rat).Mul(along, d)
		m.Sub(m, v)
		return m.Add(m, start)
	}
	return b.spotAt(image(x0, dx, vx), image(y0, dy, vy))
}

// steps returns the lattice steps of a spot from the origin.
func (b *Board) steps(s Spot) (x, y *big.Rat) {
	if b.kind == Square {
		return s.Across, s.Up
	}
	return new(big.Rat).Sub(s.Across, new(big.Rat).Mul(s.Up, big.NewRat(1, 2))), s.Up
}

// dotRat returns the dot product of two moves in lattice steps.
func (b *Board) dotRat(ax, ay, cx, cy *big.Rat) *big.Rat {
	mul := func(p, q *big.Rat) *big.Rat { return new(big.Rat).Mul(p, q) }
	sum := new(big.Rat).Add(mul(ax, cx), mul(ay, cy))
	if b.kind == Square {
		return sum
	}
	cross := new(big.Rat).Add(mul(ax, cy), mul(ay, cx))
	return sum.Add(sum, cross.Mul(cross, big.NewRat(1, 2)))
}
