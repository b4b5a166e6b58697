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
	"pegwright/web/page"
)

// quickTask is a task on a card.
type quickTask struct {
	ID         string
	Conditions []string
}

// quickTasks are the cards, in the order shown.
var quickTasks = []quickTask{
	{"triangle", []string{"sides=3"}},
	{"quadrilateral", []string{"sides=4"}},
	{"pentagon", []string{"sides=5"}},
	{"hexagon", []string{"sides=6"}},
	{"octagon", []string{"sides=8"}},
	{"right_angle", []string{"right-angles>=1"}},
	{"fold_line", []string{"fold-lines>=1"}},
	{"parallel", []string{"parallel-pairs>=1"}},
	{"turns_in", []string{"convex=no"}},
	{"isosceles", []string{"kind=isosceles triangle"}},
	{"rectangle", []string{"kind=rectangle"}},
	{"rhombus", []string{"kind=rhombus"}},
}

// quickPiece is the drawer with the cards.
type quickPiece struct {
	*say.Speaker
	Path   string
	Cards  []quickCard
	Boards []boardChoice
}

type quickCard struct{ ID, Words string }

func (d *Desk) quickPiece(say *say.Speaker, s *scene) quickPiece {
	p := quickPiece{Speaker: say, Path: s.path("")}
	for _, q := range quickTasks {
		p.Cards = append(p.Cards, quickCard{q.ID, say.Text("quick." + q.ID)})
	}
	chosen := "square:5x5"
	if s.Task != nil {
		chosen = s.Task.Board
	}
	p.Boards = boardChoices(say, chosen)
	return p
}

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

// SetTask sets a task, from a card or from the builder; it takes the place of
// the one before.
func (d *Desk) SetTask(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if !s.Run.Open() {
		return page.Refuse(http.StatusConflict, "run.over")
	}
	f := readForm(r)
	if id := r.FormValue("quick"); id != "" {
		if err := f.quick(speakerOf(s.Class), id); err != nil {
			return err
		}
	}
	t, fault := f.task(page.Speaker(r), s.Class.Definitions)
	if fault != "" {
		return d.buildPage(w, r, http.StatusUnprocessableEntity, s, f, fault)
	}
	t.ID, t.RunID, t.Started = d.newID(), s.Run.ID, d.Now()
	if err := d.start(r, s, t); err != nil {
		return err
	}
	return see(w, r, s.path(""))
}

// quick fills the form from a card.
func (f *form) quick(s *say.Speaker, id string) error {
	i := slices.IndexFunc(quickTasks, func(q quickTask) bool { return q.ID == id })
	if i < 0 {
		return page.Refuse(http.StatusUnprocessableEntity, "quick.none")
	}
	f.Words, f.Rows, f.MaxBands = s.Text("quick."+id), nil, 1
	for _, c := range quickTasks[i].Conditions {
		parsed, err := task.ParseCondition(c)
		if err != nil {
			return err
		}
		f.Rows = append(f.Rows, rowOf(parsed))
	}
	return nil
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

// start sets a task and puts it on the front.
func (d *Desk) start(r *http.Request, s *scene, t class.Task) error {
	if err := d.Store.AddTask(r.Context(), t); err != nil {
		return err
	}
	d.Live.Clear(s.Run.ID)
	if err := d.Store.SetFront(r.Context(), s.Run.ID, class.FrontView{Kind: class.FrontTask}); err != nil {
		return err
	}
	d.tellAll(s)
	return nil
}

// EndTask ends the current task.
func (d *Desk) EndTask(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if s.Task != nil {
		if err := d.Store.EndTask(r.Context(), s.Task.ID, d.Now()); err != nil {
			return err
		}
		d.tellAll(s)
	}
	return see(w, r, s.path(""))
}

// ExtendTask gives the current task more time.
func (d *Desk) ExtendTask(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	minutes, err := strconv.Atoi(r.FormValue("minutes"))
	if err != nil || minutes < 1 || minutes > 30 {
		return page.Refuse(http.StatusUnprocessableEntity, "task.fault_minutes")
	}
	if s.Task != nil {
		if err := d.Store.ExtendTask(r.Context(), s.Task.ID, s.Task.Extension(d.Now(), minutes)); err != nil {
			return err
		}
		d.publish(s.Run.ID, "task")
		d.tellFront(s.Run.ID)
		d.tellSeats(s.Run.ID)
	}
	return see(w, r, s.path(""))
}

// mostAtFront is how many boards the front shows at once; more cannot be read
// from the back of a room.
const mostAtFront = 6

// SetFront chooses what the front shows: a kind, a showing added or taken off,
// or whether the standings are shown.
func (d *Desk) SetFront(w http.ResponseWriter, r *http.Request) error {
	s, err := d.bareScene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	view := s.Front
	if err := d.changeFront(r, s, &view); err != nil {
		return err
	}
	if err := d.Store.SetFront(r.Context(), s.Run.ID, view); err != nil {
		return err
	}
	d.tellFront(s.Run.ID)
	d.publish(s.Run.ID, "front")
	for _, id := range slices.Concat(s.Front.Showings, view.Showings) {
		if shown, err := d.Store.Showing(r.Context(), id); err == nil {
			d.publish(s.Run.ID, "tile-"+shown.PupilID)
		}
	}
	return see(w, r, orPath(r.FormValue("back"), s.path("")))
}

func (d *Desk) changeFront(r *http.Request, s *scene, view *class.FrontView) error {
	view.Showings = slices.Clone(view.Showings)
	if id := r.FormValue("add"); id != "" {
		shown, err := d.Store.Showing(r.Context(), id)
		if err != nil || shown.RunID != s.Run.ID {
			return errors.Join(err, class.ErrNotFound)
		}
		if view.Kind != class.FrontBoards {
			view.Showings, view.Standing = nil, false
		}
		view.Kind = class.FrontBoards
		view.Showings = append(slices.DeleteFunc(view.Showings, func(o string) bool { return o == id }), id)
		view.Showings = view.Showings[max(0, len(view.Showings)-mostAtFront):]
		return nil
	}
	if id := r.FormValue("remove"); id != "" {
		view.Showings = slices.DeleteFunc(view.Showings, func(o string) bool { return o == id })
		if len(view.Showings) == 0 && view.Kind == class.FrontBoards {
			view.Kind = class.FrontTask
		}
		return nil
	}
	if st := r.FormValue("standing"); st != "" {
		view.Standing = st == "yes"
		return nil
	}
	kind := class.FrontKind(r.FormValue("kind"))
	if !slices.Contains([]class.FrontKind{class.FrontBlank, class.FrontJoin, class.FrontTask, class.FrontBoards}, kind) {
		return page.Refuse(http.StatusUnprocessableEntity, "front.no_kind")
	}
	view.Kind = kind
	return nil
}
