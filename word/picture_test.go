package word

import (
	"testing"

	"pegwright/draw"
	"pegwright/shape"
)

func meant(p Picture) (circles, lines int) {
	for _, s := range p.Draw(draw.AllMarks()).Shapes {
		switch v := s.(type) {
		case draw.Circle:
			if v.Role == Meant {
				circles++
			}
		case draw.Line:
			if v.Role == Meant {
				lines++
			}
		}
	}
	return circles, lines
}

// TestPicturesShowWhatIsMeant: a ring round each peg, a dashed line, an arrow of
// two lines at each end that runs on.
func TestPicturesShowWhatIsMeant(t *testing.T) {
	for _, w := range All() {
		for _, p := range w.Show {
			lines := 2 * len(p.On)
			if p.Line != nil {
				lines++
			}
			if c, l := meant(p); c != len(p.Pegs) || l != lines {
				t.Errorf("%s: %d rings and %d lines, want %d and %d", w.ID, c, l, len(p.Pegs), lines)
			}
		}
	}
}

func TestParsePictureRefuses(t *testing.T) {
	cases := []struct{ board, figure, pegs, line, on string }{
		{"square:1x1", "", "", "", ""},
		{"", "A1 Z9", "", "", ""},
		{"", "", "Z9", "", ""},
		{"", "A1 B2", "", "A1", ""},
		{"", "A1 B2", "", "A1 A1", ""},
		{"", "A1 B2", "", "", "Q7"},
		{"", "A1 B2", "", "Q7 A1", ""},
	}
	for _, c := range cases {
		if p, err := parsePicture(c.board, c.figure, c.pegs, c.line, c.on); err == nil {
			t.Errorf("parsePicture(%v) = %v", c, p)
		}
	}
}

// TestMarksNeedTheirPart: a picture that lacks the part that a mark is about
// does not have the word, and nothing breaks.
func TestMarksNeedTheirPart(t *testing.T) {
	empty, err := parsePicture("", "", "", "", "")
	if err != nil {
		t.Fatal(err)
	}
	bare, _ := parsePicture("", "A1 D1 D4", "", "", "")
	for _, w := range All() {
		if w.Holds(empty, shape.Definitions{}) {
			t.Errorf("an empty board is taken for %s", w.ID)
		}
		if part := w.Marks[0].own != nil && w.ID != "closed" && w.ID != "polygon"; part && w.Holds(bare, shape.Definitions{}) {
			t.Errorf("a bare triangle is taken for %s", w.ID)
		}
	}
	if _, err := parseMark("sides=lots"); err == nil {
		t.Error("parseMark takes sides=lots")
	}
}
