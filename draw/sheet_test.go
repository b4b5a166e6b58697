package draw

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pegwright/board"
)

func pictures(figures []known) (out []Picture, captions []string) {
	for _, k := range figures {
		out = append(out, Figure(read(k), AllMarks()))
		captions = append(captions, k.name)
	}
	return out, captions
}

func TestSheetHoldsEverything(t *testing.T) {
	ps, captions := pictures(slices.Concat(knownFigures, notPolygons))
	shapes := 0
	for _, p := range ps {
		shapes += len(p.Shapes)
	}
	for _, columns := range []int{-1, 0, 1, 4, 100} {
		s := Sheet(ps, captions, columns)
		if err := within(s); err != nil {
			t.Errorf("in %d columns: %v", columns, err)
		}
		if got := len(s.Shapes) - len(s.labels(Caption)); got != shapes {
			t.Errorf("in %d columns the sheet has %d shapes, want %d", columns, got, shapes)
		}
		if got := strings.Join(s.labels(Caption), " "); got != strings.Join(captions, " ") {
			t.Errorf("in %d columns the captions are %q", columns, got)
		}
	}
}

func TestSheetOfNothing(t *testing.T) {
	s := Sheet(nil, nil, 3)
	if len(s.Shapes) != 0 || s.Step != 1 || s.Width() <= 0 || s.Height() <= 0 {
		t.Errorf("Sheet(nil) = %+v, want an empty picture with a size", s)
	}
}

func TestSheetBringsBoardsToOneScale(t *testing.T) {
	square := Board(board.MustParse("square:5x5"), Options{})
	ring := Board(board.MustParse("ring:12"), Options{})
	for _, c := range Sheet([]Picture{square, ring}, nil, 2).circles(Peg) {
		if math.Abs(c.Radius-pegRadius) > 1e-9 {
			t.Fatalf("a peg has the radius %v, want %v", c.Radius, pegRadius)
		}
	}
}

func TestSheetLeavesItsPicturesAlone(t *testing.T) {
	p := Board(board.MustParse("ring:12"), Options{})
	before := p.Shapes[0].(Circle)
	Sheet([]Picture{p}, nil, 1)
	if after := p.Shapes[0].(Circle); after.At != before.At || after.Radius != before.Radius {
		t.Errorf("laying out changed the picture: %+v, was %+v", after, before)
	}
}

func TestSheetWords(t *testing.T) {
	ps, _ := pictures(knownFigures[4:6])
	s := Sheet(ps, []string{"first."}, 2)
	if s.Title != "2 pictures" || !strings.HasPrefix(s.Description, "1. first.: Square. A pegboard") || !strings.Contains(s.Description, " 2. Square. A pegboard") {
		t.Errorf("the words are %q, %q", s.Title, s.Description)
	}
}

func TestWrap(t *testing.T) {
	tests := []struct {
		text  string
		width float64
		want  string
	}{
		{"", 5, ""},
		{"one", 5, "one"},
		{"one two", 100, "one two"},
		{"one two", 2, "one|two"},
		{"  one   two ", 100, "one two"},
		{"aaaa", 1.2, "aa|aa"},
		{"x", 0, "x"},
	}
	for _, tt := range tests {
		if got := strings.Join(wrap(tt.text, tt.width, 1), "|"); got != tt.want {
			t.Errorf("wrap(%q, %v) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

func TestRunsFallBackLetterByLetter(t *testing.T) {
	tests := []struct {
		text string
		want string
	}{
		{"", ""},
		{"2√5 − ½°", "Go:2√5 − ½°"},
		{"Nguyễn", "Go:Nguy|DejaVu Sans:ễ|Go:n"},
		{"AB ∥ CD", "Go:AB |DejaVu Sans:∥|Go: CD"},
		{"\U000F0000", "DejaVu Sans:\U000F0000"}, // no face has it
	}
	for _, tt := range tests {
		var got []string
		end := 0.0
		for _, r := range Runs(tt.text, 2) {
			got = append(got, r.Face.String()+":"+r.Text)
			if math.Abs(r.From-end) > 1e-9 {
				t.Errorf("%q: the run %q starts at %v, want %v", tt.text, r.Text, r.From, end)
			}
			end = r.From + r.Width
		}
		if strings.Join(got, "|") != tt.want {
			t.Errorf("Runs(%q) = %q, want %q", tt.text, strings.Join(got, "|"), tt.want)
		}
		if w := TextWidth(tt.text, 2); math.Abs(w-end) > 1e-9 {
			t.Errorf("TextWidth(%q) = %v, want %v", tt.text, w, end)
		}
	}
}
