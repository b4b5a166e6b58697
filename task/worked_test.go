package task_test

import (
	"fmt"
	"testing"

	"pegwright/task"
)

// workedFigures are figures of a 5×5 board with their facts worked out by hand
// and by a separate program, for tests and for lessons.
var workedFigures = []struct {
	name, figure                                   string
	sides, rights, parallel, folds, turns          int
	area                                           string
	onEdge, inside                                 int
	kind                                           string
	convex, equilateral, equiangular, uprightAtAll bool
}{
	{"peg-rich right triangle", "A1 E1 A5", 3, 1, 0, 1, 1, "8", 12, 3, "right-isosceles-triangle", true, false, false, true},
	{"near-equilateral", "A1 B5 E2", 3, 0, 0, 1, 1, "7.5", 5, 6, "acute-isosceles-triangle", true, false, false, false},
	{"tilted right isosceles", "A2 B5 E4", 3, 1, 0, 1, 1, "5", 4, 4, "right-isosceles-triangle", true, false, false, false},
	{"near-right", "B1 E2 A5", 3, 0, 0, 0, 1, "6.5", 3, 6, "acute-scalene-triangle", true, false, false, false},
	{"square on its corner", "C1 E3 C5 A3", 4, 4, 2, 4, 4, "8", 8, 5, "square", true, true, true, false},
	{"knight square", "A2 B4 D3 C1", 4, 4, 2, 4, 4, "5", 4, 4, "square", true, true, true, false},
	{"rhombus", "A1 B4 E5 D2", 4, 0, 2, 2, 2, "8", 4, 7, "rhombus", true, true, false, false},
	{"flat diamond", "A2 C1 E2 C3", 4, 0, 2, 2, 2, "4", 4, 3, "rhombus", true, true, false, false},
	{"tilted rectangle", "A2 B1 E4 D5", 4, 4, 2, 2, 2, "6", 8, 3, "rectangle", true, false, true, false},
	{"rectangle", "A1 E1 E3 A3", 4, 4, 2, 2, 2, "8", 12, 3, "rectangle", true, false, true, true},
	{"parallelogram", "A1 D1 E3 B3", 4, 0, 2, 0, 2, "6", 8, 3, "parallelogram", true, false, false, true},
	{"parallelogram with no level side", "A2 C1 E3 C4", 4, 0, 2, 0, 2, "6", 6, 4, "parallelogram", true, false, false, false},
	{"kite", "C1 E4 C5 A4", 4, 0, 0, 1, 1, "8", 4, 7, "kite", true, false, false, false},
	{"dart", "A1 C5 E1 C2", 4, 0, 0, 1, 1, "6", 6, 4, "dart", false, false, false, false},
	{"isosceles trapezoid", "A1 E1 D3 B3", 4, 0, 1, 1, 1, "6", 8, 3, "isosceles-trapezoid", true, false, false, true},
	{"the same, tilted", "A2 D5 D3 C2", 4, 0, 1, 1, 1, "4", 8, 1, "isosceles-trapezoid", true, false, false, true},
	{"right trapezoid", "A1 E1 C4 A4", 4, 2, 1, 0, 1, "9", 10, 5, "right-trapezoid", true, false, false, true},
	{"house pentagon", "A1 E1 E3 C5 A3", 5, 3, 1, 1, 1, "12", 12, 7, "pentagon", true, false, false, true},
	{"dented pentagon", "A1 E1 E5 C3 A5", 5, 2, 1, 1, 1, "12", 16, 5, "pentagon", false, false, false, true},
	{"near-regular hexagon", "B1 D1 E3 D5 B5 A3", 6, 0, 3, 2, 2, "12", 8, 9, "hexagon", true, false, false, true},
	{"L hexagon", "A1 E1 E3 C3 C5 A5", 6, 5, 6, 1, 1, "12", 16, 5, "hexagon", false, false, false, true},
	{"convex heptagon", "B1 D1 E2 E4 D5 B5 A3", 7, 0, 1, 1, 1, "13", 10, 9, "heptagon", true, false, false, true},
	{"equiangular octagon", "B1 D1 E2 E4 D5 B5 A4 A2", 8, 0, 4, 4, 4, "14", 12, 9, "octagon", true, false, true, true},
	{"plus of twelve equal sides", "B1 C1 C2 D2 D3 C3 C4 B4 B3 A3 A2 B2", 12, 8, 26, 4, 4, "5", 12, 0, "dodecagon", false, true, false, true},
}

// Each worked figure fits a task that asks for all its facts, and fails when
// any one of them is asked otherwise.
func TestWorkedFigures(t *testing.T) {
	yes := map[bool]string{true: "yes", false: "no"}
	for _, tt := range workedFigures {
		t.Run(tt.name, func(t *testing.T) {
			facts := []string{
				fmt.Sprintf("sides=%d", tt.sides), fmt.Sprintf("right-angles=%d", tt.rights), fmt.Sprintf("parallel-pairs=%d", tt.parallel),
				fmt.Sprintf("fold-lines=%d", tt.folds), fmt.Sprintf("turn-order=%d", tt.turns), "area=" + tt.area,
				fmt.Sprintf("pegs-on-edge=%d", tt.onEdge), fmt.Sprintf("pegs-inside=%d", tt.inside), "kind=" + tt.kind,
				"convex=" + yes[tt.convex], "equilateral=" + yes[tt.equilateral], "equiangular=" + yes[tt.equiangular],
			}
			if !tt.uprightAtAll {
				facts = append(facts, "upright-sides=0")
			}
			if v := judged(t, "square:5x5", tt.figure, facts...); v.Standing != task.Fits {
				t.Errorf("Judge(%s) against %v = %s, want fits", tt.figure, facts, v.Standing)
			}
			for _, r := range judged(t, "square:5x5", tt.figure, facts...).Results {
				c := r.Condition
				switch {
				case c.Property == task.Convex || c.Property == task.Equilateral || c.Property == task.Equiangular:
					c.Yes = !c.Yes
				default:
					c.Comparison = task.NotEqual
				}
				job := asked("square:5x5", c.String())
				if v := judged(t, "square:5x5", tt.figure, job.Conditions.Texts()...); v.Standing == task.Fits {
					t.Errorf("Judge(%s) against %s = fits, want not", tt.figure, c)
				}
			}
		})
	}
}

// Hints that can be checked by eye.
func TestHintsByEye(t *testing.T) {
	tests := []struct {
		name, figure, conditions string
		op                       task.Op
		after                    string
	}{
		{"a corner one step too far", "A1 D1 C3 A3", "kind=square", task.Move, "A1 C1 C3 A3"},
		{"a triangle that wants a fourth corner", "A1 C1 C3", "kind=square", task.Add, "A1 C1 C3 A3"},
		{"a house that wants no roof", "A1 C1 C3 B4 A3", "kind=square", task.Drop, "A1 C1 C3 A3"},
		{"a dent to be pulled out", "A1 C1 C3 B2 A3", "sides=4,convex", task.Drop, "A1 C1 C3 A3"},
		{"a right angle one peg off", "A1 D1 B4", "kind=right-triangle,area=9/2", task.Move, "A1 D1 A4"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judged(t, "square:4x4", tt.figure, splitConditions(tt.conditions)...)
			if v.Standing != task.Nearly || v.Hint == nil {
				t.Fatalf("Judge(%s) = %s, want nearly with a hint", tt.figure, v.Standing)
			}
			if h := v.Hint.Change; h.Op != tt.op || h.After.String() != tt.after {
				t.Errorf("hint for %s = %s to %s, want %s to %s", tt.figure, h.Op, h.After, tt.op, tt.after)
			}
		})
	}
}

// What kinds and yes-or-no properties bring with them.
func TestConsequences(t *testing.T) {
	tests := []struct{ condition, with, without string }{
		{"kind=square", "kind=rectangle", "kind=kite"},
		{"kind=square", "kind=rhombus", "kind!=rhombus"},
		{"kind=square", "kind=parallelogram", "kind=trapezoid"},
		{"kind=square", "sides=4", "sides=5"},
		{"kind=square", "regular=yes", "regular=no"},
		{"kind=square", "right-angles=4", "acute-angles=4"},
		{"kind=square", "reflex-angles=0", "reflex-angles>=1"},
		{"kind=rectangle", "equiangular=yes", "equilateral=yes"},
		{"kind=rhombus", "equilateral=yes", "equiangular=yes"},
		{"kind=dart", "reflex-angles>=1", "convex=yes"},
		{"kind=kite", "convex=yes", "kind=rhombus"},
		{"kind=regular-hexagon", "equilateral=yes", "sides=5"},
		{"kind=equilateral-triangle", "convex=yes", "kind=isosceles-triangle"},
		{"kind=right-isosceles-triangle", "kind=right-triangle", "kind=scalene-triangle"},
		{"kind=right-isosceles-triangle", "fold-lines>=1", "fold-lines=0"},
		{"kind=heptagon", "sides=7", "convex=yes"},
		{"regular", "equiangular=yes", "sides=4"},
		{"equiangular", "convex=yes", "equilateral=yes"},
		{"convex", "reflex-angles=0", "convex=no"},
		{"reflex-angles=2", "convex=no", "convex=yes"},
		{"reflex-angles=0", "convex=yes", "convex=no"},
		{"kind!=square", "kind!=square", "kind!=rectangle"},
		{"sides=4", "sides=4", "kind=quadrilateral"},
	}
	for _, tt := range tests {
		met := map[string]int{}
		for _, text := range task.MustParse(tt.condition).Consequences().Texts() {
			met[text]++
		}
		if met[tt.with] != 1 || met[tt.without] != 0 {
			t.Errorf("Consequences(%s) = %v, want %s once and %s never", tt.condition, met, tt.with, tt.without)
		}
	}
}
