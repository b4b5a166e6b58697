package page

import (
	"bytes"
	"html/template"

	go_qr "github.com/piglig/go-qr"

	"pegwright/board"
	"pegwright/draw"
	"pegwright/draw/svg"
	"pegwright/say"
	"pegwright/shape"
)

// Detail says how much a picture of a figure shows.
type Detail int

// The details: the band and the pegs; letters along the edges too; and the
// marks of a textbook with fold lines.
const (
	Small Detail = iota
	Lettered
	Full
)

// Figure draws a reading as an SVG element that fills its place. The id must
// differ from those of all other pictures on the page.
func Figure(s *say.Speaker, id string, r shape.Reading, detail Detail) template.HTML {
	o := draw.Options{Title: Name(s, r), Description: s.Describe(r), Letters: detail >= Lettered}
	if detail == Full {
		o.Marks, o.FoldLines = true, true
	}
	return element(id, draw.Figure(r, o))
}

// Board draws a board without bands.
func Board(s *say.Speaker, id string, b *board.Board) template.HTML {
	return Figure(s, id, shape.Read(board.Figure{Board: b}, shape.Definitions{}), Lettered)
}

// Name says in a few words what a figure is.
func Name(s *say.Speaker, r shape.Reading) string {
	if r.Polygon == nil {
		return s.Capital(s.Status(r.Outline.Status))
	}
	return s.Capital(s.Name(r.Polygon.BestName(r.Definitions)))
}

func element(id string, p draw.Picture) template.HTML {
	var out bytes.Buffer
	// A bytes.Buffer takes everything.
	_ = svg.Write(&out, p, svg.Options{Prefix: id, Fluid: true, Clear: true})
	return template.HTML(out.String()) //nolint:gosec // made by draw/svg, which escapes every text
}

// Code is a QR code as rows of squares to be drawn.
type Code struct {
	Text string
	Size int // modules a side, with the quiet zone
	Bars []Stroke
}

// Stroke is a run of dark modules in one row.
type Stroke struct{ X, Y, Width int }

// quiet is the light rim that readers want (ISO/IEC 18004: four modules; from
// memory).
const quiet = 4

// NewCode makes the code of a text; a text too long for one gives none.
func NewCode(text string) *Code {
	q, err := go_qr.EncodeText(text, go_qr.Medium)
	if err != nil {
		return nil
	}
	c := &Code{Text: text, Size: q.Size() + 2*quiet}
	for y := range q.Size() {
		for x := 0; x < q.Size(); x++ {
			from := x
			for x < q.Size() && q.Module(x, y) {
				x++
			}
			if x > from {
				c.Bars = append(c.Bars, Stroke{from + quiet, y + quiet, x - from})
			}
		}
	}
	return c
}
