// Package board holds the pegboards, the figures that bands make on them, and
// the exact geometry of pegs: which way three pegs turn, how long a side is,
// what angle two sides make, where two sides meet.
//
// Nothing here decides by a tolerance. Square boards count in whole numbers,
// staggered and triangular boards in Eisenstein integers (whole steps along
// two directions 60° apart), rings in whole steps of arc. Coordinates in
// float64 exist only for drawing. What a figure is called is decided in
// package shape; start reading here at Parse, then at ParseFigure.
package board

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Kind is one of the four layouts of pegs.
type Kind int

// The four layouts. Triangle and Staggered share the triangular lattice.
const (
	Square Kind = iota
	Staggered
	Triangle
	Ring
)

// The sizes that boards come in.
const (
	MinSide, MaxSide = 2, 12
	MinRing, MaxRing = 3, 36
	MaxPegs          = MaxSide * MaxSide
)

// Peg is the number of a peg on its board, from 0: row by row from the bottom
// left, or clockwise round a ring from the top with the centre last.
type Peg uint8

// Board is a layout of pegs. It does not change once made, and two boards of
// one description are interchangeable. Make one with Parse.
type Board struct {
	kind          Kind
	columns, rows int // on a ring, columns is the number of pegs round it
	centre        bool
	at            []Arrow // lattice: steps from the origin; unused on a ring
	names         []string
	byName        map[string]Peg
}

// Parse reads the description of a board: "square:5x5", "staggered:5x5",
// "triangle:5", "ring:12" or "ring:12+centre". Capital letters do not matter.
func Parse(text string) (*Board, error) {
	kind, size, found := strings.Cut(strings.ToLower(strings.TrimSpace(text)), ":")
	if !found {
		return nil, badBoard(text, "it has no size after a colon")
	}
	switch kind {
	case "square", "staggered":
		w, h, err := parsePair(size)
		if err != nil {
			return nil, badBoard(text, err.Error())
		}
		if kind == "square" {
			return newLattice(Square, w, h), nil
		}
		return newLattice(Staggered, w, h), nil
	case "triangle":
		n, err := parseCount(size, MinSide, MaxSide)
		if err != nil {
			return nil, badBoard(text, err.Error())
		}
		return newLattice(Triangle, n, n), nil
	case "ring":
		count, centre := strings.CutSuffix(size, "+centre")
		n, err := parseCount(count, MinRing, MaxRing)
		if err != nil {
			return nil, badBoard(text, err.Error())
		}
		return newRing(n, centre), nil
	}
	return nil, badBoard(text, fmt.Sprintf("there is no board of the kind %q", clip(kind)))
}

// MustParse is Parse for descriptions known to be good; it panics on others.
func MustParse(text string) *Board {
	b, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return b
}

func badBoard(text, what string) error {
	return fmt.Errorf("board %q: %s; write square:5x5, staggered:5x5, triangle:5, ring:12 or ring:12+centre", clip(text), what)
}

func parsePair(size string) (w, h int, err error) {
	ws, hs, found := strings.Cut(size, "x")
	if !found {
		return 0, 0, fmt.Errorf("the size %q is not two numbers with an x between", clip(size))
	}
	if w, err = parseCount(ws, MinSide, MaxSide); err != nil {
		return 0, 0, err
	}
	h, err = parseCount(hs, MinSide, MaxSide)
	return w, h, err
}

func parseCount(text string, least, most int) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || strings.HasPrefix(text, "+") {
		return 0, fmt.Errorf("%q is not a whole number of pegs", clip(text))
	}
	if n < least || n > most {
		return 0, fmt.Errorf("%d pegs is out of range, which is %d to %d", n, least, most)
	}
	return n, nil
}

// clip shortens text that came from outside, for use in a message.
func clip(text string) string {
	const most = 40
	runes := []rune(strings.ToValidUTF8(text, "\uFFFD"))
	if len(runes) <= most {
		return string(runes)
	}
	return string(runes[:most]) + "…"
}

func newLattice(kind Kind, w, h int) *Board {
	b := &Board{kind: kind, columns: w, rows: h}
	for row := range h {
		across := w
		if kind == Triangle {
			across = w - row
		}
		for column := range across {
			at := Arrow{int32(column), int32(row)}
			if kind == Staggered {
				// Row by row the second direction leans half a step to the
				// right; odd rows start half a step in, so two rows make one
				// whole step to take back.
				at.X -= int32(row / 2)
			}
			b.at = append(b.at, at)
			b.names = append(b.names, string(rune('A'+column))+strconv.Itoa(row+1))
		}
	}
	return b.indexed()
}

func newRing(n int, centre bool) *Board {
	b := &Board{kind: Ring, columns: n, rows: 1, centre: centre}
	for k := range n {
		b.names = append(b.names, strconv.Itoa(k+1))
	}
	if centre {
		b.names = append(b.names, "O")
	}
	return b.indexed()
}

func (b *Board) indexed() *Board {
	b.byName = make(map[string]Peg, len(b.names))
	for p, name := range b.names {
		b.byName[name] = Peg(p)
	}
	return b
}

// String returns the description that Parse reads.
func (b *Board) String() string {
	switch b.kind {
	case Square:
		return fmt.Sprintf("square:%dx%d", b.columns, b.rows)
	case Staggered:
		return fmt.Sprintf("staggered:%dx%d", b.columns, b.rows)
	case Triangle:
		return fmt.Sprintf("triangle:%d", b.columns)
	}
	if b.centre {
		return fmt.Sprintf("ring:%d+centre", b.columns)
	}
	return fmt.Sprintf("ring:%d", b.columns)
}

// Kind returns the layout of the board.
func (b *Board) Kind() Kind { return b.kind }

// Columns returns the pegs in the bottom row, or round the ring.
func (b *Board) Columns() int { return b.columns }

// Rows returns the number of rows; a ring has one.
func (b *Board) Rows() int { return b.rows }

// HasCentre reports whether the board is a ring with a centre peg.
func (b *Board) HasCentre() bool { return b.centre }

// Triangular reports whether the pegs lie on the triangular lattice.
func (b *Board) Triangular() bool { return b.kind == Staggered || b.kind == Triangle }

// Pegs returns the number of pegs.
func (b *Board) Pegs() int { return len(b.names) }

// Name returns the name of a peg: "C2", on a ring "7" or "O".
func (b *Board) Name(p Peg) string { return b.names[p] }

// Peg returns the peg of a name, in capitals as Name gives it.
func (b *Board) Peg(name string) (Peg, bool) {
	p, ok := b.byName[name]
	return p, ok
}

// Names returns the names of pegs, in order.
func (b *Board) Names(pegs []Peg) []string {
	out := make([]string, len(pegs))
	for i, p := range pegs {
		out[i] = b.names[p]
	}
	return out
}

// Row returns the row of a peg and its column in that row, from 0. On a ring
// the row is 0 and the column is the step round it.
func (b *Board) Row(p Peg) (row, column int) {
	if b.kind == Ring {
		return 0, int(p)
	}
	row = int(b.at[p].Y)
	column = int(b.at[p].X)
	if b.kind == Staggered {
		column += row / 2
	}
	return row, column
}

// At returns where a peg lies, for drawing: x to the right and y up, in peg
// spacings from the bottom left peg, or in radii from the middle of a ring.
func (b *Board) At(p Peg) (x, y float64) {
	switch {
	case b.kind == Ring && int(p) == b.columns:
		return 0, 0
	case b.kind == Ring:
		sin, cos := math.Sincos(2 * math.Pi * float64(p) / float64(b.columns))
		return sin, cos
	}
	return b.place(float64(b.at[p].X), float64(b.at[p].Y))
}

// place turns lattice steps into drawing coordinates.
func (b *Board) place(x, y float64) (float64, float64) {
	if b.kind == Square {
		return x, y
	}
	return x + y/2, y * math.Sqrt(3) / 2
}

// Part returns the largest part round the first peg, of the same kind, with at
// most so many pegs; nil when b itself is no larger, and for rings.
func (b *Board) Part(most int) *Board {
	if b.kind == Ring || b.Pegs() <= most {
		return nil
	}
	part := newLattice(b.kind, MinSide, MinSide)
	for side := MinSide + 1; side <= max(b.columns, b.rows); side++ {
		larger := newLattice(b.kind, min(side, b.columns), min(side, b.rows))
		if larger.Pegs() > most {
			break
		}
		part = larger
	}
	return part
}

// Widen returns pegs of a Part of b as pegs of b.
func (b *Board) Widen(part *Board, pegs []Peg) []Peg {
	out := make([]Peg, len(pegs))
	for i, p := range pegs {
		out[i] = b.byName[part.names[p]]
	}
	return out
}
