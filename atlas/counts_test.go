package atlas

import (
	"fmt"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// Published counts. "A…" is a sequence of the OEIS (https://oeis.org). A count
// without a source was made for these tests by two programs that share no code
// ("counted twice") or by one ("counted once"); none of them is this package.

// boardCount is a number of figures on boards of growing size.
type boardCount struct {
	name       string
	conditions string // separated by commas
	source     string
	count      []int64 // by size of board, from the first
	classes    []int   // up to congruence in the plane, nil where not known
}

// checkCounts asks for every count on the boards of a pattern, from a first
// size on; sizes from large on are left out of short runs.
func checkCounts(t *testing.T, pattern string, first, large int, d shape.Definitions, tests []boardCount) {
	t.Helper()
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for i := range max(len(tt.count), len(tt.classes)) {
				size := first + i
				if size >= large && (testing.Short() || raceEnabled) {
					return
				}
				on := strings.ReplaceAll(pattern, "N", fmt.Sprint(size))
				a := askAs(t, Question{Board: board.MustParse(on), Conditions: task.MustParse(strings.Split(tt.conditions, ",")...), Definitions: d})
				if !a.Complete {
					t.Errorf("Find(%s, %s) is not complete", on, tt.conditions)
				}
				if i < len(tt.count) && a.Count != tt.count[i] {
					t.Errorf("Find(%s, %s).Count = %d, want %d (%s)", on, tt.conditions, a.Count, tt.count[i], tt.source)
				}
				if i < len(tt.classes) && a.Different != tt.classes[i] {
					t.Errorf("Find(%s, %s).Different = %d, want %d (%s)", on, tt.conditions, a.Different, tt.classes[i], tt.source)
				}
				if a.Possible != (a.Count > 0) {
					t.Errorf("Find(%s, %s).Possible = %v of %d figures", on, tt.conditions, a.Possible, a.Count)
				}
			}
		})
	}
}

func TestTrianglesOnSquareBoards(t *testing.T) {
	checkCounts(t, "square:NxN", 2, 6, shape.Definitions{}, []boardCount{
		{"all", "sides=3", "A045996; classes A028419", []int64{4, 76, 516, 2148, 6768, 17600, 40120}, []int{1, 8, 29, 79, 172, 333, 587}},
		{"right", "kind=right-triangle", "A077435; classes A189979", []int64{4, 44, 200, 596, 1444, 2960, 5520}, []int{1, 4, 9, 17, 26, 39, 53}},
		{"acute", "kind=acute-triangle", "A190019; classes A190021", []int64{0, 8, 80, 404, 1392, 3880, 9208}, []int{0, 2, 8, 23, 51, 101, 179}},
		{"obtuse", "kind=obtuse-triangle", "A190020; classes A190022", []int64{0, 24, 236, 1148, 3932, 10760, 25392}, []int{0, 2, 12, 39, 95, 193, 355}},
		{"isosceles", "kind=isosceles-triangle", "A186434; classes A189978", []int64{4, 36, 148, 444, 1064, 2200, 4024}, []int{1, 5, 11, 22, 35, 53, 70}},
		{"scalene", "kind=scalene-triangle", "A045996 − A186434; classes A190313", []int64{0, 40, 368, 1704, 5704, 15400, 36096}, []int{0, 3, 18, 57, 137, 280, 517}},
		{"right isosceles", "kind=right-isosceles-triangle", "A187452; classes A108279", []int64{4, 28, 96, 244, 516, 968, 1664}, []int{1, 3, 5, 8, 11, 15, 18}},
		{"acute isosceles", "kind=acute-isosceles-triangle", "counted once", []int64{0, 8, 48, 164, 448, 976, 1864}, []int{0, 2, 5, 11, 19, 29, 40}},
		{"obtuse isosceles", "kind=obtuse-isosceles-triangle", "counted once", []int64{0, 0, 4, 36, 100, 256, 496}, []int{0, 0, 1, 3, 5, 9, 12}},
		{"right scalene", "kind=right-scalene-triangle", "counted once", []int64{0, 16, 104, 352, 928, 1992, 3856}, []int{0, 1, 4, 9, 15, 24, 35}},
		{"acute scalene", "kind=acute-scalene-triangle", "counted once", []int64{0, 0, 32, 240, 944, 2904, 7344}, nil},
		{"obtuse scalene", "kind=obtuse-scalene-triangle", "counted once", []int64{0, 24, 232, 1112, 3832, 10504, 24896}, nil},
		{"equilateral", "kind=equilateral-triangle", "J. D. Hamkins, No regular polygons in the integer lattice", []int64{0, 0, 0, 0, 0, 0, 0}, []int{0, 0, 0, 0, 0, 0, 0}},
		{"of area one", "sides=3,area=1", "8·A320544", []int64{0, 32, 144}, nil},
		{"that fold", "sides=3,fold-lines=1", "A186434", []int64{4, 36, 148, 444}, nil},
		{"that do not fold", "sides=3,fold-lines=0", "A045996 − A186434", []int64{0, 40, 368, 1704}, nil},
	})
}

func TestQuadrilateralsOnSquareBoards(t *testing.T) {
	checkCounts(t, "square:NxN", 2, 6, shape.Definitions{}, []boardCount{
		{"all", "sides=4", "A189414; classes counted twice", []int64{1, 94, 1758, 13698, 70539}, []int{1, 16, 150, 760, 2832}},
		// A181944 has 1413 convex classes on 6×6, which are classes under
		// motions of the board: six classes of the plane fall in two there.
		{"convex", "sides=4,convex", "A189413; classes A181944 but for 6×6", []int64{1, 70, 1038, 7398, 35727}, []int{1, 12, 89, 407, 1409}},
		{"concave", "sides=4,not convex", "A189412; classes counted twice", []int64{0, 24, 720, 6300, 34812}, []int{0, 4, 61, 353, 1423}},
		// A181945 has 343, for the same reason.
		{"trapezoids", "kind=trapezoid", "A189415; classes A181945 but for 6×6", []int64{1, 50, 490, 2618, 9519}, []int{1, 9, 43, 141, 341}},
		{"parallelograms", "kind=parallelogram", "A189416; classes counted once", []int64{1, 22, 158, 674, 2159}, []int{1, 6, 21, 55, 119}},
		{"plain parallelograms", "kind=parallelogram,kind!=rectangle,kind!=rhombus", "counted once", []int64{0, 12, 112, 528, 1800}, nil},
		{"rectangles", "kind=rectangle", "A085582; classes counted once", []int64{1, 10, 44, 130, 313}, []int{1, 4, 9, 16, 26}},
		{"rectangles but squares", "kind=rectangle,kind!=square", "4·A122225", []int64{0, 4, 24, 80, 208}, nil},
		{"rhombi", "kind=rhombus", "A189418; classes counted once", []int64{1, 6, 22, 66, 151}, []int{1, 3, 6, 11, 16}},
		{"rhombi but squares", "kind=rhombus,kind!=square", "counted once", []int64{0, 0, 2, 16, 46}, nil},
		{"squares", "kind=square", "A002415, D. Hoey, rec.puzzles 1995; classes A108279", []int64{1, 6, 20, 50, 105}, []int{1, 3, 5, 8, 11}},
		{"kites", "kind=kite", "A189417; classes A181946", []int64{1, 10, 58, 222, 631}, []int{1, 4, 11, 25, 45}},
		{"darts", "kind=dart", "counted once", []int64{0, 8, 64, 292, 916}, []int{0, 2, 8, 25, 50}},
		{"convex and nothing special", "sides=4,convex,parallel-pairs=0,kind!=kite", "counted once", []int64{0, 16, 512, 4624, 25728}, nil},
		{"with four fold lines", "sides=4,fold-lines=4", "A002415", []int64{1, 6, 20, 50}, nil},
		{"with two fold lines", "sides=4,fold-lines=2", "counted once", []int64{0, 4}, nil},
		{"with one fold line", "sides=4,fold-lines=1", "counted once", []int64{0, 16}, nil},
		{"with a half turn alone", "sides=4,fold-lines=0,turn-order=2", "counted once", []int64{0, 12}, nil},
		{"with no symmetry", "sides=4,fold-lines=0,turn-order=1", "counted once", []int64{0, 56}, nil},
		{"with one right angle inside", "sides=4,right-angles=1", "counted once (28 with those of 270°)", []int64{0, 20}, nil},
	})
}

// The same where a trapezoid has exactly one pair of parallel sides and a
// rhombus is no kite.
func TestQuadrilateralsByExclusiveDefinitions(t *testing.T) {
	checkCounts(t, "square:NxN", 2, 6, exclusive, []boardCount{
		{"trapezoids", "kind=trapezoid", "A189415 − A189416", []int64{0, 28, 332, 1944, 7360}, []int{0, 3, 22, 86, 222}},
		{"isosceles trapezoids", "kind=isosceles-trapezoid", "counted once", []int64{0, 4, 52, 232, 752}, []int{0, 1, 7, 19, 43}},
		{"right trapezoids", "kind=right-trapezoid", "counted once", []int64{0, 24, 208, 904, 2800}, nil},
		{"kites", "kind=kite", "A189417 − A189418", []int64{0, 4, 36, 156, 480}, nil},
	})
}

// The sixteen quadrilaterals of 3×3 by their most telling name.
func TestTheSixteenQuadrilaterals(t *testing.T) {
	tests := []struct {
		name, conditions string
		want             int
	}{
		{"squares", "kind=square", 3},
		{"another rectangle", "kind=rectangle,kind!=square", 1},
		{"other parallelograms", "kind=parallelogram,kind!=rectangle", 2},
		{"trapezoids", "kind=trapezoid", 3},
		{"of these isosceles", "kind=isosceles-trapezoid", 1},
		{"of these right", "kind=right-trapezoid", 2},
		{"a kite", "kind=kite", 1},
		{"convex ones with no special name", "sides=4,convex,parallel-pairs=0,kind!=kite", 2},
		{"darts", "kind=dart", 2},
		{"other concave ones", "sides=4,not convex,kind!=dart", 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := askAs(t, Question{Board: board.MustParse("square:3x3"), Conditions: task.MustParse(strings.Split(tt.conditions, ",")...), Definitions: exclusive})
			if a.Different != tt.want {
				t.Errorf("Find(%s).Different = %d, want %d", tt.conditions, a.Different, tt.want)
			}
		})
	}
}

// The 760 quadrilaterals of 5×5 by their most telling name, and the triangles
// by both their words, up to congruence: counted once, for a teacher's handbook
// of board facts.
func TestFiveByFiveByName(t *testing.T) {
	tests := []struct {
		name, conditions string
		want             int
	}{
		{"concave with no special name", "sides=4,not convex,kind!=dart", 328},
		{"convex with no special name", "sides=4,convex,parallel-pairs=0,kind!=kite", 252},
		{"trapezoids with no special name", "kind=trapezoid,kind!=right-trapezoid,kind!=isosceles-trapezoid", 38},
		{"parallelograms with no special name", "kind=parallelogram,kind!=rectangle,kind!=rhombus", 36},
		{"right trapezoids", "kind=right-trapezoid", 29},
		{"darts", "kind=dart", 25},
		{"isosceles trapezoids", "kind=isosceles-trapezoid", 19},
		{"kites", "kind=kite", 14},
		{"squares", "kind=square", 8},
		{"other rectangles", "kind=rectangle,kind!=square", 8},
		{"other rhombi", "kind=rhombus,kind!=square", 3},
		{"right isosceles triangles", "kind=right-isosceles-triangle", 8},
		{"right scalene triangles", "kind=right-scalene-triangle", 9},
		{"acute isosceles triangles", "kind=acute-isosceles-triangle", 11},
		{"acute scalene triangles", "kind=acute-scalene-triangle", 12},
		{"obtuse isosceles triangles", "kind=obtuse-isosceles-triangle", 3},
		{"obtuse scalene triangles", "kind=obtuse-scalene-triangle", 36},
		{"squares with level sides", "kind=square,upright-sides=4", 4},
		{"squares that are tilted", "kind=square,upright-sides=0", 4},
	}
	quadrilaterals := 0
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := askAs(t, Question{Board: board.MustParse("square:5x5"), Conditions: task.MustParse(strings.Split(tt.conditions, ",")...), Definitions: exclusive})
			if a.Different != tt.want {
				t.Errorf("Find(%s).Different = %d, want %d", tt.conditions, a.Different, tt.want)
			}
		})
	}
	for _, tt := range tests[:11] {
		quadrilaterals += tt.want
	}
	if quadrilaterals != 760 {
		t.Errorf("the names make %d quadrilaterals, want 760", quadrilaterals)
	}
}

// Where a square stands on 5×5: 30 places with level sides and 20 tilted.
func TestSquaresLevelAndTilted(t *testing.T) {
	for conditions, want := range map[string]int64{"upright-sides=4": 30, "upright-sides=0": 20} {
		if a := ask(t, "square:5x5", "kind=square", conditions); a.Count != want {
			t.Errorf("Find(kind=square, %s) = %d, want %d", conditions, a.Count, want)
		}
	}
}

func TestOblongBoards(t *testing.T) {
	tests := []struct {
		board, conditions string
		count             int64
		classes           int // 0 where not known
	}{
		{"square:2x3", "sides=3", 18, 4},
		{"square:2x4", "sides=3", 48, 8},
		{"square:2x5", "sides=3", 100, 14},
		{"square:3x4", "sides=3", 200, 21},
		{"square:3x5", "sides=3", 412, 39},
		{"square:4x3", "sides=3", 200, 21},
		{"square:3x4", "kind=right-triangle", 94, 0},
		{"square:3x4", "kind=acute-triangle", 22, 0},
		{"square:3x4", "kind=obtuse-triangle", 84, 0},
		{"square:3x4", "kind=isosceles-triangle", 68, 0},
		{"square:3x5", "kind=right-triangle", 158, 0},
		{"square:3x5", "kind=acute-triangle", 42, 0},
		{"square:3x5", "kind=obtuse-triangle", 212, 0},
		{"square:3x5", "kind=isosceles-triangle", 108, 0},
		{"square:2x3", "sides=4", 9, 4},
		{"square:2x4", "sides=4", 36, 11},
		{"square:2x5", "sides=4", 100, 23},
		{"square:3x4", "sides=4", 420, 79},
		{"square:3x5", "sides=4", 1182, 189},
		{"square:3x4", "sides=3,convex", 200, 0},
		{"square:3x4", "sides=4,convex", 276, 0},
		{"square:3x4", "sides=5,convex", 128, 0},
		{"square:3x4", "sides=6,convex", 23, 0},
		{"square:3x5", "sides=4,convex", 750, 0},
		{"square:3x5", "sides=5,convex", 486, 0},
		{"square:3x5", "sides=6,convex", 127, 0},
	}
	for _, tt := range tests {
		t.Run(tt.board+" "+tt.conditions, func(t *testing.T) {
			a := ask(t, tt.board, strings.Split(tt.conditions, ",")...)
			if a.Count != tt.count || tt.classes > 0 && a.Different != tt.classes || !a.Complete {
				t.Errorf("Find = %d in %d classes, complete %v, want %d in %d (counted once)", a.Count, a.Different, a.Complete, tt.count, tt.classes)
			}
		})
	}
}

// All simple polygons by their number of corners, counted twice. A zero at the
// end says that there are none with more.
var polygons = []struct {
	board   string
	count   []int64 // from 3 corners on
	classes []int
	total   int64
}{
	{"square:2x2", []int64{4, 1}, []int{1, 1}, 5},
	{"square:2x3", []int64{18, 9, 0, 0}, []int{4, 4, 0, 0}, 27},
	{"square:3x3", []int64{76, 94, 164, 158, 36, 0, 0}, []int{8, 16, 23, 22, 5, 0, 0}, 528},
	{"square:3x4", []int64{200, 420, 1128, 2004, 2180, 1788, 664, 70, 0, 0}, []int{21, 79, 225, 455, 532, 462, 166, 21, 0, 0}, 8454},
	{
		"square:3x5",
		[]int64{412, 1182, 4350, 11388, 20718, 30764, 32764, 26112, 12544, 2742, 188, 0, 0},
		[]int{39, 189, 795, 2358, 4639, 7286, 8036, 6530, 3140, 688, 47, 0, 0},
		143164,
	},
	{
		"square:4x4",
		[]int64{516, 1758, 7608, 23610, 57616, 109897, 148296, 146046, 91988, 35025, 8576, 1144, 64, 2},
		[]int{29, 150, 703, 2515, 6683, 13387, 18400, 18324, 11510, 4421, 1072, 150, 8, 1},
		632146,
	},
}

func TestPolygonsByCorners(t *testing.T) {
	for _, tt := range polygons {
		t.Run(tt.board, func(t *testing.T) {
			if tt.total > 100_000 {
				slow(t)
			}
			for i, want := range tt.count {
				k := i + 3
				a := ask(t, tt.board, fmt.Sprintf("sides=%d", k))
				if a.Count != want || a.Different != tt.classes[i] || !a.Complete {
					t.Errorf("Find(sides=%d) = %d in %d classes, complete %v, want %d in %d", k, a.Count, a.Different, a.Complete, want, tt.classes[i])
				}
			}
			if a := ask(t, tt.board); a.Count != tt.total || !a.Complete {
				t.Errorf("Find() = %d, complete %v, want %d", a.Count, a.Complete, tt.total)
			}
		})
	}
}

// On 5×5 every polygon with up to eight corners: the numbers to six were
// counted twice, those of seven and eight once.
func TestPolygonsOfFiveByFive(t *testing.T) {
	want := []int64{2148, 13698, 107740, 669210, 3609732, 16453408}
	classes := []int{79, 760, 7271, 54928}
	for i, n := range classes {
		if i > 2 && raceEnabled {
			break
		}
		a := ask(t, "square:5x5", fmt.Sprintf("sides=%d", i+3))
		if a.Count != want[i] || a.Different != n || !a.Complete {
			t.Errorf("Find(sides=%d) = %d in %d classes, complete %v, want %d in %d", i+3, a.Count, a.Different, a.Complete, want[i], n)
		}
	}
	slow(t)
	b := board.MustParse("square:5x5")
	w := newWalk(newTable(b), 3, 8)
	walkAll(w, b)
	total := int64(0)
	for i, n := range want {
		if got := w.count[i+3]; got != n {
			t.Errorf("walk counts %d polygons with %d corners, want %d", got, i+3, n)
		}
		total += w.count[i+3]
	}
	if total != 20855936 {
		t.Errorf("walk counts %d polygons with up to 8 corners, want 20855936", total)
	}
	if a := ask(t, "square:5x5", "sides<=8", "area>0"); a.Count != total || !a.Complete {
		t.Errorf("Find(sides<=8) = %d, complete %v, want %d", a.Count, a.Complete, total)
	}
}

// Convex polygons by corners, counted twice; and tied to A114531, which counts
// the ways a convex set can meet the pegs of an n×n board: nothing, one peg, a
// segment's two ends, or a convex polygon.
func TestConvexPolygons(t *testing.T) {
	counts := map[int][]int64{
		2: {4, 1},
		3: {76, 70, 20, 2},
		4: {516, 1038, 848, 292, 24, 1},
		5: {2148, 7398, 11628, 8760, 2772, 331, 4},
		6: {6768, 35727, 91052, 117660, 73656, 21745, 2528, 92},
	}
	classes := map[int][]int{3: {8, 12, 4, 1}, 4: {29, 89, 84, 41, 4, 1}, 5: {79, 407, 802, 783}}
	meets := map[int]int64{2: 16, 3: 214, 4: 2856, 5: 33367, 6: 349895}
	for n := 2; n <= 6; n++ {
		if n > 5 && (raceEnabled || testing.Short()) {
			break
		}
		on, total := fmt.Sprintf("square:%dx%d", n, n), int64(0)
		for i, want := range counts[n] {
			a := ask(t, on, "convex", fmt.Sprintf("sides=%d", i+3))
			if a.Count != want || !a.Complete {
				t.Errorf("Find(%s, convex, sides=%d) = %d, complete %v, want %d", on, i+3, a.Count, a.Complete, want)
			}
			if i < len(classes[n]) && a.Different != classes[n][i] {
				t.Errorf("Find(%s, convex, sides=%d).Different = %d, want %d", on, i+3, a.Different, classes[n][i])
			}
			total += a.Count
		}
		pegs := int64(n * n)
		if got := 1 + pegs + pegs*(pegs-1)/2 + total; got != meets[n] {
			t.Errorf("%s: convex sets meet the pegs in %d ways, want %d (A114531)", on, got, meets[n])
		}
		if a := ask(t, on, "convex"); a.Count != total {
			t.Errorf("Find(%s, convex) = %d, want %d", on, a.Count, total)
		}
	}
}

func TestConvexPolygonsOfSevenBySeven(t *testing.T) {
	slow(t)
	b := board.MustParse("square:7x7")
	w := newWalk(newTable(b), 3, 13)
	w.convex = true
	walkAll(w, b)
	total := int64(0)
	for i, want := range []int64{17600, 130768, 487436, 963788, 1004016, 541206, 139912, 15502, 588, 4, 0} {
		total += want
		if got := w.count[i+3]; got != want {
			t.Errorf("convex polygons with %d corners = %d, want %d (counted twice)", i+3, got, want)
		}
	}
	if total != 3302046-1-49-1176 {
		t.Errorf("convex polygons = %d, want %d (A114531)", total, 3302046-1-49-1176)
	}
}

// The largest convex polygon has 4, 6, 8, 9, 10, 12 corners (A305397), found
// without the theorem that knows it.
func TestLargestConvexPolygons(t *testing.T) {
	tests := []struct {
		board string
		most  int
		count int64 // of the largest
	}{
		{"square:2x2", 4, 1},
		{"square:3x3", 6, 2},
		{"square:4x4", 8, 1},
		{"square:5x5", 9, 4},
		{"square:6x6", 10, 92},
	}
	for _, tt := range tests {
		t.Run(tt.board, func(t *testing.T) {
			if tt.most > 9 {
				slow(t)
			}
			if a := ask(t, tt.board, "convex", fmt.Sprintf("sides=%d", tt.most)); a.Count != tt.count {
				t.Errorf("Find(sides=%d) = %d, want %d", tt.most, a.Count, tt.count)
			}
			b := board.MustParse(tt.board)
			w := newWalk(newTable(b), tt.most+1, b.Pegs())
			w.convex = true
			walkAll(w, b)
			for k, n := range w.count {
				if n > 0 {
					t.Errorf("convex polygons with %d sides = %d, want none", k, n)
				}
			}
		})
	}
}

// The largest simple polygons. On 4×4 two go round every peg, mirror images.
func TestLargestPolygons(t *testing.T) {
	if a := ask(t, "square:3x3", "sides>7"); a.Possible || !a.Complete {
		t.Errorf("Find(3x3, sides>7) = %d, want none", a.Count)
	}
	for _, on := range []string{"square:2x2", "square:2x5", "square:6x2"} {
		if a := ask(t, on, "sides>4"); a.Possible || !a.Complete {
			t.Errorf("Find(%s, sides>4) = %d, want none", on, a.Count)
		}
	}
	p := polygon(t, board.MustParse("square:5x5"), "C5 D5 E4 D4 E3 C4 D3 C3 E2 E1 D2 D1 C1 C2 B1 A1 A2 B2 A3 A4 B3 A5 B5 B4")
	if p.Sides() != 24 || p.Area2() != 22 {
		t.Errorf("the 24-gon has %d sides and area %d/2, want 24 and 22/2", p.Sides(), p.Area2())
	}
	slow(t)
	a := askAs(t, Question{Board: board.MustParse("square:4x4"), Conditions: task.MustParse("sides=16"), Examples: 5})
	if a.Count != 2 || a.Different != 1 || len(a.Examples) != 1 {
		t.Fatalf("Find(4x4, sides=16) = %d in %d classes, want 2 in 1", a.Count, a.Different)
	}
	if q := a.Examples[0].Polygon; q.Area2() != 14 || q.PegsInside() != 0 {
		t.Errorf("the 16-gon has area %d/2 and %d pegs inside, want 14/2 and 0", q.Area2(), q.PegsInside())
	}
}

func TestTrianglesOnTriangularBoards(t *testing.T) {
	checkCounts(t, "triangle:N", 2, 7, shape.Definitions{}, []boardCount{
		{"all", "sides=3", "counted once", []int64{1, 17, 105, 407, 1216, 3036, 6696}, []int{1, 4, 13, 32, 68, 128, 222}},
		{"equilateral", "kind=equilateral-triangle", "A000332", []int64{1, 5, 15, 35, 70, 126, 210}, []int{1, 2, 4, 6}},
		{"right", "kind=right-triangle", "counted once", []int64{0, 6, 30, 96, 228, 474, 888}, nil},
		{"acute", "kind=acute-triangle", "counted once", []int64{1, 5, 24, 86, 259, 660, 1476}, nil},
		{"obtuse", "kind=obtuse-triangle", "counted once", []int64{0, 6, 51, 225, 729, 1902, 4332}, nil},
		{"isosceles", "kind=isosceles-triangle", "counted once", []int64{1, 11, 39, 113, 268, 558, 1032}, nil},
		{"regular hexagons", "kind=regular-hexagon", "A011779", []int64{0, 0, 1, 3, 6, 12, 21}, nil},
		{"squares", "kind=square", "J. D. Hamkins, No regular polygons in the hexagonal lattice", []int64{0, 0, 0, 0, 0}, nil},
	})
}

// Those with sides along the rows: A002717 for triangles, counted once for
// hexagons.
func TestRegularFiguresAlongTheRows(t *testing.T) {
	tests := []struct {
		kind string
		want []int
	}{
		{"equilateral-triangle", []int{1, 5, 13, 27, 48}},
		{"regular-hexagon", []int{0, 0, 1, 3, 6, 11, 18}},
	}
	for _, tt := range tests {
		for i, want := range tt.want {
			b := board.MustParse(fmt.Sprintf("triangle:%d", i+2))
			holds := task.MustParse("kind="+tt.kind).Compile(b, shape.Definitions{})
			sides, _ := shape.Named(shape.Name(strings.ReplaceAll(tt.kind, "-", " ")))
			w, got := newWalk(newTable(b), sides, sides), 0
			p := shape.EmptyPolygon(b)
			w.convex, w.equilateral = true, true
			w.visit = func(corners []board.Peg) bool {
				p.Reset(corners)
				a := b.Along(p.Side(0))
				if holds(p) && (a.X == 0 || a.Y == 0 || a.X == -a.Y) {
					got++
				}
				return true
			}
			walkAll(w, b)
			if got != want {
				t.Errorf("%s along the rows of %s = %d, want %d", tt.kind, b, got, want)
			}
		}
	}
}

func TestQuadrilateralsOnTriangularBoards(t *testing.T) {
	checkCounts(t, "triangle:N", 3, 6, shape.Definitions{}, []boardCount{
		{"all", "sides=4", "counted once", []int64{6, 150, 1197}, []int{2, 25, 139}},
		{"convex", "sides=4,convex", "counted once", []int64{6, 96, 666}, []int{2, 15, 73}},
		{"rhombi", "kind=rhombus", "counted once", []int64{3, 9, 24}, nil},
		{"parallelograms", "kind=parallelogram", "counted once", []int64{3, 24, 102}, nil},
		{"rectangles", "kind=rectangle", "counted once", []int64{0, 3, 12}, nil},
	})
}

// Seven pegs in a hexagon are a ring of six with its centre.
func TestHexagonOfSevenPegs(t *testing.T) {
	checkCounts(t, "ring:N+centre", 6, 9, shape.Definitions{}, []boardCount{
		{"triangles", "sides=3", "counted once", []int64{32}, []int{4}},
		{"right triangles", "kind=right-triangle", "counted once", []int64{12}, nil},
		{"equilateral triangles", "kind=equilateral-triangle", "A008893", []int64{8}, nil},
		{"regular hexagons", "kind=regular-hexagon", "A000537", []int64{1}, nil},
		{"regular polygons", "regular", "A339483", []int64{9}, nil},
		{"quadrilaterals", "sides=4", "counted once", []int64{27}, []int{5}},
		{"rectangles", "kind=rectangle", "counted once", []int64{3}, nil},
		{"rhombi", "kind=rhombus", "counted once", []int64{6}, nil},
	})
}

func TestRings(t *testing.T) {
	checkCounts(t, "ring:N", 3, 12, exclusive, []boardCount{
		{"triangles", "sides=3", "C(N, 3); classes A001399", []int64{1, 4, 10, 20, 35, 56, 84, 120, 165, 220}, []int{1, 1, 2, 3, 4, 5, 7, 8, 10, 12}},
		{"quadrilaterals", "sides=4", "C(N, 4); classes A005232", []int64{0, 1, 5, 15, 35, 70, 126, 210, 330, 495}, []int{0, 1, 1, 3, 4, 8, 10, 16, 20, 29}},
		{"all", "sides>=3", "2^N − 1 − N − C(N, 2); classes A000029", []int64{1, 5, 16, 42, 99, 219, 466, 968, 1981, 4017}, []int{1, 2, 4, 8, 13, 24, 40, 71, 119, 216}},
		{"right triangles", "kind=right-triangle", "N(N − 2)/2 for even N", []int64{0, 4, 0, 12, 0, 24, 0, 40, 0, 60}, nil},
		{"obtuse triangles", "kind=obtuse-triangle", "A060423", []int64{0, 0, 5, 6, 21, 24, 54, 60, 110, 120}, nil},
		{"acute triangles", "kind=acute-triangle", "counted once", []int64{1, 0, 5, 2, 14, 8, 30, 20, 55, 40}, nil},
		{"rectangles", "kind=rectangle", "C(N/2, 2) for even N", []int64{0, 1, 0, 3, 0, 6, 0, 10, 0, 15}, nil},
		{"trapezoids", "kind=trapezoid", "counted once", []int64{0, 0, 5, 6, 21, 24, 54, 60, 110, 120}, nil},
		{"isosceles trapezoids", "kind=isosceles-trapezoid", "counted once; on a ring all are", []int64{0, 0, 5, 6, 21, 24, 54, 60, 110, 120}, nil},
		{"regular polygons", "regular", "N/d summed over the divisors from 3", []int64{1, 1, 1, 3, 1, 3, 4, 3, 1, 10}, nil},
		{"concave ones", "not convex", "all corners lie on a circle", []int64{0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, nil},
	})
	checkCounts(t, "ring:N", 3, 12, shape.Definitions{}, []boardCount{
		{"isosceles triangles", "kind=isosceles-triangle", "counted once", []int64{1, 4, 10, 8, 21, 24, 30, 40, 55, 52}, nil},
		{"kites", "kind=kite", "counted once", []int64{0, 1, 0, 6, 0, 10, 0, 20, 0, 27}, nil},
		{"equilateral triangles", "kind=equilateral-triangle", "N/3", []int64{1, 0, 0, 2, 0, 0, 3, 0, 0, 4}, nil},
	})
}

func TestRingOfTwelveByCorners(t *testing.T) {
	for i, want := range []int{12, 29, 38, 50, 38, 29, 12, 6, 1, 1} {
		if a := ask(t, "ring:12", fmt.Sprintf("sides=%d", i+3)); a.Different != want {
			t.Errorf("Find(ring:12, sides=%d).Different = %d, want %d (bracelets)", i+3, a.Different, want)
		}
	}
}
