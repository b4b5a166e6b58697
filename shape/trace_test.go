package shape_test

import (
	"slices"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// problems prints the problems of an outline, each with its place.
func problems(o shape.Outline) string {
	var out []string
	for _, p := range o.Problems {
		text := string(p.Status)
		if p.Status != shape.Empty && p.Status != shape.SeveralPieces {
			text += " at " + o.Board.SpotText(p.At)
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func TestTrace(t *testing.T) {
	tests := []struct {
		name, board, text string
		status            shape.Status
		problems          string
		corners           string
		passed, ends      string
	}{
		{"an empty board", "square:5x5", "", shape.Empty, "empty", "", "", ""},
		{"one segment", "square:5x5", "A1 C1", shape.OpenPath, "open path at A1, open path at C1", "", "B1", "A1 C1"},
		{"a slanted segment over no peg", "square:5x5", "A1 C2", shape.OpenPath, "open path at A1, open path at C2", "", "", "A1 C2"},
		{"one segment twice", "square:5x5", "A1 C1 / C1 A1", shape.OpenPath, "open path at A1, open path at C1", "", "B1", "A1 C1"},
		{"a flat band", "square:5x5", "A1 C1 B1", shape.OpenPath, "open path at A1, open path at C1", "", "B1", "A1 C1"},
		{"a longer flat band", "square:5x5", "B2 E5 A1 C3", shape.OpenPath, "open path at A1, open path at E5", "", "B2 C3 D4", "A1 E5"},
		{"segments in a row", "square:5x5", "A1 B1 / B1 D1", shape.OpenPath, "open path at A1, open path at D1", "", "B1 C1", "A1 D1"},
		{"an open path", "square:5x5", "A1 C1 / C1 C3", shape.OpenPath, "open path at A1, open path at C3", "C1", "B1 C2", "A1 C3"},
		{"a triangle", "square:5x5", "A1 E1 A5", shape.ClosedPolygon, "", "A1 E1 A5", "B1 C1 D1 D2 C3 B4 A4 A3 A2", ""},
		{"a triangle from three segments", "square:5x5", "A1 E1 / A5 A1 / E1 A5", shape.ClosedPolygon, "", "A1 E1 A5", "B1 C1 D1 D2 C3 B4 A4 A3 A2", ""},
		{"a triangle with a peg named on its side", "square:5x5", "A1 C1 E1 A5", shape.ClosedPolygon, "", "A1 E1 A5", "B1 C1 D1 D2 C3 B4 A4 A3 A2", ""},
		{"a triangle in short segments", "square:3x3", "A1 B1 / B1 C1 / C1 B2 / B2 A3 / A3 A2 / A2 A1", shape.ClosedPolygon, "", "A1 C1 A3", "B1 B2 A2", ""},
		{"a triangle with segments that overlap", "square:3x3", "A1 C1 / B1 C1 / C1 A3 / A3 A1 / A2 A1", shape.ClosedPolygon, "", "A1 C1 A3", "B1 B2 A2", ""},
		{"two bands on top of each other", "square:3x3", "A1 C1 A3 / C1 A3 A1", shape.ClosedPolygon, "", "A1 C1 A3", "B1 B2 A2", ""},
		{"a flat band along a side", "square:3x3", "A1 C1 A3 / A1 C1 B1", shape.ClosedPolygon, "", "A1 C1 A3", "B1 B2 A2", ""},
		{"a polygon run clockwise", "square:3x3", "A1 A3 C3 C1", shape.ClosedPolygon, "", "A1 C1 C3 A3", "B1 C2 B3 A2", ""},
		{"a bow-tie that crosses at a peg", "square:5x5", "A1 E5 E1 A5", shape.Crossing, "crossing at C3", "A1 E1 A5 E5", "B2 D2 E2 E3 E4 B4 D4 A2 A3 A4", ""},
		{"a bow-tie that crosses between pegs", "square:4x4", "A1 D4 D1 A4", shape.Crossing, "crossing at 1.5 right, 1.5 up", "A1 D1 A4 D4", "B2 C2 D2 D3 B3 C3 A2 A3", ""},
		{"two segments that cross between pegs", "square:3x3", "A1 C2 / A2 B1", shape.Crossing, "crossing at 2/3 right, 1/3 up, open path at A1, open path at B1, open path at A2, open path at C2", "", "", "A1 B1 A2 C2"},
		{"two segments that cross at a peg", "square:3x3", "A2 C2 / B1 B3", shape.Crossing, "crossing at B2, open path at B1, open path at A2, open path at C2, open path at B3", "", "", "B1 A2 C2 B3"},
		{"three lines through one peg", "square:3x3", "A2 C2 / B1 B3 / A1 C3", shape.Crossing, "crossing at B2, crossing at B2, crossing at B2, open path at A1, open path at B1, open path at A2, open path at C2, open path at B3, open path at C3", "", "", "A1 B1 A2 C2 B3 C3"},
		{"a bend that pokes through a straight piece", "square:3x3", "A2 C2 / A1 B2 / B2 B3", shape.Crossing, "open path at A1, open path at A2, crossing at B2, open path at C2, open path at B3", "B2", "", "A1 A2 C2 B3"},
		{"a crossing hides a branching", "square:4x4", "A1 D4 D1 A4 / A1 B1", shape.Crossing, "crossing at 1.5 right, 1.5 up, branching at A1, open path at B1", "A1 D1 A4 D4", "B2 C2 D2 D3 B3 C3 A2 A3", "B1"},
		{"a T", "square:3x3", "A1 C1 / B1 B3", shape.Branching, "open path at A1, branching at B1, open path at C1, open path at B3", "B1", "B2", "A1 C1 B3"},
		{"three pieces from one side of a straight one", "square:5x5", "A1 E1 / C1 A3 / C1 C3 / C1 E3", shape.Branching, "", "C1", "", "A1 E1 A3 C3 E3"},
		{"a square with its diagonal", "square:3x3", "A1 C1 C3 A3 / A1 C3", shape.Branching, "branching at A1, branching at C3", "A1 C1 C3 A3", "B1 C2 B3 A2 B2", ""},
		{"a square with a tail", "square:3x3", "A1 B1 B2 A2 / B2 C3", shape.Branching, "branching at B2, open path at C3", "A1 B1 B2 A2", "", "C3"},
		{"a band with a spike along a side", "square:3x3", "A1 C1 B1 B3", shape.Branching, "branching at B1, open path at C1", "A1 B1 B3", "", "C1"},
		{"a spike out of a corner", "square:4x4", "A1 B1 B3 B2 A2", shape.Branching, "branching at B2, open path at B3", "A1 B1 B2 A2", "", "B3"},
		{"two triangles tip to tip", "square:5x5", "A1 E1 C2 / A5 E5 C2", shape.Touching, "touching at C2", "A1 E1 C2 A5 E5", "", ""},
		{"a corner on a side of another band", "square:5x5", "A1 E1 E3 A3 / B5 D5 C3", shape.Touching, "touching at C3", "", "", ""},
		{"a corner on a side of its own band", "square:5x5", "A1 E1 E3 C1 A3", shape.Touching, "touching at C1", "", "", ""},
		{"two squares corner to corner", "square:3x3", "A1 B1 B2 A2 / B2 C2 C3 B3", shape.Crossing, "crossing at B2", "", "", ""},
		{"two squares apart", "square:5x5", "A1 B1 B2 A2 / D4 E4 E5 D5", shape.SeveralPieces, "several pieces", "A1 B1 A2 B2 D4 E4 D5 E5", "", ""},
		{"a square in a square", "square:5x5", "A1 E1 E5 A5 / B2 D2 D4 B4", shape.SeveralPieces, "several pieces", "", "", ""},
		{"two segments apart", "square:5x5", "A1 B1 / D4 E4", shape.SeveralPieces, "open path at A1, open path at B1, open path at D4, open path at E4, several pieces", "", "", "A1 B1 D4 E4"},
		{"overlapping squares", "square:4x4", "A1 C1 C3 A3 / B2 D2 D4 B4", shape.Crossing, "", "", "", ""},
		{"two squares side by side, as one wall", "square:3x3", "A1 B1 B2 A2 / B1 C1 C2 B2", shape.Branching, "branching at B1, branching at B2", "", "", ""},
		{"a square on a ring", "ring:12", "1 4 7 10", shape.ClosedPolygon, "", "1 10 7 4", "", ""},
		{"a star on a ring", "ring:5", "1 3 5 2 4", shape.Crossing, "", "1 2 3 4 5", "", ""},
		{"two diameters with a peg in the middle", "ring:12+centre", "1 7 / 4 10", shape.Crossing, "crossing at O, open path at 1, open path at 4, open path at 7, open path at 10", "", "", "1 4 7 10"},
		{"two diameters with none", "ring:12", "1 7 / 4 10", shape.Crossing, "crossing at 0 right, 0 up, open path at 1, open path at 4, open path at 7, open path at 10", "", "", "1 4 7 10"},
		{"a half ring over its centre", "ring:8+centre", "1 3 5", shape.ClosedPolygon, "", "1 5 3", "O", ""},
		{"a half ring with its centre named", "ring:8+centre", "1 3 5 O", shape.ClosedPolygon, "", "1 5 3", "O", ""},
		{"a slice of a ring", "ring:8+centre", "1 3 O", shape.ClosedPolygon, "", "1 O 3", "", ""},
		{"a rhombus on a triangular board", "triangle:3", "A1 B1 B2 A2", shape.ClosedPolygon, "", "A1 B1 B2 A2", "", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := board.MustParse(tt.board)
			o := shape.Trace(board.MustParseFigure(b, tt.text))
			if o.Status != tt.status {
				t.Errorf("Status = %q, want %q", o.Status, tt.status)
			}
			if got := problems(o); got != tt.problems && tt.problems != "" {
				t.Errorf("Problems = %q, want %q", got, tt.problems)
			}
			if (o.Status == shape.ClosedPolygon) != (len(o.Problems) == 0) {
				t.Errorf("%q has the problems %q", o.Status, problems(o))
			}
			compare := func(what string, pegs []board.Peg, want string) {
				got := b.Names(pegs)
				wanted := strings.Fields(want)
				slices.Sort(got)
				slices.Sort(wanted)
				if want != "" && !slices.Equal(got, wanted) {
					t.Errorf("%s = %v, want %v", what, got, wanted)
				}
			}
			compare("Corners", o.Corners, tt.corners)
			compare("PassedOver", o.PassedOver, tt.passed)
			compare("Ends", o.Ends, tt.ends)
		})
	}
}

// status works out whether a band makes a polygon from single hops: each used
// peg has two, all hang together, no two cross.
func (p *plain) polygonal(pegs []board.Peg) bool {
	type hop [2]board.Peg
	hops := map[hop]bool{}
	next := map[board.Peg][]board.Peg{}
	for i, from := range pegs {
		to := pegs[(i+1)%len(pegs)]
		line := []board.Peg{from, to}
		for k := range board.Peg(len(p.x)) {
			if p.between(from, k, to) {
				line = append(line, k)
			}
		}
		slices.SortFunc(line, func(a, b board.Peg) int { return p.sign(p.squared(from, a) - p.squared(from, b)) })
		for j := range line[1:] {
			h := hop{min(line[j], line[j+1]), max(line[j], line[j+1])}
			if !hops[h] {
				hops[h] = true
				next[h[0]] = append(next[h[0]], h[1])
				next[h[1]] = append(next[h[1]], h[0])
			}
		}
	}
	for _, ends := range next {
		if len(ends) != 2 {
			return false
		}
	}
	for h := range hops {
		for g := range hops {
			if p.turn(h[0], h[1], g[0])*p.turn(h[0], h[1], g[1]) < 0 && p.turn(g[0], g[1], h[0])*p.turn(g[0], g[1], h[1]) < 0 {
				return false
			}
		}
	}
	seen := map[board.Peg]bool{pegs[0]: true}
	for queue := []board.Peg{pegs[0]}; len(queue) > 0; queue = queue[1:] {
		for _, q := range next[queue[0]] {
			if !seen[q] {
				seen[q] = true
				queue = append(queue, q)
			}
		}
	}
	return len(seen) == len(next)
}

// Every band round two to five pegs, crossing, flat, spiked or neither.
func TestTraceOfEveryBand(t *testing.T) {
	for _, description := range []string{"square:3x3", "triangle:4", "ring:6+centre", "ring:7"} {
		b := board.MustParse(description)
		p := layOut(t, b)
		var band []board.Peg
		var extend func()
		polygons, bands := 0, 0
		extend = func() {
			if len(band) > 2 {
				bands++
				f, err := board.NewFigure(b, [][]board.Peg{band})
				if err != nil {
					t.Fatal(err)
				}
				o := shape.Trace(f)
				want := p.polygonal(band)
				if (o.Status == shape.ClosedPolygon) != want {
					t.Fatalf("%s: Trace(%s) = %q, want a polygon: %v", b, f, o.Status, want)
				}
				if want {
					polygons++
					if _, ok := shape.NewPolygon(b, o.Corners); !ok {
						t.Fatalf("%s: Trace(%s) has the corners %v, which make no polygon", b, f, b.Names(o.Corners))
					}
				}
				checkOutline(t, o)
			}
			if len(band) == 5 || len(band) == 4 && b.Pegs() > 9 {
				return
			}
			for q := range board.Peg(b.Pegs()) {
				if !slices.Contains(band, q) {
					band = append(band, q)
					extend()
					band = band[:len(band)-1]
				}
			}
		}
		extend()
		if polygons == 0 || polygons == bands {
			t.Errorf("%s: %d polygons among %d bands", b, polygons, bands)
		}
	}
}

// checkOutline checks what holds of every outline, whatever its status.
func checkOutline(t *testing.T, o shape.Outline) {
	t.Helper()
	for i, s := range o.Segments {
		for _, u := range o.Segments[i+1:] {
			if o.Board.Meeting(s, u) == board.Overlapping {
				t.Fatalf("%s: pieces %v and %v overlap", o.Board, s, u)
			}
		}
	}
	crossing, open := false, len(o.Ends) > 0
	for _, pair := range o.Pairs() {
		crossing = crossing || pair.Meeting == board.Crossing
	}
	if crossing && o.Status != shape.Crossing {
		t.Fatalf("%s: pieces cross, but the status is %q", o.Board, o.Status)
	}
	if open && o.Status == shape.ClosedPolygon {
		t.Fatalf("%s: a polygon with loose ends %v", o.Board, o.Board.Names(o.Ends))
	}
	for _, a := range o.PathAngles() {
		if kind := o.Board.AngleKind(a.Angle); kind == board.Reflex || kind == board.Straight {
			t.Fatalf("%s: the angle at %s is %s, want the smaller way round", o.Board, o.Board.Name(a.At), kind)
		}
	}
}

// Each polygon of 3×3 is read the same from any start, either way round, as
// segments, in single hops, and with parts of it covered twice.
func TestReadingDoesNotDependOnHowBandsLie(t *testing.T) {
	b := board.MustParse("square:3x3")
	for _, p := range polygons(t, b, 9) {
		checkBands(t, b, p.Corners(), p.Facts())
	}
}

// checkBands reads a polygon made in many ways.
func checkBands(t testing.TB, b *board.Board, corners []board.Peg, want shape.Facts) {
	t.Helper()
	k := len(corners)
	ways := [][][]board.Peg{{corners}}
	turned := append(slices.Clone(corners[1:]), corners[0])
	backwards := slices.Clone(corners)
	slices.Reverse(backwards)
	ways = append(ways, [][]board.Peg{turned}, [][]board.Peg{backwards}, [][]board.Peg{corners, backwards})
	var sides, hops [][]board.Peg
	for i, from := range corners {
		to := corners[(i+1)%k]
		sides = append(sides, []board.Peg{to, from})
		for _, over := range append(b.Over(from, to), to) {
			hops = append(hops, []board.Peg{from, over})
			from = over
		}
	}
	ways = append(ways, sides, hops, append(slices.Clone(sides), hops[0]), append([][]board.Peg{corners}, sides[k-1]))
	for _, bands := range ways {
		f, err := board.NewFigure(b, bands)
		if err != nil {
			t.Fatal(err)
		}
		r := shape.Read(f, shape.Definitions{})
		if r.Outline.Status != shape.ClosedPolygon {
			t.Fatalf("%s: Read(%s) is %q", b, f, r.Outline.Status)
		}
		if r.Facts != want || r.Bands() != len(bands) {
			t.Fatalf("%s: Read(%s) = %+v, want %+v", b, f, r.Facts, want)
		}
		if got := sorted(r.Outline.Corners); !slices.Equal(got, sorted(corners)) {
			t.Fatalf("%s: Read(%s) has the corners %v", b, f, b.Names(got))
		}
		if got := len(r.Outline.PassedOver); got != want.PegsOnEdge-k || len(r.Outline.Segments) != k {
			t.Fatalf("%s: Read(%s) passes over %d pegs in %d pieces", b, f, got, len(r.Outline.Segments))
		}
	}
}

func sorted(pegs []board.Peg) []board.Peg {
	out := slices.Clone(pegs)
	slices.Sort(out)
	return out
}

func TestReadOfWhatIsNoPolygon(t *testing.T) {
	b := board.MustParse("square:5x5")
	for _, text := range []string{"", "A1 C1", "A1 E5 E1 A5", "A1 B1 B2 A2 / D4 E4 E5 D5"} {
		r := shape.Read(board.MustParseFigure(b, text), shape.Definitions{})
		if r.Polygon != nil || r.Facts != (shape.Facts{}) || r.Names() != nil || r.Reasons != nil {
			t.Errorf("Read(%q) states facts: %+v", text, r.Facts)
		}
	}
}

func TestPairs(t *testing.T) {
	tests := []struct {
		name, first, second              string
		meeting                          board.Meeting
		parallel, perpendicular, oneLine bool
	}{
		{"two pieces of one line", "A1 B1", "D1 E1", board.Apart, false, false, true},
		{"parallel pieces", "A1 E1", "E2 A2", board.Apart, true, false, false},
		{"slanted parallel pieces", "A1 C2", "E3 A1", board.Overlapping, false, false, true},
		{"parallel pieces of different length", "A1 C2", "A2 E4", board.Apart, true, false, false},
		{"pieces that meet squarely", "A1 E1", "A1 A4", board.SharedEnd, false, true, false},
		{"pieces that cross squarely", "A2 C2", "B1 B3", board.Crossing, false, true, false},
		{"square directions that do not meet", "A1 C2", "E1 D3", board.Apart, false, true, false},
		{"nearly parallel pieces", "A1 D3", "A2 E5", board.Apart, false, false, false},
		{"nearly square pieces", "A1 D2", "A1 A5", board.SharedEnd, false, false, false},
		{"a T", "A1 C1", "B1 B3", board.Resting, false, true, false},
	}
	b := board.MustParse("square:5x5")
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			piece := func(text string) board.Segment { return board.MustParseFigure(b, text).Segments()[0] }
			got := shape.PairOf(b, piece(tt.first), piece(tt.second))
			if got.Meeting != tt.meeting || got.Parallel != tt.parallel || got.Perpendicular != tt.perpendicular || got.OneLine != tt.oneLine {
				t.Errorf("PairOf(%s, %s) = %+v", tt.first, tt.second, got)
			}
		})
	}
}
