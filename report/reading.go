// Package report turns readings, verdicts and answers into the JSON that the
// program hands out. The fields are stable and documented in docs/json.md, and
// a test holds that page against these structs. What is true of a figure is
// decided in the rooms below; start at Of.
package report

import (
	"math"

	"pegwright/board"
	"pegwright/shape"
)

// Sentences makes the texts that go with facts; nil where none are wanted.
type Sentences interface {
	Reason(b *board.Board, r shape.Reason) string
	Problem(b *board.Board, p shape.Problem) string
}

// Reading is everything that is true of a figure. The fields from Sides to
// PegsOnEdge that only a polygon has are null for other figures; lists that
// every figure has are never null. Lengths are in peg spacings, on a ring in
// radii.
type Reading struct {
	Board      string    `json:"board"`       // as it is written: "square:5x5"
	Figure     string    `json:"figure"`      // the bands as they were read: "A1 D1 D3"
	Status     string    `json:"status"`      // "polygon", "open path", "crossing", "branching", "several pieces", "touching" or "empty"
	Problems   []Problem `json:"problems"`    // why it is no polygon; empty for a polygon
	Corners    []string  `json:"corners"`     // of a polygon in order round it, anticlockwise; else the pegs where pieces bend or meet
	PassedOver []string  `json:"passed_over"` // pegs that a side runs straight over, which are no corners

	Sides              []Side   `json:"sides"`               // null unless a polygon; in order from the first corner
	SideCount          *int     `json:"side_count"`          // null unless a polygon
	Angles             []Angle  `json:"angles"`              // of a polygon the interior angles in the order of its corners; else those where two pieces meet end to end, the smaller way round
	Names              []string `json:"names"`               // null unless a polygon; all that apply, the most telling last
	BestName           *string  `json:"best_name"`           // null unless a polygon; the most telling name
	Convex             *bool    `json:"convex"`              // null unless a polygon
	Equilateral        *bool    `json:"equilateral"`         // null unless a polygon
	Equiangular        *bool    `json:"equiangular"`         // null unless a polygon
	Regular            *bool    `json:"regular"`             // null unless a polygon
	Likeness           *float64 `json:"likeness"`            // null unless a polygon; to the regular polygon, 0 to 1
	RightAngles        *int     `json:"right_angles"`        // null unless a polygon
	ParallelPairs      *int     `json:"parallel_pairs"`      // null unless a polygon; pairs of sides of one direction on different lines
	PerpendicularPairs *int     `json:"perpendicular_pairs"` // null unless a polygon; whether or not the sides meet
	FoldLines          *int     `json:"fold_lines"`          // null unless a polygon
	TurnOrder          *int     `json:"turn_order"`          // null unless a polygon; 1 with no turning symmetry
	Area               *string  `json:"area"`                // null unless a polygon; exact: "7/2", "3√3/4"
	AreaValue          *float64 `json:"area_value"`          // null unless a polygon
	Perimeter          *string  `json:"perimeter"`           // null unless a polygon; exact: "4 + 2√5"
	PerimeterValue     *float64 `json:"perimeter_value"`     // null unless a polygon
	PegsInside         *int     `json:"pegs_inside"`         // null unless a polygon
	PegsOnEdge         *int     `json:"pegs_on_edge"`        // null unless a polygon; corners included

	SideSpread     *float64 `json:"side_spread"`    // null unless a polygon; by what share the longest side is longer than the shortest
	AngleSpread    *float64 `json:"angle_spread"`   // null unless a polygon; the largest angle less the smallest, in degrees
	EqualSides     [][]int  `json:"equal_sides"`    // null unless a polygon; indexes into sides by length, shortest first, sets of two or more
	Parallels      []Pair   `json:"parallels"`      // null unless a polygon; the pairs counted in parallel_pairs
	Perpendiculars []Pair   `json:"perpendiculars"` // null unless a polygon; the pairs counted in perpendicular_pairs
	Folds          []Fold   `json:"folds"`          // null unless a polygon; the lines counted in fold_lines
	Reasons        []Reason `json:"reasons"`        // null unless a polygon; why each fact and each name holds or does not
	Segments       []Side   `json:"segments"`       // null for a polygon; the straight pieces, as long as they go
	Pairs          []Pair   `json:"pairs"`          // null for a polygon; every pair of segments, of very many the first 2,000
}

// Side is a straight piece with its length.
type Side struct {
	From        string  `json:"from"`         // peg
	To          string  `json:"to"`           // peg
	Length      string  `json:"length"`       // exact: "2√5"
	LengthValue float64 `json:"length_value"` // decimal
}

// Angle is the angle at a peg.
type Angle struct {
	At      string  `json:"at"`      // peg
	Kind    string  `json:"kind"`    // "acute", "right", "obtuse", "straight" or "reflex", decided exactly
	Degrees float64 `json:"degrees"` // rounded to a tenth
}

// Problem is one reason why the bands make no polygon.
type Problem struct {
	Kind     string   `json:"kind"`     // a status
	At       *Place   `json:"at"`       // where; null when the whole figure is meant
	Segments []string `json:"segments"` // the pieces that cross or meet there: "A1–D3"
	Text     string   `json:"text"`     // the sentence
}

// Place is a peg or a point between pegs.
type Place struct {
	Peg string  `json:"peg"` // "" between pegs
	X   float64 `json:"x"`   // to the right of the bottom left peg, or of the middle of a ring
	Y   float64 `json:"y"`   // up, in the same unit
}

// Pair is two straight pieces and how they lie to each other.
type Pair struct {
	First  string   `json:"first"`  // "A1–D1"
	Second string   `json:"second"` // "D1–D3"
	Words  []string `json:"words"`  // of "parallel", "perpendicular", "one line", "shared end", "crossing", "resting", "overlapping"; empty when none is true
}

// Fold is a fold line, by the two places where it leaves the figure.
type Fold struct {
	From     Place    `json:"from"`      // where the line leaves the figure
	To       Place    `json:"to"`        // where it leaves on the other side
	FromEdge []string `json:"from_edge"` // one corner, or the two ends of the side whose middle it is
	ToEdge   []string `json:"to_edge"`   // the same for to
}

// Reason says why a fact or a name holds or does not.
type Reason struct {
	Fact    string `json:"fact"`    // "sides", "convex", "regular", …, or a name: "rhombus"
	Holds   bool   `json:"holds"`   // true for counts
	Because string `json:"because"` // the ground, one of a fixed list: "sides differ"
	Text    string `json:"text"`    // the sentence, in the language asked for
}

// Of reports a reading.
func Of(r shape.Reading, say Sentences) Reading {
	b, o := r.Figure.Board, r.Outline
	out := Reading{
		Board: b.String(), Figure: r.Figure.String(), Status: string(o.Status),
		Problems: problems(b, o.Problems, say), Corners: b.Names(o.Corners), PassedOver: b.Names(o.PassedOver),
	}
	if r.Polygon == nil {
		out.addOpen(b, o)
		return out
	}
	out.addFacts(r)
	out.addLists(r, say)
	return out
}

func (out *Reading) addOpen(b *board.Board, o shape.Outline) {
	out.Segments, out.Angles, out.Pairs = []Side{}, []Angle{}, []Pair{}
	for _, s := range o.Segments {
		out.Segments = append(out.Segments, side(b, s))
	}
	for _, a := range o.PathAngles() {
		out.Angles = append(out.Angles, angle(b, a.At, a.Angle))
	}
	for _, p := range o.Pairs() {
		out.Pairs = append(out.Pairs, pair(b, p))
	}
}

func (out *Reading) addFacts(r shape.Reading) {
	f, p := r.Facts, r.Polygon
	out.SideCount, out.RightAngles, out.ParallelPairs = &f.Sides, &f.RightAngles, &f.ParallelPairs
	out.PerpendicularPairs, out.FoldLines, out.TurnOrder = &f.PerpendicularPairs, &f.FoldLines, &f.TurnOrder
	out.PegsInside, out.PegsOnEdge = &f.PegsInside, &f.PegsOnEdge
	out.Convex, out.Equilateral, out.Equiangular, out.Regular = &f.Convex, &f.Equilateral, &f.Equiangular, &f.Regular
	out.Likeness, out.SideSpread, out.AngleSpread = likeness(f), rounded(f.SideSpread, 6), rounded(f.AngleSpread, 1)
	area, around := p.Area(), p.Perimeter()
	out.Area, out.AreaValue = text(area.String()), rounded(p.AreaFloat(), 9)
	out.Perimeter, out.PerimeterValue = text(around.String()), rounded(around.Float(), 9)
	for _, n := range p.Names(r.Definitions) {
		out.Names = append(out.Names, string(n))
	}
	out.BestName = text(string(p.BestName(r.Definitions)))
}

// likeness rounds the likeness, but never up to 1 for what is not regular.
func likeness(f shape.Facts) *float64 {
	if x := rounded(f.Likeness, 6); *x < 1 || f.Regular {
		return x
	}
	return rounded(1-1e-6, 6)
}

func (out *Reading) addLists(r shape.Reading, say Sentences) {
	b, p := r.Figure.Board, r.Polygon
	out.EqualSides, out.Parallels, out.Perpendiculars, out.Folds = [][]int{}, []Pair{}, []Pair{}, []Fold{}
	for i := range p.Sides() {
		out.Sides = append(out.Sides, side(b, p.Side(i)))
		out.Angles = append(out.Angles, angle(b, p.Corner(i), p.Angle(i)))
	}
	for _, class := range p.SideClasses() {
		if len(class) > 1 {
			out.EqualSides = append(out.EqualSides, class)
		}
	}
	for _, q := range p.Why(shape.FactParallel).Pairs {
		out.Parallels = append(out.Parallels, pair(b, q))
	}
	for _, q := range p.Why(shape.FactPerpendicular).Pairs {
		out.Perpendiculars = append(out.Perpendiculars, pair(b, q))
	}
	for _, line := range p.FoldAxes() {
		out.Folds = append(out.Folds, Fold{place(b, line.From), place(b, line.To), edge(b, line.FromEdge), edge(b, line.ToEdge)})
	}
	for _, reason := range r.Reasons {
		out.Reasons = append(out.Reasons, reasonOf(b, reason, say))
	}
}

func reasonOf(b *board.Board, r shape.Reason, say Sentences) Reason {
	out := Reason{Fact: string(r.Fact), Holds: r.Holds, Because: string(r.Because)}
	if say != nil {
		out.Text = say.Reason(b, r)
	}
	return out
}

func problems(b *board.Board, list []shape.Problem, say Sentences) []Problem {
	out := []Problem{}
	for _, p := range list {
		problem := Problem{Kind: string(p.Status), Segments: []string{}}
		if p.Status != shape.Empty && p.Status != shape.SeveralPieces {
			at := place(b, p.At)
			problem.At = &at
		}
		for _, s := range p.Segments {
			problem.Segments = append(problem.Segments, segment(b, s))
		}
		if say != nil {
			problem.Text = say.Problem(b, p)
		}
		out = append(out, problem)
	}
	return out
}

func side(b *board.Board, s board.Segment) Side {
	l := b.Length(b.Along(s))
	return Side{b.Name(s.From), b.Name(s.To), b.LengthNumber(l).String(), *rounded(b.LengthFloat(l), 9)}
}

func angle(b *board.Board, at board.Peg, a board.Angle) Angle {
	return Angle{b.Name(at), b.AngleKind(a).String(), *rounded(b.Degrees(a), 1)}
}

func segment(b *board.Board, s board.Segment) string { return b.Name(s.From) + "–" + b.Name(s.To) }

func edge(b *board.Board, s board.Segment) []string {
	if s.From == s.To {
		return []string{b.Name(s.From)}
	}
	return []string{b.Name(s.From), b.Name(s.To)}
}

func place(b *board.Board, s board.Spot) Place {
	out := Place{X: *rounded(s.X, 9), Y: *rounded(s.Y, 9)}
	if s.OnPeg {
		out.Peg = b.Name(s.Peg)
	}
	return out
}

func pair(b *board.Board, p shape.Pair) Pair {
	out := Pair{segment(b, p.First), segment(b, p.Second), []string{}}
	add := func(holds bool, word string) {
		if holds {
			out.Words = append(out.Words, word)
		}
	}
	add(p.Parallel, "parallel")
	add(p.Perpendicular, "perpendicular")
	add(p.OneLine, "one line")
	add(p.Meeting == board.SharedEnd, "shared end")
	add(p.Meeting == board.Crossing, "crossing")
	add(p.Meeting == board.Resting, "resting")
	add(p.Meeting == board.Overlapping, "overlapping")
	return out
}

// rounded rounds to places and turns −0 into 0, so that the JSON is the same
// on every machine.
func rounded(x float64, places int) *float64 {
	scale := math.Pow10(places)
	y := math.Round(x*scale)/scale + 0
	return &y
}

func text(s string) *string { return &s }
