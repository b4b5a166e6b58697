package word

import (
	"fmt"
	"math"
	"strings"

	"pegwright/board"
	"pegwright/draw"
	"pegwright/shape"
)

// Picture is a figure with what is meant in it: pegs, a straight piece, or the
// ends at which a piece runs on for ever.
type Picture struct {
	Figure board.Figure
	Pegs   []board.Peg
	Line   *board.Segment
	On     []board.Peg
}

// usualBoard is the board of pictures that name no other.
const usualBoard = "square:5x5"

// parsePicture reads a picture from its parts in the data file.
func parsePicture(on, figure, pegs, line, ends string) (Picture, error) {
	if on == "" {
		on = usualBoard
	}
	b, err := board.Parse(on)
	if err != nil {
		return Picture{}, err
	}
	p := Picture{}
	if p.Figure, err = board.ParseFigure(b, figure); err != nil {
		return Picture{}, err
	}
	if p.Pegs, err = parsePegs(b, pegs); err != nil {
		return Picture{}, err
	}
	if p.On, err = parsePegs(b, ends); err != nil {
		return Picture{}, err
	}
	ab, err := parsePegs(b, line)
	switch {
	case err != nil:
		return Picture{}, err
	case len(ab) == 2 && ab[0] != ab[1]:
		p.Line = &board.Segment{From: ab[0], To: ab[1]}
	case len(ab) != 0:
		return Picture{}, fmt.Errorf("line %q: a line is two different pegs", line)
	}
	return p, nil
}

func parsePegs(b *board.Board, text string) ([]board.Peg, error) {
	var out []board.Peg
	for _, name := range strings.Fields(text) {
		p, ok := b.Peg(name)
		if !ok {
			return nil, fmt.Errorf("there is no peg %q on %s", name, b)
		}
		out = append(out, p)
	}
	return out, nil
}

// Meant is the role of what a picture points at.
const Meant draw.Role = "meant"

// Draw draws the picture, with what is meant in it on top. Pieces with ends of
// their own are no faulty polygons, so nothing is marked in them.
func (p Picture) Draw(o draw.Options) draw.Picture {
	r := shape.Read(p.Figure, shape.Definitions{})
	o.Marks = o.Marks && len(r.Outline.Ends) == 0
	out := draw.Figure(r, o)
	style := draw.Style{Stroke: draw.Ink, Width: 0.06 * out.Step}
	for _, peg := range p.Pegs {
		out.Shapes = append(out.Shapes, draw.Circle{Role: Meant, At: p.at(peg), Radius: 0.26 * out.Step, Style: style})
	}
	if p.Line != nil {
		dashed := style
		dashed.Width = 0.14 * out.Step // so that it shows where it lies on a side
		dashed.Dash = []float64{0.2 * out.Step, 0.22 * out.Step}
		out.Shapes = append(out.Shapes, draw.Line{Role: Meant, Points: []draw.Point{p.at(p.Line.From), p.at(p.Line.To)}, Style: dashed})
	}
	for _, end := range p.On {
		if tip, back, ok := p.beyond(end, out.Step); ok {
			out.Shapes = append(out.Shapes, arrowhead(tip, back, out.Step, style)...)
			out.Min = draw.Point{X: min(out.Min.X, tip.X-0.2), Y: min(out.Min.Y, tip.Y-0.2)}
			out.Max = draw.Point{X: max(out.Max.X, tip.X+0.2), Y: max(out.Max.Y, tip.Y+0.2)}
		}
	}
	return out
}

func (p Picture) at(peg board.Peg) draw.Point {
	x, y := p.Figure.Board.At(peg)
	return draw.Point{X: x, Y: y}
}

// beyond returns a point some way past an end of a piece, and the end.
func (p Picture) beyond(end board.Peg, step float64) (tip, back draw.Point, ok bool) {
	for _, s := range p.Figure.Segments() {
		from := s.From
		if from == end {
			from = s.To
		} else if s.To != end {
			continue
		}
		a, z := p.at(from), p.at(end)
		long := math.Hypot(z.X-a.X, z.Y-a.Y)
		far := 0.55 * step / long
		return draw.Point{X: z.X + (z.X-a.X)*far, Y: z.Y + (z.Y-a.Y)*far}, z, true
	}
	return draw.Point{}, draw.Point{}, false
}

func arrowhead(tip, back draw.Point, step float64, style draw.Style) []draw.Shape {
	turn := math.Atan2(back.Y-tip.Y, back.X-tip.X)
	barb := func(off float64) draw.Point {
		return draw.Point{X: tip.X + 0.28*step*math.Cos(turn+off), Y: tip.Y + 0.28*step*math.Sin(turn+off)}
	}
	return []draw.Shape{
		draw.Line{Role: Meant, Points: []draw.Point{back, tip}, Style: style},
		draw.Line{Role: Meant, Points: []draw.Point{barb(0.5), tip, barb(-0.5)}, Style: style},
	}
}
