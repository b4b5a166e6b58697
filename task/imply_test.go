package task_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// propertyTexts lists conditions over all properties of polygons.
func propertyTexts() []string {
	var out []string
	for _, p := range task.Properties() {
		switch p {
		case task.Kind:
			for _, n := range shape.AllNames() {
				out = append(out, "kind="+string(n), "kind!="+string(n))
			}
		case task.Convex, task.Equilateral, task.Equiangular, task.Regular:
			out = append(out, string(p)+"=yes", string(p)+"=no")
		case task.Area, task.Perimeter:
			for _, v := range []string{"1/2", "1", "3/2", "2", "4", "4√2"} {
				for _, c := range []string{"=", "!=", ">=", "<=", ">", "<"} {
					out = append(out, string(p)+c+v)
				}
			}
		case task.Bands, task.Segments, task.CrossingPairs, task.MeetingPairs:
		default:
			for n := range 8 {
				for _, c := range []string{"=", "!=", ">=", "<=", ">", "<"} {
					text := string(p) + c + string(rune('0'+n))
					if _, err := task.ParseCondition(text); err == nil {
						out = append(out, text)
					}
				}
			}
		}
	}
	return out
}

// A condition that some figure meets is read; and conditions that one figure
// meets together are never refused as a contradiction. Over every figure of
// 3×3 and samples of other boards, by all definitions, for tens of thousands of
// random lists of conditions true of the figure.
func TestNoFigureIsCalledAContradiction(t *testing.T) {
	texts := propertyTexts()
	conditions := make([]task.Condition, len(texts))
	for i, text := range texts {
		conditions[i], _ = task.ParseCondition(text)
	}
	const lists = 12
	random := rand.New(rand.NewPCG(1, 2))
	for _, p := range some(sample()) {
		for _, d := range definitions {
			var hold []string
			for i, c := range conditions {
				if c.Holds(p, d) {
					hold = append(hold, texts[i])
				}
			}
			for range lists {
				chosen := make([]string, 2+random.IntN(10))
				for i := range chosen {
					chosen[i] = hold[random.IntN(len(hold))]
				}
				if _, err := task.Parse(chosen); err != nil {
					t.Fatalf("Parse(%v) = %v, but %v of %s meets all", chosen, err, p.Board().Names(p.Corners()), p.Board())
				}
			}
		}
	}
}

// sample is all of 3×3 and some figures of every kind of board.
func sample() []*shape.Polygon {
	out := slices.Clone(threeByThree())
	for _, text := range []string{"square:4x4", "triangle:4", "staggered:3x3", "ring:8", "ring:12", "ring:6+centre"} {
		all := polygons(board.MustParse(text), 4)
		for i := 0; i < len(all); i += 1 + len(all)/150 {
			out = append(out, all[i])
		}
	}
	return out
}

// Everything that a condition brings with it is true of every figure that it
// is true of, by all definitions.
func TestConsequencesAreTrue(t *testing.T) {
	all := some(sample())
	for _, text := range propertyTexts() {
		c, _ := task.ParseCondition(text)
		for _, e := range (task.Conditions{c}).Consequences() {
			for _, d := range definitions {
				for _, p := range all {
					if c.Holds(p, d) && !e.Holds(p, d) {
						t.Fatalf("%s brings %s, which does not hold for %v of %s by %+v", c, e, p.Board().Names(p.Corners()), p.Board(), d)
					}
				}
			}
		}
	}
}

// Contradictions name both conditions.
func TestContradictions(t *testing.T) {
	tests := []struct{ name, conditions, first, second string }{
		{"two numbers of sides", "sides=4,sides=5", "sides=4", "sides=5"},
		{"a range turned round", "sides>6,sides<5", "sides>6", "sides<5"},
		{"a number left out", "sides=4,sides!=4", "sides=4", "sides!=4"},
		{"yes and no", "convex,not convex", "convex=yes", "convex=no"},
		{"a kind and not", "kind=square,kind!=square", "kind=square", "kind!=square"},
		{"a kind of another number of sides", "kind=rhombus,sides=5", "kind=rhombus", "sides=5"},
		{"two kinds of different numbers of sides", "kind=triangle,kind=square", "kind=triangle", "kind=square"},
		{"a square that is no rectangle", "kind=square,kind!=rectangle", "kind=square", "kind!=rectangle"},
		{"a square that is no parallelogram", "kind=square,kind!=parallelogram", "kind=square", "kind!=parallelogram"},
		{"a dart that is convex", "kind=dart,convex", "kind=dart", "convex=yes"},
		{"a kite that turns in", "kind=kite,reflex-angles=1", "kind=kite", "reflex-angles=1"},
		{"equal angles with a dent", "equiangular,not convex", "equiangular=yes", "convex=no"},
		{"regular with unequal sides", "regular,equilateral=no", "regular=yes", "equilateral=no"},
		{"a regular hexagon with a dent", "kind=regular-hexagon,reflex-angles>=1", "kind=regular-hexagon", "reflex-angles>=1"},
		{"a right triangle with no right angle", "kind=right-triangle,right-angles=0", "kind=right-triangle", "right-angles=0"},
		{"a scalene triangle that folds", "kind=scalene,fold-lines=1", "kind=scalene-triangle", "fold-lines=1"},
		{"a right isosceles triangle that does not fold", "kind=right-isosceles-triangle,fold-lines=0", "kind=right-isosceles-triangle", "fold-lines=0"},
		{"a parallelogram with one pair", "kind=parallelogram,parallel-pairs=1", "kind=parallelogram", "parallel-pairs=1"},
		{"two areas", "area=1,area=2", "area=1", "area=2"},
		{"an area between none", "area>2,area<2", "area>2", "area<2"},
		{"an area with two roots", "area<=√2,area>=3/2", "area<=√2", "area>=3/2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := task.Parse(splitConditions(tt.conditions))
			if err == nil || !strings.Contains(err.Error(), `"`+tt.first+`"`) || !strings.Contains(err.Error(), `"`+tt.second+`"`) {
				t.Errorf("Parse(%s) = %v, want both %s and %s named", tt.conditions, err, tt.first, tt.second)
			}
		})
	}
}

// Three conditions of which each two agree are refused together.
func TestContradictionsOfThree(t *testing.T) {
	for _, conditions := range []string{"sides>=3,sides<5,sides!=3,sides!=4", "right-angles<2,right-angles!=0,right-angles!=1", "turn-order<=1,turn-order!=1"} {
		if _, err := task.Parse(splitConditions(conditions)); err == nil {
			t.Errorf("Parse(%s) = nil, want a contradiction", conditions)
		}
	}
}

// Conditions that no figure meets for reasons beyond their words are read.
func TestHardConditionsAreNotRefused(t *testing.T) {
	for _, conditions := range []string{
		"kind=equilateral-triangle", "sides=5,equilateral", "sides=3,right-angles=2", "sides=100", "area=1/3", "kind=rhombus,kind=rectangle",
		"kind=kite,kind=trapezoid", "area>1,area<2", "area>=2,area<=2", "sides>3,sides<5", "bands=1,bands<=1", "convex,convex", "kind!=square,kind!=rhombus", "fold-lines>=1,fold-lines!=1",
	} {
		if _, err := task.Parse(splitConditions(conditions)); err != nil {
			t.Errorf("Parse(%s) = %v, want no error", conditions, err)
		}
	}
}
