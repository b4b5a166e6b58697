package desk

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
)

// mostWords is how long the words of a task may be.
const mostWords = 400

// mostMinutes is how long a task may take.
const mostMinutes = 120

// form is a task as it is being built, read from the fields of a form.
type form struct {
	Words    string
	Board    string
	Rows     []row
	MaxBands int
	Minutes  int
	Feedback class.Feedback
	Model    string
}

// row is one condition by its three menus.
type row struct{ Property, Comparison, Value string }

// Text writes the row as the language of conditions has it. Names and facts
// that hold or do not need no value.
func (r row) Text() string {
	name, kind := strings.CutPrefix(r.Property, kindPrefix)
	op := task.Equal
	if r.Comparison == string(task.NotEqual) {
		op = task.NotEqual
	}
	switch {
	case kind:
		return string(task.Kind) + string(op) + name
	case slices.Contains(yesNo, task.Property(r.Property)) && op == task.NotEqual:
		return r.Property + "=no"
	case slices.Contains(yesNo, task.Property(r.Property)):
		return r.Property + "=yes"
	}
	return strings.TrimSpace(r.Property + " " + r.Comparison + " " + strings.TrimSpace(r.Value))
}

// Empty reports whether the row asks for nothing.
func (r row) Empty() bool { return r.Property == "" }

// readForm reads the fields of the task builder.
func readForm(r *http.Request) form {
	f := form{
		Words: strings.TrimSpace(r.FormValue("words")), Board: r.FormValue("board"), Model: strings.TrimSpace(r.FormValue("model")),
		Feedback: class.Feedback(r.FormValue("feedback")),
	}
	f.MaxBands, _ = strconv.Atoi(r.FormValue("bands"))
	f.Minutes, _ = strconv.Atoi(r.FormValue("minutes"))
	f.Minutes = min(max(f.Minutes, 0), mostMinutes)
	f.MaxBands = min(max(f.MaxBands, 0), 20)
	f.Rows = readRows(r.Form["property"], r.Form["comparison"], r.Form["value"])
	if f.Board == "" {
		f.Board = "square:5x5"
	}
	if !slices.Contains(feedbacks, f.Feedback) {
		f.Feedback = class.CountFeedback
	}
	return f
}

// feedbacks are the policies, in the order of the menu.
var feedbacks = []class.Feedback{class.NoFeedback, class.CountFeedback, class.HintFeedback, class.AllFeedback}

// mostRows is how many conditions a task may have.
const mostRows = 8

func readRows(properties, comparisons, values []string) []row {
	var rows []row
	for i := range min(len(properties), len(comparisons), len(values), mostRows) {
		rows = append(rows, row{properties[i], comparisons[i], values[i]})
	}
	return rows
}

// conditions returns the conditions of the rows that ask for something.
func (f form) conditions() []string {
	var out []string
	for _, r := range f.Rows {
		if !r.Empty() {
			out = append(out, r.Text())
		}
	}
	return out
}

// task makes a task of the form. The error is a sentence for the teacher.
func (f form) task(s *say.Speaker, d shape.Definitions) (class.Task, string) {
	b, err := board.Parse(f.Board)
	if err != nil {
		return class.Task{}, s.Text("build.fault_board")
	}
	cs, err := task.Parse(f.conditions())
	if err != nil {
		return class.Task{}, conditionFault(s, err)
	}
	if n := utf8.RuneCountInString(f.Words); n == 0 || n > mostWords {
		return class.Task{}, s.Text("build.fault_words", "Most", mostWords)
	}
	t := class.Task{
		Words: f.Words, Board: b.String(), Conditions: cs.Texts(), Definitions: d, MaxBands: f.MaxBands, Minutes: f.Minutes, Feedback: f.Feedback,
	}
	if f.Model != "" {
		m, err := board.ParseFigure(b, f.Model)
		if err != nil {
			return class.Task{}, s.Text("build.fault_model")
		}
		t.Model = m.String()
	}
	if err := t.Check(); err != nil {
		return class.Task{}, conditionFault(s, err)
	}
	return t, ""
}

// conditionFault says what is wrong with the conditions.
func conditionFault(s *say.Speaker, err error) string {
	var bad *task.ConditionError
	if errors.As(err, &bad) {
		return s.Text("build.fault_condition", "Condition", bad.Text)
	}
	return s.Text("build.fault_conditions")
}

// rowOf takes a condition apart into its menus.
func rowOf(c task.Condition) row {
	switch {
	case c.Property == task.Kind:
		return row{kindPrefix + string(c.Kind), string(c.Comparison), ""}
	case slices.Contains(yesNo, c.Property) && !c.Yes:
		return row{string(c.Property), string(task.NotEqual), ""}
	case slices.Contains(yesNo, c.Property):
		return row{string(c.Property), string(task.Equal), ""}
	}
	value := strings.TrimPrefix(c.String(), string(c.Property))
	return row{string(c.Property), string(c.Comparison), strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(value), string(c.Comparison)))}
}
