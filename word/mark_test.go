package word

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/shape"
)

// TestOwnMarks holds each mark that is no condition against pictures that have
// it and pictures that do not, degenerate ones first.
func TestOwnMarks(t *testing.T) {
	type row struct {
		mark, figure, pegs, line, on string
		want                         bool
	}
	rows := []row{
		{"marked-pegs=1", "", "", "", "", false},
		{"marked-pegs=1", "", "A1", "", "", true},
		{"marked-pegs=2", "A1 B1", "A1 B1", "", "", true},
		{"no-band", "", "", "", "", true},
		{"no-band", "A1 B1", "", "", "", false},
		{"runs-on=0", "", "", "", "", true},
		{"runs-on=1", "A1 B1", "", "", "B1", true},
		{"runs-on=1", "A1 B1", "", "", "A1 B1", false},
		{"angle", "", "A1", "", "", false},
		{"angle", "A1 B1", "A1", "", "", false},
		{"angle", "A1 C1 / A1 A3", "", "", "", false},
		{"angle", "A1 C1 / A1 A3", "A1", "", "", true},
		{"angle", "A1 C1 / A1 A3", "C1", "", "", false},
		{"angle", "A1 C1 / A1 A3", "A1 C1", "", "", false},
		{"angle=right", "A1 C1 / A1 A3", "A1", "", "", true},
		{"angle=acute", "A1 C1 / A1 A3", "A1", "", "", false},
		{"angle=straight", "A1 C1 / A1 A3", "B1", "", "", true},
		{"angle=straight", "A1 C1 C3", "B1", "", "", true},
		{"angle=acute", "A1 C1 C3", "A1", "", "", true},
		{"angle=reflex", "A1 E1 E5 C3 A5", "C3", "", "", true},
		{"angle=reflex", "A1 E1 E5 C3 A5", "B3", "", "", false},
		{"meet", "", "", "", "", false},
		{"meet", "A1 B1", "", "", "", false},
		{"meet", "A1 B1 / A2 B2", "", "", "", false},
		{"meet", "A1 B1 / B1 B2", "", "", "", true},
		{"meet", "A1 C3 / A3 C1", "", "", "", true},
		{"meet", "A1 C1 / B1 B3", "", "", "", true},
		{"meet", "A1 B1 C2", "", "", "", false}, // three pieces
		{"closed", "", "", "", "", false},
		{"closed", "A1 B1", "", "", "", false},
		{"closed", "A1 B1 / B1 B2 / B2 A1", "", "", "", true},
		{"closed", "A1 C3 C1 A3", "", "", "", true},
		{"no-crossing", "A1 C3 C1 A3", "", "", "", false},
		{"no-crossing", "A1 C1 / B1 B3", "", "", "", false},
		{"no-crossing", "A1 C1 C3", "", "", "", true},
		{"one-piece", "", "", "", "", false},
		{"one-piece", "A1 B1 / D1 E1", "", "", "", false},
		{"one-piece", "A1 B1 / B1 B2", "", "", "", true},
		{"at-corner", "A1 C1 C3", "", "", "", false},
		{"at-corner", "A1 C1 C3", "C1", "", "", true},
		{"at-corner", "A1 C1 C3", "B1", "", "", false},
		{"at-corner", "A1 C1", "C1", "", "", false},
		{"whole-side", "A1 C1 C3", "", "", "", false},
		{"whole-side", "A1 C1 C3", "", "C1 A1", "", true},
		{"whole-side", "A1 C1 C3", "", "A1 B1", "", false},
		{"joins-corners", "A1 C1 C3 A3", "", "A1 C3", "", true},
		{"joins-corners", "A1 C1 C3 A3", "", "A1 B3", "", false},
		{"joins-corners", "A1 C1", "", "A1 C1", "", false},
		{"not-neighbours", "A1 C1 C3 A3", "", "A1 C3", "", true},
		{"not-neighbours", "A1 C1 C3 A3", "", "A3 A1", "", false},
		{"folds", "A1 C1 C3 A3", "", "", "", false},
		{"folds", "A1 C1 C3 A3", "", "A1 C3", "", true},
		{"folds", "A1 C1 C3 A3", "", "B1 B2", "", true}, // the line through them
		{"folds", "A1 C1 C3 A3", "", "A1 B3", "", false},
		{"folds", "A1 D1 D2 A2", "", "A1 D2", "", false},
		{"folds", "A1 E1", "", "C1 C2", "", false},
		{"congruent", "A1 C1 C3", "", "", "", false},
		{"congruent", "A1 B1 / C1 D1", "", "", "", false},
		{"congruent", "A1 B1 A2 / C3 D3 C4", "", "", "", true},
		{"congruent", "A1 B1 A2 / C3 E3 C5", "", "", "", false},
	}
	tested := map[string]bool{}
	for _, r := range rows {
		m, err := parseMark(r.mark)
		if err != nil {
			t.Fatal(err)
		}
		p, err := parsePicture("", r.figure, r.pegs, r.line, r.on)
		if err != nil {
			t.Fatal(err)
		}
		name, _, _ := strings.Cut(r.mark, "=")
		tested[name] = true
		if got := m.holds(scene{Picture: p, reading: shape.Read(p.Figure, shape.Definitions{})}); got != r.want {
			t.Errorf("%s of %q (pegs %q, line %q, on %q) = %v", r.mark, r.figure, r.pegs, r.line, r.on, got)
		}
		if m.String() != r.mark {
			t.Errorf("String() = %q, want %q", m, r.mark)
		}
		if _, is := m.Condition(); is {
			t.Errorf("%s is a condition", r.mark)
		}
	}
	for name := range ownMarks {
		if !tested[name] {
			t.Errorf("no row tests the mark %s", name)
		}
	}
}

// TestFoldsAgreesWithFoldAxes: through any two pegs, the polygon folds exactly
// when the kernel lists the line that runs through them.
func TestFoldsAgreesWithFoldAxes(t *testing.T) {
	b := board.MustParse("square:4x4")
	rapid.Check(t, func(t *rapid.T) {
		pegs := rapid.SliceOfNDistinct(rapid.IntRange(0, 15), 3, 6, rapid.ID[int]).Draw(t, "corners")
		var corners []board.Peg
		for _, p := range pegs {
			corners = append(corners, board.Peg(p))
		}
		p, ok := shape.NewPolygon(b, corners)
		if !ok {
			t.Skip("no polygon")
		}
		ends := rapid.SliceOfNDistinct(rapid.IntRange(0, 15), 2, 2, rapid.ID[int]).Draw(t, "line")
		line := board.Segment{From: board.Peg(ends[0]), To: board.Peg(ends[1])}
		picture := Picture{Figure: board.Figure{Board: b, Bands: [][]board.Peg{corners}}, Line: &line}
		want := slices.ContainsFunc(p.FoldAxes(), func(f shape.FoldLine) bool { return onOneLine(b, line, f) })
		if got := folds(scene{Picture: picture, reading: shape.Read(picture.Figure, shape.Definitions{})}, ""); got != want {
			t.Fatalf("%s along %v: folds = %v", picture.Figure, b.Names([]board.Peg{line.From, line.To}), got)
		}
	})
}

// onOneLine reports whether both ends of a fold line lie on the line through two
// pegs; the places are exact halves, so float64 holds them exactly.
func onOneLine(b *board.Board, l board.Segment, f shape.FoldLine) bool {
	x1, y1 := b.At(l.From)
	x2, y2 := b.At(l.To)
	off := func(s board.Spot) float64 { return (x2-x1)*(s.Y-y1) - (y2-y1)*(s.X-x1) }
	const rounding = 1e-9 // Spot.X and Y may be thirds
	return max(off(f.From), -off(f.From)) < rounding && max(off(f.To), -off(f.To)) < rounding
}
