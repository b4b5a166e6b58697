package say

import (
	"pegwright/board"
	"pegwright/shape"
)

// worked are the worked figures of the project's reference file on the job,
// section 10, and the plus of its section 0, with the figure that is none.
var worked = map[string]string{
	"peg-rich right triangle":      "A1 E1 A5",
	"near-equilateral":             "A1 B5 E2",
	"tilted right isosceles":       "A2 B5 E4",
	"near-right":                   "B1 E2 A5",
	"square on corner":             "C1 E3 C5 A3",
	"knight square":                "A2 B4 D3 C1",
	"rhombus":                      "A1 B4 E5 D2",
	"flat diamond":                 "A2 C1 E2 C3",
	"tilted rectangle":             "A2 B1 E4 D5",
	"rectangle":                    "A1 E1 E3 A3",
	"parallelogram":                "A1 D1 E3 B3",
	"parallelogram, no level side": "A2 C1 E3 C4",
	"kite":                         "C1 E4 C5 A4",
	"dart":                         "A1 C5 E1 C2",
	"isosceles trapezoid":          "A1 E1 D3 B3",
	"same, tilted":                 "A2 D5 D3 C2",
	"right trapezoid":              "A1 E1 C4 A4",
	"house pentagon":               "A1 E1 E3 C5 A3",
	"dented pentagon":              "A1 E1 E5 C3 A5",
	"near-regular hexagon":         "B1 D1 E3 D5 B5 A3",
	"L hexagon":                    "A1 E1 E3 C3 C5 A5",
	"convex heptagon":              "B1 D1 E2 E4 D5 B5 A3",
	"equiangular octagon":          "B1 D1 E2 E4 D5 B5 A4 A2",
	"plus":                         "B1 C1 C2 D2 D3 C3 C4 B4 B3 A3 A2 B2",
	"bow-tie":                      "A1 E5 E1 A5",
}

// elsewhere are figures of other boards and of the other statuses.
var elsewhere = [][2]string{
	{"square:5x5", ""},
	{"square:5x5", "A1 D1 / D1 D3"},
	{"square:5x5", "A1 E1 / C1 C3"},
	{"square:5x5", "A1 B1 B2 / D4 E4 E5"},
	{"square:5x5", "A1 B1 B2 / B2 C2 C3"},
	{"square:5x5", "A1 E1 / A2 E3 / B2 C4"},
	{"square:5x5", "A1 D2 C5"},
	{"square:5x5", "A1 C2 C4 A3"},
	{"square:5x5", "A1 B2 C3 / A3 C1"},
	{"staggered:5x5", "A1 C1 B3"},
	{"staggered:5x5", "A1 C1 C3 A3"},
	{"staggered:5x5", "A1 B2 B3"},
	{"staggered:5x5", "A1 D1 E2 A3"},
	{"staggered:5x5", "A1 E1 B2 C5"},
	{"triangle:6", "A1 D1 C3 A3"},
	{"triangle:6", "B1 D1 D2 B4 A4 A2"},
	{"triangle:6", "A1 F1 A6"},
	{"ring:12", "1 4 7 10"},
	{"ring:12", "1 3 5 7 9 11"},
	{"ring:12", "1 5 9"},
	{"ring:12", "1 2 6 9"},
	{"ring:12", "1 4 / 6 9 / 2 8"},
	{"ring:12", "1 7 / 4 10"},
	{"ring:9", "1 4 6 7"},
	{"ring:5", "1 2 3 4 5"},
	{"ring:12+centre", "1 4 O"},
	{"ring:12+centre", "1 5 9 O"},
	{"ring:12+centre", "O 3 5 8"},
	{"ring:12+centre", "O 1 / 3 11 / O 4"},
	{"ring:36", "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15"},
	{"ring:13", "1 2 3 4 5 6 7 8 9 10 11 12 13"},
}

var definitions = []shape.Definitions{
	{},
	{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true},
}

// corpus returns all figures above.
func corpus() []board.Figure {
	five := board.MustParse("square:5x5")
	var out []board.Figure
	for _, text := range worked {
		out = append(out, board.MustParseFigure(five, text))
	}
	for _, e := range elsewhere {
		out = append(out, board.MustParseFigure(board.MustParse(e[0]), e[1]))
	}
	return out
}

// everyReason calls visit with every reason, for and against, of the corpus.
func everyReason(visit func(b *board.Board, r shape.Reason)) {
	for _, f := range corpus() {
		for _, d := range definitions {
			reading := shape.Read(f, d)
			if reading.Polygon == nil {
				continue
			}
			for _, r := range reading.Reasons {
				visit(f.Board, r)
			}
			for _, n := range shape.AllNames() {
				visit(f.Board, reading.Polygon.WhyName(n, d))
			}
		}
	}
}
