package say

import (
	"math/big"
	"strings"

	"pegwright/board"
	"pegwright/exact"
	"pegwright/shape"
)

// mostClauses bounds how many proofs one reason spells out.
const mostClauses = 4

// Reason says what a fact is and why, in one sentence without a full stop:
// "not regular: A1–D1 is 3 long, but D1–B2 is √5 long".
func (s *Speaker) Reason(b *board.Board, r shape.Reason) string {
	return s.text("reason.sentence", with{"Claim": s.Claim(r), "Grounds": s.Grounds(b, r)})
}

// Claim says what is true, without the why: "not regular", "2 right angles".
func (s *Speaker) Claim(r shape.Reason) string {
	switch r.Fact {
	case shape.FactSides, shape.FactRightAngles, shape.FactParallel, shape.FactPerpendicular, shape.FactFoldLines:
		if r.Count == 0 {
			return s.text("claim.no_"+string(r.Fact), nil)
		}
		return s.count("claim."+string(r.Fact), r.Count, nil)
	case shape.FactTurnOrder:
		return s.text("claim.turn_order", with{"Count": r.Count})
	case shape.FactArea:
		return s.text("claim.area", nil)
	case shape.FactConvex, shape.FactEquilateral, shape.FactEquiangular, shape.FactRegular:
		if !r.Holds {
			return s.text("claim.not_"+string(r.Fact), nil)
		}
		return s.text("claim."+string(r.Fact), nil)
	}
	if !r.Holds {
		return s.text("claim.not_name", with{"Name": s.AName(shape.Name(r.Fact))})
	}
	return s.AName(shape.Name(r.Fact))
}

// Grounds says why: "A1–D1 is 3 long, but D1–B2 is √5 long".
func (s *Speaker) Grounds(b *board.Board, r shape.Reason) string {
	switch r.Because {
	case shape.SidesEqual, shape.SidesDiffer, shape.AllSidesDiffer, shape.TwoSidesEqual,
		shape.NeighboursEqual, shape.NeighboursDiffer, shape.SidesAnglesEqual:
		return s.sideGrounds(b, r)
	case shape.AnglesEqual, shape.AnglesDiffer, shape.LargestAngle, shape.NotSquareCorner, shape.SquareCorners:
		return s.angleGrounds(b, r)
	case shape.ParallelSides:
		proofs := s.proofs(b, r.Pairs, s.parallelProof)
		if shape.Name(r.Fact) == shape.Parallelogram && !r.Holds {
			return s.count("reason.only_parallel", r.Count, with{"Proof": proofs})
		}
		return proofs
	case shape.PerpendicularEach:
		return s.proofs(b, r.Pairs, s.squareProof)
	case shape.FoldsOnto, shape.FoldsNowhere, shape.FoldsElsewhere:
		return s.foldGrounds(b, r)
	case shape.DefinedAway:
		return s.definedAway(r)
	}
	return s.countGrounds(b, r)
}

// countGrounds is for the grounds that are a count or need no figures.
func (s *Speaker) countGrounds(b *board.Board, r shape.Reason) string {
	switch r.Because {
	case shape.CornersCounted:
		text := s.count("reason.corners_counted", r.Count, nil)
		if len(r.Corners) > 0 {
			text += "; " + s.count("reason.passed_over", len(r.Corners), with{"Pegs": s.list(b.Names(r.Corners))})
		}
		return text
	case shape.CornersTurnIn:
		return s.count("reason.corners_turn_in", len(r.Corners), with{"Pegs": s.list(b.Names(r.Corners))})
	case shape.FitsTurned:
		return s.count("reason.fits_turned", r.Count, nil)
	case shape.PegsCounted:
		area := big.NewRat(int64(2*r.Count+r.Edge-2), 2)
		return s.text("reason.pegs_counted", with{"Inside": r.Count, "Edge": r.Edge, "Area": board.RatText(area)})
	case shape.WrongSideCount:
		return s.count("reason.wrong_side_count", r.Count, nil)
	}
	// no corner turns in, no square corner, no parallel sides, no
	// perpendicular, area measured
	return s.text("reason."+key(string(r.Because)), nil)
}

func (s *Speaker) sideGrounds(b *board.Board, r shape.Reason) string {
	lengths := make([]string, len(r.Sides))
	for i, side := range r.Sides {
		lengths[i] = Length(b, side)
	}
	names := segments(b, r.Sides)
	switch r.Because {
	case shape.SidesEqual:
		return s.count("reason.sides_equal", len(r.Sides), with{"Length": lengths[0]})
	case shape.SidesAnglesEqual:
		return s.count("reason.sides_angles_equal", len(r.Sides), with{"Length": lengths[0], "Degrees": evenAngle(len(r.Sides))})
	case shape.SidesDiffer:
		return s.text("reason.sides_differ", with{"A": names[0], "B": names[1], "L": lengths[0], "M": lengths[1]})
	case shape.TwoSidesEqual:
		return s.text("reason.two_sides_equal", with{"A": names[0], "B": names[1], "L": lengths[0]})
	case shape.NeighboursEqual:
		return s.text("reason.neighbours_equal", with{
			"A": names[0], "B": names[1], "L": lengths[0], "C": names[2], "D": names[3], "M": lengths[2],
		})
	case shape.AllSidesDiffer:
		return s.text("reason.all_sides_differ", with{"Lengths": s.list(lengths)})
	}
	return s.text("reason.neighbours_differ", with{"Lengths": s.list(lengths)})
}

// evenAngle is each angle of a polygon with k equal angles.
func evenAngle(k int) string {
	return exact.DegreesText(big.NewRat(int64(180*(k-2)), int64(k)))
}

func (s *Speaker) angleGrounds(b *board.Board, r shape.Reason) string {
	switch r.Because {
	case shape.AnglesEqual:
		return s.count("reason.angles_equal", len(r.Corners), with{"Degrees": evenAngle(len(r.Corners))})
	case shape.AnglesDiffer:
		fill := with{"A": b.Name(r.Corners[0]), "B": b.Name(r.Corners[1])}
		if len(r.Pairs) != 2 {
			return s.text("reason.angles_differ", fill)
		}
		fill["D"], fill["E"] = Degrees(b, interior(b, r.Pairs[0])), Degrees(b, interior(b, r.Pairs[1]))
		return s.text("reason.angles_differ_by", fill)
	case shape.LargestAngle:
		return s.largestAngle(b, r)
	case shape.NotSquareCorner:
		return s.notSquareProof(b, r.Pairs[0])
	}
	text := s.squareCorners(b, r.Pairs)
	if shape.Name(r.Fact) == shape.RightTrapezoid && !r.Holds {
		return s.count("reason.right_angles_found", r.Count, with{"Proof": text})
	}
	return text
}

// largestAngle names the largest angle of a triangle, and its size when the
// reason brings the arms along.
func (s *Speaker) largestAngle(b *board.Board, r shape.Reason) string {
	at := b.Name(r.Corners[0])
	if len(r.Pairs) == 1 {
		return s.text("reason.largest_angle", with{"At": at, "Degrees": Degrees(b, interior(b, r.Pairs[0]))})
	}
	switch {
	case !r.Holds:
		return s.text("reason.largest_angle_at", with{"At": at})
	case strings.HasPrefix(string(r.Fact), "acute"):
		return s.text("reason.largest_angle_acute", with{"At": at})
	}
	return s.text("reason.largest_angle_obtuse", with{"At": at})
}

// squareCorners groups the corners that have one proof.
func (s *Speaker) squareCorners(b *board.Board, arms []shape.Pair) string {
	groups := grouped(arms, func(p shape.Pair) string { return s.squareProof(b, p) })
	var clauses []string
	for _, g := range groups {
		var at []string
		for _, p := range g.pairs {
			at = append(at, b.Name(sharedEnd(p)))
		}
		clauses = append(clauses, s.count("proof.corners", len(at), with{"Pegs": s.list(at), "Proof": g.proof}))
	}
	return s.atMost(mostClauses, clauses)
}

// proofs groups the pairs that have one proof.
func (s *Speaker) proofs(b *board.Board, pairs []shape.Pair, prove func(*board.Board, shape.Pair) string) string {
	groups := grouped(pairs, func(p shape.Pair) string { return prove(b, p) })
	var clauses []string
	for _, g := range groups {
		var named []string
		for _, p := range g.pairs {
			named = append(named, s.text("proof.a_pair", with{"A": Segment(b, p.First), "B": Segment(b, p.Second)}))
		}
		clauses = append(clauses, s.text("proof.pairs", with{"Pairs": s.atMost(mostClauses, named), "Proof": g.proof}))
	}
	return s.atMost(mostClauses, clauses)
}

type group struct {
	proof string
	pairs []shape.Pair
}

// grouped sorts pairs by their proof, in the order in which proofs first come.
func grouped(pairs []shape.Pair, prove func(shape.Pair) string) []group {
	var out []group
	at := map[string]int{}
	for _, p := range pairs {
		proof := prove(p)
		i, known := at[proof]
		if !known {
			i = len(out)
			at[proof] = i
			out = append(out, group{proof: proof})
		}
		out[i].pairs = append(out[i].pairs, p)
	}
	return out
}

func (s *Speaker) foldGrounds(b *board.Board, r shape.Reason) string {
	if r.Because == shape.FoldsOnto {
		lines := make([]string, len(r.Folds))
		for i, f := range r.Folds {
			lines[i] = s.Fold(b, f)
		}
		return s.count("reason.folds_onto", len(lines), with{"Lines": s.atMost(mostClauses, lines)})
	}
	var clauses []string
	for _, l := range r.Landings {
		clauses = append(clauses, s.Landing(b, l))
	}
	if len(clauses) == 0 {
		return s.text("reason.folds_nowhere", nil)
	}
	return s.atMost(mostClauses, clauses)
}

// Landing says where a corner lands when the figure is folded along a line
// that is no fold line.
func (s *Speaker) Landing(b *board.Board, l shape.Landing) string {
	return s.text("fold.landing", with{
		"Line": s.Fold(b, l.Line), "Corner": b.Name(l.Corner), "Place": s.Spot(b, l.Lands),
	})
}

// definedAway names the definition of the class that leaves a name out.
func (s *Speaker) definedAway(r shape.Reason) string {
	switch shape.Name(r.Fact) {
	case shape.Kite:
		return s.text("reason.defined_kite", nil)
	case shape.Trapezoid, shape.RightTrapezoid, shape.IsoscelesTrapezoid:
		return s.text("reason.defined_trapezoid", nil)
	}
	return s.text("reason.defined_isosceles", nil)
}
