// Package svg writes a picture as an SVG element that stands alone: in a file,
// or inside a page beside others.
package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"strconv"
	"strings"

	"pegwright/draw"
)

// Options choose how a picture becomes SVG. The zero value is right for a file
// of its own.
type Options struct {
	// Prefix begins every id, so that many pictures fit on one page; letters
	// that cannot stand in an id become hyphens. Empty means "picture".
	Prefix string
	// PixelsPerUnit is the size; 0 makes a step 60 pixels.
	PixelsPerUnit float64
	// Fluid leaves out width and height, so that the page decides the size.
	Fluid bool
	// Clear leaves out the paper behind the picture.
	Clear bool
}

// stepPixels makes letters about 18 pixels high.
const stepPixels = 60

// Write writes p as one svg element. Shapes carry their role as a class and
// their look as attributes, so that a style sheet may change it and nothing is
// lost without one.
func Write(w io.Writer, p draw.Picture, o Options) error {
	d := drawing{scale: o.PixelsPerUnit, left: p.Min.X, top: p.Max.Y}
	if d.scale <= 0 {
		d.scale = stepPixels / p.Step
	}
	d.open(p, o)
	if !o.Clear {
		d.printf(`<rect class="paper" width="%s" height="%s" fill="%s"/>`, d.length(p.Width()), d.length(p.Height()), hex(draw.Paper))
	}
	for _, s := range p.Shapes {
		d.shape(s)
	}
	d.printf("</svg>")
	if _, err := w.Write(d.out.Bytes()); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	return nil
}

// drawing is an element being written.
type drawing struct {
	out       bytes.Buffer
	scale     float64
	left, top float64
}

func (d *drawing) printf(format string, args ...any) {
	fmt.Fprintf(&d.out, format+"\n", args...)
}

func (d *drawing) open(p draw.Picture, o Options) {
	id := identifier(o.Prefix)
	size := ""
	if !o.Fluid {
		size = fmt.Sprintf(` width="%s" height="%s"`, d.length(p.Width()), d.length(p.Height()))
	}
	d.printf(`<svg xmlns="http://www.w3.org/2000/svg" class="picture" role="img" aria-labelledby="%s-title %s-desc"%s viewBox="0 0 %s %s" font-family="Go, &quot;DejaVu Sans&quot;, sans-serif" stroke-linecap="round" stroke-linejoin="round">`,
		id, id, size, d.length(p.Width()), d.length(p.Height()))
	d.printf(`<title id="%s-title">%s</title>`, id, escape(p.Title))
	d.printf(`<desc id="%s-desc">%s</desc>`, id, escape(p.Description))
}

// identifier makes an id that XML and CSS take.
func identifier(prefix string) string {
	id := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '-'
	}, prefix)
	switch {
	case id == "":
		return "picture"
	case id[0] >= '0' && id[0] <= '9' || id[0] == '-':
		return "p" + id
	}
	return id
}

func escape(text string) string {
	var out bytes.Buffer
	// A bytes.Buffer takes everything, and letters that XML forbids are
	// replaced.
	_ = xml.EscapeText(&out, []byte(text))
	return out.String()
}

func (d *drawing) shape(s draw.Shape) {
	switch s := s.(type) {
	case draw.Circle:
		d.printf(`<circle class="%s" cx="%s" cy="%s" r="%s"%s/>`, s.Role, d.x(s.At), d.y(s.At), d.length(s.Radius), d.style(s.Style))
	case draw.Line:
		d.line(s)
	case draw.Label:
		d.printf(`<text class="%s" x="%s" y="%s" font-size="%s" text-anchor="middle" fill="%s">%s</text>`,
			s.Role, d.x(s.At), d.y(s.At), d.length(s.Size), hex(s.Ink), escape(s.Text))
	}
}

func (d *drawing) line(l draw.Line) {
	class := string(l.Role)
	if l.Series > 0 {
		class += fmt.Sprintf(" %s-%d", l.Role, l.Series)
	}
	var path strings.Builder
	for i, p := range l.Points {
		command := "L"
		if i == 0 {
			command = "M"
		}
		path.WriteString(command + d.x(p) + " " + d.y(p))
	}
	if l.Closed {
		path.WriteString("Z")
	}
	d.printf(`<path class="%s" d="%s"%s/>`, class, path.String(), d.style(l.Style))
}

// style returns the presentation attributes, with a space in front.
func (d *drawing) style(s draw.Style) string {
	fill := "none"
	if s.Fill.A > 0 {
		fill = hex(s.Fill)
	}
	out := fmt.Sprintf(` fill="%s"`, fill)
	if s.Stroke.A == 0 || s.Width == 0 {
		return out
	}
	out += fmt.Sprintf(` stroke="%s" stroke-width="%s"`, hex(s.Stroke), d.length(s.Width))
	if len(s.Dash) == 0 {
		return out
	}
	dashes := make([]string, len(s.Dash))
	for i, dash := range s.Dash {
		dashes[i] = d.length(dash)
	}
	return out + fmt.Sprintf(` stroke-dasharray="%s"`, strings.Join(dashes, " "))
}

func (d *drawing) x(p draw.Point) string       { return d.length(p.X - d.left) }
func (d *drawing) y(p draw.Point) string       { return d.length(d.top - p.Y) }
func (d *drawing) length(units float64) string { return number(units * d.scale) }

// number prints pixels to the hundredth, without needless zeros.
func number(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
