package desk

import (
	"slices"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// wrongOne is a figure that fails exactly one condition.
type wrongOne struct {
	Figure board.Figure
	Fails  task.Condition
}

// mostJudgedWrong bounds the work of looking for wrong ones.
const mostJudgedWrong = 4000

// wrongOnes looks for figures that children come to by a small slip: one
// corner of an answer moved or left out, so that exactly one condition fails.
// Those with which a known idea goes come first, each idea and each condition
// once, and no two are congruent.
func wrongOnes(a atlas.Answer, t task.Task) []wrongOne {
	found := slips(a, t)
	var out []wrongOne
	seen := map[string]bool{}
	var shapes []*shape.Polygon
	for _, withIdea := range []bool{true, false} {
		for _, w := range found {
			if len(out) == mostWrong {
				return out
			}
			key := w.Fails.String()
			v := t.Judge(w.Figure)
			if withIdea && len(v.Ideas) == 0 {
				continue
			}
			if withIdea {
				key = string(v.Ideas[0].Rule)
			}
			p := v.Reading.Polygon
			if seen[key] || p == nil || slices.ContainsFunc(shapes, func(o *shape.Polygon) bool { return shape.Congruent(o, p) }) {
				continue
			}
			seen[key] = true
			shapes = append(shapes, p)
			out = append(out, w)
		}
		clear(seen)
	}
	return out
}

// mostSlips is how many wrong figures are held against each other.
const mostSlips = 40

// slips changes one corner of the answers' figures and keeps those that fail
// exactly one condition.
func slips(a atlas.Answer, t task.Task) []wrongOne {
	var out []wrongOne
	looked := 0
	for _, e := range a.Examples {
		if e.Polygon == nil {
			continue
		}
		corners := e.Polygon.Corners()
		for i := range corners {
			for peg := -1; peg < t.Board.Pegs(); peg++ {
				if looked++; looked > mostJudgedWrong || len(out) >= mostSlips {
					return out
				}
				if w, ok := slip(t, corners, i, peg); ok {
					out = append(out, w)
					break
				}
			}
		}
	}
	return out
}

// slip moves a corner to a peg, or leaves it out for peg −1.
func slip(t task.Task, corners []board.Peg, i, peg int) (wrongOne, bool) {
	pegs := slices.Clone(corners)
	if peg < 0 {
		pegs = slices.Delete(pegs, i, i+1)
	} else {
		pegs[i] = board.Peg(peg)
	}
	p, ok := shape.NewPolygon(t.Board, pegs)
	if !ok {
		return wrongOne{}, false
	}
	var fails []task.Condition
	for _, c := range t.Conditions {
		if !c.Holds(p, t.Definitions) {
			fails = append(fails, c)
		}
	}
	f, err := board.NewFigure(t.Board, [][]board.Peg{pegs})
	if err != nil || len(fails) != 1 {
		return wrongOne{}, false
	}
	return wrongOne{f, fails[0]}, true
}
