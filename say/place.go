package say

import (
	"math"
	"math/big"
	"strconv"

	"pegwright/board"
	"pegwright/exact"
	"pegwright/shape"
)

// Segment names a straight piece by its ends: "A1–D1".
func Segment(b *board.Board, p board.Segment) string {
	return b.Name(p.From) + "–" + b.Name(p.To)
}

func segments(b *board.Board, pieces []board.Segment) []string {
	out := make([]string, len(pieces))
	for i, p := range pieces {
		out[i] = Segment(b, p)
	}
	return out
}

// Degrees prints an angle: exactly where that is short, else to a tenth.
func Degrees(b *board.Board, a board.Angle) string {
	if d, ok := b.WholeDegrees(a); ok {
		return exact.DegreesText(d)
	}
	return strconv.FormatFloat(b.Degrees(a), 'f', 1, 64) + "°"
}

// Length prints the exact length of a straight piece.
func Length(b *board.Board, p board.Segment) string {
	return b.LengthNumber(b.Length(b.Along(p))).String()
}

// Spot says where a place is: a peg, or how far right and up from the bottom
// left peg. Between the pegs of a ring it is measured from the middle, in
// radii, to two places.
func (s *Speaker) Spot(b *board.Board, spot board.Spot) string {
	switch {
	case spot.OnPeg:
		return b.Name(spot.Peg)
	case spot.Across == nil:
		return s.text("spot.ring", with{"Across": s.across(hundredths(spot.X)), "Up": s.up(hundredths(spot.Y))})
	case b.Triangular():
		return s.text("spot.rows", with{"Across": s.across(spot.Across), "Up": s.upRows(spot.Up), "From": b.Name(0)})
	}
	return s.text("spot.square", with{"Across": s.across(spot.Across), "Up": s.up(spot.Up), "From": b.Name(0)})
}

func hundredths(x float64) *big.Rat {
	return big.NewRat(int64(math.Round(x*100)), 100)
}

func (s *Speaker) across(q *big.Rat) string { return s.amount("move.right", "move.left", q) }
func (s *Speaker) up(q *big.Rat) string     { return s.amount("move.up", "move.down", q) }

func (s *Speaker) amount(positive, negative string, q *big.Rat) string {
	id := positive
	if q.Sign() < 0 {
		id = negative
	}
	return s.text(id, with{"N": board.RatText(new(big.Rat).Abs(q))})
}

// upRows is up for places on the triangular lattice, which may be parts of a
// row.
func (s *Speaker) upRows(q *big.Rat) string { return s.amount("move.rows_up", "move.rows_down", q) }

// Fold names a line by the places where it leaves the figure.
func (s *Speaker) Fold(b *board.Board, line shape.FoldLine) string {
	return s.text("fold.line", with{"From": s.foldEnd(b, line.FromEdge), "To": s.foldEnd(b, line.ToEdge)})
}

func (s *Speaker) foldEnd(b *board.Board, edge board.Segment) string {
	if edge.From == edge.To {
		return b.Name(edge.From)
	}
	return s.text("fold.middle", with{"Side": Segment(b, edge)})
}

// heading is the direction of a straight piece on a lattice as a child counts
// it: the smallest whole steps across and up, running upward or to the right.
// On the triangular lattice across is in half steps and up is in rows.
type heading struct{ across, up int }

func headingOf(b *board.Board, p board.Segment) heading {
	a, hops := b.Along(p), b.Steps(b.Along(p))
	h := heading{int(a.X) / hops, int(a.Y) / hops}
	if b.Triangular() {
		h.across = 2*h.across + h.up
	}
	if h.up < 0 || h.up == 0 && h.across < 0 {
		h.across, h.up = -h.across, -h.up
	}
	return h
}

func (h heading) level() bool   { return h.up == 0 }
func (h heading) upright() bool { return h.across == 0 }

// move says a heading as counts: "right 3, up 1".
func (s *Speaker) move(b *board.Board, h heading) string {
	var parts []string
	if h.across != 0 {
		parts = append(parts, s.side(b, h.across))
	}
	if h.up != 0 {
		parts = append(parts, s.rise(b, h.up))
	}
	if len(parts) == 1 {
		return parts[0]
	}
	return s.text("move.both", with{"A": parts[0], "B": parts[1]})
}

func (s *Speaker) side(b *board.Board, across int) string {
	switch {
	case b.Triangular() && across < 0:
		return s.count("move.half_left", -across, nil)
	case b.Triangular():
		return s.count("move.half_right", across, nil)
	}
	return s.across(big.NewRat(int64(across), 1))
}

func (s *Speaker) rise(b *board.Board, up int) string {
	if b.Triangular() {
		return s.count("move.whole_rows_up", up, nil)
	}
	return s.up(big.NewRat(int64(up), 1))
}
