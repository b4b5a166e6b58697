package say

import (
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

func TestDescribeEverything(t *testing.T) {
	for _, language := range Languages() {
		s := In(language)
		for _, f := range corpus() {
			r := shape.Read(f, shape.Definitions{})
			if text := s.Describe(r); !sound(text) || !strings.HasSuffix(text, ".") {
				t.Errorf("%s: Describe(%s) = %q", language, f, text)
			}
			for _, p := range r.Outline.Problems {
				if text := s.Problem(f.Board, p); !sound(text) {
					t.Errorf("%s: Problem(%s) = %q", language, f, text)
				}
			}
			for _, p := range r.Outline.Pairs() {
				if text := s.Pair(f.Board, p); !sound(text) {
					t.Errorf("%s: Pair(%s) = %q", language, f, text)
				}
			}
			for _, a := range r.Outline.PathAngles() {
				if text := s.Angle(f.Board, a.At, a.Angle); !sound(text) {
					t.Errorf("%s: Angle(%s) = %q", language, f, text)
				}
			}
			if !sound(s.Status(r.Outline.Status)) {
				t.Errorf("%s: Status(%s) is not sound", language, r.Outline.Status)
			}
		}
	}
}

func TestDescribe(t *testing.T) {
	cases := []struct{ language, board, figure, want string }{
		{"en", "square:5x5", "A1 E1 C4 A4", "On a square board, 5 by 5 pegs: A right trapezoid with corners A1, E1, C4 and A4. Sides run straight over B1, C1, D1, B4, A3 and A2. Side lengths: A1–E1 4, E1–C4 √13, C4–A4 2 and A4–A1 3. Angles: A1 90°, E1 56.3°, C4 123.7° and A4 90°. 2 right angles, 1 pair of parallel sides, 2 pairs of perpendicular sides and no fold line."},
		{"en", "square:5x5", "A1 E5 E1 A5", "On a square board, 5 by 5 pegs: Sides cross. 4 straight pieces: A1–A5; A1–E5; E1–A5; E1–E5. A1–E5 and E1–A5 cross at C3."},
		{"en", "square:5x5", "", "On a square board, 5 by 5 pegs: There is no band on the board."},
		{"es", "ring:12", "1 5 9", "En un círculo de 12 clavijas: Un triángulo equilátero con esquinas en 1, 9 y 5. Longitudes de los lados: 1–9 √3, 9–5 √3 y 5–1 √3. Ángulos: 1 60°, 9 60° y 5 60°. Ningún ángulo recto, ningún lado paralelo a otro, ningún lado perpendicular a otro y 3 ejes de simetría."},
	}
	for _, c := range cases {
		f := board.MustParseFigure(board.MustParse(c.board), c.figure)
		if got := In(c.language).Describe(shape.Read(f, shape.Definitions{})); got != c.want {
			t.Errorf("Describe(%s) =\n%q, want\n%q", c.figure, got, c.want)
		}
	}
}

func TestPairWords(t *testing.T) {
	cases := []struct{ board, figure, want string }{
		{"square:5x5", "A1 D1 / D1 D3", "A1–D1 and D1–D3: perpendicular and sharing the end D1"},
		{"square:5x5", "A1 D1 / A2 D2", "A1–D1 and A2–D2: parallel"},
		{"square:5x5", "A1 B1 / D1 E1", "A1–B1 and D1–E1: on one line"},
		{"square:5x5", "A1 E1 / C1 C3", "A1–E1 and C1–C3: perpendicular and an end of one on the other"},
		{"square:5x5", "A1 C2 / A2 C1", "A1–C2 and C1–A2: crossing at right 1, up 0.5 from A1"},
		{"square:5x5", "A1 B1 / D4 E5", "A1–B1 and D4–E5: not parallel, not perpendicular, and they do not meet"},
		{"ring:5", "1 3 / 2 5", "1–3 and 2–5: crossing at about right 0.22, up 0.31 from the middle"},
		{"staggered:5x5", "A1 C2 / A2 C1", "A1–C2 and C1–A2: crossing at right 1.25, rows up 0.5 from A1"},
	}
	for _, c := range cases {
		f := board.MustParseFigure(board.MustParse(c.board), c.figure)
		r := shape.Read(f, shape.Definitions{})
		if got := In("en").Pair(f.Board, r.Outline.Pairs()[0]); got != c.want {
			t.Errorf("Pair(%s) = %q, want %q", c.figure, got, c.want)
		}
	}
}

func TestAngleWords(t *testing.T) {
	b := board.MustParse("square:5x5")
	r := shape.Read(board.MustParseFigure(b, "A1 D1 / A1 B3"), shape.Definitions{})
	a := r.Outline.PathAngles()[0]
	if got, want := In("es").Angle(b, a.At, a.Angle), "ángulo en A1: agudo, 63.4°"; got != want {
		t.Errorf("Angle = %q, want %q", got, want)
	}
}

// Likeness never says 1 of a figure that is not regular.
func TestLikenessNeverRoundsUpToRegular(t *testing.T) {
	if got, want := In("en").Likeness(shape.Facts{Likeness: 0.99996, SideSpread: 0.05, AngleSpread: 3}), "0.999 of 1 (sides differ by 5.0 %, angles by 3.0°)"; got != want {
		t.Errorf("Likeness = %q, want %q", got, want)
	}
}

func BenchmarkDescribe(b *testing.B) {
	r := shape.Read(board.MustParseFigure(board.MustParse("square:5x5"), "B1 D1 E3 D5 B5 A3"), shape.Definitions{})
	s := In("en")
	for b.Loop() {
		s.Describe(r)
	}
}
