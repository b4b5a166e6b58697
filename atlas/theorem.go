package atlas

import (
	"math/big"
	"slices"

	"pegwright/board"
	"pegwright/task"
)

// Theorem names a reason, valid without any search, why no figure answers.
type Theorem string

// The theorems.
const (
	TooFewPegs          Theorem = "too few pegs"
	RegularOnSquare     Theorem = "regular on square pegs"
	OddEquilateral      Theorem = "odd equilateral"
	RegularOnTriangular Theorem = "regular on triangular pegs"
	RegularOnRing       Theorem = "regular on a ring"
	TurnsOnLattice      Theorem = "turn order on a lattice"
	SymmetryDivides     Theorem = "symmetry divides sides"
	RightAngleLimit     Theorem = "right angle limit"
	AcuteLimit          Theorem = "acute angle limit"
	AreaStep            Theorem = "area step"
	ConvexLimit         Theorem = "convex limit"
	RingIsConvex        Theorem = "ring is convex"
	ThalesOnRing        Theorem = "right angles on a ring"
)

// theorem is a Theorem with its source and its test: whether it rules out
// every figure that the conditions allow on the board.
type theorem struct {
	name     Theorem
	source   string
	excludes func(n need) bool
}

var theorems = []theorem{
	{TooFewPegs, "each corner needs a peg of its own", func(n need) bool { return len(n.sides) == 0 }},
	{RegularOnSquare, "J. D. Hamkins, No regular polygons in the integer lattice; P. Scott, Regularity Theorem, after D. Ball", regularOnSquare},
	{OddEquilateral, "D. G. Ball, Mathematical Gazette 57 (1973) 119-122", oddEquilateral},
	{RegularOnTriangular, "J. D. Hamkins, No regular polygons in the hexagonal lattice", regularOnTriangular},
	{RegularOnRing, "Euclid IV: a regular polygon has one circle through its corners, which lie evenly on it", regularOnRing},
	{TurnsOnLattice, "the crystallographic restriction; Coxeter, Introduction to Geometry, 4.5 (from memory)", turnsOnLattice},
	{SymmetryDivides, "corners of a figure with symmetry fall into equal rounds; Weyl, Symmetry (from memory)", symmetryDivides},
	{RightAngleLimit, "angle sum (k−2)·180°, Euclid I.32", rightAngleLimit},
	{AcuteLimit, "outside angles of a convex figure make 360°, Euclid I.32", acuteLimit},
	{AreaStep, "G. Pick, 1899", areaStep},
	{ConvexLimit, "OEIS A305397; Deza, Manoussakis and Onn, Discrete Comput. Geom. 60 (2018)", convexLimit},
	{RingIsConvex, "points on a circle are the corners of one simple polygon only, which is convex", ringIsConvex},
	{ThalesOnRing, "Thales' theorem and its converse, Euclid III.31", thalesOnRing},
}

func regularOnSquare(n need) bool {
	return n.board.Kind() == board.Square && n.says(task.Regular, true) && !slices.Contains(n.sides, 4)
}

func oddEquilateral(n need) bool {
	even := slices.ContainsFunc(n.sides, func(k int) bool { return k%2 == 0 })
	return n.board.Kind() == board.Square && n.equilateral && len(n.sides) > 0 && !even
}

func regularOnTriangular(n need) bool {
	return n.board.Triangular() && n.says(task.Regular, true) &&
		!slices.Contains(n.sides, 3) && !slices.Contains(n.sides, 6)
}

// regularOnRing: a circle through the centre peg meets the ring in two pegs at
// most, so only the equilateral triangle can have a corner there, when the
// ring has two pegs a sixth of a turn apart.
func regularOnRing(n need) bool {
	if n.board.Kind() != board.Ring || !n.says(task.Regular, true) {
		return false
	}
	pegs := n.board.Columns()
	return !slices.ContainsFunc(n.sides, func(k int) bool {
		return pegs%k == 0 || k == 3 && n.board.HasCentre() && pegs%6 == 0
	})
}

// latticeTurns returns the turn orders that figures on a lattice can have. A
// figure that folds fits onto itself as many ways turned as folded.
func latticeTurns(b *board.Board) []int {
	if b.Kind() == board.Square {
		return []int{1, 2, 4}
	}
	return []int{1, 2, 3, 6}
}

func turnsOnLattice(n need) bool {
	if n.board.Kind() == board.Ring {
		return false
	}
	turns := latticeTurns(n.board)
	return n.noneOf(task.TurnOrder, turns...) || n.noneOf(task.FoldLines, append(turns, 0)...)
}

// symmetryDivides: turns carry the corners round in rounds of one size, so the
// turn order divides the number of sides, and the number of fold lines is 0 or
// the turn order.
func symmetryDivides(n need) bool {
	if len(n.sides) == 0 || len(n.sides) > 20 {
		return false
	}
	return !slices.ContainsFunc(n.sides, func(k int) bool {
		for turns := 1; turns <= k; turns++ {
			if k%turns == 0 && n.allows(task.TurnOrder, turns) &&
				(n.allows(task.FoldLines, turns) || n.allows(task.FoldLines, 0)) {
				return true
			}
		}
		return false
	})
}

// mostRightAngles returns how many right angles a polygon with k sides can
// have: the rest of the angle sum must leave each other angle more than 0° and
// less than 360°, or than 180° in a convex one, and not 180° to a single one.
func mostRightAngles(k int, convex bool) int {
	limit := 4
	if convex {
		limit = 2
	}
	for r := k; r > 0; r-- {
		// In quarter turns: the others make 2(k−2) − r.
		rest := 2*(k-2) - r
		straight := k-r == 1 && rest == 2
		if k == r && rest == 0 || rest > 0 && rest < limit*(k-r) && !straight {
			return r
		}
	}
	return 0
}

func rightAngleLimit(n need) bool {
	return len(n.sides) > 0 && !slices.ContainsFunc(n.sides, func(k int) bool {
		for r := range mostRightAngles(k, n.convex) + 1 {
			if n.allows(task.RightAngles, r) {
				return true
			}
		}
		return false
	})
}

func acuteLimit(n need) bool {
	return n.convex && n.noneOf(task.AcuteAngles, 0, 1, 2, 3)
}

// areaStep: doubled areas on a lattice are whole multiples of the unit square,
// or of √3/2.
func areaStep(n need) bool {
	if n.board.Kind() == board.Ring {
		return false
	}
	return slices.ContainsFunc(n.all, func(c task.Condition) bool {
		if c.Property != task.Area || c.Comparison != task.Equal {
			return false
		}
		q, of, single := c.Size.Single()
		if !single || q.Sign() <= 0 {
			return true
		}
		unit, root := big.NewRat(1, 2), int64(1)
		if n.board.Triangular() {
			unit, root = big.NewRat(1, 4), 3
		}
		return of != root || !new(big.Rat).Quo(q, unit).IsInt()
	})
}

// mostConvex is the largest number of corners of a convex polygon on a square
// board of so many pegs a side.
var mostConvex = map[int]int{2: 4, 3: 6, 4: 8, 5: 9, 6: 10, 7: 12}

func convexLimit(n need) bool {
	if n.board.Kind() != board.Square || !n.convex || len(n.sides) == 0 {
		return false
	}
	most, known := mostConvex[max(n.board.Columns(), n.board.Rows())]
	return known && n.sides[0] > most
}

func ringIsConvex(n need) bool {
	return n.board.Kind() == board.Ring && !n.board.HasCentre() && n.says(task.Convex, false)
}

// thalesOnRing: the arms of a right angle at a ring's peg end half the ring
// apart, and at its centre a quarter, so there must be an even number of pegs.
func thalesOnRing(n need) bool {
	return n.board.Kind() == board.Ring && n.board.Columns()%2 == 1 && !n.allows(task.RightAngles, 0)
}

// proof returns the theorems that rule out every figure.
func (n need) proof() []Why {
	var out []Why
	for _, t := range theorems {
		if t.excludes(n) {
			out = append(out, Why{Theorem: t.name, Source: t.source})
		}
	}
	return out
}
