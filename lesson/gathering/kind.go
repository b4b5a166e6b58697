package gathering

import (
	"fmt"
	"slices"
	"strings"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// kindsOf sorts boards into kinds, in the order in which each was first shown.
// Figures that are written alike are judged once.
func kindsOf(t task.Task, boards []Board) []kind {
	var out []kind
	known := map[string]int{}
	for _, b := range boards {
		text := b.Figure.String()
		i, seen := known[text]
		if !seen {
			k, shows := newKind(t, b.Figure)
			if !shows {
				continue
			}
			if i = slices.IndexFunc(out, k.same); i < 0 {
				i = len(out)
				out = append(out, k)
			}
			known[text] = i
		}
		out[i].boards = append(out[i].boards, b)
	}
	return out
}

// newKind judges a figure; an empty board shows nothing.
func newKind(t task.Task, f board.Figure) (kind, bool) {
	v := t.Judge(f)
	if v.Reading.Outline.Status == shape.Empty {
		return kind{}, false
	}
	k := kind{polygon: v.Reading.Polygon, standing: v.Standing}
	for _, r := range v.Results {
		if !r.Holds {
			k.fails++
		}
	}
	if p := k.polygon; p != nil && !t.Conditions.AboutLines() {
		k.look = look{p.Sides(), p.BestName(t.Definitions), !p.Convex(), p.UprightSides() > 0, p.FoldLines() > 0}
	} else {
		k.polygon = nil
		k.key, k.look = describe(v.Reading.Outline)
	}
	k.deceives = k.standing != task.Fits && deceives(v)
	return k, true
}

// same reports whether two kinds are one. Congruent figures that stand
// differently to the task (one turned, where nothing may be upright) are two.
func (k kind) same(m kind) bool {
	if k.standing != m.standing || (k.polygon == nil) != (m.polygon == nil) {
		return false
	}
	if k.polygon == nil {
		return k.key == m.key
	}
	return k.look.upright == m.look.upright && shape.Congruent(k.polygon, m.polygon)
}

// describe writes a figure of pieces so that alike ones read alike: the lengths,
// and how each pair lies.
func describe(o shape.Outline) (string, look) {
	var words []string
	l := look{sides: len(o.Segments)}
	for _, s := range o.Segments {
		words = append(words, fmt.Sprintf("length %d", o.Board.Length(o.Board.Along(s))))
		l.upright = l.upright || o.Board.Upright(o.Board.Along(s))
	}
	for _, p := range o.Pairs() {
		words = append(words, fmt.Sprintf("pair %d %v %v %v", p.Meeting, p.Parallel, p.Perpendicular, p.OneLine))
	}
	slices.Sort(words)
	return fmt.Sprintf("%s %v: %s", o.Status, l.upright, strings.Join(words, ", ")), l
}

// deceivers are the ideas of which the figure looks as if it did what is asked.
var deceivers = []task.Rule{task.CountedPegs, task.LooksAlike, task.EqualSidesOnly, task.EqualAnglesOnly, task.CrossesItself}

// mostAlike is the likeness from which a figure is taken for a regular one.
const mostAlike = 0.97

// deceives reports whether a figure that does not fit looks as if it did: an
// idea stands behind it that goes by looks, or all but one condition holds and
// it is close to a regular figure.
func deceives(v task.Verdict) bool {
	if slices.ContainsFunc(v.Ideas, func(i task.Idea) bool { return slices.Contains(deceivers, i.Rule) }) {
		return true
	}
	failed := 0
	for _, r := range v.Results {
		if !r.Holds {
			failed++
		}
	}
	return v.Reading.Polygon != nil && failed == 1 && v.Reading.Facts.Likeness >= mostAlike
}
