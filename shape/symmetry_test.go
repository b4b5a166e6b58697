package shape_test

import (
	"math"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

func TestCongruentAndSimilar(t *testing.T) {
	tests := []struct {
		name               string
		board1, band1      string
		board2, band2      string
		congruent, similar bool
	}{
		{"a triangle with itself", "square:5x5", "A1 C1 A2", "square:5x5", "A1 C1 A2", true, true},
		{"a triangle turned", "square:5x5", "A1 C1 A2", "square:5x5", "E1 E3 D1", true, true},
		{"a triangle flipped", "square:5x5", "A1 D1 B2", "square:5x5", "A1 D1 C2", true, true},
		{"a triangle twice as large", "square:5x5", "A1 C1 A2", "square:5x5", "A1 E1 A3", false, true},
		{"a square and one on its corner", "square:5x5", "A1 B1 B2 A2", "square:5x5", "B1 C2 B3 A2", false, true},
		{"two kites with equal sides and other angles", "square:5x5", "A1 B3 D4 C2", "square:5x5", "A2 C1 E2 C3", false, false},
		{"equal angles, other sides", "square:5x5", "A1 C1 C2 A2", "square:5x5", "A1 D1 D2 A2", false, false},
		{"equal sides in another order", "square:5x5", "A1 C1 C2 B3 A3", "square:5x5", "A1 B1 C2 C3 A3", true, true},
		// The reference tables, section 0, T2: no motion of the board lays one
		// on the other, since (5,0) and (3,4) are equally long.
		{"the pair that only the plane can match", "square:6x6", "A1 B3 E4 D2", "square:6x6", "A2 C1 F2 D3", true, true},
		{"(5,0) and (3,4)", "square:6x6", "A1 F1 A2", "square:6x6", "A1 D5 E4", false, false},
		{"a square on a lattice and on a ring", "square:5x5", "A1 B1 B2 A2", "ring:12", "1 4 7 10", false, true},
		{"a square on two rings", "ring:4", "1 2 3 4", "ring:36", "2 11 20 29", true, true},
		{"an equilateral triangle on a ring and on a lattice", "ring:9", "1 4 7", "triangle:4", "B1 C2 A3", false, true},
		{"a hexagon on a lattice and on a ring", "triangle:4", "B1 C1 C2 B3 A3 A2", "ring:6", "1 2 3 4 5 6", false, true},
		{"a hexagon on a lattice and a pentagon", "triangle:4", "B1 C1 C2 B3 A3 A2", "ring:5", "1 2 3 4 5", false, false},
		{"right and equilateral triangles on one lattice", "staggered:5x5", "A1 C1 A3", "triangle:5", "A1 C1 A3", false, false},
		{"one triangle on two boards of one lattice", "staggered:5x5", "A1 C1 B3", "triangle:5", "A1 C1 A3", true, true},
		{"half a square on a square board and on a ring", "square:2x2", "A1 B1 A2", "ring:8", "1 3 5", false, true},
		{"a half ring with and without its centre peg", "ring:8", "1 3 5", "ring:8+centre", "1 3 5", true, true},
		{"unit sides on a square and a triangular board", "square:5x5", "A1 B1 B2 A2", "triangle:5", "A1 B1 B2 A2", false, false},
		{"a near-equilateral triangle and a true one", "square:5x5", "A1 B5 E2", "triangle:5", "A1 E1 A5", false, false},
		{"a rectangle 2 by 1 on two lattices of other kinds", "square:5x5", "A1 C1 C2 A2", "staggered:5x5", "A1 C1 C3 A3", false, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, q := named(t, tt.board1, tt.band1), named(t, tt.board2, tt.band2)
			for range 2 {
				if got := shape.Congruent(p, q); got != tt.congruent {
					t.Errorf("Congruent = %v, want %v", got, tt.congruent)
				}
				if got := shape.Similar(p, q); got != tt.similar {
					t.Errorf("Similar = %v, want %v", got, tt.similar)
				}
				p, q = q, p
			}
		})
	}
}

// Every pair of polygons on 3×3: Congruent against the distances between
// corners, and the laws of an equivalence. Classes: the reference tables,
// section 1.4.
func TestCongruenceOn3x3(t *testing.T) {
	b := board.MustParse("square:3x3")
	plain := layOut(t, b)
	all := polygons(t, b, 9)
	for i, p := range all {
		for _, q := range all[:i+1] {
			want := plain.congruent(p.Corners(), q.Corners())
			got, back := shape.Congruent(p, q), shape.Congruent(q, p)
			if got != want || back != want {
				t.Fatalf("Congruent(%v, %v) = %v, %v, want %v", b.Names(p.Corners()), b.Names(q.Corners()), got, back, want)
			}
			if similar := shape.Similar(p, q); got && !similar || similar != shape.Similar(q, p) || similar && p.Area2() == q.Area2() != got {
				t.Fatalf("Similar(%v, %v) = %v, but Congruent = %v", b.Names(p.Corners()), b.Names(q.Corners()), similar, got)
			}
		}
	}
	for k, want := range map[int]int{3: 8, 4: 16, 5: 23, 6: 22, 7: 5} {
		if got := countClasses(all, shape.Congruent)[k]; got != want {
			t.Errorf("%d-gons up to congruence: %d, want %d", k, got, want)
		}
	}
}

// Classes on other boards: the reference tables, sections 1.1, 1.3, 1.4, 2.
func TestCongruenceClasses(t *testing.T) {
	tests := []struct {
		board string
		most  int
		want  []int // from triangles on
		long  bool
	}{
		{"square:2x3", 4, []int{4, 4}, false},
		{"square:3x4", 5, []int{21, 79, 225}, false},
		{"square:4x4", 4, []int{29, 150}, false},
		{"square:4x4", 5, []int{29, 150, 703}, true},
		{"square:5x5", 3, []int{79}, false},
		{"square:6x6", 3, []int{172}, true},
		{"triangle:3", 4, []int{4, 2}, false},
		{"triangle:4", 4, []int{13, 25}, false},
		{"triangle:5", 4, []int{32, 139}, false},
	}
	for _, tt := range tests {
		t.Run(tt.board+" to "+itoa(tt.most)+" corners", func(t *testing.T) {
			if tt.long && (testing.Short() || raceDetector) {
				t.Skip("compares thousands of figures with hundreds")
			}
			got := countClasses(polygons(t, board.MustParse(tt.board), tt.most), shape.Congruent)
			for i, want := range tt.want {
				if got[3+i] != want {
					t.Errorf("%d-gons up to congruence: %d, want %d", 3+i, got[3+i], want)
				}
			}
		})
	}
}

// Every fold line folds each corner onto a corner, and every landing is a
// place without a corner: checked with float64 coordinates and a margin.
func TestFoldsAndLandings(t *testing.T) {
	tests := []struct {
		board string
		most  int
	}{{"square:3x3", 7}, {"square:4x4", 4}, {"triangle:4", 5}, {"staggered:3x3", 4}, {"ring:7", 7}, {"ring:8+centre", 5}, {"ring:9+centre", 4}, {"ring:12", 4}}
	for _, tt := range tests {
		t.Run(tt.board, func(t *testing.T) {
			b := board.MustParse(tt.board)
			for _, p := range polygons(t, b, tt.most) {
				for _, line := range p.FoldAxes() {
					for _, c := range p.Corners() {
						x, y := mirrored(b, c, line)
						if near := nearest(p, x, y); near > 1e-9 {
							t.Fatalf("%v: the fold line from %s to %s takes %s to a place %v off", b.Names(p.Corners()), b.SpotText(line.From), b.SpotText(line.To), b.Name(c), near)
						}
					}
				}
				for _, l := range p.Landings() {
					x, y := mirrored(b, l.Corner, l.Line)
					if near := nearest(p, x, y); near < 1e-6 || math.Hypot(x-l.Lands.X, y-l.Lands.Y) > 1e-9 {
						t.Fatalf("%v: %s lands on %v, %v, which is %v from a corner, want at %v, %v", b.Names(p.Corners()), b.Name(l.Corner), l.Lands.X, l.Lands.Y, near, x, y)
					}
					if l.Lands.OnPeg {
						px, py := b.At(l.Lands.Peg)
						if math.Hypot(px-x, py-y) > 1e-9 {
							t.Fatalf("%v: %s lands on peg %s, which is elsewhere", b.Names(p.Corners()), b.Name(l.Corner), b.Name(l.Lands.Peg))
						}
					}
				}
				if n := len(p.FoldAxes()) + len(p.Landings()); n > p.Sides() {
					t.Fatalf("%v: %d fold lines and landings, want at most %d", b.Names(p.Corners()), n, p.Sides())
				}
			}
		})
	}
}

func mirrored(b *board.Board, p board.Peg, line shape.FoldLine) (x, y float64) {
	x, y = b.At(p)
	dx, dy := line.To.X-line.From.X, line.To.Y-line.From.Y
	// the distance from the line, twice, along the normal (−dy, dx)
	far := 2 * ((y-line.From.Y)*dx - (x-line.From.X)*dy) / (dx*dx + dy*dy)
	return x + far*dy, y - far*dx
}

// nearest returns the distance of the nearest corner.
func nearest(p *shape.Polygon, x, y float64) float64 {
	least := math.Inf(1)
	for _, c := range p.Corners() {
		cx, cy := p.Board().At(c)
		least = min(least, math.Hypot(cx-x, cy-y))
	}
	return least
}

// Reasons say as much as the facts they explain.
func TestReasonsAgreeWithFacts(t *testing.T) {
	for _, description := range []string{"square:3x3", "triangle:4", "ring:8+centre"} {
		b := board.MustParse(description)
		for _, p := range polygons(t, b, 6) {
			f := p.Facts()
			check := func(fact shape.Fact, holds bool, count int) {
				t.Helper()
				r := p.Why(fact)
				if r.Fact != fact || r.Holds != holds || r.Count != count || r.Because == "" {
					t.Errorf("%s: %v: Why(%s) = %q, %v, %d, want %v, %d", b, b.Names(p.Corners()), fact, r.Because, r.Holds, r.Count, holds, count)
				}
			}
			check(shape.FactSides, true, f.Sides)
			check(shape.FactConvex, f.Convex, 0)
			check(shape.FactEquilateral, f.Equilateral, 0)
			check(shape.FactEquiangular, f.Equiangular, 0)
			check(shape.FactRegular, f.Regular, 0)
			check(shape.FactRightAngles, true, f.RightAngles)
			check(shape.FactParallel, true, f.ParallelPairs)
			check(shape.FactPerpendicular, true, f.PerpendicularPairs)
			check(shape.FactFoldLines, true, f.FoldLines)
			check(shape.FactTurnOrder, true, f.TurnOrder)
			checkPairs(t, p)
		}
	}
}

// checkPairs checks that the pairs in reasons are what they are said to be.
func checkPairs(t *testing.T, p *shape.Polygon) {
	t.Helper()
	for _, pair := range p.Why(shape.FactParallel).Pairs {
		if !pair.Parallel || pair.OneLine || pair.Perpendicular {
			t.Errorf("a parallel pair that is %+v", pair)
		}
	}
	for _, fact := range []shape.Fact{shape.FactPerpendicular, shape.FactRightAngles} {
		for _, pair := range p.Why(fact).Pairs {
			if !pair.Perpendicular || pair.Parallel || fact == shape.FactRightAngles && pair.First.From != pair.Second.From {
				t.Errorf("%s: a pair that is %+v", fact, pair)
			}
		}
	}
	if sides := p.Why(shape.FactEquilateral).Sides; !p.Equilateral() {
		b := p.Board()
		if short, long := b.Length(b.Along(sides[0])), b.Length(b.Along(sides[1])); short >= long {
			t.Errorf("sides that differ are %v and %v long", short, long)
		}
	}
}
