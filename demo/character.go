package demo

import (
	"math/rand/v2"
	"slices"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// Character is how a simulated pupil goes about a task. It decides what the
// pupil makes and how long that takes; no child is meant.
type Character string

// The characters.
const (
	Quick          Character = "quick"                      // makes what first comes to mind, sometimes with a slip
	Careful        Character = "careful"                    // takes time and finds a rare one
	Slow           Character = "slow"                       // is right, late
	PegCounter     Character = "counts pegs, not corners"   // sides and pegs passed over come to what was asked
	NameSwapper    Character = "swaps hexagon and heptagon" // makes six sides of seven and seven of six
	UprightSquares Character = "only upright squares"       // makes one wherever four sides may be meant
	ConvexOnly     Character = "convex only"                // never turns a corner in
	Copier         Character = "copies a neighbour"         // makes what lies on the next board
	Dropper        Character = "drops off the network"      // is careful, and comes back with a showing
)

// Characters lists all characters.
func Characters() []Character {
	return []Character{Quick, Careful, Slow, PegCounter, NameSwapper, UprightSquares, ConvexOnly, Copier, Dropper}
}

// asks returns what a character takes a task to ask for, the best first: those
// that have no figure on the board are passed over.
func (who Character) asks(t task.Task) []task.Conditions {
	if t.Conditions.AboutLines() {
		return []task.Conditions{t.Conditions}
	}
	var out []task.Conditions
	switch who {
	case PegCounter:
		out = countedPegs(t.Conditions)
	case NameSwapper:
		out = swapped(t.Conditions)
	case UprightSquares:
		out = uprightSquare(t.Conditions)
	case ConvexOnly:
		out = convexOnly(t.Conditions)
	}
	return append(out, t.Conditions)
}

// countedPegs asks for as many pegs on the band as sides were asked for.
func countedPegs(cs task.Conditions) []task.Conditions {
	n, ok := sidesOf(cs)
	if !ok {
		return nil
	}
	pegs := equal(task.PegsOnEdge, n)
	fewer := task.Condition{Property: task.Sides, Comparison: task.LessThan, Count: n}
	rest := withoutSides(cs)
	return []task.Conditions{also(rest, pegs, fewer), {pegs, fewer}, also(rest, pegs), {pegs}}
}

// swapped asks for seven sides instead of six and for six instead of seven.
func swapped(cs task.Conditions) []task.Conditions {
	n, ok := sidesOf(cs)
	if !ok || n != 6 && n != 7 {
		return nil
	}
	other := equal(task.Sides, 13-n)
	return []task.Conditions{also(withoutSides(cs), other), {other}}
}

// uprightSquare asks for a square that stands on its side, wherever the task
// speaks of four sides.
func uprightSquare(cs task.Conditions) []task.Conditions {
	n, ok := sidesOf(cs)
	if !ok || n != 4 {
		return nil
	}
	square := task.Condition{Property: task.Kind, Comparison: task.Equal, Kind: shape.Square}
	upright := equal(task.UprightSides, 4)
	return []task.Conditions{also(cs, square, upright), {square, upright}}
}

// convexOnly asks for a figure without a corner that turns in.
func convexOnly(cs task.Conditions) []task.Conditions {
	convex := task.Condition{Property: task.Convex, Comparison: task.Equal, Yes: true}
	out := []task.Conditions{also(cs.Without(task.Convex), convex)}
	if n, ok := sidesOf(cs); ok {
		out = append(out, also(withoutSides(cs).Without(task.Convex), convex, equal(task.Sides, n)), task.Conditions{convex, equal(task.Sides, n)})
	}
	return append(out, task.Conditions{convex})
}

// sidesOf returns the number of sides that conditions ask for, by number or by
// name.
func sidesOf(cs task.Conditions) (int, bool) {
	for _, c := range cs {
		if c.Comparison != task.Equal {
			continue
		}
		if c.Property == task.Sides {
			return c.Count, true
		}
		if n, known := shape.Named(c.Kind); c.Property == task.Kind && known && n > 0 {
			return n, true
		}
	}
	return 0, false
}

func withoutSides(cs task.Conditions) task.Conditions {
	return cs.Without(task.Sides).Without(task.Kind)
}

func equal(p task.Property, n int) task.Condition {
	return task.Condition{Property: p, Comparison: task.Equal, Count: n}
}

// prototypes is how many figures come to mind first.
const prototypes = 6

// pick chooses one of several figures in the manner of a character: the careful
// take any, so that theirs are rare ones; most take one that comes to mind
// first, so that theirs are alike.
func (who Character) pick(c *Choices, found []atlas.Example, random *rand.Rand) board.Figure {
	if who == Careful || who == Dropper {
		return found[random.IntN(len(found))].Figure
	}
	found = slices.Clone(found)
	slices.SortStableFunc(found, func(a, b atlas.Example) int { return familiar(b) - familiar(a) })
	f := found[random.IntN(min(len(found), prototypes))].Figure
	if who == Quick && random.IntN(2) == 0 {
		return c.slip(f, random)
	}
	return f
}

// familiar says how soon a figure comes to mind: even ones first, and of these
// the ones that do not turn in.
func familiar(e atlas.Example) int {
	if e.Polygon == nil {
		return e.Places
	}
	n := 2 * e.Polygon.FoldLines()
	if e.Polygon.Convex() {
		n++
	}
	return n
}

// heeds reports whether a pupil tries again after hearing that a board does not
// fit: most do, those with a firm idea seldom.
func (who Character) heeds(random *rand.Rand) bool {
	switch who {
	case PegCounter, NameSwapper, UprightSquares, ConvexOnly:
		return random.IntN(4) == 0
	}
	return random.IntN(4) > 0
}
