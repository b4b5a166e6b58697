package report_test

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// workedTable are the worked figures of the project's reference file on the
// job, section 10 ("verified example figures"), in its own columns: name,
// pegs, lengths that occur, angles that occur, parallel pairs, fold lines,
// turn order, area, pegs on the band and inside.
const workedTable = `
right isosceles triangle | A1 E1 A5 | 4 5.66 | 90 45 | 0 | 1 | 1 | 8 | 12/3
acute isosceles triangle | A1 B5 E2 | 4.12 4.24 | 59 61.9 | 0 | 1 | 1 | 7.5 | 5/6
right isosceles triangle | A2 B5 E4 | 3.16 4.47 | 90 45 | 0 | 1 | 1 | 5 | 4/4
acute scalene triangle | B1 E2 A5 | 3.16 5 4.12 | 85.6 55.3 39.1 | 0 | 0 | 1 | 6.5 | 3/6
square | C1 E3 C5 A3 | 2.83 | 90 | 2 | 4 | 4 | 8 | 8/5
square | A2 B4 D3 C1 | 2.24 | 90 | 2 | 4 | 4 | 5 | 4/4
rhombus | A1 B4 E5 D2 | 3.16 | 126.9 53.1 | 2 | 2 | 2 | 8 | 4/7
rhombus | A2 C1 E2 C3 | 2.24 | 53.1 126.9 | 2 | 2 | 2 | 4 | 4/3
rectangle | A2 B1 E4 D5 | 1.41 4.24 | 90 | 2 | 2 | 2 | 6 | 8/3
rectangle | A1 E1 E3 A3 | 4 2 | 90 | 2 | 2 | 2 | 8 | 12/3
parallelogram | A1 D1 E3 B3 | 3 2.24 | 63.4 116.6 | 2 | 0 | 2 | 6 | 8/3
parallelogram | A2 C1 E3 C4 | 2.24 2.83 | 71.6 108.4 | 2 | 0 | 2 | 6 | 6/4
kite | C1 E4 C5 A4 | 3.61 2.24 | 67.4 82.9 126.9 | 0 | 1 | 1 | 8 | 4/7
dart | A1 C5 E1 C2 | 4.47 2.24 | 36.9 53.1 233.1 | 0 | 1 | 1 | 6 | 6/4
isosceles trapezoid | A1 E1 D3 B3 | 4 2.24 2 | 63.4 116.6 | 1 | 1 | 1 | 6 | 8/3
isosceles trapezoid | A2 D5 D3 C2 | 4.24 2 1.41 | 45 135 | 1 | 1 | 1 | 4 | 8/1
right trapezoid | A1 E1 C4 A4 | 4 3.61 2 3 | 90 56.3 123.7 | 1 | 0 | 1 | 9 | 10/5
pentagon | A1 E1 E3 C5 A3 | 4 2 2.83 | 90 135 | 1 | 1 | 1 | 12 | 12/7
pentagon | A1 E1 E5 C3 A5 | 4 2.83 | 90 45 270 | 1 | 1 | 1 | 12 | 16/5
hexagon | B1 D1 E3 D5 B5 A3 | 2 2.24 | 116.6 126.9 | 3 | 2 | 2 | 12 | 8/9
hexagon | A1 E1 E3 C3 C5 A5 | 4 2 | 90 270 | 6 | 1 | 1 | 12 | 16/5
octagon | B1 D1 E2 E4 D5 B5 A4 A2 | 2 1.41 | 135 | 4 | 4 | 4 | 14 | 12/9
dodecagon | B1 C1 C2 D2 D3 C3 C4 B4 B3 A3 A2 B2 | 1 | 90 270 | 26 | 4 | 4 | 5 | 12/0
`

func TestWorkedFigures(t *testing.T) {
	for _, row := range strings.Split(strings.TrimSpace(workedTable), "\n") {
		cells := strings.Split(row, " | ")
		t.Run(cells[1], func(t *testing.T) {
			r := reading("square:5x5", cells[1])
			if r.Status != "polygon" {
				t.Fatalf("status = %s", r.Status)
			}
			var lengths, angles []float64
			for _, s := range r.Sides {
				lengths = append(lengths, math.Round(s.LengthValue*100)/100)
			}
			for _, a := range r.Angles {
				angles = append(angles, a.Degrees)
			}
			onEdge, inside, _ := strings.Cut(cells[8], "/")
			checkText(t, "best_name", *r.BestName, cells[0])
			checkSet(t, "lengths", lengths, cells[2])
			checkSet(t, "angles", angles, cells[3])
			checkNumber(t, "parallel_pairs", float64(*r.ParallelPairs), cells[4])
			checkNumber(t, "fold_lines", float64(*r.FoldLines), cells[5])
			checkNumber(t, "turn_order", float64(*r.TurnOrder), cells[6])
			checkNumber(t, "area_value", *r.AreaValue, cells[7])
			checkNumber(t, "pegs_on_edge", float64(*r.PegsOnEdge), onEdge)
			checkNumber(t, "pegs_inside", float64(*r.PegsInside), inside)
		})
	}
}

func checkText(t *testing.T, field, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s = %q, want %q", field, got, want)
	}
}

func checkNumber(t *testing.T, field string, got float64, want string) {
	t.Helper()
	if w, _ := strconv.ParseFloat(want, 64); got != w {
		t.Errorf("%s = %v, want %s", field, got, want)
	}
}

// checkSet checks that the values that occur are the values of a list.
func checkSet(t *testing.T, field string, got []float64, want string) {
	t.Helper()
	wanted := map[float64]bool{}
	for _, w := range strings.Fields(want) {
		x, _ := strconv.ParseFloat(w, 64)
		wanted[x] = true
	}
	seen := map[float64]bool{}
	for _, g := range got {
		seen[g] = true
		if !wanted[g] {
			t.Errorf("%s has %v, want only %s", field, g, want)
		}
	}
	if len(seen) != len(wanted) {
		t.Errorf("%s = %v, want all of %s", field, got, want)
	}
}

// The bow-tie of the same table is no polygon and crosses at (2,2), which is
// the peg C3.
func TestWorkedBowTie(t *testing.T) {
	r := reading("square:5x5", "A1 E5 E1 A5")
	if r.Status != "crossing" || len(r.Problems) != 1 || r.Problems[0].At == nil || *r.Problems[0].At != (struct {
		Peg string  `json:"peg"`
		X   float64 `json:"x"`
		Y   float64 `json:"y"`
	}{"C3", 2, 2}) {
		t.Errorf("problems = %+v", r.Problems)
	}
}
