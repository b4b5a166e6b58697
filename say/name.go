package say

import (
	"strconv"
	"strings"

	"pegwright/board"
	"pegwright/shape"
)

// Name returns the word for a kind of figure: "rhombus", "rombo".
func (s *Speaker) Name(n shape.Name) string { return s.named("name", n) }

// AName returns the word with its article: "a rhombus", "un rombo".
func (s *Speaker) AName(n shape.Name) string { return s.named("a", n) }

func (s *Speaker) named(family string, n shape.Name) string {
	if sides, ok := strings.CutSuffix(string(n), "-gon"); ok {
		if count, err := strconv.Atoi(strings.TrimPrefix(sides, "regular ")); err == nil {
			if strings.HasPrefix(sides, "regular ") {
				return s.text(family+".regular_gon", with{"Count": count})
			}
			return s.text(family+".gon", with{"Count": count})
		}
	}
	return s.text(family+"."+key(string(n)), nil)
}

// key turns a word of the kernel into the last part of a message id.
func key(word string) string { return strings.ReplaceAll(word, " ", "_") }

// Names returns words for several kinds.
func (s *Speaker) Names(names []shape.Name) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = s.Name(n)
	}
	return out
}

// Status says in a few words what the bands come to.
func (s *Speaker) Status(status shape.Status) string {
	return s.text("status."+key(string(status)), nil)
}

// AngleKind returns the word for a kind of angle.
func (s *Speaker) AngleKind(k board.AngleKind) string {
	return s.text("angle."+k.String(), nil)
}

// Angle says what kind of angle there is at a peg, and how large it is.
func (s *Speaker) Angle(b *board.Board, at board.Peg, a board.Angle) string {
	return s.text("angle.at", with{"At": b.Name(at), "Kind": s.AngleKind(b.AngleKind(a)), "Degrees": Degrees(b, a)})
}

// Board says what board it is.
func (s *Speaker) Board(b *board.Board) string {
	switch {
	case b.Kind() == board.Square:
		return s.text("board.square", with{"Columns": b.Columns(), "Rows": b.Rows()})
	case b.Kind() == board.Staggered:
		return s.text("board.staggered", with{"Columns": b.Columns(), "Rows": b.Rows()})
	case b.Kind() == board.Triangle:
		return s.text("board.triangle", with{"Columns": b.Columns()})
	case b.HasCentre():
		return s.text("board.ring_centre", with{"Columns": b.Columns()})
	}
	return s.text("board.ring", with{"Columns": b.Columns()})
}
