package task

import (
	"slices"

	"pegwright/board"
	"pegwright/shape"
)

// Rule names an idea that may stand behind a figure that does not fit.
type Rule string

// The rules, each tested exactly on the figure alone.
const (
	CountedPegs      Rule = "counted pegs"
	NeighbouringName Rule = "neighbouring name"
	CrossesItself    Rule = "closed but crossing"
	NotClosed        Rule = "not closed"
	UprightOnly      Rule = "upright only"
	ConvexOnly       Rule = "convex only"
	LooksAlike       Rule = "looks alike"
	EqualSidesOnly   Rule = "equal sides are enough"
	EqualAnglesOnly  Rule = "equal angles are enough"
)

// Idea is a rule whose pattern a figure shows. One figure is a hint and no
// finding: it counts as "seen once" until a different task agrees.
type Idea struct {
	Rule   Rule
	Source string // the literature, or "common practice, no source"
	Asked  int    // the number of sides asked for, where the rule is about it
	Made   int    // the number of sides made
	Pegs   []board.Peg
}

// rule is a rule with its test. A test may rely on the verdict not being Fits.
type rule struct {
	name   Rule
	source string
	shows  func(t Task, v Verdict) (Idea, bool)
}

// common marks what the trade knows without a study behind it.
const common = "common practice, no source"

var rules = []rule{
	{CountedPegs, common + "; the analogue of counting marks on a ruler: J. Intelligence 12(7) 62, 2024", countedPegs},
	{NeighbouringName, common, neighbouringName},
	{CrossesItself, "Tsamir, Tirosh and Levenson 2008, on near non-examples", crossesItself},
	{NotClosed, "Tsamir, Tirosh and Levenson 2008, on near non-examples", notClosed},
	{UprightOnly, "Devichi and Munier, J. Math. Behavior 32, 2013, on prototype right angles", uprightOnly},
	{ConvexOnly, "Australian Association of Mathematics Teachers, Classifying polygons", convexOnly},
	{LooksAlike, "Izard and Spelke 2009, on sensitivity to length and angle", looksAlike},
	{EqualSidesOnly, "Atebe and Schafer 2008, on sides and angles", equalSidesOnly},
	{EqualAnglesOnly, "Atebe and Schafer 2008, on sides and angles", equalAnglesOnly},
}

// Rules returns the names of all rules.
func Rules() []Rule {
	out := make([]Rule, len(rules))
	for i, r := range rules {
		out[i] = r.name
	}
	return out
}

func (t Task) ideas(v Verdict) []Idea {
	var out []Idea
	for _, r := range rules {
		if idea, ok := r.shows(t, v); ok {
			idea.Rule, idea.Source = r.name, r.source
			out = append(out, idea)
		}
	}
	return out
}

// sidesAsked returns the number of sides that the conditions fix, 0 when they
// fix none.
func (t Task) sidesAsked() int {
	for _, c := range t.Conditions.Consequences() {
		if c.Property == Sides && c.Comparison == Equal {
			return c.Count
		}
	}
	return 0
}

// countedPegs: corners and the pegs that sides pass over together make the
// number of sides asked for.
func countedPegs(t Task, v Verdict) (Idea, bool) {
	p, asked := v.Reading.Polygon, t.sidesAsked()
	if p == nil || p.Sides() >= asked {
		return Idea{}, false
	}
	over := p.PassedOver()
	return Idea{Asked: asked, Made: p.Sides(), Pegs: over}, p.Sides()+len(over) == asked
}

// leastWordy is the number of sides from which neighbouring names are mixed
// up; triangles and quadrilaterals are not.
const leastWordy = 5

// neighbouringName: a polygon with one side more or fewer than asked for, as
// when a heptagon is made for a hexagon.
func neighbouringName(t Task, v Verdict) (Idea, bool) {
	p, asked := v.Reading.Polygon, t.sidesAsked()
	if p == nil || min(p.Sides(), asked) < leastWordy {
		return Idea{}, false
	}
	if _, counted := countedPegs(t, v); counted {
		return Idea{}, false
	}
	apart := p.Sides() - asked
	return Idea{Asked: asked, Made: p.Sides()}, apart == 1 || apart == -1
}

// crossesItself: a loop that is closed, but crosses.
func crossesItself(_ Task, v Verdict) (Idea, bool) {
	o := v.Reading.Outline
	return Idea{}, o.Status == shape.Crossing && len(o.Ends) == 0
}

// notClosed: a path with loose ends where a polygon was asked for.
func notClosed(t Task, v Verdict) (Idea, bool) {
	o := v.Reading.Outline
	return Idea{Pegs: o.Ends}, !t.Conditions.AboutLines() && o.Status == shape.OpenPath
}

// onlyFails reports whether the polygon fails some conditions and all of them
// are as described.
func onlyFails(v Verdict, described func(c Condition) bool) bool {
	if v.Reading.Polygon == nil {
		return false
	}
	fails := false
	for _, r := range v.Results {
		if !r.Holds && !described(r.Condition) {
			return false
		}
		fails = fails || !r.Holds
	}
	return fails
}

// uprightOnly: all is as asked, except that sides go level or straight up
// where none need to.
func uprightOnly(_ Task, v Verdict) (Idea, bool) {
	return Idea{}, onlyFails(v, func(c Condition) bool { return c.Property == UprightSides && c.Allows(0) })
}

// convexOnly: all is as asked, except that nothing turns in where something
// should.
func convexOnly(_ Task, v Verdict) (Idea, bool) {
	return Idea{}, v.Reading.Facts.Convex &&
		onlyFails(v, func(c Condition) bool { return c.Property == Convex || c.Property == ReflexAngles })
}

// asksAlike reports whether the task asks for equal sides, and whether for
// equal angles.
func (t Task) asksAlike() (sides, angles bool) {
	all := t.Conditions.Consequences()
	asks := func(p Property) bool {
		return slices.ContainsFunc(all, func(c Condition) bool { return c.Property == p && c.Yes })
	}
	return asks(Equilateral), asks(Equiangular)
}

// looksAlike: equal sides were asked for, and the sides only look equal: each
// goes over as many steps counted across or up, or the longest is at most an
// eighth longer than the shortest.
func looksAlike(t Task, v Verdict) (Idea, bool) {
	p := v.Reading.Polygon
	asked := t.sidesAsked()
	sides, _ := t.asksAlike()
	if p == nil || !sides || p.Equilateral() || asked > 0 && asked != p.Sides() {
		return Idea{}, false
	}
	return Idea{Asked: asked, Made: p.Sides()}, sameSteps(p) || nearlyLong(p)
}

// sameSteps reports whether a child who counts steps along the wider way of
// each side gets one number for all.
func sameSteps(p *shape.Polygon) bool {
	b := p.Board()
	if b.Kind() == board.Ring {
		return false
	}
	steps := func(i int) int32 {
		a := b.Along(p.Side(i))
		if b.Triangular() && a.X*a.Y > 0 {
			return max(a.X+a.Y, -a.X-a.Y)
		}
		return max(a.X, -a.X, a.Y, -a.Y)
	}
	for i := range p.Sides() {
		if steps(i) != steps(0) {
			return false
		}
	}
	return true
}

// nearlyLong reports whether the longest side is at most an eighth longer than
// the shortest, exactly: 64·longest² ≤ 81·shortest².
func nearlyLong(p *shape.Polygon) bool {
	b := p.Board()
	short, long := p.Length(0), p.Length(0)
	for i := range p.Sides() {
		short, long = min(short, p.Length(i)), max(long, p.Length(i))
	}
	return b.Compare(long, 8, short, 9) <= 0
}

// equalSidesOnly: a regular figure was asked for and all sides are equal, but
// the angles are not.
func equalSidesOnly(t Task, v Verdict) (Idea, bool) {
	p := v.Reading.Polygon
	sides, angles := t.asksAlike()
	return Idea{}, p != nil && sides && angles && p.Equilateral() && !p.Equiangular()
}

// equalAnglesOnly: a regular figure was asked for and all angles are equal,
// but the sides are not.
func equalAnglesOnly(t Task, v Verdict) (Idea, bool) {
	p := v.Reading.Polygon
	sides, angles := t.asksAlike()
	return Idea{}, p != nil && sides && angles && !p.Equilateral() && p.Equiangular()
}
