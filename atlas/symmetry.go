package atlas

import (
	"math/bits"

	"pegwright/board"
)

// symmetries are the motions of a board onto itself that keep level and
// upright moves so, as a group of maps from pegs to pegs. No condition tells a
// figure from its images under them, so a search need look at only one figure
// of each set of images and count it for all.
type symmetries struct {
	pegs int
	// halves[m] maps the lower and the upper half of a set of pegs by motion m,
	// the identity left out.
	halves [][2][]set
}

// halfBits is the number of pegs in the lower half of a set.
const halfBits = 13

// maxSymmetryPegs is the largest board whose sets are mapped by two look-ups.
const maxSymmetryPegs = 2 * halfBits

// newSymmetries finds the motions of a board by trying where its first, second
// and last pegs can go. A board too large for the look-ups gets none, and then
// every figure counts for itself.
func newSymmetries(b *board.Board) *symmetries {
	s := &symmetries{pegs: b.Pegs()}
	if b.Pegs() > maxSymmetryPegs {
		return s
	}
	n := board.Peg(b.Pegs())
	for p := range n {
		for q := range n {
			for r := range n {
				if motion, ok := motionOf(b, [3]board.Peg{p, q, r}); ok && !isIdentity(motion) {
					s.halves = append(s.halves, tabulate(motion))
				}
			}
		}
	}
	return s
}

// motionOf returns the motion that sends the first, second and last peg to
// three pegs, if there is one.
func motionOf(b *board.Board, to [3]board.Peg) ([]board.Peg, bool) {
	from := [3]board.Peg{0, 1, board.Peg(b.Pegs() - 1)}
	if b.Turn(from[0], from[1], from[2]) == 0 || !sameDistances(b, from[:], to[:]) {
		return nil, false
	}
	motion := make([]board.Peg, b.Pegs())
	for p := range motion {
		image, ok := imageOf(b, board.Peg(p), from, to)
		if !ok {
			return nil, false
		}
		motion[p] = image
	}
	return motion, keepsUpright(b, motion)
}

func imageOf(b *board.Board, p board.Peg, from, to [3]board.Peg) (board.Peg, bool) {
	for q := range board.Peg(b.Pegs()) {
		if distance(b, p, from[0]) == distance(b, q, to[0]) && distance(b, p, from[1]) == distance(b, q, to[1]) &&
			distance(b, p, from[2]) == distance(b, q, to[2]) {
			return q, true
		}
	}
	return 0, false
}

// distance is the length between two pegs, 0 when they are one.
func distance(b *board.Board, p, q board.Peg) board.Length {
	if p == q {
		return 0
	}
	return b.Length(b.Arrow(p, q))
}

func sameDistances(b *board.Board, from, to []board.Peg) bool {
	for i := range from {
		for j := range i {
			if distance(b, from[i], from[j]) != distance(b, to[i], to[j]) {
				return false
			}
		}
	}
	return true
}

func keepsUpright(b *board.Board, motion []board.Peg) bool {
	for p := range motion {
		for q := range p {
			before := b.Upright(b.Arrow(board.Peg(p), board.Peg(q)))
			if after := b.Upright(b.Arrow(motion[p], motion[q])); before != after {
				return false
			}
		}
	}
	return true
}

func isIdentity(motion []board.Peg) bool {
	for p, q := range motion {
		if board.Peg(p) != q {
			return false
		}
	}
	return true
}

// tabulate makes the two look-ups of a motion: the images of all sets of lower
// pegs and of all sets of upper ones.
func tabulate(motion []board.Peg) [2][]set {
	var out [2][]set
	for half := range out {
		out[half] = make([]set, 1<<halfBits)
		for m := 1; m < 1<<halfBits; m++ {
			out[half][m] = out[half][m&(m-1)] // all but the lowest peg
			if p := half*halfBits + bits.TrailingZeros(uint(m)); p < len(motion) {
				out[half][m] |= 1 << motion[p]
			}
		}
	}
	return out
}

// weight returns for how many figures one with corners in the set m is to
// count: 0 when an image of it is looked at in its place, else the number of
// different images of the set.
func (s *symmetries) weight(m set) int {
	same := 1
	for i := range s.halves {
		h := &s.halves[i]
		image := h[0][m&(1<<halfBits-1)] | h[1][m>>halfBits]
		if image < m {
			return 0
		}
		if image == m {
			same++
		}
	}
	return (len(s.halves) + 1) / same
}
