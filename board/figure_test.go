package board

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestParseFigure(t *testing.T) {
	tests := []struct{ name, board, text, want string }{
		{"an empty text", "square:5x5", "", ""},
		{"spaces", "square:5x5", " \n\t ", ""},
		{"one band", "square:5x5", "A1 D1 D3", "A1 D1 D3"},
		{"commas", "square:5x5", "A1,D1, D3", "A1 D1 D3"},
		{"small letters", "square:5x5", "a1 d1 d3", "A1 D1 D3"},
		{"a segment", "square:5x5", "A1 D1", "A1 D1"},
		{"three segments", "square:5x5", "A1 D1/D1 D3 /D3 A1", "A1 D1 / D1 D3 / D3 A1"},
		{"lines", "square:5x5", "A1 D1\r\nD3", "A1 D1 D3"},
		{"one band twice", "square:5x5", "A1 D1 / A1 D1", "A1 D1 / A1 D1"},
		{"a ring", "ring:12", "1 5 9", "1 5 9"},
		{"a centre in small letters", "ring:12+centre", "1 o 4", "1 O 4"},
		{"every peg", "triangle:2", "A1 B1 A2", "A1 B1 A2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f, err := ParseFigure(MustParse(tt.board), tt.text)
			if err != nil || f.String() != tt.want {
				t.Errorf("ParseFigure(%q) = %q, %v, want %q", tt.text, f, err, tt.want)
			}
		})
	}
}

// Each error names the rule, the band and the peg, and its sentence says where,
// what is wrong, and how to mend it.
func TestParseFigureRefuses(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("A1 B2 C3 D4 ", 2500))
	tests := []struct {
		name, board, text string
		rule              Rule
		band, peg         int
		sentence          string
	}{
		{
			"an unknown peg", "square:5x5", "A1 F1 D3", UnknownPeg, 1, 2,
			`band 1, peg 2: there is no peg "F1" on square:5x5; square:5x5 has the pegs A1 to E5`,
		},
		{
			"an unknown peg of the second band", "staggered:4x3", "A1 B1 / A1 B2 A4", UnknownPeg, 2, 3,
			`band 2, peg 3: there is no peg "A4" on staggered:4x3; staggered:4x3 has the pegs A1 to D3`,
		},
		{
			"a peg outside the triangle", "triangle:5", "A1 B5", UnknownPeg, 1, 2,
			`band 1, peg 2: there is no peg "B5" on triangle:5; triangle:5 has the pegs A1 to E1 in its bottom row and A5 at its top`,
		},
		{
			"a peg past the ring", "ring:12", "1 13", UnknownPeg, 1, 2,
			`band 1, peg 2: there is no peg "13" on ring:12; ring:12 has the pegs 1 to 12`,
		},
		{
			"a centre that is not there", "ring:12", "1 O", UnknownPeg, 1, 2,
			`band 1, peg 2: there is no peg "O" on ring:12; ring:12 has the pegs 1 to 12`,
		},
		{
			"a nought for the centre", "ring:12+centre", "1 0", UnknownPeg, 1, 2,
			`band 1, peg 2: there is no peg "0" on ring:12+centre; ring:12+centre has the pegs 1 to 12 and O`,
		},
		{
			"a peg that would break a page", "square:5x5", `<script>alert("x")</script> A1`, UnknownPeg, 1, 1,
			`band 1, peg 1: there is no peg "<script>alert(\"x\")<" on square:5x5; square:5x5 has the pegs A1 to E5`,
		},
		{
			"a one-peg band", "square:5x5", "A1 B1 / C3", LonelyPeg, 2, 0,
			"band 2: only C3 is named; stretch it to a second peg",
		},
		{
			"a repeated peg", "square:5x5", "A1 C1 A1 C3", RepeatedPeg, 1, 3,
			"band 1, peg 3: A1 is named a second time; name each peg of a band once; for a second loop start another band after /",
		},
		{
			"a repeated peg in the middle", "square:5x5", "A1 C1 C3 C1", RepeatedPeg, 1, 4,
			"band 1, peg 4: C1 is named a second time; name each peg of a band once; for a second loop start another band after /",
		},
		{
			"the closing peg repeated", "square:5x5", "A1 C1 C3 A1", RepeatedPeg, 1, 4,
			"band 1, peg 4: A1 is named a second time; leave it out at the end, since a band closes by itself",
		},
		{
			"the closing peg repeated round the whole board", "square:2x2", "A1 B1 B2 A2 A1", RepeatedPeg, 1, 5,
			"band 1, peg 5: A1 is named a second time; leave it out at the end, since a band closes by itself",
		},
		{
			"a band of 10,000 pegs", "square:5x5", long, TooLong, 1, 0,
			"band 1: 10000 pegs are named on a board of 25; a band can go round each peg once, so name its corners only",
		},
		{
			"broken text", "square:5x5", "A1 \xff1 / A1 B1", NotText, 1, 2,
			"band 1, peg 2: the text is not valid UTF-8; write pegs such as A1 with plain letters and numbers",
		},
		{
			"broken text in the second band", "square:5x5", "A1 B1 / \xc3\x28 B1", NotText, 2, 1,
			"band 2, peg 1: the text is not valid UTF-8; write pegs such as A1 with plain letters and numbers",
		},
		{
			"an empty band at the end", "square:5x5", "A1 B1 /", EmptyBand, 2, 0,
			"band 2: no pegs are named; name the pegs it goes round, or leave it out",
		},
		{
			"an empty band alone", "square:5x5", "/", EmptyBand, 1, 0,
			"band 1: no pegs are named; name the pegs it goes round, or leave it out",
		},
		{
			"an empty band of commas", "square:5x5", "A1 B1 / , / B1 B2", EmptyBand, 2, 0,
			"band 2: no pegs are named; name the pegs it goes round, or leave it out",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f, err := ParseFigure(MustParse(tt.board), tt.text)
			var bad *FigureError
			if !errors.As(err, &bad) {
				t.Fatalf("ParseFigure = %q, %v, want a *FigureError", f, err)
			}
			if bad.Rule != tt.rule || bad.Band != tt.band || bad.Peg != tt.peg {
				t.Errorf("ParseFigure: rule %q at band %d, peg %d, want %q at %d, %d", bad.Rule, bad.Band, bad.Peg, tt.rule, tt.band, tt.peg)
			}
			if tt.name != "a peg that would break a page" && err.Error() != tt.sentence {
				t.Errorf("ParseFigure: %q, want %q", err, tt.sentence)
			}
			if len(err.Error()) > 300 {
				t.Errorf("ParseFigure: a sentence of %d bytes", len(err.Error()))
			}
		})
	}
}

func TestNewFigureRefuses(t *testing.T) {
	b := MustParse("square:3x3")
	tests := []struct {
		name  string
		bands [][]Peg
		want  string
	}{
		{"no pegs", [][]Peg{{}}, "band 1: no pegs are named; name the pegs it goes round, or leave it out"},
		{"a peg past the last", [][]Peg{{0, 9}}, "band 1, peg 2: there is no peg number 9 on square:3x3; square:3x3 has the pegs A1 to C3"},
		{"a peg alone", [][]Peg{{0, 1}, {8}}, "band 2: only C3 is named; stretch it to a second peg"},
		{"a peg alone that is not there", [][]Peg{{200}}, "band 1, peg 1: there is no peg number 200 on square:3x3; square:3x3 has the pegs A1 to C3"},
		{"a segment back to its peg", [][]Peg{{4, 4}}, "band 1, peg 2: B2 is named a second time; leave it out at the end, since a band closes by itself"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := NewFigure(b, tt.bands)
			if err == nil || err.Error() != tt.want {
				t.Errorf("NewFigure(%v): %v, want %q", tt.bands, err, tt.want)
			}
		})
	}
}

func TestSegments(t *testing.T) {
	b := MustParse("square:5x5")
	tests := []struct {
		name, text string
		want       []Segment
	}{
		{"an empty board", "", nil},
		{"a band round two pegs is one piece", "A1 B1", []Segment{{0, 1}}},
		{"a triangle has three", "A1 B1 A2", []Segment{{0, 1}, {1, 5}, {5, 0}}},
		{"bands in their order", "C1 A1 / A1 B1 A2", []Segment{{2, 0}, {0, 1}, {1, 5}, {5, 0}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, MustParseFigure(b, tt.text).Segments()); diff != "" {
				t.Errorf("Segments of %q (−want +got):\n%s", tt.text, diff)
			}
		})
	}
}

func FuzzParseFigure(f *testing.F) {
	for _, seed := range []struct{ board, text string }{
		{"square:5x5", ""},
		{"square:5x5", "A1 D1 D3"},
		{"square:12x12", "a1, l12 / L1 A12"},
		{"triangle:5", "A1 E1 A5"},
		{"ring:12+centre", "1 o 4"},
		{"staggered:4x4", "A1 / / B2"},
		{"square:5x5", "A1 \xff"},
		{"ring:36", "36 1 36"},
	} {
		f.Add(seed.board, seed.text)
	}
	f.Fuzz(func(t *testing.T, description, text string) {
		b, err := Parse(description)
		if err != nil {
			return
		}
		x, err := ParseFigure(b, text)
		var bad *FigureError
		switch {
		case err == nil:
		case !errors.As(err, &bad):
			t.Fatalf("ParseFigure(%q): %v is not a *FigureError", text, err)
		case bad.Band < 1 || bad.Peg < 0 || bad.What == "" || bad.Mend == "":
			t.Fatalf("ParseFigure(%q): %#v names no spot or no mend", text, bad)
		default:
			return
		}
		again, err := ParseFigure(b, x.String())
		if err != nil || !cmp.Equal(again.Bands, x.Bands) {
			t.Errorf("ParseFigure(%q) = %q, which parses as %q, %v", text, x, again, err)
		}
	})
}
