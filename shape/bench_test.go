package shape_test

import (
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// The near-regular hexagon on 5×5 pegs, in every benchmark here, so that one
// run gives the ratios.
const benchHexagon = "B1 D1 E3 D5 B5 A3"

func benchPegs() (*board.Board, []board.Peg) {
	b := board.MustParse("square:5x5")
	return b, board.MustParseFigure(b, benchHexagon).Bands[0]
}

// BenchmarkFacts checks a hexagon and works out all its facts.
func BenchmarkFacts(b *testing.B) {
	on, pegs := benchPegs()
	b.ReportAllocs()
	for b.Loop() {
		if f, ok := shape.Measure(on, pegs); !ok || f.Sides != 6 {
			b.Fatal("not a hexagon")
		}
	}
}

// BenchmarkLibraryValidityAndArea lets a general-purpose geometry library
// check the same hexagon and work out its area, and nothing else.
func BenchmarkLibraryValidityAndArea(b *testing.B) {
	on, pegs := benchPegs()
	b.ReportAllocs()
	for b.Loop() {
		ring := ringOf(on, pegs)
		if ring.Validate() != nil || ring.Area() != 12 {
			b.Fatal("not a hexagon")
		}
	}
}

// BenchmarkRead traces the hexagon's band and gives facts, names and reasons.
func BenchmarkRead(b *testing.B) {
	on, _ := benchPegs()
	f := board.MustParseFigure(on, benchHexagon)
	b.ReportAllocs()
	for b.Loop() {
		if r := shape.Read(f, shape.Definitions{}); r.Polygon == nil {
			b.Fatal("not a hexagon")
		}
	}
}

// BenchmarkCongruent compares it with itself turned and flipped.
func BenchmarkCongruent(b *testing.B) {
	on, pegs := benchPegs()
	p, _ := shape.NewPolygon(on, pegs)
	q, _ := shape.NewPolygon(on, board.MustParseFigure(on, "A2 A4 C5 E4 E2 C1").Bands[0])
	b.ReportAllocs()
	for b.Loop() {
		if !shape.Congruent(p, q) {
			b.Fatal("not congruent")
		}
	}
}
