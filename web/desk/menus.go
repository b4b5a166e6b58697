package desk

import (
	"slices"
	"strings"

	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
)

// choice is an entry of a menu.
type choice struct {
	Value, Words string
	Chosen       bool
}

// rowMenus is a condition as three menus.
type rowMenus struct {
	*say.Speaker
	N           int
	Counts      []choice
	Sizes       []choice
	Facts       []choice
	Kinds       []choice
	Comparisons []choice
	Value       string
}

// numberChoices is a menu of numbers, with a word for 0.
func numberChoices(s *say.Speaker, numbers []int, chosen int, id, none string) []choice {
	var out []choice
	for _, n := range numbers {
		words := s.Text(none)
		if n > 0 {
			words = s.Counted(id, n)
		}
		out = append(out, choice{itoa(n), s.Capital(words), n == chosen})
	}
	return out
}

// The properties by the menu that they stand in.
var (
	yesNo = []task.Property{task.Convex, task.Equilateral, task.Equiangular, task.Regular}
	sizes = []task.Property{task.Area, task.Perimeter}
)

// kindPrefix marks the names among the properties of a row.
const kindPrefix = "kind:"

// menusOf makes the menus of a row.
func menusOf(s *say.Speaker, n int, r row) rowMenus {
	m := rowMenus{Speaker: s, N: n, Value: r.Value}
	for _, p := range task.Properties() {
		if p == task.Kind || p == task.Bands {
			continue
		}
		c := choice{string(p), s.Text("property." + strings.ReplaceAll(string(p), "-", "_")), r.Property == string(p)}
		switch {
		case slices.Contains(yesNo, p):
			m.Facts = append(m.Facts, c)
		case slices.Contains(sizes, p):
			m.Sizes = append(m.Sizes, c)
		default:
			m.Counts = append(m.Counts, c)
		}
	}
	for _, name := range shape.AllNames() {
		value := kindPrefix + string(name)
		m.Kinds = append(m.Kinds, choice{value, s.Name(name), r.Property == value})
	}
	for _, c := range []task.Comparison{task.Equal, task.NotEqual, task.AtLeast, task.AtMost, task.MoreThan, task.LessThan} {
		m.Comparisons = append(m.Comparisons, choice{string(c), s.Text(comparisonIDs[c]), r.Comparison == string(c)})
	}
	return m
}

var comparisonIDs = map[task.Comparison]string{
	task.Equal: "comparison.equal", task.NotEqual: "comparison.not_equal", task.AtLeast: "comparison.at_least",
	task.AtMost: "comparison.at_most", task.MoreThan: "comparison.more_than", task.LessThan: "comparison.less_than",
}
