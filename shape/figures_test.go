package shape_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// expand turns "3.16x4 2" into four times 3.16 and once 2, sorted.
func expand(t testing.TB, list string) []string {
	t.Helper()
	var out []string
	for _, word := range strings.Fields(list) {
		value, times, repeated := strings.Cut(word, "x")
		n := 1
		if repeated {
			var err error
			if n, err = strconv.Atoi(times); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, slices.Repeat([]string{value}, n)...)
	}
	slices.Sort(out)
	return out
}

// rounded prints numbers with so many places at most, sorted.
func rounded(values []float64, places int) []string {
	var out []string
	for _, v := range values {
		text := strconv.FormatFloat(v, 'f', places, 64)
		if places > 0 {
			text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
		}
		out = append(out, text)
	}
	slices.Sort(out)
	return out
}

// The worked figures on 5×5 pegs of the reference on the job and standards,
// section 10, and of its section 0; the names follow from the definitions.
func TestWorkedFigures(t *testing.T) {
	tests := []struct {
		name, corners          string
		sides, angles          string
		parallel, folds, turns int
		area                   string
		edge, inside           int
		best                   shape.Name
	}{
		{"peg-rich right triangle", "(0,0)(4,0)(0,4)", "4x2 5.66", "90 45x2", 0, 1, 1, "8", 12, 3, "right isosceles triangle"},
		{"near-equilateral", "(0,0)(1,4)(4,1)", "4.12x2 4.24", "59x2 61.9", 0, 1, 1, "15/2", 5, 6, "acute isosceles triangle"},
		{"tilted right isosceles", "(0,1)(1,4)(4,3)", "3.16x2 4.47", "90 45x2", 0, 1, 1, "5", 4, 4, "right isosceles triangle"},
		{"near-right", "(1,0)(4,1)(0,4)", "3.16 5 4.12", "85.6 55.3 39.1", 0, 0, 1, "13/2", 3, 6, "acute scalene triangle"},
		{"square on its corner", "(2,0)(4,2)(2,4)(0,2)", "2.83x4", "90x4", 2, 4, 4, "8", 8, 5, shape.Square},
		{"knight square", "(0,1)(1,3)(3,2)(2,0)", "2.24x4", "90x4", 2, 4, 4, "5", 4, 4, shape.Square},
		{"rhombus", "(0,0)(1,3)(4,4)(3,1)", "3.16x4", "126.9x2 53.1x2", 2, 2, 2, "8", 4, 7, shape.Rhombus},
		{"flat diamond", "(0,1)(2,0)(4,1)(2,2)", "2.24x4", "53.1x2 126.9x2", 2, 2, 2, "4", 4, 3, shape.Rhombus},
		{"tilted rectangle", "(0,1)(1,0)(4,3)(3,4)", "1.41x2 4.24x2", "90x4", 2, 2, 2, "6", 8, 3, shape.Rectangle},
		{"rectangle", "(0,0)(4,0)(4,2)(0,2)", "4x2 2x2", "90x4", 2, 2, 2, "8", 12, 3, shape.Rectangle},
		{"parallelogram", "(0,0)(3,0)(4,2)(1,2)", "3x2 2.24x2", "63.4x2 116.6x2", 2, 0, 2, "6", 8, 3, shape.Parallelogram},
		{"parallelogram, no level side", "(0,1)(2,0)(4,2)(2,3)", "2.24x2 2.83x2", "71.6x2 108.4x2", 2, 0, 2, "6", 6, 4, shape.Parallelogram},
		{"kite", "(2,0)(4,3)(2,4)(0,3)", "3.61x2 2.24x2", "67.4 82.9x2 126.9", 0, 1, 1, "8", 4, 7, shape.Kite},
		{"dart", "(0,0)(2,4)(4,0)(2,1)", "4.47x2 2.24x2", "36.9x2 53.1 233.1", 0, 1, 1, "6", 6, 4, shape.Dart},
		{"isosceles trapezoid", "(0,0)(4,0)(3,2)(1,2)", "4 2 2.24x2", "63.4x2 116.6x2", 1, 1, 1, "6", 8, 3, shape.IsoscelesTrapezoid},
		{"isosceles trapezoid, tilted", "(0,1)(3,4)(3,2)(2,1)", "4.24 2x2 1.41", "45x2 135x2", 1, 1, 1, "4", 8, 1, shape.IsoscelesTrapezoid},
		{"right trapezoid", "(0,0)(4,0)(2,3)(0,3)", "4 3.61 2 3", "90x2 56.3 123.7", 1, 0, 1, "9", 10, 5, shape.RightTrapezoid},
		{"house pentagon", "(0,0)(4,0)(4,2)(2,4)(0,2)", "4 2x2 2.83x2", "90x3 135x2", 1, 1, 1, "12", 12, 7, "pentagon"},
		{"dented pentagon", "(0,0)(4,0)(4,4)(2,2)(0,4)", "4x3 2.83x2", "90x2 45x2 270", 1, 1, 1, "12", 16, 5, "pentagon"},
		{"near-regular hexagon", "(1,0)(3,0)(4,2)(3,4)(1,4)(0,2)", "2x2 2.24x4", "116.6x4 126.9x2", 3, 2, 2, "12", 8, 9, "hexagon"},
		{"L hexagon", "(0,0)(4,0)(4,2)(2,2)(2,4)(0,4)", "4x2 2x4", "90x5 270", 6, 1, 1, "12", 16, 5, "hexagon"},
		{"convex heptagon", "(1,0)(3,0)(4,1)(4,3)(3,4)(1,4)(0,2)", "2x3 1.41x2 2.24x2", "135x4 116.6x2 126.9", 1, 1, 1, "13", 10, 9, "heptagon"},
		{"equiangular octagon", "(1,0)(3,0)(4,1)(4,3)(3,4)(1,4)(0,3)(0,1)", "2x4 1.41x4", "135x8", 4, 4, 4, "14", 12, 9, "octagon"},
		{"plus with 12 equal sides", "(1,0)(2,0)(2,1)(3,1)(3,2)(2,2)(2,3)(1,3)(1,2)(0,2)(0,1)(1,1)", "1x12", "90x8 270x4", 26, 4, 4, "5", 12, 0, "dodecagon"},
	}
	b := board.MustParse("square:5x5")
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := shape.Read(board.MustParseFigure(b, band(t, tt.corners)), shape.Definitions{})
			p, f := r.Polygon, r.Facts
			if p == nil {
				t.Fatalf("Read: %q", r.Outline.Status)
			}
			var sides, angles []float64
			for i := range p.Sides() {
				sides = append(sides, b.LengthFloat(p.Length(i)))
				angles = append(angles, b.Degrees(p.Angle(i)))
			}
			if got, want := rounded(sides, 2), expand(t, tt.sides); !slices.Equal(got, want) {
				t.Errorf("sides = %v, want %v", got, want)
			}
			if got, want := rounded(angles, 1), expand(t, tt.angles); !slices.Equal(got, want) {
				t.Errorf("angles = %v, want %v", got, want)
			}
			if f.ParallelPairs != tt.parallel || f.FoldLines != tt.folds || f.TurnOrder != tt.turns {
				t.Errorf("parallel pairs, fold lines, turn order = %d, %d, %d, want %d, %d, %d", f.ParallelPairs, f.FoldLines, f.TurnOrder, tt.parallel, tt.folds, tt.turns)
			}
			if got := p.Area().String(); got != tt.area {
				t.Errorf("Area() = %s, want %s", got, tt.area)
			}
			if f.PegsOnEdge != tt.edge || f.PegsInside != tt.inside {
				t.Errorf("pegs on the band, inside = %d, %d, want %d, %d", f.PegsOnEdge, f.PegsInside, tt.edge, tt.inside)
			}
			if got := p.BestName(shape.Definitions{}); got != tt.best {
				t.Errorf("BestName = %q, want %q", got, tt.best)
			}
			if f.Regular != (tt.best == shape.Square) {
				t.Errorf("Regular = %v for %q", f.Regular, tt.best)
			}
		})
	}
}

// Look-alikes that no eye can settle: the reference on the job, section 0.
func TestLookAlikes(t *testing.T) {
	tests := []struct {
		name, corners                     string
		equilateral, equiangular, regular bool
		right                             int
	}{
		{"nearly equilateral triangle", "(0,0)(1,4)(4,1)", false, false, false, 0},
		{"nearly regular hexagon", "(1,0)(3,0)(4,2)(3,4)(1,4)(0,2)", false, false, false, 0},
		{"octagon with equal angles", "(1,0)(3,0)(4,1)(4,3)(3,4)(1,4)(0,3)(0,1)", false, true, false, 0},
		{"plus with equal sides", "(1,0)(2,0)(2,1)(3,1)(3,2)(2,2)(2,3)(1,3)(1,2)(0,2)(0,1)(1,1)", true, false, false, 8},
		{"nearly square corner", "(1,0)(4,1)(0,4)", false, false, false, 0},
		{"tilted square", "(0,1)(1,3)(3,2)(2,0)", true, true, true, 4},
		{"rectangle", "(0,0)(4,0)(4,2)(0,2)", false, true, false, 4},
		{"rhombus", "(0,0)(1,3)(4,4)(3,1)", true, false, false, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := named(t, "square:5x5", band(t, tt.corners)).Facts()
			if f.Equilateral != tt.equilateral || f.Equiangular != tt.equiangular || f.Regular != tt.regular || f.RightAngles != tt.right {
				t.Errorf("equilateral, equiangular, regular, right angles = %v, %v, %v, %d", f.Equilateral, f.Equiangular, f.Regular, f.RightAngles)
			}
			if (f.Likeness == 1) != tt.regular && math.Abs(f.Likeness-1) < 1e-9 {
				t.Errorf("Likeness = %v", f.Likeness)
			}
		})
	}
}

func TestMeasureRefuses(t *testing.T) {
	tests := []struct{ name, board, pegs string }{
		{"a segment", "square:5x5", "A1 C1"},
		{"three pegs on a line", "square:5x5", "A1 B1 C1"},
		{"a bow-tie", "square:5x5", "A1 E5 E1 A5"},
		{"a straight corner", "square:5x5", "A1 C1 E1 A5"},
		{"a straight last corner", "square:5x5", "C1 E1 A5 A1"},
		{"a corner on a side", "square:5x5", "A1 E1 E3 C1 A3"},
		{"a side along another", "square:5x5", "A1 D1 D3 E1 C1 B3"},
		{"a spike", "square:5x5", "A1 C1 B1 B3"},
		{"a diameter with the centre named", "ring:8+centre", "1 3 5 O"},
		{"a star", "ring:5", "1 3 5 2 4"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := board.MustParse(tt.board)
			pegs := board.MustParseFigure(b, tt.pegs).Bands[0]
			if f, ok := shape.Measure(b, pegs); ok {
				t.Errorf("Measure(%s) = %+v, want none", tt.pegs, f)
			}
		})
	}
	b := board.MustParse("square:5x5")
	for _, pegs := range [][]board.Peg{nil, {3}, {0, 1, 0}, {0, 4, 24, 0}, {0, 4, 24, 4}, {0, 0, 4, 24}} {
		if f, ok := shape.Measure(b, pegs); ok {
			t.Errorf("Measure(%v) = %+v, want none", pegs, f)
		}
	}
}

// Pick's theorem: the reference tables, 4.1.
func TestPickWorked(t *testing.T) {
	tests := []struct {
		name, board, corners string
		area                 string
		edge, inside         int
	}{
		// moved by (2, 2) to lie on the board
		{"seven corners", "square:5x5", "(0,0)(0,2)(2,3)(1,4)(4,4)(2,2)(3,0)", "17/2", 13, 3},
		{"forty inside and twelve on the edge", "square:10x10", "(0,1)(6,0)(8,4)(0,9)", "45", 12, 40},
		{"a slanted quadrilateral", "square:5x5", "(0,0)(3,0)(4,3)(1,3)", "9", 8, 6},
		{"a triangle", "square:6x6", "(0,0)(5,1)(3,4)", "17/2", 3, 8},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := named(t, tt.board, band(t, tt.corners))
			if p.Area().String() != tt.area || p.PegsOnEdge() != tt.edge || p.PegsInside() != tt.inside {
				t.Errorf("area, edge, inside = %s, %d, %d, want %s, %d, %d", p.Area(), p.PegsOnEdge(), p.PegsInside(), tt.area, tt.edge, tt.inside)
			}
		})
	}
}

// Fold lines and turn order: the reference tables, 4.6.
func TestFoldLinesAndTurnOrder(t *testing.T) {
	tests := []struct {
		name, board, band string
		folds, turns      int
	}{
		{"scalene triangle", "square:5x5", "A1 D1 A2", 0, 1},
		{"isosceles triangle", "square:5x5", "A1 C1 B4", 1, 1},
		{"equilateral triangle", "triangle:5", "A1 B1 A2", 3, 3},
		{"tilted equilateral triangle", "triangle:5", "B1 C2 A3", 3, 3},
		{"square", "square:5x5", "A1 C1 C3 A3", 4, 4},
		{"tilted square", "square:5x5", "B1 D2 C4 A3", 4, 4},
		{"rectangle", "square:5x5", "A1 D1 D3 A3", 2, 2},
		{"rhombus", "square:5x5", "A1 B3 D4 C2", 2, 2},
		{"parallelogram", "square:5x5", "A1 C1 D2 B2", 0, 2},
		{"kite", "square:5x5", "C1 D4 C5 B4", 1, 1},
		{"dart", "square:5x5", "A1 C2 E1 C5", 1, 1},
		{"isosceles trapezoid", "square:5x5", "A1 E1 D2 B2", 1, 1},
		{"other trapezoid", "square:5x5", "A1 E1 C2 B2", 0, 1},
		{"general quadrilateral", "square:5x5", "A1 E2 C4 B3", 0, 1},
		{"regular pentagon", "ring:5", "1 2 3 4 5", 5, 5},
		{"regular hexagon", "triangle:4", "B1 C1 C2 B3 A3 A2", 6, 6},
		{"regular heptagon", "ring:7", "1 2 3 4 5 6 7", 7, 7},
		{"regular 36-gon", "ring:36", "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36", 36, 36},
		{"a propeller", "ring:9", "1 2 4 5 7 8", 3, 3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := named(t, tt.board, tt.band)
			if p.FoldLines() != tt.folds || p.TurnOrder() != tt.turns {
				t.Errorf("fold lines, turn order = %d, %d, want %d, %d", p.FoldLines(), p.TurnOrder(), tt.folds, tt.turns)
			}
		})
	}
}

// The split of 3×3: the reference tables, 4.6.
func TestFoldLinesOf3x3(t *testing.T) {
	split := map[[3]int]int{}
	for _, p := range polygons(t, board.MustParse("square:3x3"), 4) {
		split[[3]int{p.Sides(), p.FoldLines(), p.TurnOrder()}]++
	}
	want := map[[3]int]int{
		{3, 1, 1}: 36, {3, 0, 1}: 40,
		{4, 4, 4}: 6, {4, 2, 2}: 4, {4, 1, 1}: 16, {4, 0, 2}: 12, {4, 0, 1}: 56,
	}
	for key, n := range want {
		if split[key] != n {
			t.Errorf("%d sides, %d fold lines, turn order %d: %d figures, want %d", key[0], key[1], key[2], split[key], n)
		}
	}
	if len(split) != len(want) {
		t.Errorf("the split is %v, want %v", split, want)
	}
}

// Angles of regular figures: the reference tables, 4.5. Rings of N pegs hold
// the regular N-gon.
func TestRegularAngles(t *testing.T) {
	tests := []struct {
		n    int
		want string
		sum  int
	}{
		{3, "60", 180},
		{4, "90", 360},
		{5, "108", 540},
		{6, "120", 720},
		{7, "900/7", 900},
		{8, "135", 1080},
		{9, "140", 1260},
		{10, "144", 1440},
		{11, "1620/11", 1620},
		{12, "150", 1800},
		{20, "162", 3240},
	}
	for _, tt := range tests {
		b := board.MustParse("ring:" + itoa(tt.n))
		pegs := make([]board.Peg, tt.n)
		for i := range pegs {
			pegs[i] = board.Peg(i)
		}
		p := polygonOf(t, b, pegs)
		q, ok := b.WholeDegrees(p.Angle(0))
		if !ok || q.RatString() != tt.want || !p.Regular() {
			t.Errorf("ring:%d: the angle is %v, regular %v, want %s", tt.n, q, p.Regular(), tt.want)
		}
		sum := 0.0
		for i := range tt.n {
			sum += b.Degrees(p.Angle(i))
		}
		if math.Abs(sum-float64(tt.sum)) > 1e-9 {
			t.Errorf("ring:%d: the angles add up to %v, want %d", tt.n, sum, tt.sum)
		}
	}
}

func TestNamesUnderEachDefinition(t *testing.T) {
	inclusive := shape.Definitions{}
	tests := []struct {
		name, board, band string
		d                 shape.Definitions
		want              string
	}{
		{"square", "square:5x5", "A1 B1 B2 A2", inclusive, "polygon, quadrilateral, kite, trapezoid, isosceles trapezoid, parallelogram, rectangle, rhombus, square"},
		{"square, trapezoid exactly one pair", "square:5x5", "A1 B1 B2 A2", shape.Definitions{TrapezoidExactlyOne: true}, "polygon, quadrilateral, kite, parallelogram, rectangle, rhombus, square"},
		{"square, kite without rhombus", "square:5x5", "A1 B1 B2 A2", shape.Definitions{KiteNotRhombus: true}, "polygon, quadrilateral, trapezoid, isosceles trapezoid, parallelogram, rectangle, rhombus, square"},
		{"rectangle", "square:5x5", "A1 C1 C2 A2", inclusive, "polygon, quadrilateral, trapezoid, isosceles trapezoid, parallelogram, rectangle"},
		{"rhombus", "square:5x5", "A1 B3 D4 C2", inclusive, "polygon, quadrilateral, kite, trapezoid, parallelogram, rhombus"},
		{"rhombus, exclusive throughout", "square:5x5", "A1 B3 D4 C2", shape.Definitions{TrapezoidExactlyOne: true, KiteNotRhombus: true}, "polygon, quadrilateral, parallelogram, rhombus"},
		{"parallelogram", "square:5x5", "A1 C1 D2 B2", inclusive, "polygon, quadrilateral, trapezoid, parallelogram"},
		{"kite", "square:5x5", "C1 D4 C5 B4", shape.Definitions{KiteNotRhombus: true}, "polygon, quadrilateral, kite"},
		{"dart", "square:5x5", "A1 C2 E1 C5", inclusive, "polygon, quadrilateral, dart"},
		{"isosceles trapezoid, exactly one pair", "square:5x5", "A1 E1 D2 B2", shape.Definitions{TrapezoidExactlyOne: true}, "polygon, quadrilateral, trapezoid, isosceles trapezoid"},
		{"equilateral triangle", "triangle:5", "A1 B1 A2", inclusive, "polygon, triangle, isosceles triangle, acute triangle, acute isosceles triangle, equilateral triangle"},
		{"equilateral triangle, isosceles exactly two", "triangle:5", "A1 B1 A2", shape.Definitions{IsoscelesExactlyTwo: true}, "polygon, triangle, acute triangle, equilateral triangle"},
		{"right scalene triangle", "square:5x5", "A1 C1 A2", inclusive, "polygon, triangle, scalene triangle, right triangle, right scalene triangle"},
		{"regular pentagon", "ring:10", "1 3 5 7 9", inclusive, "polygon, pentagon, regular pentagon"},
		{"regular 13-gon", "ring:13", "1 2 3 4 5 6 7 8 9 10 11 12 13", inclusive, "polygon, 13-gon, regular 13-gon"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := named(t, tt.board, tt.band)
			var names []string
			for _, n := range p.Names(tt.d) {
				names = append(names, string(n))
			}
			if got := strings.Join(names, ", "); got != tt.want {
				t.Errorf("Names = %q, want %q", got, tt.want)
			}
			if got := p.BestName(tt.d); string(got) != names[len(names)-1] {
				t.Errorf("BestName = %q, want %q", got, names[len(names)-1])
			}
		})
	}
	square := named(t, "square:5x5", "A1 B1 B2 A2")
	got := square.DefinitionsMatter(inclusive, shape.Definitions{TrapezoidExactlyOne: true, KiteNotRhombus: true})
	if want := []shape.Name{shape.Kite, shape.Trapezoid, shape.IsoscelesTrapezoid}; !slices.Equal(got, want) {
		t.Errorf("DefinitionsMatter = %v, want %v", got, want)
	}
}

// Names of sides: the reference tables, 4.7.
func TestSideNames(t *testing.T) {
	want := []shape.Name{"triangle", "quadrilateral", "pentagon", "hexagon", "heptagon", "octagon", "nonagon", "decagon", "hendecagon", "dodecagon", "13-gon"}
	for i, name := range want {
		if got := shape.SideName(i + 3); got != name {
			t.Errorf("SideName(%d) = %q, want %q", i+3, got, name)
		}
		if sides, known := shape.Named(name); !known || sides != i+3 {
			t.Errorf("Named(%q) = %d, %v, want %d", name, sides, known, i+3)
		}
	}
	for _, name := range []shape.Name{"", "circle", "2-gon", "regular triangle", "Square"} {
		if sides, known := shape.Named(name); known {
			t.Errorf("Named(%q) = %d, want none", name, sides)
		}
	}
	for _, name := range shape.AllNames() {
		if _, known := shape.Named(name); !known {
			t.Errorf("Named(%q) does not know it", name)
		}
	}
}
