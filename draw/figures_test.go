package draw

import (
	"pegwright/board"
	"pegwright/shape"
)

// known is a figure with its facts counted by hand or taken from a reference,
// not from package shape.
type known struct {
	name, board, bands      string
	rights, parallel, folds int
	classes                 string // sizes of the classes of equal sides, shortest first
}

// knownFigures are the worked figures of a 5 by 5 board, and some of others.
var knownFigures = []known{
	{"peg-rich right triangle", "square:5x5", "A1 E1 A5", 1, 0, 1, "2"},
	{"near-equilateral triangle", "square:5x5", "A1 B5 E2", 0, 0, 1, "2"},
	{"tilted right isosceles", "square:5x5", "A2 B5 E4", 1, 0, 1, "2"},
	{"near-right triangle", "square:5x5", "B1 E2 A5", 0, 0, 0, ""},
	{"square on its corner", "square:5x5", "C1 E3 C5 A3", 4, 2, 4, "4"},
	{"knight square", "square:5x5", "A2 B4 D3 C1", 4, 2, 4, "4"},
	{"rhombus", "square:5x5", "A1 B4 E5 D2", 0, 2, 2, "4"},
	{"flat diamond", "square:5x5", "A2 C1 E2 C3", 0, 2, 2, "4"},
	{"tilted rectangle", "square:5x5", "A2 B1 E4 D5", 4, 2, 2, "2 2"},
	{"rectangle", "square:5x5", "A1 E1 E3 A3", 4, 2, 2, "2 2"},
	{"parallelogram", "square:5x5", "A1 D1 E3 B3", 0, 2, 0, "2 2"},
	{"parallelogram with no level side", "square:5x5", "A2 C1 E3 C4", 0, 2, 0, "2 2"},
	{"kite", "square:5x5", "C1 E4 C5 A4", 0, 0, 1, "2 2"},
	{"dart", "square:5x5", "A1 C5 E1 C2", 0, 0, 1, "2 2"},
	{"isosceles trapezoid", "square:5x5", "A1 E1 D3 B3", 0, 1, 1, "2"},
	{"tilted trapezoid", "square:5x5", "A2 D5 D3 C2", 0, 1, 1, "2"},
	{"right trapezoid", "square:5x5", "A1 E1 C4 A4", 2, 1, 0, ""},
	{"house pentagon", "square:5x5", "A1 E1 E3 C5 A3", 3, 1, 1, "2 2"},
	{"dented pentagon", "square:5x5", "A1 E1 E5 C3 A5", 2, 1, 1, "2 3"},
	{"near-regular hexagon", "square:5x5", "B1 D1 E3 D5 B5 A3", 0, 3, 2, "2 4"},
	{"L hexagon", "square:5x5", "A1 E1 E3 C3 C5 A5", 5, 6, 1, "4 2"},
	{"convex heptagon", "square:5x5", "B1 D1 E2 E4 D5 B5 A3", 0, 1, 1, "2 3 2"},
	{"equiangular octagon", "square:5x5", "B1 D1 E2 E4 D5 B5 A4 A2", 0, 4, 4, "4 4"},
	{"plus", "square:5x5", "B1 C1 C2 D2 D3 C3 C4 B4 B3 A3 A2 B2", 8, 26, 4, "12"},
	{"triangle of three bands", "square:5x5", "A1 D1 / D1 D3 / D3 A1", 1, 0, 0, ""},
	{"hexagon on triangular pegs", "triangle:5", "B1 D1 D2 B4 A4 A2", 0, 3, 3, "3 3"},
	{"rectangle on staggered pegs", "staggered:5x5", "B1 D1 D3 B3", 4, 2, 2, "2 2"},
	{"regular triangle on a ring", "ring:12+centre", "1 5 9", 0, 0, 3, "3"},
	{"regular hexagon on a ring", "ring:24", "1 5 9 13 17 21", 0, 3, 6, "6"},
	{"regular dodecagon on a ring", "ring:12", "1 2 3 4 5 6 7 8 9 10 11 12", 0, 6, 12, "12"},
	{"right triangle on a ring", "ring:12", "1 7 10", 1, 0, 1, "2"},
}

// notPolygons are figures that come to no polygon.
var notPolygons = []known{
	{name: "empty", board: "square:5x5", bands: ""},
	{name: "bow-tie", board: "square:5x5", bands: "A1 E5 E1 A5"},
	{name: "bow-tie on a ring", board: "ring:12", bands: "1 6 3 9"},
	{name: "open path", board: "square:5x5", bands: "A1 C1 / C1 C3"},
	{name: "two pieces", board: "square:5x5", bands: "A1 C1 / C1 C3 / A4 E4 D5"},
	{name: "star of bands", board: "square:5x5", bands: "A1 E5 / A5 E1 / C1 C5 / A3 E3"},
	{name: "full triangle", board: "triangle:5", bands: "A1 C1 / B1 B4"},
}

func read(k known) shape.Reading {
	f := board.MustParseFigure(board.MustParse(k.board), k.bands)
	return shape.Read(f, shape.Definitions{})
}

var allBoards = []string{
	"square:2x2", "square:5x5", "square:12x12", "square:2x12", "staggered:2x2", "staggered:5x5", "staggered:12x12",
	"triangle:2", "triangle:5", "triangle:12", "ring:3", "ring:12", "ring:12+centre", "ring:36", "ring:36+centre",
}
