package demo

import (
	"io"

	"pegwright/class"
)

// tables are the table groups, four pupils at each.
var tables = []string{"Window", "Door", "Clock", "Shelf", "Sink", "Map", "Coats"}

// names are the pupils, with their characters. The table by the coats is away
// today, so that real seats find a place.
var names = []struct {
	nickname  string
	character Character
}{
	{"Alder", Quick},
	{"Bramble", Careful},
	{"Bryony", PegCounter},
	{"Clover", Copier},
	{"Curlew", Careful},
	{"Dunlin", NameSwapper},
	{"Elder", Quick},
	{"Fern", Slow},
	{"Finch", UprightSquares},
	{"Gorse", Quick},
	{"Heron", Careful},
	{"Iris", ConvexOnly},
	{"Jackdaw", PegCounter},
	{"Knot", Careful},
	{"Lark", Copier},
	{"Linnet", Dropper},
	{"Maple", Slow},
	{"Nettle", Quick},
	{"Osprey", Careful},
	{"Plover", ConvexOnly},
	{"Quince", UprightSquares},
	{"Rowan", Careful},
	{"Sorrel", PegCounter},
	{"Teal", Quick},
	{"Thistle", Careful},
	{"Vetch", Quick},
	{"Wren", NameSwapper},
	{"Yarrow", Careful},
}

// each is how many sit at a table.
const each = 4

// kestrels makes the pupils of the class.
func kestrels(random io.Reader, classID string) []class.Pupil {
	out := make([]class.Pupil, len(names))
	for i, n := range names {
		out[i] = class.Pupil{ID: class.NewID(random), ClassID: classID, Number: i + 1, Nickname: n.nickname, Group: tables[i/each]}
	}
	return out
}

// played gives pupils their characters, by nickname. Everyone looks at the
// board of the one before them at the table; pupils whom someone added have no
// character and stay away.
func played(pupils []class.Pupil) []Pupil {
	out := make([]Pupil, len(pupils))
	for i, p := range pupils {
		out[i] = Pupil{Pupil: p, Absent: true}
		for _, n := range names {
			if n.nickname == p.Nickname {
				out[i].Character, out[i].Absent = n.character, p.Group == tables[len(tables)-1]
			}
		}
		if i > 0 && pupils[i-1].Group == p.Group {
			out[i].Beside = out[i-1].ID
		}
	}
	return out
}

// lesson is a lesson that was taught.
type lesson struct {
	daysAgo int
	tasks   []class.Task
}

// taught are the lessons before today's.
var taught = []lesson{
	{9, []class.Task{
		onFive("Make a triangle.\nHere is one. Make a different one.", class.CountFeedback, "A1 E1 C4", "sides=3"),
		onFive("Make a triangle with one square corner.", class.HintFeedback, "", "sides=3", "right-angles=1"),
	}},
	{6, []class.Task{
		onFive("Make a figure with four sides.\nOne corner turns in.", class.HintFeedback, "", "sides=4", "convex=no"),
		onFive("Make a square.\nMake one that nobody else has.", class.NoFeedback, "", "kind=square"),
	}},
	{2, []class.Task{
		onFive("Make a pentagon.", class.CountFeedback, "", "sides=5"),
		heptagon,
	}},
}

// heptagon is on a smaller board, which has thousands of them all the same.
var heptagon = class.Task{
	Words: "Make a heptagon.", Board: "square:4x4", Conditions: []string{"sides=7"}, Definitions: polygons,
	MaxBands: 1, Minutes: 10, Feedback: class.CountFeedback,
}

// today is the task that has just been set.
var today = class.Task{
	Words: "Make a hexagon.\nMake one that nobody else has.", Board: "square:5x5",
	Conditions: []string{"sides=6"}, Definitions: polygons, MaxBands: 1, Minutes: 10, Feedback: class.HintFeedback,
}

// onFive is a task on a board of five by five pegs.
func onFive(words string, feedback class.Feedback, model string, conditions ...string) class.Task {
	return class.Task{
		Words: words, Board: "square:5x5", Conditions: conditions, Definitions: polygons,
		MaxBands: 1, Minutes: 10, Feedback: feedback, Model: model,
	}
}
