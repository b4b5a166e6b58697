package task

import (
	"fmt"
	"slices"
	"strings"

	"pegwright/shape"
)

// implied lists what a kind brings with it by its definition, beside its
// number of sides.
var implied = map[shape.Name]Conditions{
	shape.Equilateral:        {yes(Regular)},
	shape.RightTriangle:      {exactly(RightAngles, 1)},
	shape.ObtuseTriangle:     {exactly(ObtuseAngles, 1)},
	shape.AcuteTriangle:      {exactly(AcuteAngles, 3)},
	shape.Scalene:            {exactly(EqualSides, 1), exactly(FoldLines, 0)},
	shape.Isosceles:          {atLeast(EqualSides, 2), atLeast(FoldLines, 1)},
	shape.Kite:               {yes(Convex), is(shape.Quadrilateral)},
	shape.Dart:               {no(Convex)},
	shape.Trapezoid:          {yes(Convex), atLeast(ParallelPairs, 1)},
	shape.RightTrapezoid:     {is(shape.Trapezoid), exactly(RightAngles, 2)},
	shape.IsoscelesTrapezoid: {is(shape.Trapezoid), atLeast(FoldLines, 1)},
	shape.Parallelogram:      {yes(Convex), exactly(ParallelPairs, 2)},
	shape.Rectangle:          {is(shape.Parallelogram), yes(Equiangular), exactly(RightAngles, 4)},
	shape.Rhombus:            {is(shape.Parallelogram), yes(Equilateral)},
	shape.Square:             {is(shape.Rectangle), is(shape.Rhombus), yes(Regular), exactly(FoldLines, 4)},
}

func yes(p Property) Condition  { return Condition{Property: p, Comparison: Equal, Yes: true} }
func no(p Property) Condition   { return Condition{Property: p, Comparison: Equal} }
func is(n shape.Name) Condition { return Condition{Property: Kind, Comparison: Equal, Kind: n} }

func exactly(p Property, n int) Condition { return Condition{Property: p, Comparison: Equal, Count: n} }

func atLeast(p Property, least int) Condition {
	return Condition{Property: p, Comparison: AtLeast, Count: least}
}

// implies returns what a condition brings with it by definition.
func (c Condition) implies() Conditions {
	switch {
	case c.Property == Kind && c.Comparison == Equal:
		return c.kindImplies()
	case c.Property == Regular && c.Yes:
		return Conditions{yes(Equilateral), yes(Equiangular)}
	case c.Property == Equiangular && c.Yes:
		return Conditions{yes(Convex)}
	case c.Property == Convex && c.Yes:
		return Conditions{exactly(ReflexAngles, 0)}
	case c.Property == Convex:
		return Conditions{atLeast(ReflexAngles, 1)}
	case c.Property == ReflexAngles && !c.Allows(0):
		return Conditions{no(Convex)}
	case c.Property == ReflexAngles && c.Comparison == Equal:
		return Conditions{yes(Convex)}
	}
	return nil
}

func (c Condition) kindImplies() Conditions {
	out := slices.Clone(implied[c.Kind])
	if k, _ := shape.Named(c.Kind); k > 0 {
		out = append(out, exactly(Sides, k))
		if c.Kind == "regular "+shape.SideName(k) {
			out = append(out, yes(Regular))
		}
	}
	// A name of several words is true only with each part of it: "right
	// isosceles triangle" with "right triangle" and "isosceles triangle".
	parts := strings.Fields(string(c.Kind))
	if len(parts) == 3 {
		out = append(out, is(shape.Name(parts[0]+" triangle")), is(shape.Name(parts[1]+" triangle")))
	}
	return out
}

// consequence is a condition with the one it came from.
type consequence struct {
	Condition
	from Condition
}

// Consequences returns the conditions and all that they bring with them by
// definition, each once.
func (cs Conditions) Consequences() Conditions {
	var out Conditions
	for _, c := range cs.consequences() {
		out = append(out, c.Condition)
	}
	return out
}

func (cs Conditions) consequences() []consequence {
	var out []consequence
	add := func(c, from Condition) {
		same := func(o consequence) bool { return o.String() == c.String() }
		if !slices.ContainsFunc(out, same) {
			out = append(out, consequence{c, from})
		}
	}
	for _, c := range cs {
		add(c, c)
	}
	for i := 0; i < len(out); i++ {
		for _, c := range out[i].implies() {
			add(c, out[i].from)
		}
	}
	return out
}

// contradiction returns an error naming two conditions that cannot both hold
// by their words alone, or nil.
func (cs Conditions) contradiction() error {
	all := cs.consequences()
	for i, c := range all {
		for _, d := range all[:i] {
			if c.Property == d.Property && !compatible(c.Condition, d.Condition) {
				return disagreement(d, c)
			}
		}
	}
	for _, p := range properties {
		if err := emptyRange(p, all); err != nil {
			return err
		}
	}
	return nil
}

func disagreement(first, second consequence) error {
	why := func(c consequence) string {
		if c.String() == c.from.String() {
			return ""
		}
		return fmt.Sprintf(" (%s means %s)", c.from, c.Condition)
	}
	what := fmt.Sprintf("it contradicts %q%s%s", first.from, why(first), why(second))
	return &ConditionError{second.from.String(), what, "change or leave out one of the two"}
}

// compatible reports whether two conditions on one property can both hold.
func compatible(c, d Condition) bool {
	switch p, _ := find(c.Property); p.form {
	case yesNo:
		return c.Yes == d.Yes
	case named:
		return c.Kind != d.Kind || c.Comparison == d.Comparison
	case size:
		return sizesCompatible(c, d)
	}
	for _, n := range []int{c.Count - 1, c.Count, c.Count + 1, d.Count - 1, d.Count, d.Count + 1} {
		if n >= 0 && c.Allows(n) && d.Allows(n) {
			return true
		}
	}
	return false
}

// sizesCompatible tries every place on the line of sizes: below both values, at
// each, between them and above both, as its order against the two.
func sizesCompatible(c, d Condition) bool {
	order := c.Size.Cmp(d.Size)
	places := [][2]int{{-1, -1}, {0, order}, {-order, order}, {-order, 0}, {1, 1}}
	return slices.ContainsFunc(places, func(at [2]int) bool {
		return c.Comparison.holds(at[0]) && d.Comparison.holds(at[1])
	})
}

// emptyRange looks for conditions on one count that no number satisfies all
// together though each pair would allow one.
func emptyRange(p property, all []consequence) error {
	if p.form != count {
		return nil
	}
	var on Conditions
	for _, c := range all {
		if c.Property == p.name {
			on = append(on, c.Condition)
		}
	}
	if len(on) < 2 {
		return nil
	}
	for n := p.least; n <= mostCount+1; n++ {
		if !slices.ContainsFunc(on, func(c Condition) bool { return !c.Allows(n) }) {
			return nil
		}
	}
	what := fmt.Sprintf("no number of %s satisfies all of %s", p.name, strings.Join(on.Texts(), ", "))
	return &ConditionError{on[len(on)-1].String(), what, "change or leave out one of them"}
}
