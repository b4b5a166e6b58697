package shape_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"pegwright/board"
	"pegwright/shape"
)

// ringOf returns pegs as a polygon of the geometry library.
func ringOf(b *board.Board, pegs []board.Peg) geom.Polygon {
	var xy []float64
	for i := range len(pegs) + 1 {
		x, y := b.At(pegs[i%len(pegs)])
		xy = append(xy, x, y)
	}
	return geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))})
}

// Random closed paths, most of them crossing: a general-purpose library must
// agree on which are valid and on their areas. It takes straight corners,
// which we do not, and decides in float64; so only the square lattice, whose
// coordinates it holds exactly, is compared on validity everywhere, and other
// boards on paths that we take.
func TestAgreesWithAGeometryLibrary(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	for _, description := range []string{"square:3x3", "square:5x5", "square:12x12", "staggered:6x6", "triangle:7", "ring:12+centre"} {
		b := board.MustParse(description)
		valid, invalid := 0, 0
		for range 4000 {
			pegs := make([]board.Peg, 3+random.IntN(5))
			for i, p := range random.Perm(b.Pegs())[:len(pegs)] {
				pegs[i] = board.Peg(p)
			}
			library := ringOf(b, pegs)
			p, ok := shape.NewPolygon(b, pegs)
			want := library.Validate() == nil && !hasStraightCorner(b, pegs)
			if b.Kind() == board.Square && ok != want || ok && !want {
				t.Fatalf("%s: NewPolygon(%v) = %v, the library says %v", b, b.Names(pegs), ok, library.Validate())
			}
			if !ok {
				invalid++
				continue
			}
			valid++
			if got, want := p.AreaFloat(), library.Area(); math.Abs(got-want) > 1e-9 {
				t.Fatalf("%s: area of %v = %v, the library says %v", b, b.Names(pegs), got, want)
			}
			if math.Abs(p.Area().Float()-p.AreaFloat()) > 1e-9 {
				t.Fatalf("%s: Area(%v) = %s, AreaFloat = %v", b, b.Names(pegs), p.Area(), p.AreaFloat())
			}
		}
		if valid < 500 || invalid < 500 {
			t.Errorf("%s: %d valid and %d other paths, want 500 or more of each", b, valid, invalid)
		}
	}
}

func hasStraightCorner(b *board.Board, pegs []board.Peg) bool {
	k := len(pegs)
	for i := range pegs {
		if b.Turn(pegs[i], pegs[(i+1)%k], pegs[(i+2)%k]) == 0 {
			return true
		}
	}
	return false
}
