package say

import (
	"strings"

	"pegwright/board"
	"pegwright/exact"
	"pegwright/shape"
	"pegwright/task"
)

// Standing says how a figure stands to a task.
func (s *Speaker) Standing(v task.Standing) string {
	return s.text("standing."+key(string(v)), nil)
}

// Condition says what is asked for: "at least 2 right angles", "not a square".
func (s *Speaker) Condition(c task.Condition) string {
	if c.Property == task.Kind {
		return s.Claim(shape.Reason{Fact: shape.Fact(c.Kind), Holds: c.Comparison == task.Equal})
	}
	if fact, yes := yesNo[c.Property]; yes {
		return s.Claim(shape.Reason{Fact: fact, Holds: c.Yes})
	}
	return s.text("condition."+comparisons[c.Comparison], with{"Amount": s.amountOf(c.Property, c.Count, c.Size)})
}

// yesNo are the properties that hold or do not, with the facts behind them.
var yesNo = map[task.Property]shape.Fact{
	task.Convex: shape.FactConvex, task.Equilateral: shape.FactEquilateral,
	task.Equiangular: shape.FactEquiangular, task.Regular: shape.FactRegular,
}

var comparisons = map[task.Comparison]string{
	task.Equal: "equal", task.NotEqual: "not_equal", task.AtLeast: "at_least",
	task.AtMost: "at_most", task.MoreThan: "more_than", task.LessThan: "less_than",
}

// amountOf says a number of something: "6 sides", "area 7/2".
func (s *Speaker) amountOf(p task.Property, n int, size exact.Number) string {
	id := "amount." + strings.ReplaceAll(string(p), "-", "_")
	if p == task.Area || p == task.Perimeter {
		return s.text(id, with{"Size": size.String()})
	}
	return s.count(id, n, nil)
}

// Actual says what a figure has of what a condition asks for, or nothing for a
// figure that is no polygon.
func (s *Speaker) Actual(r task.Result) string {
	a := r.Actual
	switch {
	case !a.Known:
		return ""
	case r.Condition.Property == task.Kind:
		return s.AName(a.Kind)
	}
	if fact, yes := yesNo[r.Condition.Property]; yes {
		return s.Claim(shape.Reason{Fact: fact, Holds: a.Yes})
	}
	return s.amountOf(r.Condition.Property, a.Count, a.Size)
}

// spoken are the counts whose reason says the count itself.
var spoken = map[task.Property]shape.Fact{
	task.Sides: shape.FactSides, task.RightAngles: shape.FactRightAngles, task.ParallelPairs: shape.FactParallel,
	task.PerpendicularPairs: shape.FactPerpendicular, task.FoldLines: shape.FactFoldLines, task.TurnOrder: shape.FactTurnOrder,
}

// Result says what was asked, what the figure has, and why.
func (s *Speaker) Result(b *board.Board, r task.Result) string {
	c := r.Condition
	fill := with{"Asked": s.Condition(c), "Actual": s.Actual(r)}
	switch {
	case !r.Actual.Known:
		return s.text("result.unknown", fill)
	case r.Reason.Because == "":
		return s.text("result.plain", fill)
	}
	fill["Reason"] = s.Reason(b, r.Reason)
	_, yes := yesNo[c.Property]
	if yes || c.Property == task.Kind || spoken[c.Property] != "" {
		return s.text("result.reason", fill)
	}
	return s.text("result.both", fill)
}

// Nudge says where to look, without giving the change away.
func (s *Speaker) Nudge(h task.Hint) string {
	if h.Nudge.Property == "" {
		return s.text("hint.unfinished", nil)
	}
	return s.text("hint.nudge", with{"Asked": s.Condition(h.Nudge)})
}

// Change says exactly which corner to change, and how.
func (s *Speaker) Change(h task.Hint) string {
	c, b := h.Change, h.Change.After.Board
	fill := with{"From": b.Name(c.From), "To": b.Name(c.To), "Beside": b.Name(c.Beside)}
	return s.text("hint."+string(c.Op), fill)
}

// Idea says, as a perhaps, what idea may stand behind a figure.
func (s *Speaker) Idea(b *board.Board, i task.Idea) string {
	pegs := b.Names(i.Pegs)
	return s.count("idea."+key(string(i.Rule)), len(pegs), with{"Asked": i.Asked, "Made": i.Made, "Pegs": s.list(pegs)})
}
