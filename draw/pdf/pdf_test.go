package pdf

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
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

// run reads a PDF with one of poppler's programs, or skips the test.
func run(t *testing.T, program string, file []byte, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skipf("%s is not installed; it comes with poppler-utils", program)
	}
	name := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(name, file, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, append(args, name)...)
	if program == "pdftotext" {
		cmd.Args = append(cmd.Args, "-")
	}
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return string(out)
}

var firstStream = regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`)

// content returns the drawing commands of an uncompressed file, whose letters
// are bytes of no printable kind.
func content(t *testing.T, file []byte) []byte {
	t.Helper()
	m := firstStream.FindSubmatch(file)
	if m == nil {
		t.Fatal("the file has no page content")
	}
	text := regexp.MustCompile(`[^\n -~]`).ReplaceAll(m[1], nil)
	return append(text, '\n')
}

func TestGolden(t *testing.T) {
	for _, f := range []struct{ name, board, bands string }{
		{"parallelogram", "square:5x5", "A1 D1 E3 B3"},
		{"three-bands", "square:5x5", "A1 D1 / D1 D3 / D3 A1"},
		{"ring", "ring:12", "1 5 9"},
	} {
		t.Run(f.name, func(t *testing.T) {
			file := write(t, figure(f.board, f.bands), Options{Page: A4, Plain: true})
			golden.Check(t, f.name+".txt", content(t, file))
		})
	}
}

func TestSameBytesEachTime(t *testing.T) {
	p := figure("square:5x5", "A1 D1 E3 B3")
	p.Shapes = append(p.Shapes, draw.Label{Role: draw.Caption, Size: 0.3, Text: "AB ∥ CD", Ink: draw.Ink})
	first := write(t, p, Options{})
	for range 5 {
		if !bytes.Equal(first, write(t, p, Options{})) {
			t.Fatal("two files of one picture differ")
		}
	}
}

func TestInformation(t *testing.T) {
	p := figure("square:5x5", "A1 D1 E3 B3")
	p.Title, p.Description = "Paralelogramo de Ámbar — √5", "Una figura."
	info := run(t, "pdfinfo", write(t, p, Options{Page: A4, Lang: "es"}))
	for _, want := range []string{"Title:           Paralelogramo de Ámbar — √5", "Subject:         Una figura.", "Pages:           1", "Creator:         Pegwright"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
}

func TestTextReadsBack(t *testing.T) {
	p := draw.Sheet([]draw.Picture{figure("square:5x5", "A1 D1 E3 B3"), figure("ring:12", "1 5 9")},
		[]string{"sides 3 and √5, 63.4°", "Nguyễn: AB ∥ CD"}, 2)
	text := run(t, "pdftotext", write(t, p, Options{Page: Letter}), "-layout")
	for _, want := range []string{"sides 3 and √5, 63.4°", "AB", "∥", "CD", "E", "12"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q:\n%s", want, text)
		}
	}
	if joined := strings.Join(strings.Fields(text), ""); !strings.Contains(joined, "Nguyễn:") {
		t.Errorf("the text lacks the name:\n%s", text)
	}
}

func TestFontsAreEmbedded(t *testing.T) {
	plain := run(t, "pdffonts", write(t, figure("square:5x5", ""), Options{}))
	if n := strings.Count(plain, "TrueType"); n != 1 {
		t.Errorf("%d fonts in a figure with plain letters, want 1:\n%s", n, plain)
	}
	for line := range strings.Lines(plain) {
		if strings.Contains(line, "TrueType") && !strings.Contains(line, "yes") {
			t.Errorf("a font is not embedded: %s", line)
		}
	}
}

func TestLay(t *testing.T) {
	square := draw.Picture{Max: draw.Point{X: 5, Y: 5}, Step: 1}
	wide := draw.Picture{Max: draw.Point{X: 20, Y: 5}, Step: 1}
	ring := draw.Picture{Max: draw.Point{X: 3, Y: 3}, Step: 0.5}
	tests := []struct {
		name string
		p    draw.Picture
		o    Options
		want sheet
	}{
		{"fitted", square, Options{MillimetresPerUnit: 15}, sheet{75, 75, 0, 0, 15}},
		{"fitted, no scale", ring, Options{}, sheet{120, 120, 0, 0, 40}},
		{"A4, no scale", square, Options{Page: A4}, sheet{210, 297, 55, 98.5, 20}},
		{"A4, turned and filled", wide, Options{Page: A4}, sheet{297, 210, 12, 70.875, 13.65}},
		{"Letter at a scale", square, Options{Page: Letter, MillimetresPerUnit: 30}, sheet{215.9, 279.4, 32.95, 64.7, 30}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := lay(tt.p, tt.o)
			if err != nil {
				t.Fatal(err)
			}
			if !near(got.width, tt.want.width) || !near(got.height, tt.want.height) ||
				!near(got.left, tt.want.left) || !near(got.top, tt.want.top) || !near(got.scale, tt.want.scale) {
				t.Errorf("lay = %+v, want %+v", got, tt.want)
			}
		})
	}
}

func near(a, b float64) bool { return a-b < 1e-6 && b-a < 1e-6 }

// TestTrueToScale reads the length of the bottom side back from the page:
// three pegs' gaps at 25 mm, in points.
func TestTrueToScale(t *testing.T) {
	p := figure("square:5x5", "A1 D1 E3 B3")
	file := write(t, p, Options{MillimetresPerUnit: 25})
	info := run(t, "pdfinfo", file)
	if !strings.Contains(info, "Page size:       386.22 x 386.22 pts") { // 5.45 units of 25 mm
		t.Errorf("pdfinfo says:\n%s", info)
	}
	box := run(t, "pdftotext", file, "-bbox")
	at := map[string]float64{}
	for _, m := range regexp.MustCompile(`xMin="([0-9.]+)" yMin="[0-9.]+" xMax="([0-9.]+)" yMax="[0-9.]+">([AD])<`).FindAllStringSubmatch(box, -1) {
		at[m[3]] = (float(t, m[1]) + float(t, m[2])) / 2
	}
	if got, want := at["D"]-at["A"], 75*72/25.4; got < want-0.1 || got > want+0.1 {
		t.Errorf("A and D lie %.2f points apart, want %.2f", got, want)
	}
}

func float(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestErrors(t *testing.T) {
	p := figure("square:12x12", "")
	err := Write(io.Discard, p, Options{Page: A4, MillimetresPerUnit: 20})
	var large *TooLargeError
	if !errors.As(err, &large) || !near(large.Largest, 186/p.Width()) {
		t.Fatalf("Write = %v, want a TooLargeError with the largest scale %v", err, 186/p.Width())
	}
	if err := Write(io.Discard, p, Options{Page: A4, MillimetresPerUnit: large.Largest}); err != nil {
		t.Errorf("at the scale that the error offers: %v", err)
	}
	if err := Write(io.Discard, p, Options{Page: "A0"}); err == nil || !strings.Contains(err.Error(), "A4") {
		t.Errorf("Write on A0 = %v, want an error that names the papers", err)
	}
	r, w := io.Pipe()
	full := errors.New("full")
	r.CloseWithError(full)
	if err := Write(w, p, Options{}); !errors.Is(err, full) {
		t.Errorf("Write = %v, want %v", err, full)
	}
}
