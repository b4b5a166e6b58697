package task

import (
	"math"
	"slices"
	"strings"

	"pegwright/board"
	"pegwright/exact"
	"pegwright/shape"
)

// Task is what a class is asked to make: a board and conditions.
type Task struct {
	Board       *board.Board
	Conditions  Conditions
	Definitions shape.Definitions
}

// Standing says how a figure stands to a task.
type Standing string

// The four standings. Nearly means that moving, adding or dropping one corner
// makes the figure fit; Unfinished that it is not a figure of the kind asked
// for at all: open, crossing or empty.
const (
	Fits       Standing = "fits"
	Nearly     Standing = "nearly"
	NotYet     Standing = "not yet"
	Unfinished Standing = "unfinished"
)

// Result is one condition held against a figure.
type Result struct {
	Condition Condition
	Holds     bool
	Actual    Actual
	Reason    shape.Reason // zero where there is none to give
}

// Actual is the value that a figure has; only the field of the property's form
// is set, and none for an unfinished figure.
type Actual struct {
	Known bool
	Count int
	Size  exact.Number
	Yes   bool
	Kind  shape.Name // the most telling name
}

// Verdict is a reading held against a task.
type Verdict struct {
	Standing Standing
	Reading  shape.Reading
	Results  []Result
	Hint     *Hint  // the smallest change that makes it fit, if one corner is enough
	Ideas    []Idea // ideas that may stand behind a figure that does not fit
}

// Judge holds a figure against the task.
func (t Task) Judge(f board.Figure) Verdict {
	v := Verdict{Reading: shape.Read(f, t.Definitions)}
	v.Results = t.results(v.Reading)
	v.Standing = t.standing(v)
	if v.Standing == Fits {
		return v
	}
	if !t.Conditions.AboutLines() {
		v.Hint = t.hint(v.Reading)
	}
	if v.Hint != nil && v.Standing == NotYet {
		v.Standing = Nearly
	}
	v.Ideas = t.ideas(v)
	return v
}

func (t Task) standing(v Verdict) Standing {
	status := v.Reading.Outline.Status
	switch {
	case status == shape.Empty:
		return Unfinished
	case status != shape.ClosedPolygon && !t.Conditions.AboutLines():
		return Unfinished
	case slices.ContainsFunc(v.Results, func(r Result) bool { return !r.Holds }):
		return NotYet
	}
	return Fits
}

func (t Task) results(r shape.Reading) []Result {
	out := make([]Result, len(t.Conditions))
	for i, c := range t.Conditions {
		if t.Conditions.AboutLines() || c.Property == Bands {
			out[i] = c.onOutline(r)
		} else {
			out[i] = c.onPolygon(r.Polygon, t.Definitions)
		}
	}
	return out
}

// onOutline holds a condition against the bands and straight pieces of a
// figure of any status.
func (c Condition) onOutline(r shape.Reading) Result {
	p, _ := find(c.Property)
	n := r.Bands()
	switch {
	case c.Property == Bands:
	case p.lines == nil:
		return c.onPolygon(r.Polygon, r.Definitions)
	default:
		n = p.lines(r.Outline)
	}
	return Result{Condition: c, Holds: c.Allows(n), Actual: Actual{Known: true, Count: n}}
}

// onPolygon holds a condition against a polygon; without one it fails.
func (c Condition) onPolygon(p *shape.Polygon, d shape.Definitions) Result {
	r := Result{Condition: c}
	if p == nil {
		return r
	}
	prop, _ := find(c.Property)
	r.Holds = c.Holds(p, d)
	r.Actual = c.actual(p, d)
	switch {
	case c.Property == Kind:
		r.Reason = p.WhyName(c.Kind, d)
	case prop.fact != "":
		r.Reason = p.Why(prop.fact)
	}
	return r
}

func (c Condition) actual(p *shape.Polygon, d shape.Definitions) Actual {
	a := Actual{Known: true}
	switch prop, _ := find(c.Property); prop.form {
	case count:
		if prop.count != nil {
			a.Count = prop.count(p)
		}
	case size:
		number, _ := sizeOf(c.Property, p)
		a.Size = number()
	case yesNo:
		a.Yes = prop.yes(p)
	case named:
		a.Kind = p.BestName(d)
	}
	return a
}

// Holds reports whether a polygon made by one band satisfies the condition.
// Conditions on properties of lines hold for no polygon.
func (c Condition) Holds(p *shape.Polygon, d shape.Definitions) bool {
	prop, _ := find(c.Property)
	switch {
	case c.Property == Bands:
		return c.Allows(1)
	case prop.form == size:
		return c.Comparison.holds(compareSize(c.Property, p, c.Size, c.Size.Float()))
	case prop.form == yesNo:
		return prop.yes(p) == c.Yes
	case prop.form == named:
		return p.Is(c.Kind, d) == (c.Comparison == Equal)
	}
	return prop.count != nil && c.Allows(prop.count(p))
}

// Test reports whether a polygon satisfies something.
type Test func(p *shape.Polygon) bool

// Compile returns a test for all conditions but those on bands, quick ones
// first, for a search that asks it of millions of polygons of one board.
func (cs Conditions) Compile(b *board.Board, d shape.Definitions) Test {
	order := slices.Clone(cs.Without(Bands))
	slices.SortStableFunc(order, func(c, e Condition) int { return c.costs() - e.costs() })
	tests := make([]Test, len(order))
	for i, c := range order {
		tests[i] = c.compile(b, d)
	}
	return func(p *shape.Polygon) bool {
		for _, holds := range tests {
			if !holds(p) {
				return false
			}
		}
		return true
	}
}

func (c Condition) costs() int {
	p, _ := find(c.Property)
	return p.costs
}

func (c Condition) compile(b *board.Board, d shape.Definitions) Test {
	p, _ := find(c.Property)
	switch {
	case p.count != nil:
		return func(q *shape.Polygon) bool { return c.Allows(p.count(q)) }
	case p.yes != nil:
		return func(q *shape.Polygon) bool { return p.yes(q) == c.Yes }
	case c.Property == Area && b.Kind() != board.Ring:
		return c.compileArea(b)
	case c.Property == Kind:
		return c.compileKind(d)
	}
	vf := c.Size.Float()
	if p.form == size {
		return func(q *shape.Polygon) bool { return c.Comparison.holds(compareSize(c.Property, q, c.Size, vf)) }
	}
	return func(q *shape.Polygon) bool { return c.Holds(q, d) }
}

// compileKind looks at the number of sides first, where the kind fixes it.
func (c Condition) compileKind(d shape.Definitions) Test {
	sides, _ := shape.Named(c.Kind)
	is := func(p *shape.Polygon) bool { return p.Is(c.Kind, d) }
	if strings.HasPrefix(string(c.Kind), "regular ") {
		is = (*shape.Polygon).Regular
	}
	return func(p *shape.Polygon) bool {
		return ((sides == 0 || p.Sides() == sides) && is(p)) == (c.Comparison == Equal)
	}
}

// compileArea turns a condition on the area of lattice polygons, whose doubled
// areas are whole multiples of one unit, into a comparison of whole numbers:
// floor is the largest multiple not above the value.
func (c Condition) compileArea(b *board.Board) Test {
	unit := func(n int) exact.Roots {
		if b.Kind() == board.Square {
			return exact.Rational(int64(n), 2)
		}
		return exact.Root(3).Times(int64(n), 4)
	}
	const beyond = 1e6 // larger than any figure, small enough to count to
	if v := c.Size.Float(); math.Abs(v) > beyond {
		holds := c.Comparison.holds(int(math.Copysign(1, -v)))
		return func(*shape.Polygon) bool { return holds }
	}
	floor := int(c.Size.Float() / unit(1).Float())
	for unit(floor).Cmp(c.Size) > 0 {
		floor--
	}
	for unit(floor+1).Cmp(c.Size) <= 0 {
		floor++
	}
	met := unit(floor).Cmp(c.Size) == 0
	return func(p *shape.Polygon) bool {
		switch area := p.Area2(); {
		case area > floor:
			return c.Comparison.holds(1)
		case area == floor && met:
			return c.Comparison.holds(0)
		}
		return c.Comparison.holds(-1)
	}
}

// HoldFor reports whether every condition holds for a figure.
func (cs Conditions) HoldFor(r shape.Reading) bool {
	t := Task{Board: r.Figure.Board, Conditions: cs, Definitions: r.Definitions}
	return !slices.ContainsFunc(t.results(r), func(r Result) bool { return !r.Holds })
}

// Shortfall says by how much a polygon fails the condition, which must not
// hold for it, for putting near misses in order: the distance to a count that
// would do, the difference in size, or for equal sides and angles how unequal
// they are. It decides nothing.
func (c Condition) Shortfall(p *shape.Polygon) float64 {
	prop, _ := find(c.Property)
	switch {
	case prop.count != nil:
		return float64(c.distance(prop.count(p)))
	case prop.form == size:
		_, f := sizeOf(c.Property, p)
		return math.Abs(f - c.Size.Float())
	case c.Property == Equilateral && c.Yes:
		return p.SideSpread()
	case c.Property == Equiangular && c.Yes:
		return p.AngleSpread() / 180
	case c.Property == Regular && c.Yes, c.Property == Kind && c.asksRegular():
		return 1 - p.Likeness()
	}
	return 1
}

// distance returns how far a count is from one that the condition allows.
func (c Condition) distance(n int) int {
	for far := 0; far < mostCount; far++ {
		if c.Allows(n+far) || n-far >= 0 && c.Allows(n-far) {
			return far
		}
	}
	return mostCount
}

// asksRegular reports whether c asks for a kind of regular polygon.
func (c Condition) asksRegular() bool {
	regular := c.Kind == shape.Equilateral || c.Kind == shape.Square || strings.HasPrefix(string(c.Kind), "regular ")
	return c.Comparison == Equal && regular
}
