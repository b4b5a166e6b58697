package task

import (
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// staysSimple looks at the new sides only and yet agrees with a look at all of
// them: for every change of one corner of every polygon made by a change of
// one corner, two or three steps from a triangle, until no new one turns up.
func TestStaysSimpleAgreesWithNewPolygon(t *testing.T) {
	for _, text := range []string{"square:3x3", "ring:6+centre", "staggered:2x3", "triangle:3"} {
		b := board.MustParse(text)
		met := map[string]bool{}
		todo := [][]board.Peg{{0, 1, board.Peg(b.Pegs() - 1)}}
		checked := 0
		for len(todo) > 0 {
			corners := todo[0]
			todo = todo[1:]
			for _, c := range changesOf(b, corners, false) {
				after := c.apply(corners)
				p, want := shape.NewPolygon(b, after)
				if got := staysSimple(b, corners, c); got != want {
					t.Fatalf("%s: staysSimple(%v, %s %v to %v) = %v, want %v", b, b.Names(corners), c.Op, c.From, c.To, got, want)
				}
				checked++
				if !want {
					continue
				}
				key := board.Figure{Board: b, Bands: [][]board.Peg{p.Corners()}}
				if !met[key.String()] {
					met[key.String()] = true
					todo = append(todo, p.Corners())
				}
			}
		}
		if text == "square:3x3" && len(met) != 528 {
			t.Errorf("changes lead to %d polygons of 3×3, want 528", len(met))
		}
	}
}

// Changes come in the order of their effort, the smallest first.
func TestChangesComeInOrder(t *testing.T) {
	b := board.MustParse("square:5x5")
	last := 0.0
	for _, c := range changesOf(b, board.MustParseFigure(b, "A1 E1 E3 C5 A3").Bands[0], true) {
		if c.effort < last-1e-6 {
			t.Fatalf("effort %v comes after %v", c.effort, last)
		}
		last = c.effort
	}
}

// Every property can be asked of a polygon, of lines, or of bands.
func TestEveryPropertyHasATest(t *testing.T) {
	for _, p := range properties {
		asks := p.count != nil || p.yes != nil || p.lines != nil || p.form == size || p.form == named || p.name == Bands
		if !asks || (p.form == yesNo) != (p.yes != nil) {
			t.Errorf("property %s has no test for its form", p.name)
		}
	}
}

// The distance to a count that would do.
func TestDistance(t *testing.T) {
	tests := []struct {
		condition string
		count     int
		want      int
	}{
		{"sides=6", 6, 0},
		{"sides=6", 4, 2},
		{"sides=6", 9, 3},
		{"sides>=6", 4, 2},
		{"sides>6", 4, 3},
		{"sides<5", 7, 3},
		{"sides!=4", 4, 1},
		{"right-angles!=0", 0, 1},
	}
	for _, tt := range tests {
		if got := MustParse(tt.condition)[0].distance(tt.count); got != tt.want {
			t.Errorf("distance(%s, %d) = %d, want %d", tt.condition, tt.count, got, tt.want)
		}
	}
}

// The kinds that ask for a regular figure are those that bring it with them.
func TestAsksRegular(t *testing.T) {
	for _, n := range shape.AllNames() {
		want := false
		for _, c := range (Conditions{is(n)}).Consequences() {
			want = want || c.Property == Regular
		}
		if got := is(n).asksRegular(); got != want {
			t.Errorf("asksRegular(kind=%s) = %v, want %v", n, got, want)
		}
	}
}
