package word

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pegwright/draw"
)

// Action is what a class does when a word is called: one pose, or several one
// after another, and the same turned so that nothing is level or upright only
// by habit.
type Action struct {
	Poses, Turned []Pose
}

// Pose is how a small stick figure holds its arms, as the class sees it.
type Pose struct {
	Left, Right Arm
}

// Arm is the directions of an arm's two parts in degrees, 0 to the right of
// the one who looks and 90 up, and what the hand does.
//
//	         90
//	    135  |  45
//	180 ---- o ---- 0       "180 90 fist": out to the side, and up from
//	    225  |  315         the elbow
//	        270
type Arm struct {
	Upper, Fore int
	Hand        Hand
	Fingers     int // for FingersShown
}

// Hand is what a hand does.
type Hand string

// The hands.
const (
	Fist         Hand = "fist"
	Pointing     Hand = "point"
	Flat         Hand = "flat"
	FingersShown Hand = "fingers"
)

// parseArm reads "180 90 fist" or "60 90 fingers3".
func parseArm(text string) (Arm, error) {
	parts := strings.Fields(text)
	if len(parts) != 3 {
		return Arm{}, fmt.Errorf("arm %q: write two directions and a hand", text)
	}
	upper, err1 := strconv.Atoi(parts[0])
	fore, err2 := strconv.Atoi(parts[1])
	if err1 != nil || err2 != nil || upper < 0 || upper > 359 || fore < 0 || fore > 359 {
		return Arm{}, fmt.Errorf("arm %q: a direction is a whole number of degrees below 360", text)
	}
	a := Arm{Upper: upper, Fore: fore, Hand: Hand(parts[2])}
	if n, ok := strings.CutPrefix(parts[2], string(FingersShown)); ok {
		a.Hand = FingersShown
		if a.Fingers, err1 = strconv.Atoi(n); err1 != nil || a.Fingers < 1 || a.Fingers > 5 {
			return Arm{}, fmt.Errorf("arm %q: a hand shows one to five fingers", text)
		}
	}
	switch a.Hand {
	case Fist, Pointing, Flat, FingersShown:
		return a, nil
	}
	return Arm{}, fmt.Errorf("arm %q: a hand is fist, point, flat or fingers1 to fingers5", text)
}

// Each part of an arm is one unit long; both arms start at the neck, which is
// the origin.
func reach(from draw.Point, degrees int, by float64) draw.Point {
	a := float64(degrees) * math.Pi / 180
	return draw.Point{X: from.X + by*math.Cos(a), Y: from.Y + by*math.Sin(a)}
}

// Elbow returns where the arm bends.
func (a Arm) Elbow() draw.Point { return reach(draw.Point{}, a.Upper, 1) }

// Wrist returns where the arm ends.
func (a Arm) Wrist() draw.Point { return reach(a.Elbow(), a.Fore, 1) }

// Opening returns the turn over the head from the right arm to the left one,
// in degrees below 360.
func (p Pose) Opening() int { return ((p.Left.Upper-p.Right.Upper)%360 + 360) % 360 }

// Bend returns the angle at the elbow, in degrees up to 180.
func (a Arm) Bend() int {
	turn := ((a.Fore-a.Upper)%360 + 360) % 360
	return 180 - min(turn, 360-turn)
}

// The roles of a pose's shapes.
const (
	Body draw.Role = "body"
	Seat draw.Role = "seat"
)

// Sizes of the stick figure, in parts of an arm.
const (
	headRadius = 0.34
	limbWidth  = 0.13
	fistRadius = 0.17
	handLong   = 0.32
)

// Picture draws the pose, standing or seated on a chair. Title and description
// are the caller's: what to do is said in Text.Do.
func (p Pose) Picture(seated bool) draw.Picture {
	limb := draw.Style{Stroke: draw.Ink, Width: limbWidth}
	out := draw.Picture{Min: draw.Point{X: -2.6, Y: -4}, Max: draw.Point{X: 2.6, Y: 2.6}, Step: 1}
	line := func(points ...draw.Point) {
		out.Shapes = append(out.Shapes, draw.Line{Role: Body, Points: points, Style: limb})
	}
	neck, hip := draw.Point{}, draw.Point{Y: -1.7}
	if seated {
		chair := draw.Style{Stroke: draw.Ink, Width: limbWidth / 2}
		out.Shapes = append(out.Shapes, draw.Line{Role: Seat, Points: []draw.Point{{X: -0.7, Y: -3.7}, {X: -0.7, Y: -1.85}, {X: 0.6, Y: -1.85}, {X: 0.6, Y: -3.7}}, Style: chair})
		line(hip, draw.Point{X: 0.95, Y: -1.75}, draw.Point{X: 0.95, Y: -3.2}, draw.Point{X: 1.3, Y: -3.2})
	} else {
		line(draw.Point{X: -0.55, Y: -3.7}, hip, draw.Point{X: 0.55, Y: -3.7})
	}
	line(neck, hip)
	out.Shapes = append(out.Shapes, draw.Circle{Role: Body, At: draw.Point{Y: 0.12 + headRadius}, Radius: headRadius, Style: draw.Style{Stroke: draw.Ink, Width: limbWidth * 0.7, Fill: draw.Paper}})
	for _, arm := range []Arm{p.Left, p.Right} {
		line(neck, arm.Elbow(), arm.Wrist())
		out.Shapes = append(out.Shapes, arm.hand()...)
	}
	return out
}

// hand draws what the hand does, at the end of the arm.
func (a Arm) hand() []draw.Shape {
	at := a.Wrist()
	stroke := func(degrees int, long, width float64) draw.Shape {
		return draw.Line{Role: Body, Points: []draw.Point{at, reach(at, degrees, long)}, Style: draw.Style{Stroke: draw.Ink, Width: width}}
	}
	switch a.Hand {
	case Pointing:
		return []draw.Shape{stroke(a.Fore, handLong*1.5, limbWidth/2)}
	case Flat:
		return []draw.Shape{stroke(a.Fore, handLong, limbWidth*1.9)}
	case FingersShown:
		var out []draw.Shape
		for i := range a.Fingers {
			out = append(out, stroke(a.Fore+28*i-14*(a.Fingers-1), handLong*1.4, limbWidth/2))
		}
		return out
	}
	return []draw.Shape{draw.Circle{Role: Body, At: at, Radius: fistRadius, Style: draw.Style{Fill: draw.Ink}}}
}
