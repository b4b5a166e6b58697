package say

import (
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/message"

	"pegwright/atlas"
	"pegwright/task"
)

// Number prints a whole number with its thousands apart: "3,609,732".
func (s *Speaker) Number(n int64) string {
	tag := language.English
	if s.language == "es" {
		// Of American Spanish, so that comma and point mean what they mean
		// elsewhere in our sentences.
		tag = language.MustParse("es-MX")
	}
	return message.NewPrinter(tag).Sprintf("%d", n)
}

// Possible says whether and in how many ways a question can be answered.
func (s *Speaker) Possible(a atlas.Answer) string {
	fill := with{"Figures": s.Number(a.Count), "Different": s.Number(int64(a.Different)), "Seen": s.Number(a.Seen)}
	switch {
	case a.Possible && a.Complete:
		return s.count("answer.possible", plural(a.Count), fill)
	case a.Possible:
		return s.count("answer.possible_so_far", plural(a.Count), fill)
	case a.Complete:
		return s.text("answer.impossible", nil)
	}
	return s.text("answer.unknown", fill)
}

// plural returns a small number with the plural form of n. (Spanish has a form
// of its own for whole millions, which our sentences do not need.)
func plural(n int64) int {
	if n == 1 {
		return 1
	}
	return 2
}

// Conditions joins what is asked for.
func (s *Speaker) Conditions(cs task.Conditions) string {
	parts := make([]string, len(cs))
	for i, c := range cs {
		parts[i] = s.Condition(c)
	}
	return s.list(parts)
}

// Why says why there is no answer.
func (s *Speaker) Why(w atlas.Why) string {
	if w.Theorem != "" {
		return s.text("why."+key(string(w.Theorem)), nil)
	}
	fill := with{"Figures": s.Number(w.Seen), "Least": w.Sides.Least, "Most": w.Sides.Most}
	if w.Sides.Least == w.Sides.Most {
		return s.text("why.searched_one", fill)
	}
	return s.text("why.searched", fill)
}

// Near says in what a near miss misses.
func (s *Speaker) Near(n atlas.Near) string {
	return s.text("answer.near", with{"Figure": n.Figure.String(), "Fails": s.Conditions(n.Fails)})
}

// Elsewhere names the boards on which it can be done; empty for none.
func (s *Speaker) Elsewhere(a atlas.Answer) string {
	if len(a.Elsewhere) == 0 {
		return ""
	}
	boards := make([]string, len(a.Elsewhere))
	for i, b := range a.Elsewhere {
		boards[i] = s.Board(b) + " (" + b.String() + ")"
	}
	return s.text("answer.elsewhere", with{"Boards": strings.Join(boards, "; ")})
}
