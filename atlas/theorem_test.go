package atlas

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// grid is the list of conditions whose pairs and triples the theorems are held
// against.
var grid = []string{
	"sides=3", "sides=4", "sides=5", "sides=6", "sides=7", "sides=8", "sides=9", "sides>=5", "sides<=5", "sides!=4",
	"convex", "convex=no", "equilateral", "equilateral=no", "equiangular", "regular", "regular=no",
	"kind=square", "kind=rectangle", "kind=rhombus", "kind=parallelogram", "kind=trapezoid", "kind=kite", "kind=dart", "kind!=square",
	"kind=equilateral-triangle", "kind=isosceles-triangle", "kind=right-triangle", "kind=regular-pentagon", "kind=regular-hexagon", "kind=hexagon",
	"right-angles=0", "right-angles=1", "right-angles=2", "right-angles>=3", "right-angles=4", "right-angles>=5",
	"acute-angles=0", "acute-angles=3", "acute-angles>=4", "obtuse-angles>=4", "reflex-angles=1", "reflex-angles>=2",
	"fold-lines=0", "fold-lines=1", "fold-lines=2", "fold-lines=3", "fold-lines=4", "fold-lines=5", "fold-lines>=5", "fold-lines=6",
	"turn-order=1", "turn-order=2", "turn-order=3", "turn-order=4", "turn-order=5", "turn-order=6", "turn-order>=4",
	"area=1", "area=1/2", "area=3/4", "area=2", "area=√2", "area=√3/4", "area=√3", "area=√3/8", "area>=2",
	"parallel-pairs=2", "perpendicular-pairs=1", "pegs-inside=1", "pegs-on-edge=4", "equal-sides=3", "upright-sides=0",
}

// theoremBoards are small boards of every kind.
var theoremBoards = []string{
	"square:2x2", "square:3x3", "square:2x4", "square:3x4", "staggered:2x3", "staggered:3x3", "triangle:3", "triangle:4",
	"ring:4", "ring:5", "ring:6", "ring:7", "ring:8", "ring:9", "ring:12",
	"ring:5+centre", "ring:6+centre", "ring:7+centre", "ring:8+centre",
}

// holding says of every polygon of a board which conditions of the grid hold.
type holding struct {
	board *board.Board
	bits  [][]uint64 // by condition
}

func newHolding(b *board.Board) holding {
	h := holding{board: b}
	all := everyPolygon(b, b.Pegs())
	for _, text := range grid {
		holds := task.MustParse(text).Compile(b, shape.Definitions{})
		bits := make([]uint64, len(all)/64+1)
		for i, p := range all {
			if holds(p) {
				bits[i/64] |= 1 << (i % 64)
			}
		}
		h.bits = append(h.bits, bits)
	}
	return h
}

// count returns how many polygons some conditions of the grid hold for.
func (h holding) count(chosen ...int) int64 {
	n := int64(0)
	for i := range h.bits[0] {
		all := ^uint64(0)
		for _, c := range chosen {
			all &= h.bits[c][i]
		}
		for ; all != 0; all &= all - 1 {
			n++
		}
	}
	return n
}

func texts(chosen []int) []string {
	out := make([]string, len(chosen))
	for i, c := range chosen {
		out[i] = grid[c]
	}
	return out
}

// Whenever a theorem fires, no polygon of the board answers; over every single
// condition, every pair and many triples on every board. Conditions that
// Parse refuses as contradictions must have no answer either. Every theorem
// fires somewhere.
func TestTheoremsAreTrue(t *testing.T) {
	fired := map[Theorem]int{}
	var holdings []holding
	for _, text := range theoremBoards {
		holdings = append(holdings, newHolding(board.MustParse(text)))
	}
	for _, chosen := range selections() {
		cs, err := task.Parse(texts(chosen))
		for _, h := range holdings {
			if err != nil {
				if n := h.count(chosen...); n > 0 {
					t.Errorf("%s: Parse(%v) = %v, but %d figures answer", h.board, texts(chosen), err, n)
				}
				continue
			}
			for _, why := range newNeed(h.board, cs, shape.Definitions{}).proof() {
				fired[why.Theorem]++
				if n := h.count(chosen...); n > 0 {
					t.Errorf("%s: theorem %q excludes %v, but %d figures answer", h.board, why.Theorem, texts(chosen), n)
				}
				if why.Source == "" {
					t.Errorf("theorem %q has no source", why.Theorem)
				}
			}
		}
	}
	for _, th := range theorems {
		if fired[th.name] == 0 {
			t.Errorf("theorem %q never fires", th.name)
		}
	}
}

// selections lists single conditions and pairs of the grid, and many triples.
func selections() [][]int {
	var out [][]int
	stride := 3
	if testing.Short() || raceEnabled {
		stride = 13
	}
	for i := range grid {
		out = append(out, []int{i})
		for j := range i {
			if (i*len(grid)+j)%stride == 0 {
				out = append(out, []int{j, i})
			}
		}
	}
	random := rand.New(rand.NewPCG(3, 4))
	for range 3000 / stride {
		out = append(out, []int{random.IntN(len(grid)), random.IntN(len(grid)), random.IntN(len(grid))})
	}
	return out
}

// Find gives the number of figures that a list of all of them gives, says
// whether that is any, and gives a reason when it is none.
func TestFindCountsWhatAListCounts(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	draws := 20
	if testing.Short() || raceEnabled {
		draws = 5
	}
	for _, text := range theoremBoards {
		h := newHolding(board.MustParse(text))
		for range draws {
			chosen := []int{random.IntN(len(grid)), random.IntN(len(grid)), random.IntN(len(grid))}[:1+random.IntN(3)]
			cs, err := task.Parse(texts(chosen))
			if err != nil {
				continue
			}
			a := askAs(t, Question{Board: h.board, Conditions: cs, Examples: 4})
			want := h.count(chosen...)
			if a.Count != want || !a.Complete || a.Possible != (want > 0) {
				t.Fatalf("Find(%s, %v) = %d, complete %v, possible %v, want %d", text, texts(chosen), a.Count, a.Complete, a.Possible, want)
			}
			if a.Possible != (len(a.Why) == 0) || a.Possible != (len(a.Examples) > 0) || a.Possible != (a.Different > 0) {
				t.Errorf("Find(%s, %v): possible %v with %d classes, %d examples, %d reasons", text, texts(chosen), a.Possible, a.Different, len(a.Examples), len(a.Why))
			}
			places := int64(0)
			for _, e := range a.Examples {
				places += int64(e.Places)
			}
			if places > a.Count || len(a.Examples) == a.Different && places != a.Count {
				t.Errorf("Find(%s, %v): %d of %d classes shown have %d places of %d", text, texts(chosen), len(a.Examples), a.Different, places, a.Count)
			}
		}
	}
}

// The classes that Find counts are those of plain's tables of distances.
func TestFindCountsTheClassesOfAList(t *testing.T) {
	for _, text := range tiny {
		b := board.MustParse(text)
		figures := newPlain(t, b).figures()
		for _, conditions := range []string{"sides>=3", "convex", "not convex", "sides=4", "fold-lines=1", "right-angles>=1"} {
			cs := task.MustParse(conditions)
			holds := cs.Compile(b, shape.Definitions{})
			words := map[string]int{}
			for _, f := range figures {
				if p, _ := shape.NewPolygon(b, f.corners); holds(p) {
					words[f.word]++
				}
			}
			if a := askAs(t, Question{Board: b, Conditions: cs}); a.Different != len(words) {
				t.Errorf("Find(%s, %s).Different = %d, want %d", text, conditions, a.Different, len(words))
			}
		}
	}
}

// Impossible on every square board (D. G. Ball, Mathematical Gazette 57, 1973;
// J. D. Hamkins, No regular polygons in the integer lattice): the theorem names
// it, and a search that does not know the theorem finds none.
func TestImpossibleOnSquareBoards(t *testing.T) {
	tests := []struct {
		name, conditions string
		theorem          Theorem
		largest          int // the largest board searched
	}{
		{"an equilateral triangle", "kind=equilateral-triangle", RegularOnSquare, 8},
		{"a triangle of three equal sides", "sides=3,equilateral", OddEquilateral, 8},
		{"a triangle that turns", "sides=3,turn-order=3", TurnsOnLattice, 8},
		{"a regular pentagon", "kind=regular-pentagon", RegularOnSquare, 6},
		{"an equilateral pentagon", "sides=5,equilateral", OddEquilateral, 6},
		{"a convex equilateral pentagon", "sides=5,equilateral,convex", OddEquilateral, 8},
		{"a regular hexagon", "kind=regular-hexagon", RegularOnSquare, 8},
		{"an equilateral heptagon", "sides=7,equilateral", OddEquilateral, 5},
		{"a convex equilateral heptagon", "sides=7,equilateral,convex", OddEquilateral, 8},
		{"a regular octagon", "kind=regular-octagon", RegularOnSquare, 8},
		{"a convex equilateral nonagon", "sides=9,equilateral,convex", OddEquilateral, 8},
		{"five fold lines", "sides=5,fold-lines=5", TurnsOnLattice, 4},
		{"four right angles of five", "sides=5,right-angles=4", RightAngleLimit, 5},
		{"four right angles of six and no dent", "sides=6,right-angles=4,convex", RightAngleLimit, 5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cs := strings.Split(tt.conditions, ",")
			for n := 2; n <= tt.largest; n++ {
				on := fmt.Sprintf("square:%dx%d", n, n)
				if n > 5 && (testing.Short() || raceEnabled) {
					break
				}
				need := newNeed(board.MustParse(on), task.MustParse(cs...), shape.Definitions{})
				if len(need.sides) == 0 {
					continue
				}
				names := []Theorem{}
				for _, w := range need.proof() {
					names = append(names, w.Theorem)
				}
				if !slices.Contains(names, tt.theorem) {
					t.Errorf("proof(%s, %s) = %q, want %q among them", on, tt.conditions, names, tt.theorem)
				}
				if s := searchOnly(t, on, cs...); s.found() > 0 {
					t.Errorf("search(%s, %s) finds %d, want none", on, tt.conditions, s.found())
				}
			}
		})
	}
}

// On triangular boards no square, and no regular polygons but triangles and
// hexagons (J. D. Hamkins, No regular polygons in the hexagonal lattice).
func TestImpossibleOnTriangularBoards(t *testing.T) {
	for _, conditions := range []string{"kind=square", "kind=regular-pentagon", "sides=8,regular", "sides=4,turn-order=4"} {
		for _, on := range []string{"triangle:3", "triangle:4", "triangle:5", "staggered:4x4"} {
			cs := strings.Split(conditions, ",")
			if len(newNeed(board.MustParse(on), task.MustParse(cs...), shape.Definitions{}).sides) == 0 {
				continue
			}
			if s := searchOnly(t, on, cs...); s.found() > 0 {
				t.Errorf("search(%s, %s) finds %d, want none", on, conditions, s.found())
			}
			if a := ask(t, on, cs...); a.Possible || !a.Complete || a.Why[0].Theorem == "" {
				t.Errorf("Find(%s, %s) = %d, why %v, want none and a theorem", on, conditions, a.Count, a.Why)
			}
		}
	}
}

// Convex polygons with equal sides on square boards, counted twice; none with
// other numbers of sides (D. G. Ball, as stated in arXiv:2503.01911).
func TestConvexEquilateralPolygons(t *testing.T) {
	counts := map[int]map[int]int64{
		4: {4: 22}, 5: {4: 66}, 6: {4: 151, 6: 8}, 7: {4: 312, 6: 24, 8: 1}, 8: {4: 564, 6: 60, 8: 4},
	}
	for n := 4; n <= 8; n++ {
		if n > 5 && (testing.Short() || raceEnabled) {
			break
		}
		for k := 3; k <= 9; k++ {
			on := fmt.Sprintf("square:%dx%d", n, n)
			s := searchOnly(t, on, "convex", "equilateral", fmt.Sprintf("sides=%d", k))
			if !s.complete || s.found() != counts[n][k] {
				t.Errorf("search(%s, convex, equilateral, sides=%d) = %d, complete %v, want %d", on, k, s.found(), s.complete, counts[n][k])
			}
		}
	}
	if a := ask(t, "square:5x6", "convex", "equilateral", "sides=6"); !a.Possible {
		t.Error("Find(5x6, convex, equilateral, sides=6) finds none, want one")
	}
}

// The convex equilateral pentagon of the triangular lattice, side √7 (corners
// from reference table 4.4): none on boards up to seven pegs a side.
func TestConvexEquilateralPentagon(t *testing.T) {
	slow(t)
	for n := 3; n <= 8; n++ {
		a := askAs(t, Question{
			Board: board.MustParse(fmt.Sprintf("triangle:%d", n)), Examples: 1,
			Conditions: task.MustParse("convex", "equilateral", "sides=5"),
		})
		if a.Possible != (n == 8) || !a.Complete {
			t.Errorf("Find(triangle:%d) = %d, complete %v, want one from 8 pegs a side", n, a.Count, a.Complete)
		}
		if !a.Possible {
			continue
		}
		for i := range 5 {
			if p := a.Examples[0].Polygon; p.Length(i) != 7 {
				t.Errorf("side %d has length √%d, want √7", i, p.Length(i))
			}
		}
	}
	// (0,0)(1,-3)(4,-4)(6,-3)(3,-1) in steps 60° apart, on a board that holds
	// them: shifted by (0, 4), as column letter and row.
	b := board.MustParse("triangle:12")
	var corners []board.Peg
	for _, at := range [][2]int{{0, 4}, {1, 1}, {4, 0}, {6, 1}, {3, 3}} {
		peg, ok := b.Peg(fmt.Sprintf("%c%d", 'A'+at[0], at[1]+1))
		if !ok {
			t.Fatalf("no peg at %v", at)
		}
		corners = append(corners, peg)
	}
	p, ok := shape.NewPolygon(b, corners)
	if !ok || !p.Convex() || !p.Equilateral() || p.Regular() || p.Length(0) != 7 {
		t.Errorf("the published pentagon: polygon %v, convex and equilateral of side √7 wanted", ok)
	}
}

// A theorem that is beside the point is not named.
func TestTheoremsThatDoNotApply(t *testing.T) {
	tests := []struct {
		name, board, conditions string
		theorem                 Theorem
	}{
		{"too many corners says nothing of odd ones", "square:3x3", "sides=10,equilateral", OddEquilateral},
		{"an even number of equal sides", "square:3x3", "sides=6,equilateral", OddEquilateral},
		{"any number of equal sides", "square:3x3", "equilateral", OddEquilateral},
		{"a square is regular", "square:3x3", "regular", RegularOnSquare},
		{"a regular hexagon on the triangular lattice", "triangle:4", "kind=regular-hexagon", RegularOnTriangular},
		{"a regular triangle with the centre of six", "ring:6+centre", "kind=equilateral-triangle", RegularOnRing},
		{"a concave figure round a centre", "ring:6+centre", "not convex", RingIsConvex},
		{"five right angles with a dent", "square:5x5", "sides=6,right-angles=5", RightAngleLimit},
		{"a convex nonagon on 5x5", "square:5x5", "convex,sides=9", ConvexLimit},
		{"area in half squares", "square:3x3", "area=1/2", AreaStep},
		{"area in small triangles", "triangle:3", "area=√3/4", AreaStep},
		{"a bound on the area", "square:3x3", "area>=√2", AreaStep},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			need := newNeed(board.MustParse(tt.board), task.MustParse(strings.Split(tt.conditions, ",")...), shape.Definitions{})
			for _, w := range need.proof() {
				if w.Theorem == tt.theorem {
					t.Errorf("proof(%s, %s) names %q", tt.board, tt.conditions, w.Theorem)
				}
			}
		})
	}
}

// A search that is only to say whether there is any stops at the first.
func TestFirstOnlyStopsEarly(t *testing.T) {
	q := Question{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("sides=6"), Limit: DefaultLimit, Progress: func(float64, int64) {}}
	s := newSearch(context.Background(), q, newNeed(q.Board, q.Conditions, q.Definitions))
	s.firstOnly = true
	s.run()
	if s.found() == 0 || s.seen.Load() > 669210/2 {
		t.Errorf("search sees %d of 669210 figures and finds %d", s.seen.Load(), s.found())
	}
}

// mostRightAngles is what the angle sum allows: in convex figures never more
// than four, else as in the table.
func TestMostRightAngles(t *testing.T) {
	tests := []struct{ sides, convex, any int }{{3, 1, 1}, {4, 4, 4}, {5, 3, 3}, {6, 3, 5}, {7, 3, 5}, {8, 3, 6}}
	for _, tt := range tests {
		if got := mostRightAngles(tt.sides, true); got != tt.convex {
			t.Errorf("mostRightAngles(%d, convex) = %d, want %d", tt.sides, got, tt.convex)
		}
		if got := mostRightAngles(tt.sides, false); got != tt.any {
			t.Errorf("mostRightAngles(%d) = %d, want %d", tt.sides, got, tt.any)
		}
	}
}
