package shape_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/shape"
)

// somePolygon draws a polygon: a triangle that grows by one peg after another
// wherever the next one fits.
func somePolygon(t *rapid.T, b *board.Board) []board.Peg {
	order := rapid.Permutation(allPegs(b)).Draw(t, "pegs")
	most := rapid.IntRange(3, 12).Draw(t, "corners")
	pegs := slices.Clone(order[:3])
	for _, p := range order[3:] {
		if len(pegs) == most {
			break
		}
		for at := range pegs {
			longer := slices.Insert(slices.Clone(pegs), at, p)
			if _, ok := shape.NewPolygon(b, longer); ok {
				pegs = longer
				break
			}
		}
	}
	if _, ok := shape.NewPolygon(b, pegs); !ok {
		t.Skip("the first three pegs are on a line")
	}
	return pegs
}

func allPegs(b *board.Board) []board.Peg {
	out := make([]board.Peg, b.Pegs())
	for i := range out {
		out[i] = board.Peg(i)
	}
	return out
}

// Turning, flipping and shifting a figure to a larger board changes no fact,
// and the figures are congruent.
func TestMovingAFigureChangesNoFact(t *testing.T) {
	small, large := board.MustParse("square:5x5"), board.MustParse("square:9x8")
	rapid.Check(t, func(t *rapid.T) {
		pegs := somePolygon(t, small)
		right, up := rapid.IntRange(0, 4).Draw(t, "right"), rapid.IntRange(0, 3).Draw(t, "up")
		flip, turns := rapid.Bool().Draw(t, "flip"), rapid.IntRange(0, 3).Draw(t, "turns")
		moved := make([]board.Peg, len(pegs))
		for i, p := range pegs {
			row, column := small.Row(p)
			if flip {
				column = 4 - column
			}
			for range turns {
				row, column = column, 4-row
			}
			moved[i] = board.Peg((row+up)*9 + column + right)
		}
		sameFacts(t, polygonFor(t, small, pegs), polygonFor(t, large, moved), true)
	})
}

// On the triangular lattice, from a triangular to a staggered board.
func TestMovingAFigureOnTheTriangularLattice(t *testing.T) {
	small, large := board.MustParse("triangle:6"), board.MustParse("staggered:12x9")
	rapid.Check(t, func(t *rapid.T) {
		pegs := somePolygon(t, small)
		right, up := rapid.IntRange(0, 3).Draw(t, "right"), rapid.IntRange(0, 3).Draw(t, "up")
		moved := make([]board.Peg, len(pegs))
		for i, p := range pegs {
			row, column := small.Row(p)
			// in half spacings, one for each row of a triangle or of a shift
			across := 2*column + row + 2*right + up
			column = (across - (row+up)%2) / 2
			moved[i] = board.Peg((row+up)*12 + column)
		}
		sameFacts(t, polygonFor(t, small, pegs), polygonFor(t, large, moved), true)
	})
}

// Turning and flipping a ring, with or without its centre.
func TestMovingAFigureOnARing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := board.MustParse(rapid.SampledFrom([]string{"ring:7", "ring:12", "ring:12+centre", "ring:9+centre", "ring:24+centre"}).Draw(t, "board"))
		pegs := somePolygon(t, b)
		n, by, flip := b.Columns(), rapid.IntRange(0, b.Columns()-1).Draw(t, "by"), rapid.Bool().Draw(t, "flip")
		moved := make([]board.Peg, len(pegs))
		for i, p := range pegs {
			switch {
			case int(p) == n:
				moved[i] = p
			case flip:
				moved[i] = board.Peg((by + n - int(p)) % n)
			default:
				moved[i] = board.Peg((by + int(p)) % n)
			}
		}
		p, q := polygonFor(t, b, pegs), polygonFor(t, b, moved)
		sameFacts(t, p, q, false)
		if p.Area().String() != q.Area().String() || p.Perimeter().String() != q.Perimeter().String() {
			t.Fatalf("%s: area %s, perimeter %s, but moved %s, %s", b, p.Area(), p.Perimeter(), q.Area(), q.Perimeter())
		}
	})
}

func polygonFor(t *rapid.T, b *board.Board, pegs []board.Peg) *shape.Polygon {
	p, ok := shape.NewPolygon(b, pegs)
	if !ok {
		t.Fatalf("%s: %v is no polygon", b, b.Names(pegs))
	}
	return p
}

func sameFacts(t *rapid.T, p, q *shape.Polygon, upright bool) {
	f, g := p.Facts(), q.Facts()
	if math.Abs(f.Likeness-g.Likeness)+math.Abs(f.SideSpread-g.SideSpread)+math.Abs(f.AngleSpread-g.AngleSpread) < 1e-9 {
		g.Likeness, g.SideSpread, g.AngleSpread = f.Likeness, f.SideSpread, f.AngleSpread
	}
	if !upright {
		g.UprightSides = f.UprightSides
	}
	if f != g {
		t.Fatalf("%v: %+v,\nbut moved to %v: %+v", p.Board().Names(p.Corners()), f, q.Board().Names(q.Corners()), g)
	}
	if !shape.Congruent(p, q) || !shape.Similar(p, q) || !slices.Equal(p.Names(shape.Definitions{}), q.Names(shape.Definitions{})) {
		t.Fatalf("%v and %v: Congruent = %v", p.Board().Names(p.Corners()), q.Board().Names(q.Corners()), shape.Congruent(p, q))
	}
}

// The order, start and number of bands, and bands on top of others, change
// nothing but the bands.
func TestBandsMayLieInAnyWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := board.MustParse(rapid.SampledFrom([]string{"square:5x5", "square:7x4", "triangle:6", "staggered:5x5", "ring:12+centre"}).Draw(t, "board"))
		pegs := somePolygon(t, b)
		want := polygonFor(t, b, pegs)
		k, start := len(pegs), rapid.IntRange(0, len(pegs)-1).Draw(t, "start")
		ring := append(slices.Clone(pegs[start:]), pegs[:start]...)
		if rapid.Bool().Draw(t, "backwards") {
			slices.Reverse(ring)
		}
		bands := [][]board.Peg{ring}
		if rapid.Bool().Draw(t, "in segments") {
			bands = nil
			for i := range ring {
				bands = append(bands, []board.Peg{ring[i], ring[(i+1)%k]})
			}
			bands = rapid.Permutation(bands).Draw(t, "order")
		}
		for range rapid.IntRange(0, 3).Draw(t, "bands on top") {
			i := rapid.IntRange(0, k-1).Draw(t, "side")
			line := append([]board.Peg{ring[i]}, b.Over(ring[i], ring[(i+1)%k])...)
			line = append(line, ring[(i+1)%k])
			from := rapid.IntRange(0, len(line)-2).Draw(t, "from")
			bands = append(bands, line[from:rapid.IntRange(from+2, len(line)).Draw(t, "to")])
		}
		f, err := board.NewFigure(b, bands)
		if err != nil {
			t.Fatal(err)
		}
		r := shape.Read(f, shape.Definitions{})
		if r.Polygon == nil || r.Facts != want.Facts() || !slices.Equal(r.Polygon.Corners(), want.Corners()) {
			t.Fatalf("%s: Read(%s) is %q with %+v, want %+v", b, f, r.Outline.Status, r.Facts, want.Facts())
		}
		if len(r.Reasons) == 0 || r.Bands() != len(bands) {
			t.Fatalf("%s: Read(%s) gives %d reasons, %d bands", b, f, len(r.Reasons), r.Bands())
		}
	})
}
