// Package pdf writes a picture as a PDF page, true to scale where asked.
//
// The same picture gives the same bytes: nothing in the file depends on the
// clock or on the order of a map.
package pdf

import (
	"fmt"
	"image/color"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"pegwright/draw"
)

// Page is a size of paper.
type Page string

// The pages. Fitted is as large as the picture.
const (
	Fitted Page = ""
	A4     Page = "A4"
	Letter Page = "Letter"
)

// Options choose paper and scale.
type Options struct {
	Page Page
	// MillimetresPerUnit is the true size of a board unit on paper. 0 makes
	// a step 20 mm on a fitted page, and fills the paper, but no larger than
	// that, on others.
	MillimetresPerUnit float64
	// Lang is the language of the words, "en" if empty.
	Lang string
	// Plain leaves the file uncompressed, to be compared and read.
	Plain bool
}

const (
	stepMillimetres = 20
	margin          = 12.0 // mm, which every printer can print within
)

// TooLargeError says that a picture does not fit the paper at its scale.
type TooLargeError struct {
	Page               Page
	Width, Height      float64 // of the picture, in mm
	MillimetresPerUnit float64
	Largest            float64 // the largest scale that fits
}

// Error says what does not fit and what would.
func (e *TooLargeError) Error() string {
	return fmt.Sprintf("the picture is %.0f by %.0f mm at %g mm a unit and does not fit on %s; at %.1f mm it does",
		e.Width, e.Height, e.MillimetresPerUnit, e.Page, e.Largest)
}

// sheet is where a picture lies on its page, in millimetres.
type sheet struct {
	width, height float64
	left, top     float64 // of the picture
	scale         float64
}

// lay decides page and scale: the page is turned when the picture is wider
// than high.
func lay(p draw.Picture, o Options) (sheet, error) {
	s := sheet{scale: o.MillimetresPerUnit}
	if o.Page == Fitted {
		if s.scale <= 0 {
			s.scale = stepMillimetres / p.Step
		}
		s.width, s.height = p.Width()*s.scale, p.Height()*s.scale
		return s, nil
	}
	switch o.Page {
	case A4:
		s.width, s.height = 210, 297
	case Letter:
		s.width, s.height = 215.9, 279.4
	default:
		return s, fmt.Errorf("pdf: there is no paper %q; use A4, Letter, or none for a page as large as the picture", o.Page)
	}
	if p.Width() > p.Height() {
		s.width, s.height = s.height, s.width
	}
	largest := min((s.width-2*margin)/p.Width(), (s.height-2*margin)/p.Height())
	if s.scale <= 0 {
		s.scale = min(largest, stepMillimetres/p.Step)
	}
	if s.scale > largest*(1+1e-9) {
		return s, &TooLargeError{o.Page, p.Width() * s.scale, p.Height() * s.scale, s.scale, largest}
	}
	s.left = (s.width - p.Width()*s.scale) / 2
	s.top = (s.height - p.Height()*s.scale) / 2
	return s, nil
}

// Write writes p as a PDF of one page. The error is a *TooLargeError when the
// picture does not fit the paper at the scale asked for.
func Write(w io.Writer, p draw.Picture, o Options) error {
	place, err := lay(p, o)
	if err != nil {
		return err
	}
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: place.width, Ht: place.height}})
	f.SetCompression(!o.Plain)
	describe(f, p, o)
	for _, face := range []draw.Face{draw.GoFace, draw.SpareFace} {
		if uses(p, face) {
			f.AddUTF8FontFromBytes(face.String(), "", face.TrueType())
		}
	}
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.AddPage()
	f.SetLineCapStyle("round")
	f.SetLineJoinStyle("round")
	d := drawing{f, place, p.Min.X, p.Max.Y}
	for _, s := range p.Shapes {
		d.shape(s)
	}
	if err := f.Output(w); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// describe fills the document's information, with dates that never change.
func describe(f *fpdf.Fpdf, p draw.Picture, o Options) {
	never := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	f.SetCreationDate(never)
	f.SetModificationDate(never)
	f.SetCatalogSort(true)
	f.SetTitle(p.Title, true)
	f.SetSubject(p.Description, true)
	f.SetCreator("Pegwright", true)
	f.SetProducer("Pegwright", true)
	lang := o.Lang
	if lang == "" {
		lang = "en"
	}
	f.SetLang(lang)
}

func uses(p draw.Picture, face draw.Face) bool {
	for _, s := range p.Shapes {
		if l, ok := s.(draw.Label); ok {
			for _, run := range draw.Runs(l.Text, l.Size) {
				if run.Face == face {
					return true
				}
			}
		}
	}
	return false
}

// drawing is a page being written.
type drawing struct {
	*fpdf.Fpdf
	sheet     sheet
	leftUnits float64
	topUnits  float64
}

func (d *drawing) at(p draw.Point) (x, y float64) {
	return d.sheet.left + (p.X-d.leftUnits)*d.sheet.scale, d.sheet.top + (d.topUnits-p.Y)*d.sheet.scale
}

func (d *drawing) shape(s draw.Shape) {
	switch s := s.(type) {
	case draw.Circle:
		if how := d.style(s.Style); how != "" {
			x, y := d.at(s.At)
			d.Circle(x, y, s.Radius*d.sheet.scale, how)
		}
	case draw.Line:
		if how := d.style(s.Style); how != "" {
			d.path(s)
			d.DrawPath(how)
		}
	case draw.Label:
		d.label(s)
	}
}

func (d *drawing) path(l draw.Line) {
	for i, p := range l.Points {
		x, y := d.at(p)
		if i == 0 {
			d.MoveTo(x, y)
		} else {
			d.LineTo(x, y)
		}
	}
	if l.Closed {
		d.ClosePath()
	}
}

// style sets pen and brush and returns which of the two are used.
func (d *drawing) style(s draw.Style) string {
	how := ""
	if s.Fill.A > 0 {
		fill := s.Fill
		if fill == draw.Paper {
			fill = color.NRGBA{255, 255, 255, 255} // the sheet itself, not ink the colour of paper
		}
		d.SetFillColor(int(fill.R), int(fill.G), int(fill.B))
		how += "F"
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		d.SetDrawColor(int(s.Stroke.R), int(s.Stroke.G), int(s.Stroke.B))
		d.SetLineWidth(s.Width * d.sheet.scale)
		dashes := make([]float64, len(s.Dash))
		for i, dash := range s.Dash {
			dashes[i] = dash * d.sheet.scale
		}
		d.SetDashPattern(dashes, 0)
		how += "D"
	}
	return how
}

func (d *drawing) label(l draw.Label) {
	x, y := d.at(l.At)
	size := l.Size * d.sheet.scale
	x -= draw.TextWidth(l.Text, size) / 2
	d.SetTextColor(int(l.Ink.R), int(l.Ink.G), int(l.Ink.B))
	for _, run := range draw.Runs(l.Text, size) {
		d.SetFont(run.Face.String(), "", 12)
		d.SetFontUnitSize(size)
		d.Text(x+run.From, y, run.Text)
	}
}
