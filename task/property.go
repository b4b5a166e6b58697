// Package task holds what a teacher asks of a figure: conditions, the small
// language they are written in, and the verdict on a figure held against
// them, with its reasons, a hint, and the idea that may stand behind a figure
// that does not fit.
//
// Start at Parse and Task.Judge. Which figures a board can hold is the atlas's
// question, and sentences for people are made in package say.
package task

import (
	"math"

	"pegwright/board"
	"pegwright/exact"
	"pegwright/shape"
)

// Property is something about a figure that a condition can ask for, by the
// name it has in the language of conditions.
type Property string

// The properties. Counts, then sizes, then yes or no, then the name; Segments
// makes a task about lines instead of polygons.
const (
	Sides              Property = "sides"
	RightAngles        Property = "right-angles"
	AcuteAngles        Property = "acute-angles"
	ObtuseAngles       Property = "obtuse-angles"
	ReflexAngles       Property = "reflex-angles"
	ParallelPairs      Property = "parallel-pairs"
	PerpendicularPairs Property = "perpendicular-pairs"
	EqualSides         Property = "equal-sides"
	SideLengths        Property = "side-lengths"
	UprightSides       Property = "upright-sides"
	FoldLines          Property = "fold-lines"
	TurnOrder          Property = "turn-order"
	PegsInside         Property = "pegs-inside"
	PegsOnEdge         Property = "pegs-on-edge"
	Bands              Property = "bands"
	Segments           Property = "segments"
	CrossingPairs      Property = "crossing-pairs"
	MeetingPairs       Property = "meeting-pairs"
	Area               Property = "area"
	Perimeter          Property = "perimeter"
	Convex             Property = "convex"
	Equilateral        Property = "equilateral"
	Equiangular        Property = "equiangular"
	Regular            Property = "regular"
	Kind               Property = "kind"
)

// form is the kind of value a property has.
type form int

const (
	count form = iota
	size
	yesNo
	named
)

// property is a property with the way to find it. Of count, size and yes,
// the one that its form calls for is set, unless it is a property of bands or
// lines only.
type property struct {
	name  Property
	form  form
	least int // the least value a count can have
	fact  shape.Fact
	count func(p *shape.Polygon) int
	yes   func(p *shape.Polygon) bool
	lines func(o shape.Outline) int // for tasks about lines
	costs int                       // tests run in rising order of this
}

// properties is the table of all properties.
var properties = []property{
	{name: Sides, least: 3, fact: shape.FactSides, count: (*shape.Polygon).Sides},
	{name: RightAngles, fact: shape.FactRightAngles, costs: 1, count: angles(board.Right), lines: pathAngles(board.Right)},
	{name: AcuteAngles, costs: 1, count: angles(board.Acute), lines: pathAngles(board.Acute)},
	{name: ObtuseAngles, costs: 1, count: angles(board.Obtuse), lines: pathAngles(board.Obtuse)},
	{name: ReflexAngles, fact: shape.FactConvex, costs: 1, count: angles(board.Reflex)},
	{name: ParallelPairs, fact: shape.FactParallel, costs: 3, count: (*shape.Polygon).ParallelPairs, lines: pairs(isParallel)},
	{name: PerpendicularPairs, fact: shape.FactPerpendicular, costs: 3, count: (*shape.Polygon).PerpendicularPairs, lines: pairs(isPerpendicular)},
	{name: EqualSides, least: 1, fact: shape.FactEquilateral, costs: 2, count: (*shape.Polygon).EqualSides},
	{name: SideLengths, least: 1, fact: shape.FactEquilateral, costs: 3, count: (*shape.Polygon).LengthsUsed},
	{name: UprightSides, costs: 1, count: (*shape.Polygon).UprightSides},
	{name: FoldLines, fact: shape.FactFoldLines, costs: 2, count: (*shape.Polygon).FoldLines},
	{name: TurnOrder, least: 1, fact: shape.FactTurnOrder, costs: 2, count: (*shape.Polygon).TurnOrder},
	{name: PegsInside, fact: shape.FactArea, costs: 2, count: (*shape.Polygon).PegsInside},
	{name: PegsOnEdge, least: 3, fact: shape.FactArea, costs: 1, count: (*shape.Polygon).PegsOnEdge},
	{name: Bands, least: 1},
	{name: Segments, least: 1, lines: func(o shape.Outline) int { return len(o.Segments) }},
	{name: CrossingPairs, lines: pairs(func(q shape.Pair) bool { return q.Meeting == board.Crossing })},
	{name: MeetingPairs, lines: pairs(func(q shape.Pair) bool { return q.Meeting == board.SharedEnd })},
	{name: Area, form: size, fact: shape.FactArea, costs: 2},
	{name: Perimeter, form: size, costs: 4},
	{name: Convex, form: yesNo, fact: shape.FactConvex, yes: (*shape.Polygon).Convex},
	{name: Equilateral, form: yesNo, fact: shape.FactEquilateral, yes: (*shape.Polygon).Equilateral},
	{name: Equiangular, form: yesNo, fact: shape.FactEquiangular, yes: (*shape.Polygon).Equiangular},
	{name: Regular, form: yesNo, fact: shape.FactRegular, yes: (*shape.Polygon).Regular},
	{name: Kind, form: named, costs: 3},
}

func angles(kind board.AngleKind) func(*shape.Polygon) int {
	return func(p *shape.Polygon) int { return p.CountAngles(kind) }
}

func pathAngles(kind board.AngleKind) func(shape.Outline) int {
	return func(o shape.Outline) int {
		n := 0
		for _, a := range o.PathAngles() {
			if o.Board.AngleKind(a.Angle) == kind {
				n++
			}
		}
		return n
	}
}

func isParallel(q shape.Pair) bool      { return q.Parallel }
func isPerpendicular(q shape.Pair) bool { return q.Perpendicular }

func pairs(holds func(shape.Pair) bool) func(shape.Outline) int {
	return func(o shape.Outline) int {
		n := 0
		for _, q := range o.Pairs() {
			if holds(q) {
				n++
			}
		}
		return n
	}
}

// find returns the property of a name.
func find(name Property) (property, bool) {
	for _, p := range properties {
		if p.name == name {
			return p, true
		}
	}
	return property{}, false
}

// Properties returns the names of all properties, in a stated order.
func Properties() []Property {
	out := make([]Property, len(properties))
	for i, p := range properties {
		out[i] = p.name
	}
	return out
}

// sizeOf returns a polygon's area or perimeter: exactly, and as a float64 for
// the filter in front of the exact comparison.
func sizeOf(name Property, p *shape.Polygon) (func() exact.Number, float64) {
	if name == Area {
		return p.Area, p.AreaFloat()
	}
	sum := 0.0
	for i := range p.Sides() {
		sum += p.Board().LengthFloat(p.Length(i))
	}
	return p.Perimeter, sum
}

// compareSize compares a polygon's area or perimeter with a value, exactly.
// Values that lie apart by more than any rounding are settled in float64.
func compareSize(name Property, p *shape.Polygon, v exact.Roots, vf float64) int {
	number, f := sizeOf(name, p)
	if margin := 1e-6 * (1 + math.Abs(vf)); math.Abs(f-vf) > margin {
		if f < vf {
			return -1
		}
		return 1
	}
	return number().Cmp(v)
}
