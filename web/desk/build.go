package desk

import (
	"html/template"
	"net/http"
	"slices"
	"strings"

	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/page"
)

// buildPage is the task builder.
type buildPage struct {
	page.Frame
	Path      string
	Form      form
	Fault     string
	Rows      []rowMenus
	Boards    []boardChoice
	Feedbacks []choice
	Bands     []choice
	Minutes   []choice
	Answer    answerPiece
	More      bool // there is room for another condition
}

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

var buildTemplate = page.Parse(files, "build.html", "answer.html")

// Build shows the task builder with the atlas's answer beside it.
func (d *Desk) Build(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if !s.Run.Open() {
		return see(w, r, s.path("/kept"))
	}
	f := readForm(r)
	if !r.Form.Has("words") {
		f.Rows = []row{{"sides", "=", "4"}}
		f.MaxBands = 1
		if s.Task != nil {
			f.Board = s.Task.Board
		}
	}
	if r.FormValue("more") != "" {
		f.Rows = append(f.Rows, row{})
	}
	return d.buildPage(w, r, http.StatusOK, s, f, "")
}

func (d *Desk) buildPage(w http.ResponseWriter, r *http.Request, status int, s *scene, f form, fault string) error {
	fr := d.frame(r, page.Speaker(r).Text("build.title"), page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID},
		page.Crumb{Name: s.Run.RoomWord, Address: s.path("")}, page.Crumb{Name: page.Speaker(r).Text("build.title")})
	fr.Scripts = append(fr.Scripts, page.Assets("build.js")...)
	if len(f.Rows) == 0 {
		f.Rows = []row{{}}
	}
	p := buildPage{
		Frame: fr, Path: s.path(""), Form: f, Fault: fault, Boards: boardChoices(fr.Speaker, f.Board), More: len(f.Rows) < mostRows,
		Answer: d.answerPiece(r, fr.Speaker, f, s.Class.Definitions),
	}
	for i, row := range f.Rows {
		p.Rows = append(p.Rows, menusOf(fr.Speaker, i+1, row))
	}
	for _, b := range feedbacks {
		p.Feedbacks = append(p.Feedbacks, choice{string(b), fr.Capital(fr.Text("feedback." + string(b))), b == f.Feedback})
	}
	p.Bands = numberChoices(fr.Speaker, []int{1, 2, 3, 4, 0}, f.MaxBands, "task.bands", "task.any_bands")
	p.Minutes = numberChoices(fr.Speaker, []int{0, 2, 3, 5, 8, 10, 15, 20, 30}, f.Minutes, "task.minutes", "task.no_limit")
	return buildTemplate.Write(w, status, p)
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

// answerPiece is the atlas's answer to the builder's question.
type answerPiece struct {
	*say.Speaker
	Fault     string
	Empty     bool // no condition yet
	Late      bool // the search was stopped by its time limit
	Possible  bool
	Headline  string
	Why       []whyLine
	Examples  []samplePicture
	Wrong     []samplePicture
	Nearest   []samplePicture
	Elsewhere string
}

type whyLine struct{ Words, Source string }

// samplePicture is a figure with a few words below it.
type samplePicture struct {
	Picture template.HTML
	Words   string
	Text    string // the figure as it is written
}

// Answer hands out the atlas's answer as a piece of the builder.
func (d *Desk) Answer(w http.ResponseWriter, r *http.Request) error {
	f := readForm(r)
	for _, text := range r.Form["condition"] {
		if c, err := task.ParseCondition(text); err == nil {
			f.Rows = append(f.Rows, rowOf(c))
		}
	}
	return buildTemplate.WritePiece(w, "answer", d.answerPiece(r, page.Speaker(r), f, d.definitionsOf(r)))
}

// definitionsOf returns the definitions of the class of a run, the product's
// own when none is named.
func (d *Desk) definitionsOf(r *http.Request) shape.Definitions {
	run, err := d.Store.Run(r.Context(), r.FormValue("run"))
	if err != nil {
		return shape.Definitions{}
	}
	c, err := d.Store.Class(r.Context(), run.ClassID)
	if err != nil {
		return shape.Definitions{}
	}
	return c.Definitions
}
