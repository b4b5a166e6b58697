package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/color"
	"io"
	"math"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/draw"
	"pegwright/internal/golden"
	"pegwright/shape"
)

func figure(b, bands string) draw.Picture {
	return draw.Figure(shape.Read(board.MustParseFigure(board.MustParse(b), bands), shape.Definitions{}), draw.AllMarks())
}

func write(t *testing.T, p draw.Picture, o Options) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, p, o); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

var figures = []struct{ name, board, bands string }{
	{"square", "square:5x5", "C1 E3 C5 A3"},
	{"parallelogram", "square:5x5", "A1 D1 E3 B3"},
	{"bow-tie", "square:5x5", "A1 E5 E1 A5"},
	{"three-bands", "square:5x5", "A1 D1 / D1 D3 / D3 A1"},
	{"ring", "ring:12+centre", "1 4 6 8 11"},
	{"triangle-board", "triangle:5", "B1 D1 D2 B4 A4 A2"},
	{"empty", "staggered:3x3", ""},
}

func TestGolden(t *testing.T) {
	for _, f := range figures {
		t.Run(f.name, func(t *testing.T) {
			golden.Check(t, f.name+".svg", write(t, figure(f.board, f.bands), Options{}))
		})
	}
}

// element is an SVG element as a parser sees it.
type element struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Text     string     `xml:",chardata"`
	Children []element  `xml:",any"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func parse(t *testing.T, file []byte) element {
	t.Helper()
	var e element
	if err := xml.Unmarshal(file, &e); err != nil {
		t.Fatalf("not XML: %v\n%s", err, file)
	}
	return e
}

func TestEveryPictureIsNamed(t *testing.T) {
	for _, f := range figures {
		p := figure(f.board, f.bands)
		e := parse(t, write(t, p, Options{Prefix: "tile 7"}))
		if e.XMLName.Local != "svg" || e.XMLName.Space != "http://www.w3.org/2000/svg" || e.attr("role") != "img" {
			t.Errorf("%s: the root is %v with the role %q", f.name, e.XMLName, e.attr("role"))
		}
		if got := e.attr("aria-labelledby"); got != "tile-7-title tile-7-desc" {
			t.Errorf("%s is labelled by %q", f.name, got)
		}
		title, desc := e.Children[0], e.Children[1]
		if title.XMLName.Local != "title" || title.attr("id") != "tile-7-title" || title.Text != p.Title {
			t.Errorf("%s has the title %+v, want %q", f.name, title, p.Title)
		}
		if desc.XMLName.Local != "desc" || desc.attr("id") != "tile-7-desc" || desc.Text != p.Description {
			t.Errorf("%s has the description %+v, want %q", f.name, desc, p.Description)
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	nasty := "</title><script>alert(\"1\" & '2')</script>\x00"
	p := draw.Picture{
		Max: draw.Point{X: 1, Y: 1}, Step: 1, Title: nasty, Description: nasty,
		Shapes: []draw.Shape{draw.Label{Role: draw.Letter, Size: 1, Text: nasty, Ink: draw.Ink}},
	}
	file := write(t, p, Options{Prefix: `"><script>`})
	if bytes.Contains(file, []byte("<script")) {
		t.Errorf("a script came through:\n%s", file)
	}
	want := strings.ReplaceAll(nasty, "\x00", "\uFFFD")
	e := parse(t, file)
	for _, i := range []int{0, 1, 3} {
		if got := e.Children[i].Text; got != want {
			t.Errorf("%s reads back as %q, want %q", e.Children[i].XMLName.Local, got, want)
		}
	}
}

func TestOptions(t *testing.T) {
	p := figure("ring:12", "1 5 9")
	if e := parse(t, write(t, p, Options{PixelsPerUnit: 100})); e.attr("width") != "295" || e.attr("viewBox") != "0 0 295 295" {
		t.Errorf("at 100 pixels a radius the size is %q, %q", e.attr("width"), e.attr("viewBox"))
	}
	if e := parse(t, write(t, p, Options{Fluid: true})); e.attr("width") != "" || e.attr("height") != "" || e.attr("viewBox") == "" {
		t.Errorf("a fluid picture has the attributes %v", e.Attrs)
	}
	if file := write(t, p, Options{Clear: true}); bytes.Contains(file, []byte(`class="paper"`)) {
		t.Error("a clear picture has paper")
	}
}

func TestIdentifier(t *testing.T) {
	tests := []struct{ prefix, want string }{
		{"", "picture"}, {"a", "a"}, {"seat-3_b", "seat-3_b"}, {"3", "p3"}, {"-x", "p-x"}, {"é b", "p--b"},
	}
	for _, tt := range tests {
		if got := identifier(tt.prefix); got != tt.want {
			t.Errorf("identifier(%q) = %q, want %q", tt.prefix, got, tt.want)
		}
	}
}

func TestNumber(t *testing.T) {
	tests := []struct {
		x    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {-0.001, "0"}, {1, "1"}, {100, "100"}, {1.5, "1.5"}, {2.345, "2.35"}, {-7.1, "-7.1"},
	}
	for _, tt := range tests {
		if got := number(tt.x); got != tt.want {
			t.Errorf("number(%v) = %q, want %q", tt.x, got, tt.want)
		}
	}
}

func TestShapesWithoutInkAreNotStroked(t *testing.T) {
	p := draw.Picture{Max: draw.Point{X: 1, Y: 1}, Step: 1, Shapes: []draw.Shape{
		draw.Line{Role: draw.Wash, Points: []draw.Point{{}, {X: 1}}, Style: draw.Style{Fill: color.NRGBA{1, 2, 3, 255}}},
	}}
	e := parse(t, write(t, p, Options{}))
	if l := e.Children[3]; l.attr("fill") != "#010203" || l.attr("stroke") != "" {
		t.Errorf("the line has the attributes %v", l.Attrs)
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
