// Package text draws a figure for a terminal: bands in braille dots, corners
// as ●, pegs passed over as ○, other pegs as ·, with the letters and numbers
// of the pegs along the edges. It uses no colour.
package text

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"pegwright/board"
	"pegwright/shape"
)

// The signs on the board.
const (
	plainPeg  = '·'
	corner    = '●'
	passed    = '○'
	looseEnd  = '◆'
	crossMark = '×'
)

// Write draws f. A board of 5 by 5 pegs takes 18 lines of 36 columns; large
// boards are drawn smaller, so that all fit in 100 columns.
func Write(w io.Writer, f board.Figure) error {
	p := newPlan(f.Board)
	for i, band := range f.Bands {
		p.band(i, band)
	}
	p.pegs(shape.Trace(f))
	p.names()
	if _, err := io.WriteString(w, p.grid.String()); err != nil {
		return fmt.Errorf("text: %w", err)
	}
	return nil
}

// plan says where on the grid the pegs of a board lie.
type plan struct {
	board *board.Board
	grid  grid
	cells []cell // by peg
}

// cell is a place for one letter: columns from the left, rows from the top.
type cell struct{ column, row int }

// Spacing of pegs: on large boards every other size up.
const largeBoard = 8

func newPlan(b *board.Board) *plan {
	p := &plan{board: b, cells: make([]cell, b.Pegs())}
	if b.Kind() == board.Ring {
		p.layRing()
	} else {
		p.layRows()
	}
	return p
}

// labelSpace is the room for row numbers and a blank at the left.
const labelSpace = 3

func (p *plan) layRows() {
	b := p.board
	across, down := 8, 4 // braille has 2 by 4 dots to the letter, so this is square
	if b.Triangular() {
		across = 10 // so that rows stand closer than columns, 4 to 5
	}
	if b.Columns() > largeBoard || b.Rows() > largeBoard {
		across, down = across*3/4/2*2, 3
	}
	right := 0
	for peg := range p.cells {
		x, _ := b.At(board.Peg(peg))
		row, _ := b.Row(board.Peg(peg))
		p.cells[peg] = cell{labelSpace + int(math.Round(x*float64(across))), (b.Rows() - 1 - row) * down}
		right = max(right, p.cells[peg].column)
	}
	p.grid = newGrid(right+1, (b.Rows()-1)*down+2)
}

// manyPegs is the number of pegs from which a ring is drawn larger.
const manyPegs = 18

func (p *plan) layRing() {
	radius := 8 // rows; a column is half a row wide
	if p.board.Columns() > manyPegs {
		radius = 11
	}
	middle := cell{2*radius + 4, radius + 1} // room for the numbers
	for peg := range p.cells {
		x, y := p.board.At(board.Peg(peg))
		p.cells[peg] = cell{
			middle.column + int(math.Round(x*float64(2*radius))),
			middle.row - int(math.Round(y*float64(radius))),
		}
	}
	p.grid = newGrid(2*middle.column+1, 2*middle.row+1)
}

// patterns are the dots on and off along a band, so that bands differ.
var patterns = [][]bool{
	{true},
	{true, true, true, false, false},
	{true, false, false},
	{true, true, true, true, false, false, true, false, false},
}

func (p *plan) band(number int, band []board.Peg) {
	f := board.Figure{Board: p.board, Bands: [][]board.Peg{band}}
	for _, s := range f.Segments() {
		p.grid.line(p.cells[s.From], p.cells[s.To], patterns[number%len(patterns)])
	}
}

func (p *plan) pegs(o shape.Outline) {
	for peg, at := range p.cells {
		switch q := board.Peg(peg); {
		case slices.Contains(o.Corners, q):
			p.grid.put(at, corner)
		case slices.Contains(o.Ends, q):
			p.grid.put(at, looseEnd)
		case slices.ContainsFunc(o.Segments, func(s board.Segment) bool { return p.board.Between(s.From, q, s.To) }):
			p.grid.put(at, passed)
		default:
			p.grid.put(at, plainPeg)
		}
	}
	for _, problem := range o.Problems {
		if problem.Status == shape.Crossing && !problem.At.OnPeg {
			p.grid.put(p.cellAt(problem.At), crossMark)
		}
	}
}

// cellAt returns the place of a spot between pegs, reckoned from two pegs that
// lie apart both ways.
func (p *plan) cellAt(s board.Spot) cell {
	x0, y0 := p.board.At(0)
	c0 := p.cells[0]
	reckon := func(value, from float64, start int, coordinate func(board.Peg) (float64, int)) int {
		for peg := range p.cells {
			if v, c := coordinate(board.Peg(peg)); math.Abs(v-from) > 0.4 {
				return start + int(math.Round((value-from)/(v-from)*float64(c-start)))
			}
		}
		return start
	}
	return cell{
		reckon(s.X, x0, c0.column, func(q board.Peg) (float64, int) { x, _ := p.board.At(q); return x, p.cells[q].column }),
		reckon(s.Y, y0, c0.row, func(q board.Peg) (float64, int) { _, y := p.board.At(q); return y, p.cells[q].row }),
	}
}

func (p *plan) names() {
	b := p.board
	if b.Kind() == board.Ring {
		p.ringNumbers()
		return
	}
	for peg, at := range p.cells {
		row, column := b.Row(board.Peg(peg))
		if row == 0 {
			p.grid.put(cell{at.column, at.row + 1}, rune('A'+column))
		}
		if column == 0 {
			number := strconv.Itoa(row + 1)
			left := 0
			if b.Kind() == board.Triangle && row > 0 {
				left = at.column - labelSpace - 2 // clear of a band along the edge
			}
			p.grid.write(cell{left + 2 - len(number), at.row}, number)
		}
	}
}

// ringNumbers puts the number of each peg outside it.
func (p *plan) ringNumbers() {
	n := p.board.Columns()
	for peg := range n {
		x, y := p.board.At(board.Peg(peg))
		name := p.board.Name(board.Peg(peg))
		at := p.cells[peg]
		at.row -= int(math.Round(y * 1.3))
		at.column += int(math.Round(x * 2.6))
		if len(name) == 2 && x < 0.3 { // keep clear of the peg to the right
			at.column--
		}
		p.grid.write(at, name)
	}
	if p.board.HasCentre() {
		p.grid.put(p.cells[n], 'O')
	}
}

// grid is a sheet of letters with braille dots below them.
type grid struct {
	width, height int
	letters       []rune
	dots          []byte
}

func newGrid(width, height int) grid {
	return grid{width, height, make([]rune, width*height), make([]byte, width*height)}
}

func (g *grid) put(at cell, r rune) {
	if at.column >= 0 && at.column < g.width && at.row >= 0 && at.row < g.height {
		g.letters[at.row*g.width+at.column] = r
	}
}

func (g *grid) write(at cell, text string) {
	for i, r := range text {
		g.put(cell{at.column + i, at.row}, r)
	}
}

// The dots of a letter, two across and four down, are numbered by Unicode from
// the top left as bits (The Unicode Standard, Braille Patterns).
var dotBits = [4][2]byte{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

// line sets dots from the middle of one letter to the middle of another, on
// and off by the pattern.
func (g *grid) line(from, to cell, pattern []bool) {
	x, y := 2*from.column, 4*from.row+1
	dx, dy := 2*(to.column-from.column), 4*(to.row-from.row)
	steps := max(1, dx, -dx, dy, -dy)
	for k := 0; k <= steps; k++ {
		if pattern[k%len(pattern)] {
			g.dot(x+roundDiv(k*dx, steps), y+roundDiv(k*dy, steps))
		}
	}
}

func (g *grid) dot(x, y int) {
	if x >= 0 && y >= 0 && x/2 < g.width && y/4 < g.height {
		g.dots[y/4*g.width+x/2] |= dotBits[y%4][x%2]
	}
}

// roundDiv returns a/b rounded to the nearest whole number, halves up.
func roundDiv(a, b int) int { return int(math.Floor(float64(a)/float64(b) + 0.5)) }

// String returns the rows without blanks at their ends.
func (g *grid) String() string {
	var out strings.Builder
	for row := range g.height {
		var line strings.Builder
		for i := row * g.width; i < (row+1)*g.width; i++ {
			switch {
			case g.letters[i] != 0:
				line.WriteRune(g.letters[i])
			case g.dots[i] != 0:
				line.WriteRune(0x2800 + rune(g.dots[i]))
			default:
				line.WriteByte(' ')
			}
		}
		out.WriteString(strings.TrimRight(line.String(), " "))
		out.WriteByte('\n')
	}
	return out.String()
}
