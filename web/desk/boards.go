package desk

import (
	"pegwright/board"
	"pegwright/say"
)

// boards are the boards that menus offer.
var boards = []string{
	"square:5x5", "square:3x3", "square:4x4", "square:6x6", "square:8x8", "square:10x10", "staggered:5x5", "triangle:5", "triangle:7",
	"ring:6", "ring:8", "ring:10", "ring:12", "ring:12+centre", "ring:24",
}

// boardChoice is a board in a menu.
type boardChoice struct {
	Value, Words string
	Chosen       bool
}

// boardChoices returns the menu of boards; one that is chosen and not in it is
// added.
func boardChoices(say *say.Speaker, chosen string) []boardChoice {
	var out []boardChoice
	found := false
	for _, text := range boards {
		found = found || text == chosen
		out = append(out, boardChoice{text, say.Capital(say.Board(board.MustParse(text))), text == chosen})
	}
	if b, err := board.Parse(chosen); err == nil && !found {
		out = append(out, boardChoice{b.String(), say.Capital(say.Board(b)), true})
	}
	return out
}
