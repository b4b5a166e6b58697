package draw

import (
	"sync"

	"github.com/go-fonts/dejavu/dejavusans"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is one of the two typefaces of the product. The Go font tells 1 l I and
// 0 O apart but lacks some letters of names and some signs of geometry (ễ, ∥,
// ∠); those come from the other.
type Face int

// The faces.
const (
	GoFace Face = iota
	SpareFace
)

// TrueType returns the file of a face.
func (f Face) TrueType() []byte {
	if f == SpareFace {
		return dejavusans.TTF
	}
	return goregular.TTF
}

// String returns the name of the family.
func (f Face) String() string {
	if f == SpareFace {
		return "DejaVu Sans"
	}
	return "Go"
}

// Run is a piece of a text in one face, with its width in board units and
// where it starts, from the start of the text.
type Run struct {
	Face  Face
	Text  string
	From  float64
	Width float64
}

// Runs cuts a text into pieces by the face that has their letters, each
// measured at a size of type.
func Runs(text string, size float64) []Run {
	var out []Run
	from := 0.0
	for _, r := range text {
		face, width := measure(r)
		if len(out) == 0 || out[len(out)-1].Face != face {
			out = append(out, Run{Face: face, From: from})
		}
		last := &out[len(out)-1]
		last.Text += string(r)
		last.Width += width * size
		from += width * size
	}
	return out
}

// TextWidth returns the width of a text at a size of type.
func TextWidth(text string, size float64) float64 {
	width := 0.0
	for _, r := range text {
		_, w := measure(r)
		width += w * size
	}
	return width
}

var faces = sync.OnceValue(func() [2]*sfnt.Font {
	var out [2]*sfnt.Font
	for f := range out {
		font, err := sfnt.Parse(Face(f).TrueType())
		if err != nil {
			panic("draw: a built-in typeface cannot be read: " + err.Error())
		}
		out[f] = font
	}
	return out
})

// measure returns the face that has a letter, the spare one when neither has,
// and the letter's width at size 1.
func measure(r rune) (Face, float64) {
	const fine = 1000
	var buffer sfnt.Buffer
	for f := GoFace; f <= SpareFace; f++ {
		glyph, err := faces()[f].GlyphIndex(&buffer, r)
		if err != nil || glyph == 0 && f == GoFace {
			continue
		}
		advance, err := faces()[f].GlyphAdvance(&buffer, glyph, fixed.I(fine), font.HintingNone)
		if err == nil {
			return f, float64(advance) / 64 / fine
		}
	}
	return SpareFace, 0
}
