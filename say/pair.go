package say

import (
	"math/big"

	"pegwright/board"
	"pegwright/shape"
)

// Pair says how two straight pieces lie to each other: "A1–D1 and D1–D3:
// perpendicular, sharing the end D1".
func (s *Speaker) Pair(b *board.Board, p shape.Pair) string {
	return s.text("pair.sentence", with{
		"First": Segment(b, p.First), "Second": Segment(b, p.Second), "Words": s.list(s.pairWords(b, p)),
	})
}

func (s *Speaker) pairWords(b *board.Board, p shape.Pair) []string {
	var out []string
	switch {
	case p.Parallel:
		out = append(out, s.text("pair.parallel", nil))
	case p.OneLine:
		out = append(out, s.text("pair.one_line", nil))
	case p.Perpendicular:
		out = append(out, s.text("pair.perpendicular", nil))
	}
	switch p.Meeting {
	case board.SharedEnd:
		out = append(out, s.text("pair.shared_end", with{"At": b.Name(sharedEnd(p))}))
	case board.Crossing:
		out = append(out, s.text("pair.crossing", with{"At": s.Spot(b, b.CrossingPoint(p.First, p.Second))}))
	case board.Resting:
		out = append(out, s.text("pair.resting", nil))
	case board.Overlapping:
		out = append(out, s.text("pair.overlapping", nil))
	}
	if len(out) == 0 {
		out = append(out, s.text("pair.nothing", nil))
	}
	return out
}

func sharedEnd(p shape.Pair) board.Peg {
	if p.First.From == p.Second.From || p.First.From == p.Second.To {
		return p.First.From
	}
	return p.First.To
}

// parallelProof is why two pieces are parallel, in steps a child can count.
func (s *Speaker) parallelProof(b *board.Board, p shape.Pair) string {
	if b.Kind() == board.Ring {
		return s.ringParallel(b, p)
	}
	switch h := headingOf(b, p.First); {
	case h.level():
		return s.text("proof.both_level", nil)
	case h.upright():
		return s.text("proof.both_upright", nil)
	default:
		return s.text("proof.both_go", with{"Move": s.move(b, h)})
	}
}

// squareProof is why two pieces are at right angles.
//
// On a square board a step (a, b) is square to (−b, a). On the triangular
// lattice, with h half steps and r rows, a step is (h/2, r·√3/2), so two steps
// are square to each other exactly when h·h′ = −3·r·r′.
func (s *Speaker) squareProof(b *board.Board, p shape.Pair) string {
	if b.Kind() == board.Ring {
		return s.ringSquare(b, p)
	}
	first, second := headingOf(b, p.First), headingOf(b, p.Second)
	if first.across < second.across {
		first, second = second, first // the one that leans right comes first
	}
	if first.level() || second.level() {
		return s.text("proof.level_upright", nil)
	}
	fill := with{"First": s.move(b, first), "Second": s.move(b, second)}
	if b.Kind() == board.Square {
		return s.text("proof.swapped", fill)
	}
	fill["H1"], fill["H2"], fill["R1"], fill["R2"] = first.across, -second.across, first.up, second.up
	fill["Product"] = -first.across * second.across
	return s.text("proof.thirds", fill)
}

// notSquareProof is why the arms at a corner, which lead away from it in the
// order of the figure, make no square corner.
func (s *Speaker) notSquareProof(b *board.Board, p shape.Pair) string {
	at := p.First.From
	fill := with{"At": b.Name(at), "Degrees": Degrees(b, interior(b, p))}
	if b.Kind() != board.Ring {
		fill["First"], fill["Second"] = s.move(b, headingOf(b, p.First)), s.move(b, headingOf(b, p.Second))
		return s.text("proof.not_square", fill)
	}
	n := b.Columns()
	if int(at) == n || int(p.First.To) == n || int(p.Second.To) == n {
		return s.text("proof.not_square_angle", fill)
	}
	fill["A"], fill["B"] = b.Name(p.First.To), b.Name(p.Second.To)
	fill["Half"] = board.RatText(big.NewRat(int64(n), 2))
	return s.count("proof.not_square_ring", farSteps(n, at, p.First.To, p.Second.To), fill)
}

// interior returns the angle between the arms at a corner: from the way out
// round to the way in.
func interior(b *board.Board, arms shape.Pair) board.Angle {
	return b.Angle(b.Reverse(b.Along(arms.First)), b.Along(arms.Second))
}

// farSteps counts the steps between two pegs of a ring on the side away from a
// third: the arc that the angle there looks at.
func farSteps(n int, from, a, c board.Peg) int {
	clockwise := (int(c) - int(a) + n) % n
	if (int(from)-int(a)+n)%n < clockwise {
		return n - clockwise
	}
	return clockwise
}
