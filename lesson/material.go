package lesson

import (
	"pegwright/board"
	"pegwright/lesson/wording"
)

// Room is what a class has: its pupils and, by layout, its boards. A layout that
// is not named is on paper for everyone.
type Room struct {
	Pupils int
	Boards map[string]int // by board.Board.String()
}

// Material is what one layout of boards needs for a class.
type Material struct {
	Board  *board.Board
	Boards int // to put out
	Paper  int // sheets of dot paper for those without a board; a whole class where there are no boards
	Pairs  int // boards that two or three share
	Threes int // of those, the boards that three share
	Bands  int // to put out
	Spares int // bands besides
}

// smallestSpare is the least number of spare bands; beyond that one in ten.
const smallestSpare = 3

// Materials counts what the lesson needs, a line for each layout of boards: a
// board for each pupil, or pairs where boards are short, or threes; beyond
// threes, paper.
func (p Plan) Materials(r Room) []Material {
	var out []Material
	for _, b := range p.Boards() {
		m := Material{Board: b}
		have := max(0, r.Boards[b.String()])
		m.Boards = min(have, r.Pupils)
		seated := min(r.Pupils, 3*m.Boards)
		shared := max(0, seated-m.Boards) // those who sit down at another's board
		m.Pairs = min(shared, m.Boards)
		m.Threes = shared - m.Pairs
		m.Paper = r.Pupils - seated
		m.Bands = m.Boards * p.bandsOn(b)
		if m.Bands > 0 {
			m.Spares = max(smallestSpare, (m.Bands+9)/10)
		}
		out = append(out, m)
	}
	return out
}

// bandsOn returns the most bands that a task on a board takes; a task without a
// limit is taken to need one.
func (p Plan) bandsOn(b *board.Board) int {
	most := 1
	for _, t := range p.Tasks() {
		if t.Board.String() == b.String() {
			most = max(most, t.Bands)
		}
	}
	return most
}

// Messages returns what to put out as messages, one for each thing there is any
// of.
func (m Material) Messages() []wording.Message {
	var out []wording.Message
	for _, c := range []wording.Message{
		{ID: "material.boards", Count: m.Boards},
		{ID: "material.pairs", Count: m.Pairs - m.Threes},
		{ID: "material.threes", Count: m.Threes},
		{ID: "material.bands", Count: m.Bands},
		{ID: "material.spares", Count: m.Spares},
		{ID: "material.paper", Count: m.Paper},
	} {
		if c.Count > 0 {
			out = append(out, c)
		}
	}
	return out
}

// Cautions lists the messages of the room wording that are shown with materials,
// on printed plans, and at the start of a make step (design.md, section 7).
func Cautions() []string {
	return []string{"caution.stretch", "caution.eyes", "caution.cracks", "caution.latex", "caution.small", "caution.space", "caution.school"}
}
