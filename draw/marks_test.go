package draw

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// lines returns the lines of a role.
func (p Picture) lines(role Role) []Line {
	var out []Line
	for _, s := range p.Shapes {
		if l, ok := s.(Line); ok && l.Role == role {
			out = append(out, l)
		}
	}
	return out
}

func (p Picture) circles(role Role) []Circle {
	var out []Circle
	for _, s := range p.Shapes {
		if c, ok := s.(Circle); ok && c.Role == role {
			out = append(out, c)
		}
	}
	return out
}

func (p Picture) labels(role Role) []string {
	var out []string
	for _, s := range p.Shapes {
		if l, ok := s.(Label); ok && l.Role == role {
			out = append(out, l.Text)
		}
	}
	return out
}

// sideOf returns the side that a point lies on.
func sideOf(t *testing.T, p *shape.Polygon, at Point) int {
	t.Helper()
	best, found := math.Inf(1), -1
	for i := range p.Sides() {
		s := p.Side(i)
		x1, y1 := p.Board().At(s.From)
		x2, y2 := p.Board().At(s.To)
		off := math.Hypot(x1-at.X, y1-at.Y) + math.Hypot(x2-at.X, y2-at.Y) - math.Hypot(x2-x1, y2-y1)
		if off < best {
			best, found = off, i
		}
	}
	if best > 1e-6 {
		t.Errorf("the mark at %v lies on no side", at)
	}
	return found
}

func middle(p, q Point) Point { return p.plus(q).times(0.5) }

// ticksBySide counts strokes on each side and checks that their series says
// how many there are.
func ticksBySide(t *testing.T, r shape.Reading, p Picture) map[int]int {
	t.Helper()
	count, series := map[int]int{}, map[int]int{}
	for _, l := range p.lines(Tick) {
		i := sideOf(t, r.Polygon, middle(l.Points[0], l.Points[1]))
		count[i]++
		series[i] = l.Series
	}
	for i := range count {
		if count[i] != series[i] {
			t.Errorf("side %d has %d ticks of the class %d", i, count[i], series[i])
		}
	}
	return count
}

// headsBySide returns the direction that the heads of each side stand for and
// checks that there are as many as it has.
func headsBySide(t *testing.T, r shape.Reading, p Picture) map[int]int {
	t.Helper()
	count, series := map[int]int{}, map[int]int{}
	for _, l := range p.lines(Arrow) {
		i := sideOf(t, r.Polygon, l.Points[1])
		count[i]++
		series[i] = l.Series
		if l.Closed != (l.Series > openHeads) {
			t.Errorf("heads of direction %d are closed: %v", l.Series, l.Closed)
		}
	}
	for i, n := range series {
		if want := (n-1)%openHeads + 1; count[i] != want {
			t.Errorf("side %d has %d heads for direction %d, want %d", i, count[i], n, want)
		}
	}
	return series
}

// pairsMarked counts the pairs of sides with one kind of heads that are not on
// one line.
func pairsMarked(r shape.Reading, heads map[int]int) int {
	n := 0
	for i := range r.Polygon.Sides() {
		for j := range i {
			if heads[i] == heads[j] && heads[i] > 0 &&
				!shape.PairOf(r.Figure.Board, r.Polygon.Side(i), r.Polygon.Side(j)).OneLine {
				n++
			}
		}
	}
	return n
}

// classSizes writes the sizes of the classes of equal ticks, one tick first.
func classSizes(ticks map[int]int) string {
	sizes := map[int]int{}
	for _, n := range ticks {
		sizes[n]++
	}
	var out []string
	for n := 1; sizes[n] > 0; n++ {
		out = append(out, fmt.Sprint(sizes[n]))
	}
	return strings.Join(out, " ")
}

func TestMarksSayTheKnownFacts(t *testing.T) {
	for _, k := range knownFigures {
		t.Run(k.name, func(t *testing.T) {
			r := read(k)
			p := Figure(r, AllMarks())
			if got := len(p.lines(RightBox)); got != k.rights {
				t.Errorf("%d square corners, want %d", got, k.rights)
			}
			if got := len(p.lines(Fold)); got != k.folds {
				t.Errorf("%d fold lines, want %d", got, k.folds)
			}
			if got := pairsMarked(r, headsBySide(t, r, p)); got != k.parallel {
				t.Errorf("%d pairs with the same heads, want %d", got, k.parallel)
			}
			if got := classSizes(ticksBySide(t, r, p)); got != k.classes {
				t.Errorf("classes of equal ticks %q, want %q", got, k.classes)
			}
		})
	}
}

// TestMarksOfEveryPolygonOn3x3 proves that marks and facts agree on all 528
// polygons of the board.
func TestMarksOfEveryPolygonOn3x3(t *testing.T) {
	b := board.MustParse("square:3x3")
	polygons := 0
	eachPolygon(b, func(p *shape.Polygon) {
		polygons++
		r := shape.Read(board.Figure{Board: b, Bands: [][]board.Peg{p.Corners()}}, shape.Definitions{})
		picture := Figure(r, AllMarks())
		ticks, heads := ticksBySide(t, r, picture), headsBySide(t, r, picture)
		if got := pairsMarked(r, heads); got != r.Facts.ParallelPairs {
			t.Errorf("%v: %d parallel pairs marked, want %d", r.Figure, got, r.Facts.ParallelPairs)
		}
		for i := range p.Sides() {
			for j := range i {
				equal := p.Length(i) == p.Length(j)
				if marked := ticks[i] > 0 && ticks[i] == ticks[j]; marked != equal {
					t.Errorf("%v: sides %d and %d equal %v, marked %v", r.Figure, j, i, equal, marked)
				}
			}
		}
		if got := len(picture.lines(RightBox)); got != r.Facts.RightAngles {
			t.Errorf("%v: %d square corners, want %d", r.Figure, got, r.Facts.RightAngles)
		}
		if got := len(picture.lines(Fold)); got != r.Facts.FoldLines {
			t.Errorf("%v: %d fold lines, want %d", r.Figure, got, r.Facts.FoldLines)
		}
	})
	if polygons != 528 {
		t.Errorf("met %d polygons, want 528", polygons)
	}
}

// eachPolygon visits every simple polygon of a small board once.
func eachPolygon(b *board.Board, visit func(*shape.Polygon)) {
	var path []board.Peg
	used := make([]bool, b.Pegs())
	var extend func()
	extend = func() {
		// Each polygon is met from its lowest peg, in both directions.
		if n := len(path); n >= 3 && path[1] < path[n-1] {
			if p, ok := shape.NewPolygon(b, path); ok {
				visit(p)
			}
		}
		for q := range b.Pegs() {
			if used[q] || len(path) > 0 && board.Peg(q) < path[0] {
				continue
			}
			used[q] = true
			path = append(path, board.Peg(q))
			extend()
			path = path[:len(path)-1]
			used[q] = false
		}
	}
	extend()
}

func TestSquareCornersLieInTheirCorner(t *testing.T) {
	for _, k := range knownFigures {
		r := read(k)
		p := Figure(r, AllMarks())
		corners := r.Figure.Board.Names(r.Polygon.Why(shape.FactRightAngles).Corners)
		for i, l := range p.lines(RightBox) {
			peg, _ := r.Figure.Board.Peg(corners[i])
			x, y := r.Figure.Board.At(peg)
			at := Point{x, y}
			u, v := l.Points[0].minus(at), l.Points[2].minus(at)
			if dot := u.X*v.X + u.Y*v.Y; math.Abs(dot) > 1e-9 {
				t.Errorf("%s: the square at %s is not square", k.name, corners[i])
			}
			if d := l.Points[1].minus(at.plus(u).plus(v)); math.Hypot(d.X, d.Y) > 1e-9 {
				t.Errorf("%s: the square at %s does not close on its corner", k.name, corners[i])
			}
			sideOf(t, r.Polygon, l.Points[0])
			sideOf(t, r.Polygon, l.Points[2])
		}
	}
}

// TestMarksKeepApart checks that no tick or head stands on a peg, and that no
// tick stands on another mark.
func TestMarksKeepApart(t *testing.T) {
	for _, k := range knownFigures {
		t.Run(k.name, func(t *testing.T) {
			r := read(k)
			p := Figure(r, AllMarks())
			var marks []Point
			for _, l := range p.lines(Tick) {
				marks = append(marks, middle(l.Points[0], l.Points[1]))
			}
			for _, l := range p.lines(Arrow) {
				marks = append(marks, middle(middle(l.Points[0], l.Points[2]), l.Points[1]))
			}
			for i, m := range marks {
				for peg := range r.Figure.Board.Pegs() {
					x, y := r.Figure.Board.At(board.Peg(peg))
					if d := math.Hypot(x-m.X, y-m.Y); d < pegRadius*p.Step {
						t.Errorf("the mark at %v stands on the peg %s", m, r.Figure.Board.Name(board.Peg(peg)))
					}
				}
				for _, n := range marks[:i] {
					if d := n.minus(m); math.Hypot(d.X, d.Y) < 0.6*tickApart*p.Step {
						t.Errorf("the marks at %v and %v are %.3f apart", m, n, math.Hypot(d.X, d.Y))
					}
				}
			}
		})
	}
}

// TestParallelHeadsPointOneWay checks that heads of one direction agree.
func TestParallelHeadsPointOneWay(t *testing.T) {
	for _, k := range knownFigures {
		way := map[int]Point{}
		for _, l := range Figure(read(k), AllMarks()).lines(Arrow) {
			d := l.Points[1].minus(middle(l.Points[0], l.Points[2]))
			if first, ok := way[l.Series]; ok && d.X*first.X+d.Y*first.Y < 0 {
				t.Errorf("%s: heads of direction %d point both ways", k.name, l.Series)
			}
			way[l.Series] = d
		}
	}
}

func TestFoldLinesRunOutBeyondTheFigure(t *testing.T) {
	r := read(known{board: "square:5x5", bands: "A1 C5 E1 C2"})
	folds := Figure(r, AllMarks()).lines(Fold)
	if len(folds) != 1 {
		t.Fatalf("%d fold lines, want 1", len(folds))
	}
	low, high := folds[0].Points[0], folds[0].Points[1]
	if low.Y > high.Y {
		low, high = high, low
	}
	if want := (Point{2, 1 - foldBeyond}); low != want {
		t.Errorf("the line starts at %v, want %v", low, want)
	}
	if want := (Point{2, 4 + foldBeyond}); high != want {
		t.Errorf("the line ends at %v, want %v", high, want)
	}
}

func TestRail(t *testing.T) {
	tests := []struct {
		name       string
		taken      []stretch
		width, gap float64
		at         float64
		ok         bool
	}{
		{"nothing taken", nil, 1, 0.1, 5, true},
		{"too wide", nil, 11, 0, 0, false},
		{"as wide as the side", nil, 10, 0, 5, true},
		{"the middle taken", []stretch{{4, 6}}, 1, 0.5, 3, true},
		{"more room after than before", []stretch{{1, 6}}, 2, 0.5, 7.5, true},
		{"only at the end", []stretch{{0, 8}}, 1, 0, 8.5, true},
		{"overlapping stretches", []stretch{{3, 5}, {0, 4}, {4, 9}}, 2, 0, 0, false},
		{"beyond the ends", []stretch{{-1, 1}, {9, 11}}, 8, 0, 5, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := &rail{length: 10}
			at, ok := r.find(tt.width, tt.gap, tt.taken)
			if ok != tt.ok || math.Abs(at-tt.at) > 1e-9 {
				t.Errorf("find = %v, %v, want %v, %v", at, ok, tt.at, tt.ok)
			}
		})
	}
}
