// Package draw turns boards and readings into pictures: circles, lines and
// labels in board units, with the words that say the same to someone who
// cannot see them.
//
// It knows neither SVG nor PDF; its writers do, one folder each below this
// one. It decides nothing about geometry either: every mark stands for a fact
// of package shape. Start reading at Figure; Sheet lays out several pictures.
package draw

import (
	"image/color"
)

// Point is a place in board units: peg spacings, or radii on a ring; x to the
// right, y up.
type Point struct{ X, Y float64 }

// Role says what a shape stands for. Writers may use it to name and group.
type Role string

// The roles.
const (
	Wash     Role = "wash"    // the inside of a polygon
	Peg      Role = "peg"     // a peg without a band at it
	Passed   Role = "passed"  // a peg that a band runs straight over
	Corner   Role = "corner"  // a peg where a band turns
	End      Role = "end"     // a loose end
	Thread   Role = "thread"  // a band
	Fold     Role = "fold"    // a fold line
	Tick     Role = "tick"    // one stroke across a side; equal sides have equally many
	Arrow    Role = "arrow"   // one head on a side; parallel sides have equally many
	RightBox Role = "right"   // the square in a right-angled corner
	Meet     Role = "meet"    // where bands cross, branch or touch
	Letter   Role = "letter"  // a column letter, row number or peg number
	Caption  Role = "caption" // the line below a picture on a sheet
	Disc     Role = "disc"    // the rim of a ring board
)

// Style is how a shape is drawn. Colours that are fully transparent are not
// drawn; Width and Dash are in board units. Ends and joins are round.
type Style struct {
	Stroke color.NRGBA
	Width  float64
	Dash   []float64 // on, off, on, off, …
	Fill   color.NRGBA
}

// Shape is a Circle, a Line or a Label.
type Shape interface {
	// moved returns the shape made larger about the origin and then shifted.
	moved(times float64, by Point) Shape
}

// Circle is a round shape.
type Circle struct {
	Role   Role
	At     Point
	Radius float64
	Style  Style
}

// Line is a line through points, closed or open. Series tells several of one
// role apart: the number of a band, of a class of equal sides, of a direction
// of parallel sides, each from 1.
type Line struct {
	Role   Role
	Series int
	Points []Point
	Closed bool
	Style  Style
}

// Label is a short text on one line, centred on At.X, standing on At.Y.
type Label struct {
	Role Role
	At   Point
	Size float64 // of the type, in board units
	Text string
	Ink  color.NRGBA
}

// Picture is a drawing with its words.
type Picture struct {
	Min, Max    Point   // the bounds of all that is drawn, with a margin
	Step        float64 // the gap between neighbouring pegs, as a measure for strokes and letters
	Title       string
	Description string
	Shapes      []Shape
}

// Width returns the width in board units.
func (p Picture) Width() float64 { return p.Max.X - p.Min.X }

// Height returns the height in board units.
func (p Picture) Height() float64 { return p.Max.Y - p.Min.Y }

func (p Point) plus(q Point) Point              { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) minus(q Point) Point             { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) times(f float64) Point           { return Point{p.X * f, p.Y * f} }
func (p Point) left() Point                     { return Point{-p.Y, p.X} }
func (p Point) moved(f float64, by Point) Point { return p.times(f).plus(by) }

func (s Style) scaled(f float64) Style {
	s.Width *= f
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = d * f
	}
	s.Dash = dash
	return s
}

func (c Circle) moved(f float64, by Point) Shape {
	c.At, c.Radius, c.Style = c.At.moved(f, by), c.Radius*f, c.Style.scaled(f)
	return c
}

func (l Line) moved(f float64, by Point) Shape {
	points := make([]Point, len(l.Points))
	for i, p := range l.Points {
		points[i] = p.moved(f, by)
	}
	l.Points, l.Style = points, l.Style.scaled(f)
	return l
}

func (l Label) moved(f float64, by Point) Shape {
	l.At, l.Size = l.At.moved(f, by), l.Size*f
	return l
}
