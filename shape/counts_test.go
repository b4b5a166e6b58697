package shape_test

import (
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// count counts polygons by the names that are true of them.
func count(all []*shape.Polygon, d shape.Definitions) map[shape.Name]int {
	out := map[shape.Name]int{}
	for _, p := range all {
		for _, n := range p.Names(d) {
			out[n]++
		}
	}
	return out
}

// Triangles and quadrilaterals by kind on n×n pegs: the reference tables,
// sections 1.1 and 1.2, with the sequences of the OEIS named there.
func TestKindsOnSquareBoards(t *testing.T) {
	tests := []struct {
		name shape.Name
		d    shape.Definitions
		oeis string
		want [4]int // n = 2 to 5
	}{
		{shape.Triangle, shape.Definitions{}, "A045996", [4]int{4, 76, 516, 2148}},
		{shape.RightTriangle, shape.Definitions{}, "A077435", [4]int{4, 44, 200, 596}},
		{shape.AcuteTriangle, shape.Definitions{}, "A190019", [4]int{0, 8, 80, 404}},
		{shape.ObtuseTriangle, shape.Definitions{}, "A190020", [4]int{0, 24, 236, 1148}},
		{shape.Isosceles, shape.Definitions{}, "A186434", [4]int{4, 36, 148, 444}},
		{shape.Isosceles, shape.Definitions{IsoscelesExactlyTwo: true}, "A186434", [4]int{4, 36, 148, 444}},
		{shape.Scalene, shape.Definitions{}, "", [4]int{0, 40, 368, 1704}},
		{"right isosceles triangle", shape.Definitions{}, "A187452", [4]int{4, 28, 96, 244}},
		{"acute isosceles triangle", shape.Definitions{}, "", [4]int{0, 8, 48, 164}},
		{"obtuse isosceles triangle", shape.Definitions{}, "", [4]int{0, 0, 4, 36}},
		{"right scalene triangle", shape.Definitions{}, "", [4]int{0, 16, 104, 352}},
		{"acute scalene triangle", shape.Definitions{}, "", [4]int{0, 0, 32, 240}},
		{"obtuse scalene triangle", shape.Definitions{}, "", [4]int{0, 24, 232, 1112}},
		{shape.Equilateral, shape.Definitions{}, "", [4]int{0, 0, 0, 0}},
		{shape.Quadrilateral, shape.Definitions{}, "A189414", [4]int{1, 94, 1758, 13698}},
		{shape.Trapezoid, shape.Definitions{}, "A189415", [4]int{1, 50, 490, 2618}},
		{shape.Trapezoid, shape.Definitions{TrapezoidExactlyOne: true}, "A189415 less A189416", [4]int{0, 28, 332, 1944}},
		{shape.IsoscelesTrapezoid, shape.Definitions{TrapezoidExactlyOne: true}, "", [4]int{0, 4, 52, 232}},
		{shape.RightTrapezoid, shape.Definitions{TrapezoidExactlyOne: true}, "", [4]int{0, 24, 208, 904}},
		{shape.Parallelogram, shape.Definitions{}, "A189416", [4]int{1, 22, 158, 674}},
		{shape.Rectangle, shape.Definitions{}, "A085582", [4]int{1, 10, 44, 130}},
		{shape.Rhombus, shape.Definitions{}, "A189418", [4]int{1, 6, 22, 66}},
		{shape.Square, shape.Definitions{}, "A002415", [4]int{1, 6, 20, 50}},
		{shape.Kite, shape.Definitions{}, "A189417", [4]int{1, 10, 58, 222}},
		{shape.Kite, shape.Definitions{KiteNotRhombus: true}, "", [4]int{0, 4, 36, 156}},
		{shape.Dart, shape.Definitions{}, "", [4]int{0, 8, 64, 292}},
	}
	for n := 2; n <= 5; n++ {
		all := polygons(t, board.MustParse("square:"+itoa(n)+"x"+itoa(n)), 4)
		counts := map[shape.Definitions]map[shape.Name]int{}
		for _, tt := range tests {
			if counts[tt.d] == nil {
				counts[tt.d] = count(all, tt.d)
			}
			if got, want := counts[tt.d][tt.name], tt.want[n-2]; got != want {
				t.Errorf("%s on %d×%d pegs under %+v: %d, want %d (%s)", tt.name, n, n, tt.d, got, want, tt.oeis)
			}
		}
		convex := 0
		for _, p := range all {
			if p.Sides() == 4 && p.Convex() {
				convex++
			}
		}
		if want := [4]int{1, 70, 1038, 7398}[n-2]; convex != want {
			t.Errorf("convex quadrilaterals on %d×%d pegs: %d, want %d (A189413)", n, n, convex, want)
		}
	}
}

// Triangular boards: the reference tables, section 2.
func TestKindsOnTriangularBoards(t *testing.T) {
	// n = 2 to 6
	want := map[shape.Name][5]int{
		shape.Triangle:       {1, 17, 105, 407, 1216},
		shape.Equilateral:    {1, 5, 15, 35, 70}, // A000332
		shape.RightTriangle:  {0, 6, 30, 96, 228},
		shape.AcuteTriangle:  {1, 5, 24, 86, 259},
		shape.ObtuseTriangle: {0, 6, 51, 225, 729},
		shape.Isosceles:      {1, 11, 39, 113, 268},
	}
	alongGrid := [5]int{1, 5, 13, 27, 48} // A002717
	for n := 2; n <= 6; n++ {
		b := board.MustParse("triangle:" + itoa(n))
		all := polygons(t, b, 3)
		got := count(all, shape.Definitions{})
		for name, counts := range want {
			if got[name] != counts[n-2] {
				t.Errorf("%s on triangle:%d: %d, want %d", name, n, got[name], counts[n-2])
			}
		}
		straight := 0
		for _, p := range all {
			// a side along the grid goes over every lattice point of its length
			if p.Regular() && p.PegsOnEdge()*p.PegsOnEdge() == 9*int(p.Length(0)) {
				straight++
			}
		}
		if straight != alongGrid[n-2] {
			t.Errorf("equilateral triangles along the grid of triangle:%d: %d, want %d", n, straight, alongGrid[n-2])
		}
	}
	quadrilaterals := map[int]map[shape.Name]int{
		3: {shape.Quadrilateral: 6},
		4: {shape.Quadrilateral: 150, shape.Rhombus: 9, shape.Parallelogram: 24, shape.Rectangle: 3, shape.Square: 0},
		5: {shape.Quadrilateral: 1197, shape.Rhombus: 24, shape.Parallelogram: 102, shape.Rectangle: 12, shape.Square: 0},
	}
	for n, want := range quadrilaterals {
		got := count(polygons(t, board.MustParse("triangle:"+itoa(n)), 4), shape.Definitions{})
		for name, count := range want {
			if got[name] != count {
				t.Errorf("%s on triangle:%d: %d, want %d", name, n, got[name], count)
			}
		}
	}
}

// regularHexagons counts the regular hexagons whose corners are all allowed:
// from each peg and for each first side it turns by 60° five times.
func regularHexagons(t *testing.T, b *board.Board, allowed func(x, y float64) bool) (all, alongGrid int) {
	t.Helper()
	p := layOut(t, b)
	at := map[[2]float64]board.Peg{}
	for k := range p.x {
		if allowed(p.x[k], p.y[k]) {
			at[[2]float64{p.x[k], p.y[k]}] = board.Peg(k)
		}
	}
	for _, first := range at {
		for _, second := range at {
			x, y := p.x[second]-p.x[first], p.y[second]-p.y[first]
			spot := [2]float64{p.x[first], p.y[first]}
			var pegs []board.Peg
			for range 6 {
				peg, ok := at[spot]
				if !ok {
					break
				}
				pegs = append(pegs, peg)
				spot[0], spot[1] = spot[0]+x, spot[1]+y
				x, y = (x-3*y)/2, (x+y)/2 // half spacings and rows, turned by 60°
			}
			if first == second || len(pegs) < 6 {
				continue
			}
			polygon := polygonOf(t, b, pegs)
			if f := polygon.Facts(); !f.Regular || f.FoldLines != 6 || f.TurnOrder != 6 || f.ObtuseAngles != 6 {
				t.Errorf("%s: %v: %+v is not regular", b, b.Names(pegs), f)
			}
			if polygon.Corner(0) == first {
				all++
				if p.y[second] == p.y[first] || p.x[second]-p.x[first] == p.y[second]-p.y[first] || p.x[second]-p.x[first] == p.y[first]-p.y[second] {
					alongGrid++
				}
			}
		}
	}
	return all, alongGrid
}

// A011779 and the count beside it, read in the reference tables, section 2.
func TestRegularHexagonsOnTriangularBoards(t *testing.T) {
	want := []int{0, 0, 1, 3, 6, 12, 21}
	along := []int{0, 0, 1, 3, 6, 11, 18}
	for i := range want {
		b := board.MustParse("triangle:" + itoa(i+2))
		all, straight := regularHexagons(t, b, func(_, _ float64) bool { return true })
		if all != want[i] || straight != along[i] {
			t.Errorf("regular hexagons on %s: %d, %d along the grid, want %d, %d", b, all, straight, want[i], along[i])
		}
		if i+2 <= 5 {
			search := 0
			for _, p := range polygons(t, b, 6) {
				if p.Sides() == 6 && p.Regular() {
					search++
				}
			}
			if search != want[i] {
				t.Errorf("regular hexagons found by search on %s: %d, want %d", b, search, want[i])
			}
		}
	}
}

// Hexagonal boards of side s are what is left of a triangular board of side
// 3s+1 without its three tips: A008893, A000537, A339483, read in the
// reference tables, section 2.
func TestRegularFiguresOnHexagonalBoards(t *testing.T) {
	triangles, hexagons, figures := []int{8, 66, 258}, []int{1, 9, 36}, []int{9, 75, 294}
	for i := range triangles {
		s := float64(i + 1)
		b := board.MustParse("triangle:" + itoa(3*(i+1)+1))
		p := layOut(t, b)
		inside := func(x, y float64) bool {
			// the three ways across: rows, and the two slanted ones
			return y <= 2*s && (x-y)/2 <= 2*s && 3*s-(x-y)/2-y <= 2*s
		}
		var pegs []board.Peg
		for k := range p.x {
			if inside(p.x[k], p.y[k]) {
				pegs = append(pegs, board.Peg(k))
			}
		}
		if want := 3*(i+1)*(i+2) + 1; len(pegs) != want {
			t.Fatalf("a hexagonal board of side %d has %d pegs, want %d", i+1, len(pegs), want)
		}
		got := 0
		for x, one := range pegs {
			for y, two := range pegs[:x] {
				for _, three := range pegs[:y] {
					if q, ok := shape.NewPolygon(b, []board.Peg{one, two, three}); ok && q.Regular() {
						got++
					}
				}
			}
		}
		six, _ := regularHexagons(t, b, inside)
		if got != triangles[i] || six != hexagons[i] || got+six != figures[i] {
			t.Errorf("hexagonal board of side %d: %d triangles, %d hexagons, want %d, %d", i+1, got, six, triangles[i], hexagons[i])
		}
	}
}

// The convex equilateral pentagon of the triangular lattice: the reference
// tables, 4.4 (lattice coordinates there, side² 7).
func TestEquilateralPentagon(t *testing.T) {
	p := named(t, "triangle:8", "A5 B2 E1 G2 D4")
	if f := p.Facts(); f.Sides != 5 || !f.Equilateral || !f.Convex || f.Regular || p.Length(0) != 7 {
		t.Errorf("facts = %+v, side² %d, want an equilateral convex pentagon of side² 7", f, p.Length(0))
	}
}

// Rings: the reference tables, section 3, with the sequences named there.
func TestKindsOnRings(t *testing.T) {
	inclusive, exactlyOne := shape.Definitions{}, shape.Definitions{TrapezoidExactlyOne: true}
	tests := []struct {
		name shape.Name
		d    shape.Definitions
		want [10]int // N = 3 to 12
	}{
		{shape.RightTriangle, inclusive, [10]int{0, 4, 0, 12, 0, 24, 0, 40, 0, 60}},
		{shape.ObtuseTriangle, inclusive, [10]int{0, 0, 5, 6, 21, 24, 54, 60, 110, 120}},
		{shape.AcuteTriangle, inclusive, [10]int{1, 0, 5, 2, 14, 8, 30, 20, 55, 40}},
		{shape.Isosceles, inclusive, [10]int{1, 4, 10, 8, 21, 24, 30, 40, 55, 52}},
		{shape.Rectangle, inclusive, [10]int{0, 1, 0, 3, 0, 6, 0, 10, 0, 15}},
		{shape.Trapezoid, exactlyOne, [10]int{0, 0, 5, 6, 21, 24, 54, 60, 110, 120}},
		{shape.IsoscelesTrapezoid, exactlyOne, [10]int{0, 0, 5, 6, 21, 24, 54, 60, 110, 120}},
		{shape.Kite, inclusive, [10]int{0, 1, 0, 6, 0, 10, 0, 20, 0, 27}},
	}
	regular := [10]int{1, 1, 1, 3, 1, 3, 4, 3, 1, 10}
	classes := map[int][10]int{
		3: {1, 1, 2, 3, 4, 5, 7, 8, 10, 12},
		4: {0, 1, 1, 3, 4, 8, 10, 16, 20, 29},
	}
	allClasses := [10]int{1, 2, 4, 8, 13, 24, 40, 71, 119, 216}
	for n := 3; n <= 12; n++ {
		all := polygons(t, board.MustParse("ring:"+itoa(n)), n)
		for _, tt := range tests {
			if got := count(all, tt.d)[tt.name]; got != tt.want[n-3] {
				t.Errorf("%s on ring:%d: %d, want %d", tt.name, n, got, tt.want[n-3])
			}
		}
		got := 0
		for _, p := range all {
			if p.Regular() {
				got++
			}
		}
		if got != regular[n-3] {
			t.Errorf("regular polygons on ring:%d: %d, want %d", n, got, regular[n-3])
		}
		if n > 9 && (testing.Short() || raceDetector) {
			continue
		}
		byCorners, sum := countClasses(all, shape.Congruent), 0
		for _, c := range byCorners {
			sum += c
		}
		if sum != allClasses[n-3] || byCorners[3] != classes[3][n-3] || byCorners[4] != classes[4][n-3] {
			t.Errorf("ring:%d up to congruence: %v, want %d triangles, %d quadrilaterals, %d in all", n, byCorners, classes[3][n-3], classes[4][n-3], allClasses[n-3])
		}
	}
}
