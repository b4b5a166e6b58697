package atlas

import (
	"slices"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// need is a question's conditions as the search and the theorems see them.
type need struct {
	board       *board.Board
	all         task.Conditions // with all that they bring with them
	sides       []int           // the numbers of sides they allow on this board
	convex      bool
	equilateral bool
	holds       task.Test
}

func newNeed(b *board.Board, cs task.Conditions, d shape.Definitions) need {
	n := need{board: b, all: cs.Consequences(), holds: cs.Compile(b, d)}
	n.convex, n.equilateral = n.says(task.Convex, true), n.says(task.Equilateral, true)
	for k := 3; k <= b.Pegs(); k++ {
		if n.allows(task.Sides, k) {
			n.sides = append(n.sides, k)
		}
	}
	return n
}

// says reports whether a yes-or-no property is asked to be so.
func (n need) says(p task.Property, yes bool) bool {
	return slices.ContainsFunc(n.all, func(c task.Condition) bool { return c.Property == p && c.Yes == yes })
}

// allows reports whether a count of a property satisfies every condition on it.
func (n need) allows(p task.Property, count int) bool {
	return !slices.ContainsFunc(n.all, func(c task.Condition) bool { return c.Property == p && !c.Allows(count) })
}

// noneOf reports whether none of the counts is allowed.
func (n need) noneOf(p task.Property, counts ...int) bool {
	return !slices.ContainsFunc(counts, func(c int) bool { return n.allows(p, c) })
}

// allowsSides reports whether figures with k sides may answer.
func (n need) allowsSides(k int) bool { return slices.Contains(n.sides, k) }
