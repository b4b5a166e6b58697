package say

import (
	"strconv"
	"strings"

	"pegwright/board"
	"pegwright/shape"
)

// Problem says where and why the bands make no polygon, as a sentence.
func (s *Speaker) Problem(b *board.Board, p shape.Problem) string {
	fill := with{"At": s.Spot(b, p.At), "Pieces": s.list(segments(b, p.Segments))}
	switch p.Status {
	case shape.Crossing, shape.Branching, shape.Touching:
		return s.count("problem."+string(p.Status), len(p.Segments), fill)
	}
	return s.text("problem."+key(string(p.Status)), fill)
}

// Describe tells a whole figure in words, for those who hear the page instead
// of seeing it. It says what a drawing of the figure shows.
func (s *Speaker) Describe(r shape.Reading) string {
	b := r.Figure.Board
	parts := []string{s.text("describe.board", with{"Board": s.Board(b)})}
	if r.Polygon == nil {
		return strings.Join(append(parts, s.describeOutline(b, r.Outline)...), " ")
	}
	p := r.Polygon
	parts = append(parts, s.text("describe.polygon", with{
		"Name": capital(s.AName(p.BestName(r.Definitions))), "Corners": s.list(b.Names(p.Corners())),
	}))
	if over := r.Outline.PassedOver; len(over) > 0 {
		parts = append(parts, s.count("describe.passed_over", len(over), with{"Pegs": s.list(b.Names(over))}))
	}
	parts = append(parts, s.describeSides(p), s.describeAngles(p), s.describeCounts(r.Facts))
	return strings.Join(parts, " ")
}

func (s *Speaker) describeOutline(b *board.Board, o shape.Outline) []string {
	if o.Status == shape.Empty {
		return []string{s.text("problem.empty", nil)}
	}
	out := []string{
		capital(s.Status(o.Status)) + ".",
		s.count("describe.pieces", len(o.Segments), with{"Pieces": s.atMost(20, segments(b, o.Segments))}),
	}
	for i, p := range o.Problems {
		if i == mostClauses {
			return append(out, capital(s.count("list.more", len(o.Problems)-i, nil))+".")
		}
		out = append(out, s.Problem(b, p))
	}
	return out
}

func (s *Speaker) describeSides(p *shape.Polygon) string {
	sides := make([]string, p.Sides())
	for i := range sides {
		sides[i] = s.text("describe.side", with{"Side": Segment(p.Board(), p.Side(i)), "Length": Length(p.Board(), p.Side(i))})
	}
	return s.text("describe.sides", with{"Sides": s.list(sides)})
}

func (s *Speaker) describeAngles(p *shape.Polygon) string {
	angles := make([]string, p.Sides())
	for i := range angles {
		angles[i] = s.text("describe.angle", with{"At": p.Board().Name(p.Corner(i)), "Degrees": Degrees(p.Board(), p.Angle(i))})
	}
	return s.text("describe.angles", with{"Angles": s.list(angles)})
}

func (s *Speaker) describeCounts(f shape.Facts) string {
	counts := []shape.Reason{
		{Fact: shape.FactRightAngles, Count: f.RightAngles},
		{Fact: shape.FactParallel, Count: f.ParallelPairs},
		{Fact: shape.FactPerpendicular, Count: f.PerpendicularPairs},
		{Fact: shape.FactFoldLines, Count: f.FoldLines},
	}
	words := make([]string, len(counts))
	for i, c := range counts {
		words[i] = s.Claim(c)
	}
	return capital(s.list(words)) + "."
}

// capital gives the first letter of a sentence its size.
func capital(text string) string {
	runes := []rune(text)
	return strings.ToUpper(string(runes[:1])) + string(runes[1:])
}

// Likeness says how close a figure comes to the regular one with as many
// sides.
func (s *Speaker) Likeness(f shape.Facts) string {
	share := strconv.FormatFloat(min(f.Likeness, 0.999), 'f', 3, 64)
	if f.Regular {
		share = "1"
	}
	return s.text("describe.likeness", with{
		"Share": share, "Sides": strconv.FormatFloat(100*f.SideSpread, 'f', 1, 64), "Angles": strconv.FormatFloat(f.AngleSpread, 'f', 1, 64),
	})
}
