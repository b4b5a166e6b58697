package text

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"pegwright/board"
	"pegwright/internal/golden"
)

func drawn(t *testing.T, b, bands string) string {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, board.MustParseFigure(board.MustParse(b), bands)); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestGolden(t *testing.T) {
	for _, f := range []struct{ name, board, bands string }{
		{"square", "square:5x5", "C1 E3 C5 A3"},
		{"plus", "square:5x5", "B1 C1 C2 D2 D3 C3 C4 B4 B3 A3 A2 B2"},
		{"bow-tie", "square:5x5", "A1 E5 E1 A4"},
		{"three-bands", "square:5x5", "A1 D1 / D1 D3 / D3 A1"},
		{"open-path", "square:3x3", "A1 C1 / C1 B3"},
		{"ring", "ring:12", "1 4 6 8 11"},
		{"ring-24", "ring:24+centre", "1 5 9 13 17 21"},
		{"triangle", "triangle:5", "B1 D1 D2 B4 A4 A2"},
		{"staggered", "staggered:4x4", "A1 D1 C4"},
		{"large", "square:12x12", "A1 L1 L12"},
	} {
		t.Run(f.name, func(t *testing.T) {
			golden.Check(t, f.name+".txt", []byte(drawn(t, f.board, f.bands)))
		})
	}
}

var boards = []string{
	"square:2x2", "square:5x5", "square:12x12", "staggered:2x2", "staggered:5x5", "staggered:12x12",
	"triangle:2", "triangle:5", "triangle:12", "ring:3", "ring:12", "ring:18", "ring:19", "ring:36", "ring:36+centre",
}

// TestEveryPegIsSeenAndNamed checks that no two pegs share a place, that every
// name along the edges is there, and that nothing is wider than a terminal.
func TestEveryPegIsSeenAndNamed(t *testing.T) {
	for _, name := range boards {
		b := board.MustParse(name)
		text := drawn(t, name, "")
		pegs := b.Pegs()
		if b.HasCentre() {
			pegs-- // an O
		}
		if got := strings.Count(text, string(plainPeg)); got != pegs {
			t.Errorf("%s shows %d pegs, want %d:\n%s", name, got, pegs, text)
		}
		words := map[string]bool{}
		for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == plainPeg }) {
			words[w] = true
		}
		for p := range b.Pegs() {
			names := []string{b.Name(board.Peg(p))}
			if b.Kind() != board.Ring {
				names = []string{names[0][:1], names[0][1:]}
			}
			for _, n := range names {
				if !words[n] {
					t.Errorf("%s lacks the name %s:\n%s", name, n, text)
				}
			}
		}
		for line := range strings.Lines(text) {
			if n := utf8.RuneCountInString(line) - 1; n > 100 {
				t.Errorf("%s is %d columns wide", name, n)
			}
		}
	}
}

func TestSizeOfTheUsualBoard(t *testing.T) {
	lines := strings.Split(strings.TrimSuffix(drawn(t, "square:5x5", "A1 E1 E5 A5"), "\n"), "\n")
	if len(lines) != 18 {
		t.Errorf("%d lines, want 18", len(lines))
	}
	for _, line := range lines {
		if n := utf8.RuneCountInString(line); n > 36 {
			t.Errorf("%q is %d columns wide, want 36 at most", line, n)
		}
	}
}

func TestSigns(t *testing.T) {
	tests := []struct {
		name, bands                   string
		corners, over, ends, crossing int
	}{
		{"empty", "", 0, 0, 0, 0},
		{"a segment", "A1 C1", 0, 1, 2, 0},
		{"a triangle", "A1 E1 A5", 3, 9, 0, 0},
		{"crossing between pegs", "A1 B2 / B1 A2", 0, 0, 4, 1},
		{"crossing on a peg", "A1 C3 / C1 A3", 0, 1, 4, 0},
	}
	for _, tt := range tests {
		text := drawn(t, "square:5x5", tt.bands)
		got := []int{strings.Count(text, "●"), strings.Count(text, "○"), strings.Count(text, "◆"), strings.Count(text, "×")}
		want := []int{tt.corners, tt.over, tt.ends, tt.crossing}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%s: corners, passed, ends, crossings are %v, want %v:\n%s", tt.name, got, want, text)
				break
			}
		}
	}
}

func TestLine(t *testing.T) {
	tests := []struct {
		name     string
		from, to cell
		pattern  []bool
		want     string
	}{
		{"one place", cell{0, 0}, cell{0, 0}, []bool{true}, "⠂\n"},
		{"level", cell{0, 0}, cell{2, 0}, []bool{true}, "⠒⠒⠂\n"},
		{"level, backwards", cell{2, 0}, cell{0, 0}, []bool{true}, "⠒⠒⠂\n"},
		{"every other dot", cell{0, 0}, cell{2, 0}, []bool{true, false}, "⠂⠂⠂\n"},
		{"up", cell{0, 1}, cell{0, 0}, []bool{true}, "⡆\n⠃\n"},
	}
	for _, tt := range tests {
		g := newGrid(3, 1+max(tt.from.row, tt.to.row))
		g.line(tt.from, tt.to, tt.pattern)
		if got := g.String(); got != tt.want {
			t.Errorf("%s: the line is %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestWriteReportsTheWriter(t *testing.T) {
	r, w := io.Pipe()
	full := errors.New("full")
	r.CloseWithError(full)
	if err := Write(w, board.Figure{Board: board.MustParse("ring:3")}); !errors.Is(err, full) {
		t.Errorf("Write = %v, want %v", err, full)
	}
}
