package shape_test

import (
	"strconv"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

func itoa(n int) string { return strconv.Itoa(n) }

func polygonOf(t testing.TB, b *board.Board, pegs []board.Peg) *shape.Polygon {
	t.Helper()
	p, ok := shape.NewPolygon(b, pegs)
	if !ok {
		t.Fatalf("%s: %v is no polygon", b, b.Names(pegs))
	}
	return p
}

// named returns the polygon of a band, such as "A1 D1 D3".
func named(t testing.TB, description, band string) *shape.Polygon {
	t.Helper()
	b := board.MustParse(description)
	return polygonOf(t, b, board.MustParseFigure(b, band).Bands[0])
}

// band writes a band as a text, from coordinates such as "(0,0)(3,1)" on a
// square board.
func band(t testing.TB, coordinates string) string {
	t.Helper()
	var names []string
	for _, pair := range strings.FieldsFunc(coordinates, func(r rune) bool { return r == '(' || r == ')' }) {
		x, y, ok := strings.Cut(pair, ",")
		column, err := strconv.Atoi(x)
		row, err2 := strconv.Atoi(y)
		if !ok || err != nil || err2 != nil {
			t.Fatalf("%q is not a list of coordinates", coordinates)
		}
		names = append(names, string(rune('A'+column))+itoa(row+1))
	}
	return strings.Join(names, " ")
}
