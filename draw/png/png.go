// Package png writes a picture as a PNG image.
package png

import (
	"errors"
	"fmt"
	"io"
	"math"

	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"pegwright/draw"
)

// Options choose the size of the image.
type Options struct {
	// PixelsPerUnit is the size; 0 makes a step 80 pixels.
	PixelsPerUnit float64
	// Clear leaves out the paper behind the picture, so that it is seen
	// through.
	Clear bool
}

const stepPixels = 80

// mostPixels bounds an image's sides, so that a slip in a number cannot fill
// the memory.
const mostPixels = 16_000

// ErrTooLarge is returned for an image of more than 16,000 pixels a side.
var ErrTooLarge = errors.New("png: the image would be more than 16,000 pixels wide or high; ask for fewer pixels a unit")

// Write writes p as a PNG image.
func Write(w io.Writer, p draw.Picture, o Options) error {
	scale := o.PixelsPerUnit
	if scale <= 0 {
		scale = stepPixels / p.Step
	}
	width, height := math.Ceil(p.Width()*scale-0.01), math.Ceil(p.Height()*scale-0.01)
	if !(width <= mostPixels && height <= mostPixels) {
		return ErrTooLarge
	}
	c := &canvas{Context: gg.NewContext(max(1, int(width)), max(1, int(height))), scale: scale, left: p.Min.X, top: p.Max.Y}
	if !o.Clear {
		c.SetColor(draw.Paper)
		c.Clear()
	}
	c.SetLineCap(gg.LineCapRound)
	c.SetLineJoin(gg.LineJoinRound)
	for _, s := range p.Shapes {
		if err := c.shape(s); err != nil {
			return fmt.Errorf("png: %w", err)
		}
	}
	if err := c.EncodePNG(w); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// canvas is an image being drawn.
type canvas struct {
	*gg.Context
	scale     float64
	left, top float64
	fonts     [2]*opentype.Font // by draw.Face, each parsed when first used
	faces     map[faceKey]font.Face
}

type faceKey struct {
	face draw.Face
	size float64
}

func (c *canvas) at(p draw.Point) (x, y float64) {
	return (p.X - c.left) * c.scale, (c.top - p.Y) * c.scale
}

func (c *canvas) shape(s draw.Shape) error {
	switch s := s.(type) {
	case draw.Circle:
		x, y := c.at(s.At)
		c.DrawCircle(x, y, s.Radius*c.scale)
		c.ink(s.Style)
	case draw.Line:
		for _, p := range s.Points {
			c.LineTo(c.at(p))
		}
		if s.Closed {
			c.ClosePath()
		}
		c.ink(s.Style)
	case draw.Label:
		return c.label(s)
	}
	return nil
}

// ink fills and strokes the path.
func (c *canvas) ink(s draw.Style) {
	if s.Fill.A > 0 {
		c.SetColor(s.Fill)
		c.FillPreserve()
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		dashes := make([]float64, len(s.Dash))
		for i, d := range s.Dash {
			dashes[i] = d * c.scale
		}
		c.SetDash(dashes...)
		c.SetLineWidth(s.Width * c.scale)
		c.SetColor(s.Stroke)
		c.StrokePreserve()
	}
	c.ClearPath()
}

func (c *canvas) label(l draw.Label) error {
	x, y := c.at(l.At)
	size := l.Size * c.scale
	x -= draw.TextWidth(l.Text, size) / 2
	c.SetColor(l.Ink)
	for _, run := range draw.Runs(l.Text, size) {
		face, err := c.face(run.Face, size)
		if err != nil {
			return err
		}
		c.SetFontFace(face)
		c.DrawString(run.Text, x+run.From, y)
	}
	return nil
}

func (c *canvas) face(f draw.Face, size float64) (font.Face, error) {
	key := faceKey{f, size}
	if face, ok := c.faces[key]; ok {
		return face, nil
	}
	if c.fonts[f] == nil {
		parsed, err := opentype.Parse(f.TrueType())
		if err != nil {
			return nil, err
		}
		c.fonts[f] = parsed
	}
	face, err := opentype.NewFace(c.fonts[f], &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return nil, err
	}
	if c.faces == nil {
		c.faces = make(map[faceKey]font.Face)
	}
	c.faces[key] = face
	return face, nil
}
