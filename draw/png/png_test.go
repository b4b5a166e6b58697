package png

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	stdpng "image/png"
	"io"
	"testing"

	"pegwright/board"
	"pegwright/draw"
	"pegwright/shape"
)

func figure(b, bands string) draw.Picture {
	return draw.Figure(shape.Read(board.MustParseFigure(board.MustParse(b), bands), shape.Definitions{}), draw.AllMarks())
}

func render(t *testing.T, p draw.Picture, o Options) image.Image {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, p, o); err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// at returns the colour of an image at a point of the picture.
func at(img image.Image, p draw.Picture, scale, x, y float64) color.NRGBA {
	return color.NRGBAModel.Convert(img.At(int((x-p.Min.X)*scale), int((p.Max.Y-y)*scale))).(color.NRGBA)
}

func TestInkLiesWhereTheBandIs(t *testing.T) {
	const scale = 100
	p := figure("square:5x5", "A1 D1 E3 B3")
	img := render(t, p, Options{PixelsPerUnit: scale})
	var thread color.NRGBA
	for _, s := range p.Shapes {
		if l, ok := s.(draw.Line); ok && l.Role == draw.Thread {
			thread = l.Style.Stroke
		}
	}
	tests := []struct {
		name string
		x, y float64
		want color.NRGBA
	}{
		{"on the bottom side", 0.5, 0, thread},
		{"on the left side", 0.25, 0.5, thread},
		{"on the top side", 3.7, 2, thread},
		{"at a corner", 0, 0, draw.Ink},
		{"in a peg passed over", 1, 0, draw.Paper},
		{"in a free peg", 4, 4, draw.Paper},
		{"between pegs", 3.5, 3.5, draw.Paper},
	}
	for _, tt := range tests {
		if got := at(img, p, scale, tt.x, tt.y); got != tt.want {
			t.Errorf("%s the colour is %v, want %v", tt.name, got, tt.want)
		}
	}
}

// TestDashesHaveGaps guards the dots of a dotted thread, which vanish when a
// dash is too short for the library.
func TestDashesHaveGaps(t *testing.T) {
	const scale = 100
	p := figure("square:5x5", "A1 A2 / B1 B2 / A5 E5")
	img := render(t, p, Options{PixelsPerUnit: scale})
	changes, inked := 0, false
	for x := 0.0; x < 4; x += 0.005 {
		if dark := at(img, p, scale, x, 4).R < 0x60; dark != inked {
			inked = !inked
			changes++
		}
	}
	if changes < 30 {
		t.Errorf("along a dotted thread ink and paper change %d times, want 30 at least", changes)
	}
}

func TestSize(t *testing.T) {
	tests := []struct {
		board string
		o     Options
		want  image.Point
	}{
		{"square:5x5", Options{PixelsPerUnit: 100}, image.Pt(545, 545)},
		{"square:5x5", Options{}, image.Pt(436, 436)},
		{"ring:12", Options{PixelsPerUnit: 200}, image.Pt(590, 590)},
		{"square:5x5", Options{PixelsPerUnit: 0.001}, image.Pt(1, 1)},
	}
	for _, tt := range tests {
		if got := render(t, figure(tt.board, ""), tt.o).Bounds().Size(); got != tt.want {
			t.Errorf("%s with %+v has the size %v, want %v", tt.board, tt.o, got, tt.want)
		}
	}
}

func TestTooLarge(t *testing.T) {
	if err := Write(io.Discard, figure("square:5x5", ""), Options{PixelsPerUnit: 1e6}); !errors.Is(err, ErrTooLarge) {
		t.Errorf("Write = %v, want %v", err, ErrTooLarge)
	}
}

func TestClearIsSeenThrough(t *testing.T) {
	p := figure("square:5x5", "")
	img := render(t, p, Options{PixelsPerUnit: 50, Clear: true})
	if c := at(img, p, 50, 0.5, 0.5); c.A != 0 {
		t.Errorf("between pegs the colour is %v, want none", c)
	}
}

func TestLettersOfBothFacesAreDrawn(t *testing.T) {
	for _, text := range []string{"A", "√", "ễ", "∥"} {
		p := draw.Picture{Max: draw.Point{X: 1, Y: 1}, Step: 1, Shapes: []draw.Shape{
			draw.Label{Role: draw.Letter, At: draw.Point{X: 0.5, Y: 0.2}, Size: 0.8, Text: text, Ink: draw.Ink},
		}}
		img := render(t, p, Options{PixelsPerUnit: 100})
		ink := 0
		for y := range 100 {
			for x := range 100 {
				if at := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA); at == draw.Ink {
					ink++
				}
			}
		}
		if ink < 50 {
			t.Errorf("%q has %d pixels of ink, want 50 at least", text, ink)
		}
	}
}

func TestSameBytesEachTime(t *testing.T) {
	var a, b bytes.Buffer
	p := figure("ring:12", "1 5 9")
	if err := errors.Join(Write(&a, p, Options{}), Write(&b, p, Options{})); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two images of one picture differ")
	}
}

func TestWriteReportsTheWriter(t *testing.T) {
	r, w := io.Pipe()
	full := errors.New("full")
	r.CloseWithError(full)
	if err := Write(w, figure("ring:3", ""), Options{}); !errors.Is(err, full) {
		t.Errorf("Write = %v, want %v", err, full)
	}
}
