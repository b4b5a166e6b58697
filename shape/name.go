package shape

import (
	"fmt"
	"slices"
	"strings"

	"pegwright/board"
)

// Name is a word for a kind of polygon, as the class learns it: "rhombus",
// "right isosceles triangle", "regular hexagon".
type Name string

// Definitions are the choices that textbooks make differently. The zero value
// is the product's own: inclusive throughout.
type Definitions struct {
	TrapezoidExactlyOne bool // a trapezoid has exactly one parallel pair
	IsoscelesExactlyTwo bool // an equilateral triangle is not isosceles
	KiteNotRhombus      bool // a rhombus is not a kite
}

// The names that other code speaks of.
const (
	AnyPolygon         Name = "polygon"
	Triangle           Name = "triangle"
	Equilateral        Name = "equilateral triangle"
	Isosceles          Name = "isosceles triangle"
	Scalene            Name = "scalene triangle"
	RightTriangle      Name = "right triangle"
	AcuteTriangle      Name = "acute triangle"
	ObtuseTriangle     Name = "obtuse triangle"
	Quadrilateral      Name = "quadrilateral"
	Kite               Name = "kite"
	Dart               Name = "dart"
	Trapezoid          Name = "trapezoid"
	RightTrapezoid     Name = "right trapezoid"
	IsoscelesTrapezoid Name = "isosceles trapezoid"
	Parallelogram      Name = "parallelogram"
	Rectangle          Name = "rectangle"
	Rhombus            Name = "rhombus"
	Square             Name = "square"
)

// kind is a name with its test. Names stand from the general to the telling.
type kind struct {
	name  Name
	sides int // 0 for any number
	holds test
}

// sideNames are the words for polygons by their number of sides, from 3.
// (Names: common usage, as listed in reference table 4.7.)
var sideNames = []Name{Triangle, Quadrilateral, "pentagon", "hexagon", "heptagon", "octagon", "nonagon", "decagon", "hendecagon", "dodecagon"}

// SideName returns the word for a polygon with k sides: "pentagon", and above
// twelve sides "13-gon".
func SideName(k int) Name {
	if k >= 3 && k-3 < len(sideNames) {
		return sideNames[k-3]
	}
	return Name(fmt.Sprintf("%d-gon", k))
}

// kinds lists the names that have a test of their own, from the general to the
// telling. Definitions follow the Common Core Progressions, K–6 Geometry, with
// the inclusive hierarchy; the choices are in Definitions.
var kinds = []kind{
	{Scalene, 3, scalene},
	{Isosceles, 3, isosceles},
	{AcuteTriangle, 3, acute},
	{RightTriangle, 3, right},
	{ObtuseTriangle, 3, obtuse},
	{"acute scalene triangle", 3, both(acute, scalene)},
	{"right scalene triangle", 3, both(right, scalene)},
	{"obtuse scalene triangle", 3, both(obtuse, scalene)},
	{"acute isosceles triangle", 3, both(acute, isosceles)},
	{"right isosceles triangle", 3, both(right, isosceles)},
	{"obtuse isosceles triangle", 3, both(obtuse, isosceles)},
	{Equilateral, 3, equilateral},
	{Dart, 4, dart},
	{Kite, 4, kite},
	{Trapezoid, 4, trapezoid},
	{RightTrapezoid, 4, rightTrapezoid},
	{IsoscelesTrapezoid, 4, isoscelesTrapezoid},
	{Parallelogram, 4, parallelogram},
	{Rectangle, 4, rectangle},
	{Rhombus, 4, equilateral},
	{Square, 4, func(p *Polygon, _ Definitions) bool { return p.Regular() }},
}

type test func(p *Polygon, d Definitions) bool

// both is the test for a triangle that is two kinds at once.
func both(first, second test) test {
	return func(p *Polygon, d Definitions) bool { return first(p, d) && second(p, d) }
}

func scalene(p *Polygon, _ Definitions) bool     { return p.EqualSides() == 1 }
func acute(p *Polygon, _ Definitions) bool       { return p.CountAngles(board.Acute) == 3 }
func right(p *Polygon, _ Definitions) bool       { return p.CountAngles(board.Right) == 1 }
func obtuse(p *Polygon, _ Definitions) bool      { return p.CountAngles(board.Obtuse) == 1 }
func equilateral(p *Polygon, _ Definitions) bool { return p.Equilateral() }

func isosceles(p *Polygon, d Definitions) bool {
	n := p.EqualSides()
	return n == 2 || n == 3 && !d.IsoscelesExactlyTwo
}

// kiteSides reports whether two neighbouring sides are equal and so are the
// other two.
func kiteSides(p *Polygon) bool {
	a, b, c, d := p.Length(0), p.Length(1), p.Length(2), p.Length(3)
	return a == b && c == d || b == c && d == a
}

func kite(p *Polygon, d Definitions) bool {
	return kiteSides(p) && p.Convex() && !(d.KiteNotRhombus && p.Equilateral())
}

func trapezoid(p *Polygon, d Definitions) bool {
	n := p.ParallelPairs()
	return n == 1 || n == 2 && !d.TrapezoidExactlyOne
}

func dart(p *Polygon, _ Definitions) bool { return kiteSides(p) && !p.Convex() }

func rightTrapezoid(p *Polygon, d Definitions) bool {
	return trapezoid(p, d) && p.CountAngles(board.Right) == 2
}

func isoscelesTrapezoid(p *Polygon, d Definitions) bool { return trapezoid(p, d) && foldsBases(p) }

func parallelogram(p *Polygon, _ Definitions) bool { return p.ParallelPairs() == 2 }

func rectangle(p *Polygon, _ Definitions) bool { return p.CountAngles(board.Right) == 4 }

// foldsBases reports whether a fold line runs through two parallel sides of a
// quadrilateral: the axes through two sides are those of odd s.
func foldsBases(p *Polygon) bool {
	return p.foldsOn(1) && p.parallel(0, 2) || p.foldsOn(3) && p.parallel(1, 3)
}

// regularName returns the kind of regular polygons with k sides, which has a
// name of its own for three and four.
func regularName(k int) Name {
	switch k {
	case 3:
		return Equilateral
	case 4:
		return Square
	}
	return "regular " + SideName(k)
}

// Is reports whether a name is true of p. Names that Named does not know are
// true of nothing.
func (p *Polygon) Is(name Name, d Definitions) bool {
	k := p.Sides()
	for _, kind := range kinds {
		if kind.name == name {
			return kind.sides == k && kind.holds(p, d)
		}
	}
	return name == AnyPolygon || name == SideName(k) || name == regularName(k) && p.Regular()
}

// Named returns the number of sides that a name fixes, 0 when it fixes none,
// and whether it is a name at all.
func Named(name Name) (sides int, known bool) {
	for _, kind := range kinds {
		if kind.name == name {
			return kind.sides, true
		}
	}
	for k := 3; k <= board.MaxPegs; k++ {
		if name == SideName(k) || name == regularName(k) {
			return k, true
		}
	}
	return 0, name == AnyPolygon
}

// AllNames lists the names up to the dodecagon, the general before the
// telling.
func AllNames() []Name {
	out := append([]Name{AnyPolygon}, sideNames...)
	for _, kind := range kinds {
		out = append(out, kind.name)
	}
	for k := 5; k-3 < len(sideNames); k++ {
		out = append(out, regularName(k))
	}
	return out
}

// Names returns every name that is true of p, the general before the telling,
// so that the last is the most telling one.
func (p *Polygon) Names(d Definitions) []Name {
	k := p.Sides()
	out := []Name{AnyPolygon, SideName(k)}
	for _, kind := range kinds {
		if kind.sides == k && kind.holds(p, d) {
			out = append(out, kind.name)
		}
	}
	if k > 4 && p.Regular() {
		out = append(out, regularName(k))
	}
	return out
}

// BestName returns the most telling name.
func (p *Polygon) BestName(d Definitions) Name {
	names := p.Names(d)
	return names[len(names)-1]
}

// DefinitionsMatter returns the names of p that change with the definitions.
func (p *Polygon) DefinitionsMatter(a, b Definitions) []Name {
	var out []Name
	before, after := p.Names(a), p.Names(b)
	for _, n := range AllNames() {
		if slices.Contains(before, n) != slices.Contains(after, n) {
			out = append(out, n)
		}
	}
	return out
}

// partOf reports whether a one-word triangle kind is part of a longer name.
func partOf(part, name Name) bool {
	first, _, _ := strings.Cut(string(part), " ")
	return slices.Contains(strings.Fields(string(name)), first)
}
