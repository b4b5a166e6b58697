package say

import (
	"pegwright/board"
	"pegwright/shape"
)

// near counts the steps between two pegs of a ring, the shorter way.
func near(n int, a, c board.Peg) int {
	apart := (int(c) - int(a) + n) % n
	return min(apart, n-apart)
}

// chord is a straight piece of a ring with both ends on the ring; a piece from
// the centre is carried on to the other side, which only a ring with an even
// number of pegs has a peg for.
func chord(b *board.Board, p board.Segment) (long board.Segment, carried bool) {
	n := b.Columns()
	middle := board.Peg(n)
	switch {
	case p.From == middle:
		return board.Segment{From: opposite(n, p.To), To: p.To}, true
	case p.To == middle:
		return board.Segment{From: p.From, To: opposite(n, p.From)}, true
	}
	return p, false
}

func opposite(n int, p board.Peg) board.Peg { return board.Peg((int(p) + n/2) % n) }

// ringParallel: two chords are parallel exactly when as many steps lie between
// their ends on the one side as on the other.
func (s *Speaker) ringParallel(b *board.Board, p shape.Pair) string {
	n := b.Columns()
	first, carried1 := chord(b, p.First)
	second, carried2 := chord(b, p.Second)
	a, c := second.From, second.To
	if near(n, first.From, c) < near(n, first.From, a) {
		a, c = c, a
	}
	text := s.count("proof.ring_parallel", near(n, first.From, a), with{
		"A": b.Name(first.From), "B": b.Name(a), "C": b.Name(first.To), "D": b.Name(c),
	})
	return s.carried(b, text, first, carried1, second, carried2)
}

// carried puts in front that a piece from the centre was carried on.
func (s *Speaker) carried(b *board.Board, text string, first board.Segment, one bool, second board.Segment, two bool) string {
	if one {
		text = s.text("proof.ring_carried", with{"Piece": Segment(b, first), "Proof": text})
	}
	if two {
		text = s.text("proof.ring_carried", with{"Piece": Segment(b, second), "Proof": text})
	}
	return text
}

// ringSquare is why two pieces of a ring are at right angles. The angle
// between two chords is measured by the arcs between their ends: the half of
// their sum where the chords cross, the half of their difference where they do
// not (Euclid, Elements III.20–22).
func (s *Speaker) ringSquare(b *board.Board, p shape.Pair) string {
	n := b.Columns()
	middle := board.Peg(n)
	radius1 := p.First.From == middle || p.First.To == middle
	radius2 := p.Second.From == middle || p.Second.To == middle
	switch {
	case radius1 && radius2:
		a, c := rim(n, p.First), rim(n, p.Second)
		return s.count("proof.ring_quarter", near(n, a, c), with{"A": b.Name(a), "B": b.Name(c)})
	case radius1:
		return s.radiusSquare(b, rim(n, p.First), p.Second)
	case radius2:
		return s.radiusSquare(b, rim(n, p.Second), p.First)
	case p.Meeting == board.SharedEnd:
		at := sharedEnd(p)
		a, c := other(p.First, at), other(p.Second, at)
		return s.count("proof.ring_half", near(n, a, c), with{"A": b.Name(a), "B": b.Name(c)})
	}
	return s.chordsSquare(b, p)
}

// rim returns the end of a piece from the centre that is on the ring.
func rim(n int, p board.Segment) board.Peg {
	if int(p.From) == n {
		return p.To
	}
	return p.From
}

func other(p board.Segment, end board.Peg) board.Peg {
	if p.From == end {
		return p.To
	}
	return p.From
}

// radiusSquare: a piece from the centre is square to a chord exactly when its
// peg is as far from the one end of the chord as from the other.
func (s *Speaker) radiusSquare(b *board.Board, peg board.Peg, p board.Segment) string {
	return s.count("proof.ring_radius", near(b.Columns(), peg, p.From), with{
		"Peg": b.Name(peg), "A": b.Name(p.From), "B": b.Name(p.To),
	})
}

// chordsSquare is for chords that share no peg. Arcs are counted clockwise
// from the ends of the first chord to the next end of the second.
func (s *Speaker) chordsSquare(b *board.Board, p shape.Pair) string {
	n := b.Columns()
	steps := func(from, to board.Peg) int { return (int(to) - int(from) + n) % n }
	a, c := p.First.From, p.First.To
	d, e := p.Second.From, p.Second.To
	inside := func(q board.Peg) bool { return steps(a, q) < steps(a, c) }
	fill := with{"A": b.Name(a), "C": b.Name(c)}
	if inside(d) != inside(e) { // they cross
		if !inside(d) {
			d, e = e, d
		}
		fill["B"], fill["D"], fill["N"], fill["M"] = b.Name(d), b.Name(e), steps(a, d), steps(c, e)
		return s.text("proof.ring_crossing", fill)
	}
	if inside(d) { // go round on the side where the second chord is
		a, c = c, a
	}
	// Clockwise from c: first d, then e, then a.
	if steps(c, e) < steps(c, d) {
		d, e = e, d
	}
	fill["A"], fill["C"], fill["B"], fill["D"] = b.Name(a), b.Name(c), b.Name(d), b.Name(e)
	fill["N"], fill["M"] = steps(c, d), steps(e, a)
	return s.text("proof.ring_apart", fill)
}
