package word

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// Mark is one thing that makes a picture a picture of a word: a condition of
// package task, or one about what is meant in the picture, from the table
// below.
type Mark struct {
	text      string
	condition *task.Condition
	own       func(s scene, value string) bool
	value     string
}

// String returns the mark as the data file writes it.
func (m Mark) String() string { return m.text }

// Condition returns the mark as a condition of a task, and whether it is one.
func (m Mark) Condition() (task.Condition, bool) {
	if m.condition == nil {
		return task.Condition{}, false
	}
	return *m.condition, true
}

// scene is a picture that has been read.
type scene struct {
	Picture
	reading shape.Reading
	lines   bool // the word is about straight pieces
}

// ownMarks are the marks that are no conditions, with what follows the equals
// sign as their value.
var ownMarks = map[string]func(s scene, value string) bool{
	"marked-pegs":    func(s scene, value string) bool { return strconv.Itoa(len(s.Pegs)) == value },
	"no-band":        func(s scene, _ string) bool { return len(s.Figure.Bands) == 0 },
	"runs-on":        func(s scene, value string) bool { return strconv.Itoa(len(s.On)) == value },
	"angle":          hasAngle,
	"meet":           meet,
	"closed":         closed,
	"no-crossing":    noCrossing,
	"one-piece":      onePiece,
	"at-corner":      atCorner,
	"whole-side":     func(s scene, _ string) bool { return s.sideOf(s.Line) },
	"joins-corners":  joinsCorners,
	"not-neighbours": func(s scene, _ string) bool { return !s.sideOf(s.Line) },
	"folds":          folds,
	"congruent":      congruent,
}

// parseMark reads a mark.
func parseMark(text string) (Mark, error) {
	name, value, _ := strings.Cut(text, "=")
	if own, ok := ownMarks[name]; ok {
		return Mark{text: text, own: own, value: value}, nil
	}
	c, err := task.ParseCondition(text)
	if err != nil {
		return Mark{}, fmt.Errorf("mark %q: %w", text, err)
	}
	return Mark{text: text, condition: &c}, nil
}

// somePiece makes a list of conditions one about straight pieces.
var somePiece = task.Condition{Property: task.Segments, Comparison: task.AtLeast, Count: 1}

func (m Mark) holds(s scene) bool {
	switch {
	case m.own != nil:
		return m.own(s, m.value)
	case s.lines:
		return task.Conditions{somePiece, *m.condition}.HoldFor(s.reading)
	}
	return s.reading.Polygon != nil && m.condition.Holds(s.reading.Polygon, s.reading.Definitions)
}

// hasAngle reports whether there is an angle at the peg that is meant, of one
// kind if the value names it.
func hasAngle(s scene, kind string) bool {
	if len(s.Pegs) != 1 {
		return false
	}
	k, ok := angleAt(s.reading, s.Pegs[0])
	return ok && (kind == "" || k.String() == kind)
}

// angleAt returns the kind of angle that a figure makes at a peg: inside, at a
// corner of a polygon; the smaller way round where two pieces meet; straight
// where a piece runs over the peg.
func angleAt(r shape.Reading, at board.Peg) (board.AngleKind, bool) {
	if p := r.Polygon; p != nil {
		if i := slices.Index(p.Corners(), at); i >= 0 {
			return p.AngleKind(i), true
		}
	} else {
		for _, a := range r.Outline.PathAngles() {
			if a.At == at {
				return r.Figure.Board.AngleKind(a.Angle), true
			}
		}
	}
	return board.Straight, slices.Contains(r.Outline.PassedOver, at)
}

// meet reports whether two pieces have exactly one point in common.
func meet(s scene, _ string) bool {
	pairs := s.reading.Outline.Pairs()
	return len(pairs) == 1 && pairs[0].Meeting != board.Apart && pairs[0].Meeting != board.Overlapping
}

func closed(s scene, _ string) bool {
	return s.reading.Outline.Status != shape.Empty && len(s.reading.Outline.Ends) == 0
}

// has reports whether the outline has a problem of one of these statuses.
func (s scene) has(statuses ...shape.Status) bool {
	return slices.ContainsFunc(s.reading.Outline.Problems, func(p shape.Problem) bool { return slices.Contains(statuses, p.Status) })
}

func noCrossing(s scene, _ string) bool {
	return !s.has(shape.Crossing, shape.Touching, shape.Branching)
}

func onePiece(s scene, _ string) bool { return !s.has(shape.SeveralPieces, shape.Empty) }

func atCorner(s scene, _ string) bool {
	p := s.reading.Polygon
	return p != nil && len(s.Pegs) == 1 && slices.Contains(p.Corners(), s.Pegs[0])
}

// sideOf reports whether a piece is a whole side of the polygon.
func (s scene) sideOf(line *board.Segment) bool {
	p := s.reading.Polygon
	if p == nil || line == nil {
		return false
	}
	for i := range p.Sides() {
		if side := p.Side(i); side == *line || side == (board.Segment{From: line.To, To: line.From}) {
			return true
		}
	}
	return false
}

func joinsCorners(s scene, _ string) bool {
	p := s.reading.Polygon
	return p != nil && s.Line != nil && slices.Contains(p.Corners(), s.Line.From) && slices.Contains(p.Corners(), s.Line.To)
}

// folds reports whether the polygon folds onto itself along the line that is
// meant: whether every corner lands on a corner, and the corners in their
// order on the corners in the other order.
func folds(s scene, _ string) bool {
	p := s.reading.Polygon
	if p == nil || s.Line == nil {
		return false
	}
	b := s.Figure.Board
	corners := p.Corners()
	k := len(corners)
	first := -1
	for i, c := range corners {
		lands := b.Mirror(c, b.SpotOf(s.Line.From), b.SpotOf(s.Line.To))
		if !lands.OnPeg {
			return false
		}
		if i == 0 {
			first = slices.Index(corners, lands.Peg)
		}
		if first < 0 || corners[(first-i+k)%k] != lands.Peg {
			return false
		}
	}
	return true
}

// congruent reports whether the figure is two polygons of one shape and size.
func congruent(s scene, _ string) bool {
	if len(s.Figure.Bands) != 2 {
		return false
	}
	p, ok := shape.NewPolygon(s.Figure.Board, s.Figure.Bands[0])
	q, also := shape.NewPolygon(s.Figure.Board, s.Figure.Bands[1])
	return ok && also && shape.Congruent(p, q)
}
