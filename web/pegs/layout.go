package pegs

import (
	"math"

	"pegwright/board"
	"pegwright/draw"
)

// Layout is where the pegs of a board lie on the page: one unit between
// neighbouring pegs, y down from the top left.
type Layout struct {
	Width   float64  `json:"width"`
	Height  float64  `json:"height"`
	Pegs    []Peg    `json:"pegs"`
	Letters []Letter `json:"letters"`
	Disc    *Disc    `json:"disc,omitempty"`
}

// Peg is where a peg lies.
type Peg struct {
	Name string  `json:"name"`
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
}

// Letter is a letter or number along the edge, centred on X and standing on Y.
type Letter struct {
	Text string  `json:"text"`
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	Size float64 `json:"size"`
}

// Disc is the rim of a ring.
type Disc struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
	R float64 `json:"r"`
}

// LayoutOf lays a board out as draw does, so that it looks alike everywhere.
func LayoutOf(b *board.Board) Layout {
	p := draw.Board(b, draw.Options{Letters: true})
	at := func(x, y float64) (float64, float64) {
		return round((x - p.Min.X) / p.Step), round((p.Max.Y - y) / p.Step)
	}
	l := Layout{Width: round(p.Width() / p.Step), Height: round(p.Height() / p.Step)}
	for i := range b.Pegs() {
		x, y := at(b.At(board.Peg(i)))
		l.Pegs = append(l.Pegs, Peg{b.Name(board.Peg(i)), x, y})
	}
	for _, s := range p.Shapes {
		switch s := s.(type) {
		case draw.Label:
			x, y := at(s.At.X, s.At.Y)
			l.Letters = append(l.Letters, Letter{s.Text, x, y, round(s.Size / p.Step)})
		case draw.Circle:
			if s.Role == draw.Disc {
				x, y := at(s.At.X, s.At.Y)
				l.Disc = &Disc{x, y, round(s.Radius / p.Step)}
			}
		}
	}
	return l
}

// round keeps the numbers on the page short.
func round(x float64) float64 { return math.Round(x*1000) / 1000 }
