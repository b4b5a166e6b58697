package word

import (
	"math"
	"testing"

	"pegwright/draw"
)

func together(a, b draw.Point) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) < 0.35 }

// cross reports whether the forearms cross.
func cross(p Pose) bool {
	side := func(a, b, c draw.Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
	a, b, c, d := p.Left.Elbow(), p.Left.Wrist(), p.Right.Elbow(), p.Right.Wrist()
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// TestPosesShowTheirWord: where arms can show a word exactly, the pose does, in
// both versions, by the last of its poses.
func TestPosesShowTheirWord(t *testing.T) {
	straight := func(p Pose) bool {
		return p.Opening() == 180 && p.Left.Upper == p.Left.Fore && p.Right.Upper == p.Right.Fore
	}
	hands := func(h, g Hand) func(Pose) bool {
		return func(p Pose) bool { return straight(p) && p.Left.Hand == h && p.Right.Hand == g }
	}
	opening := func(least, most int) func(Pose) bool {
		return func(p Pose) bool { return p.Opening() >= least && p.Opening() <= most }
	}
	forearms := func(degrees int) func(Pose) bool {
		return func(p Pose) bool { return ((p.Left.Fore-p.Right.Fore)%180+180)%180 == degrees }
	}
	meet := func(p Pose) bool { return together(p.Left.Wrist(), p.Right.Wrist()) }
	// Neck, elbows and hands that meet make a rhombus, since all parts of the
	// arms are equally long; with square elbows a square.
	square := func(p Pose) bool { return meet(p) && p.Left.Bend() == 90 && p.Right.Bend() == 90 }
	cases := map[string]func(Pose) bool{
		"line": hands(Pointing, Pointing), "line-segment": hands(Fist, Fist), "ray": hands(Fist, Pointing),
		"acute-angle": opening(1, 89), "right-angle": opening(90, 90), "obtuse-angle": opening(91, 179),
		"straight-angle": opening(180, 180), "reflex-angle": opening(181, 359),
		"acute-triangle": opening(1, 89), "right-triangle": opening(90, 90), "obtuse-triangle": opening(91, 179),
		"parallel": forearms(0), "perpendicular": forearms(90), "trapezoid": forearms(0), "parallelogram": forearms(0),
		"intersecting": cross, "closed": meet, "polygon": meet, "convex": meet, "concave": meet, "line-of-symmetry": meet,
		"equiangular": func(p Pose) bool { return p.Left.Bend() == p.Right.Bend() },
		"rectangle":   func(p Pose) bool { return p.Left.Bend() == 90 && p.Right.Bend() == 90 },
		"regular":     square, "square": square, "rhombus": meet, "isosceles-triangle": meet,
		"turn-symmetry": func(p Pose) bool {
			return (p.Left.Upper+180)%360 == p.Right.Upper && (p.Left.Fore+180)%360 == p.Right.Fore
		},
		"irregular": func(p Pose) bool { return p.Left.Bend() != p.Right.Bend() },
	}
	for id, shows := range cases {
		a := MustFind(id).Action
		for what, poses := range map[string][]Pose{"pose": a.Poses, "turned pose": a.Turned} {
			if last := poses[len(poses)-1]; !shows(last) {
				t.Errorf("%s: the %s %+v does not show it", id, what, last)
			}
		}
	}
}

// TestFingersCountTheSides of polygons named by their sides.
func TestFingersCountTheSides(t *testing.T) {
	for id, sides := range map[string]int{
		"quadrilateral": 4, "pentagon": 5, "hexagon": 6, "heptagon": 7, "octagon": 8, "nonagon": 9, "decagon": 10, "hendecagon": 11, "dodecagon": 12,
	} {
		for _, poses := range [][]Pose{MustFind(id).Action.Poses, MustFind(id).Action.Turned} {
			n := 0
			for _, p := range poses {
				n += p.Left.Fingers + p.Right.Fingers
			}
			if n != sides {
				t.Errorf("%s shows %d fingers, want %d", id, n, sides)
			}
		}
	}
}

func TestEveryWordHasAnActionAndATurnedOne(t *testing.T) {
	for _, w := range All() {
		if len(w.Action.Poses) == 0 || len(w.Action.Turned) != len(w.Action.Poses) {
			t.Errorf("%s has %d poses and %d turned", w.ID, len(w.Action.Poses), len(w.Action.Turned))
			continue
		}
		for i, p := range w.Action.Poses {
			if p == w.Action.Turned[i] {
				t.Errorf("%s: the turned pose is not turned", w.ID)
			}
		}
	}
}

// TestPosePictureKeepsInside: everything drawn lies within the bounds, standing
// and seated, and seated shows a seat.
func TestPosePictureKeepsInside(t *testing.T) {
	for _, w := range All() {
		for _, p := range append(w.Action.Poses, w.Action.Turned...) {
			for _, seated := range []bool{false, true} {
				picture := p.Picture(seated)
				seats := 0
				for _, s := range picture.Shapes {
					line, ok := s.(draw.Line)
					if !ok {
						continue
					}
					if line.Role == Seat {
						seats++
					}
					for _, at := range line.Points {
						if at.X < picture.Min.X || at.X > picture.Max.X || at.Y < picture.Min.Y || at.Y > picture.Max.Y {
							t.Errorf("%s: a line reaches %v", w.ID, at)
						}
					}
				}
				if (seats > 0) != seated {
					t.Errorf("%s: seated %v, but %d seats", w.ID, seated, seats)
				}
			}
		}
	}
}

func TestParseArmRefuses(t *testing.T) {
	for _, text := range []string{"", "90 fist", "a 90 fist", "90 360 fist", "-1 90 fist", "90 90 paw", "90 90 fingers0", "90 90 fingers6", "90 90 fingersx"} {
		if a, err := parseArm(text); err == nil {
			t.Errorf("parseArm(%q) = %+v", text, a)
		}
	}
}
