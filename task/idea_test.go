package task_test

import (
	"slices"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/task"
)

func ruleNames(ideas []task.Idea) []string {
	out := []string{}
	for _, i := range ideas {
		out = append(out, string(i.Rule))
	}
	return out
}

// Each rule with figures that show it, and near ones that do not. The list is
// exact: no other rule may speak.
func TestIdeas(t *testing.T) {
	const (
		pegs, name, crosses, open     = string(task.CountedPegs), string(task.NeighbouringName), string(task.CrossesItself), string(task.NotClosed)
		upright, convex, alike        = string(task.UprightOnly), string(task.ConvexOnly), string(task.LooksAlike)
		sidesOnly, anglesOnly, nobody = string(task.EqualSidesOnly), string(task.EqualAnglesOnly), ""
	)
	tests := []struct{ name, board, figure, conditions, want string }{
		{"the triangle that touches twelve pegs", "square:5x5", "A1 E1 A5", "sides=12", pegs},
		{"a rectangle through six pegs for a hexagon", "square:5x5", "A1 C1 C2 A2", "kind=hexagon", pegs},
		{"a square through eight pegs for an octagon", "square:5x5", "A1 C1 C3 A3", "sides=8", pegs},
		{"a square through eight pegs for a heptagon", "square:5x5", "A1 C1 C3 A3", "sides=7", nobody},
		{"a triangle with one peg passed for a quadrilateral", "square:5x5", "A1 C1 B3", "sides=4", pegs},
		{"a triangle with no peg passed for a quadrilateral", "square:5x5", "A1 B1 A2", "sides=4", nobody},
		{"a diameter over the centre of a ring", "ring:12+centre", "1 7 10", "sides=4", pegs},
		{"a diameter where there is no centre", "ring:12", "1 7 10", "sides=4", nobody},
		{"a side over pegs of the triangular lattice", "triangle:5", "A1 C1 A3", "sides=6", pegs},
		{"a pentagon of six pegs for a hexagon is counted pegs, not names", "square:5x5", "A1 C1 C2 B3 A2", "sides=6", pegs},
		{"a figure that fits shows nothing", "square:5x5", "A1 E1 A5", "sides=3", nobody},

		{"a heptagon for a hexagon", "square:5x5", "B1 D1 E2 E4 D5 B5 A3", "kind=hexagon", name},
		{"a hexagon with no peg passed for a heptagon", "square:5x5", "C1 E2 E3 C4 A3 A2", "sides=7", name},
		{"a hexagon for a pentagon", "square:5x5", "C1 E2 E4 C5 A4 A2", "kind=pentagon", name},
		{"an octagon for a hexagon is two away", "square:5x5", "B1 D1 E2 E4 D5 B5 A4 A2", "sides=6", nobody},
		{"a triangle for a quadrilateral is no mix-up of names", "square:5x5", "A1 C2 B3", "sides=4", nobody},
		{"nor is a quadrilateral for a pentagon", "square:5x5", "A1 B1 C3 A2", "sides=5", nobody},
		{"a hexagon on a ring for a heptagon", "ring:12", "1 3 5 7 9 11", "sides=7", name},

		{"a bow-tie", "square:5x5", "A1 E5 E1 A5", "sides=4", crosses},
		{"a bow-tie on a ring", "ring:12", "1 6 3 9", "sides=4", crosses},
		{"a bow-tie of four bands", "square:5x5", "A1 E5 / E5 E1 / E1 A5 / A5 A1", "sides=4", crosses},
		{"two segments that cross are not closed", "square:5x5", "A1 E5 / A5 E1", "sides=4", nobody},
		{"two triangles that touch", "square:5x5", "A1 B1 B2 / B2 C2 C3", "sides=6", nobody},

		{"a path left open", "square:5x5", "A1 C1 / C1 C3 / C3 A3", "sides=4", open},
		{"one segment", "square:5x5", "A1 C1", "sides=4", open},
		{"an open path where lines are asked", "square:5x5", "A1 C1 / C1 C3", "segments=3", nobody},
		{"a closed triangle", "square:5x5", "A1 C1 A3", "sides=4,not convex", nobody},
		{"an empty board", "square:5x5", "", "sides=4", nobody},

		{"an upright square where it should be tilted", "square:5x5", "A1 C1 C3 A3", "kind=square,upright-sides=0", upright},
		{"a square with too few upright sides is no such thing", "square:5x5", "C1 E3 C5 A3", "kind=square,upright-sides=4", nobody},
		{"one upright side where two were asked", "square:5x5", "A1 C1 B3", "sides=3,upright-sides=2", nobody},
		{"an upright rectangle where a tilted square should be", "square:5x5", "A1 D1 D3 A3", "kind=square,upright-sides=0", anglesOnly},
		{"a level side on the triangular lattice", "triangle:5", "A1 C1 A3", "kind=equilateral-triangle,upright-sides=0", upright},
		{"an upright side on a ring", "ring:12", "12 2 6 8", "kind=rectangle,upright-sides=0", upright},

		{"a convex quadrilateral where a dented one should be", "square:5x5", "A1 C1 C3 A3", "sides=4,not convex", convex},
		{"no reflex angle where one should be", "square:5x5", "A1 C1 C3 A3", "sides=4,reflex-angles=1", convex},
		{"both asked for", "square:5x5", "A1 C1 C3 A3", "sides=4,not convex,reflex-angles>=1", convex},
		{"convex with another number of sides too", "square:5x5", "A1 C1 A3", "sides=4,not convex", nobody},
		{"dented where it should be convex", "square:5x5", "A1 C5 E1 C2", "sides=4,convex", nobody},
		{"one dent where two should be", "square:5x5", "A1 C5 E1 C2", "sides=4,reflex-angles=2", nobody},

		{"the near-regular hexagon", "square:5x5", "B1 D1 E3 D5 B5 A3", "kind=regular-hexagon", alike},
		{"the nearly equilateral triangle", "square:5x5", "A1 B5 E2", "kind=equilateral-triangle", alike},
		{"a diagonal step counted as one", "square:5x5", "A1 B1 C2 B2", "kind=rhombus", alike},
		{"sides of two and three", "square:5x5", "A1 C1 C4 A4", "kind=square", anglesOnly},
		{"a rectangle of nine by eight is out of reach, of four by three not alike", "square:5x5", "A1 D1 D5 A5", "equilateral", nobody},
		{"the near-regular hexagon where no equal sides are asked", "square:5x5", "B1 D1 E3 D5 B5 A3", "sides=6,parallel-pairs=2", nobody},
		{"the near-regular hexagon asked to be a pentagon", "square:5x5", "B1 D1 E3 D5 B5 A3", "kind=regular-pentagon", name},

		{"a rhombus for a square", "square:5x5", "A1 B4 E5 D2", "kind=square", sidesOnly},
		{"a rhombus for a regular quadrilateral", "square:5x5", "A2 C1 E2 C3", "sides=4,regular", sidesOnly},
		{"a rectangle for a square", "square:5x5", "A1 E1 E3 A3", "kind=square", anglesOnly},
		{"a rectangle for a rhombus", "square:5x5", "A1 E1 E3 A3", "kind=rhombus", nobody},
		{"a rhombus for a rectangle", "square:5x5", "A1 B4 E5 D2", "kind=rectangle", nobody},
		{"the octagon of equal angles, by steps alike too", "square:5x5", "B1 D1 E2 E4 D5 B5 A4 A2", "kind=regular-octagon", anglesOnly},
		{"a hexagon of equal angles on the triangular lattice", "triangle:5", "B1 D1 D2 B4 A4 A2", "kind=regular-hexagon", anglesOnly},
		{"a parallelogram for a square", "square:5x5", "A1 D1 E3 B3", "kind=square", nobody},
		{"a square with twice the pegs, for a regular octagon", "square:5x5", "A1 C1 C3 A3", "kind=regular-octagon", pegs},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judged(t, tt.board, tt.figure, splitConditions(tt.conditions)...)
			if got := strings.Join(ruleNames(v.Ideas), ","); got != tt.want {
				t.Errorf("ideas behind %s for %s = %q, want %q", tt.figure, tt.conditions, got, tt.want)
			}
			for _, idea := range v.Ideas {
				if idea.Source == "" {
					t.Errorf("idea %q has no source", idea.Rule)
				}
			}
		})
	}
}

// An idea says what was asked, what was made, and which pegs speak for it.
func TestIdeasSayWhatSpeaksForThem(t *testing.T) {
	b := board.MustParse("square:5x5")
	idea := judged(t, "square:5x5", "A1 E1 A5", "sides=12").Ideas[0]
	if idea.Asked != 12 || idea.Made != 3 || len(idea.Pegs) != 9 {
		t.Errorf("counted pegs = %d asked, %d made, %d pegs, want 12, 3, 9", idea.Asked, idea.Made, len(idea.Pegs))
	}
	idea = judged(t, "square:5x5", "B1 D1 E2 E4 D5 B5 A3", "kind=hexagon").Ideas[0]
	if idea.Asked != 6 || idea.Made != 7 {
		t.Errorf("neighbouring name = %d asked, %d made, want 6, 7", idea.Asked, idea.Made)
	}
	idea = judged(t, "square:5x5", "A1 C1 / C1 C3", "sides=3").Ideas[0]
	if got := b.Names(idea.Pegs); !slices.Equal(got, []string{"A1", "C3"}) {
		t.Errorf("not closed at %v, want A1 and C3", got)
	}
}

// Every rule is shown by some figure of these tests, and has a name once.
func TestRules(t *testing.T) {
	all := task.Rules()
	if len(all) != 9 || all[0] != task.CountedPegs || all[8] != task.EqualAnglesOnly {
		t.Errorf("Rules() = %v, want nine", all)
	}
}

// Over every figure of 3×3: counted pegs exactly when the pegs touched are the
// number asked and the corners are fewer; a neighbouring name exactly one away.
func TestIdeasOfEveryFigure(t *testing.T) {
	for asks := 3; asks <= 9; asks++ {
		job := task.Task{Board: board.MustParse("square:3x3"), Conditions: task.Conditions{{Property: task.Sides, Comparison: task.Equal, Count: asks}}}
		for _, p := range threeByThree() {
			rules := ruleNames(job.Judge(figureOf(p)).Ideas)
			counted := p.Sides() < asks && p.PegsOnEdge() == asks
			if got := slices.Contains(rules, string(task.CountedPegs)); got != counted {
				t.Fatalf("sides=%d: counted pegs behind %s: %v, want %v", asks, figureOf(p), got, counted)
			}
			apart := p.Sides() - asks
			named := !counted && (apart == 1 || apart == -1) && min(p.Sides(), asks) >= 5
			if got := slices.Contains(rules, string(task.NeighbouringName)); got != named {
				t.Fatalf("sides=%d: neighbouring name behind %s: %v, want %v", asks, figureOf(p), got, named)
			}
		}
	}
}
