package lesson

import (
	"errors"
	"fmt"
	"slices"

	"github.com/goccy/go-yaml/ast"

	"pegwright/board"
	"pegwright/task"
	"pegwright/word"
)

// The limits of a plan.
const (
	MaxMinutes = 180 // of a step or a whole lesson
	MaxSteps   = 40
	MaxTasks   = 20 // in a make step
	MaxItems   = 8  // in a close step
	MinItems   = 3
	MaxBands   = 12
)

// Parse reads a plan from the text of its file. The error is a *PlanError.
func Parse(name, text string) (Plan, error) {
	r := &reader{name: name}
	root := r.open(text)
	if r.fault != nil {
		return Plan{}, r.fault
	}
	p := r.plan(root)
	if r.fault != nil {
		return Plan{}, r.fault
	}
	p.Name = name
	return p, nil
}

func (r *reader) plan(n ast.Node) Plan {
	var p Plan
	for _, f := range r.fields(n, "a plan", "title", "aim", "words", "older", "steps") {
		switch f.key {
		case "title":
			p.Title = r.text(f.value)
		case "aim":
			p.Aim = r.text(f.value)
		case "words":
			p.Words = r.words(f.value)
		case "older":
			p.Older = r.words(f.value)
		case "steps":
			p.Steps = r.steps(f.value)
		}
	}
	switch {
	case p.Title.EN == "":
		r.refuse(n, "the plan has no title", "add title: and a name for the lesson")
	case len(p.Steps) == 0:
		r.refuse(n, "the plan has no steps", "add steps: and a list of them")
	case p.Minutes() > MaxMinutes:
		r.refuse(n, fmt.Sprintf("the steps take %d minutes together", p.Minutes()), fmt.Sprintf("a lesson takes at most %d", MaxMinutes))
	}
	return p
}

// words reads a list of ids of words.
func (r *reader) words(n ast.Node) []string {
	var out []string
	for _, v := range r.list(n, "words") {
		id := r.word(v)
		if _, ok := word.Find(id); !ok {
			r.noWord(v, id)
		}
		if slices.Contains(out, id) {
			r.refuse(v, fmt.Sprintf("the word %s stands twice", id), "keep one of them")
		}
		out = append(out, id)
	}
	return out
}

func (r *reader) noWord(at ast.Node, id string) {
	mend := "the words are listed in the vocabulary, from point to dodecagon"
	if near, ok := word.Nearest(id); ok {
		mend = fmt.Sprintf("did you mean %s?", near)
	}
	r.refuse(at, fmt.Sprintf("there is no word %q", clip(id)), mend)
}

func (r *reader) steps(n ast.Node) []Step {
	var out []Step
	lastMake := 0
	for _, v := range r.list(n, "steps") {
		s := r.step(v)
		if s.Kind == Make {
			lastMake = len(s.Tasks)
		}
		if s.Kind == Gather && (s.Of < 1 || s.Of > lastMake) {
			r.refuse(v, fmt.Sprintf("gather is of task %d, and the make step before it has %d", s.Of, lastMake), "write of: and the number of one of its tasks")
		}
		if out = append(out, s); len(out) > MaxSteps {
			r.refuse(v, fmt.Sprintf("the plan has more than %d steps", MaxSteps), "leave some out")
		}
		if r.fault != nil {
			return nil
		}
	}
	return out
}

// keysOf lists the keys of each kind of step besides those that all have.
var keysOf = map[Kind][]string{
	Recall: {"words"},
	Teach:  {"words"},
	Make:   {"tasks"},
	Gather: {"of"},
	Sort:   {"word", "from"},
	Naming: {"words", "from"},
	Close:  {"items"},
	Note:   {},
}

func kindWords() []string {
	var out []string
	for _, k := range Kinds() {
		out = append(out, string(k))
	}
	return out
}

// step reads a step: its first key is its kind, with the minutes.
func (r *reader) step(n ast.Node) Step {
	kind, at := r.firstKey(n)
	if _, ok := keysOf[kind]; !ok {
		r.unknown(at, fmt.Sprintf("there is no kind of step %q", clip(string(kind))), string(kind), kindWords())
		return Step{}
	}
	s := Step{Kind: kind}
	if kind == Gather {
		s.Of = 1
	}
	known := append([]string{string(kind), "say", "talk", "expect"}, keysOf[kind]...)
	for _, f := range r.fields(n, "a "+string(kind)+" step", known...) {
		r.stepField(&s, f)
	}
	r.checkStep(n, &s)
	return s
}

func (r *reader) firstKey(n ast.Node) (Kind, ast.Node) {
	switch m := n.(type) {
	case *ast.MappingNode:
		if len(m.Values) > 0 {
			return Kind(r.word(m.Values[0].Key)), m.Values[0].Key
		}
	case *ast.MappingValueNode:
		return Kind(r.word(m.Key)), m.Key
	}
	r.refuse(n, "expected a step", "write it like recall: 6, with the minutes")
	return "", n
}

func (r *reader) stepField(s *Step, f field) {
	switch f.key {
	case string(s.Kind):
		s.Minutes = r.number(f.value, "minutes", 0, MaxMinutes)
	case "say":
		s.Say = r.text(f.value)
	case "talk":
		s.Talk = r.texts(f.value)
	case "expect":
		s.Expect = r.texts(f.value)
	case "words":
		s.Words = r.words(f.value)
	case "word":
		s.Words = r.words(f.value)
		if len(s.Words) > 1 {
			r.refuse(f.value, "figures are sorted by one word", "keep one of them")
		}
	case "tasks":
		s.Tasks = r.tasks(f.value)
	case "of":
		s.Of = r.number(f.value, "a task", 1, MaxTasks)
	case "from":
		s.From = Source(r.oneOf(f.value, "a source of figures", string(FromClass), string(FromAtlas)))
	case "items":
		s.Items = r.number(f.value, "items", MinItems, MaxItems)
	}
}

func (r *reader) oneOf(n ast.Node, what string, known ...string) string {
	text := r.word(n)
	if !slices.Contains(known, text) {
		r.unknown(n, fmt.Sprintf("%q is not %s", clip(text), what), text, known)
	}
	return text
}

// checkStep fills in what a step leaves out and refuses a step that lacks what
// it is about.
func (r *reader) checkStep(n ast.Node, s *Step) {
	if s.From == "" && (s.Kind == Sort || s.Kind == Naming) {
		s.From = FromClass
	}
	switch {
	case s.Kind == Make && len(s.Tasks) == 0:
		r.refuse(n, "the make step has no tasks", "add tasks: and a list of them")
	case s.Kind == Sort && len(s.Words) == 0:
		r.refuse(n, "the sort step has no word", "add word: and the word to sort by")
	case s.Kind == Sort && !sortable(s.Words[0]):
		r.refuse(n, fmt.Sprintf("figures cannot be sorted by %s", s.Words[0]), "take a word for a kind of polygon")
	case s.Kind == Close && s.Items == 0:
		s.Items = MinItems
	case s.Kind == Make && taskMinutes(s.Tasks) > s.Minutes:
		r.refuse(n, fmt.Sprintf("the tasks take %d minutes and the step %d", taskMinutes(s.Tasks), s.Minutes), "give the step more minutes or the tasks fewer")
	}
}

func taskMinutes(tasks []Task) int {
	sum := 0
	for _, t := range tasks {
		sum += t.Minutes
	}
	return sum
}

func (r *reader) tasks(n ast.Node) []Task {
	var out []Task
	for _, v := range r.list(n, "tasks") {
		if out = append(out, r.task(v)); len(out) > MaxTasks {
			r.refuse(v, fmt.Sprintf("a step has at most %d tasks", MaxTasks), "make two steps of it")
		}
		if r.fault != nil {
			return nil
		}
	}
	return out
}

func (r *reader) task(n ast.Node) Task {
	t := Task{Feedback: NoFeedback}
	fields := r.fields(n, "a task", "say", "board", "holds", "bands", "minutes", "feedback", "impossible", "because", "way-in", "stretch")
	for _, f := range fields {
		switch f.key {
		case "say":
			t.Say = r.text(f.value)
		case "board":
			t.Board = r.board(f.value)
		case "holds":
			t.Conditions = r.conditions(f.value)
		case "bands":
			t.Bands = r.number(f.value, "bands", 1, MaxBands)
		case "minutes":
			t.Minutes = r.number(f.value, "minutes", 1, MaxMinutes)
		case "feedback":
			t.Feedback = Feedback(r.oneOf(f.value, "a feedback", string(NoFeedback), string(CountFeedback), string(HintFeedback), string(AllFeedback)))
		case "impossible":
			t.Impossible = r.yes(f.value, f.key)
		case "because":
			t.Because = r.text(f.value)
		}
	}
	r.checkTask(n, t)
	// What these say depends on the board, which may stand after them.
	for _, f := range fields {
		switch {
		case r.fault != nil:
			return Task{}
		case f.key == "way-in":
			t.WayIn = r.wayIn(f.value, t)
		case f.key == "stretch":
			t.Stretch = r.stretch(f.value, t)
		}
	}
	return t
}

func (r *reader) checkTask(n ast.Node, t Task) {
	switch {
	case t.Say.EN == "":
		r.refuse(n, "the task has no words to the pupils", "add say: and what to make")
	case t.Board == nil:
		r.refuse(n, "the task has no board", "add board: square:5x5 or another")
	case len(t.Conditions) == 0:
		r.refuse(n, "the task has no conditions", "add holds: [sides=4] or others")
	case t.Impossible && t.Because.EN == "":
		r.refuse(n, "the task is meant to be impossible and does not say why", "add because: and the reason")
	case !t.Impossible && t.Because.EN != "":
		r.refuse(n, "the task says why it is impossible, and is not marked so", "add impossible: yes or leave because out")
	}
}

func (r *reader) board(n ast.Node) *board.Board {
	b, err := board.Parse(r.word(n))
	if err != nil {
		r.refuse(n, err.Error(), "write it like square:5x5, triangle:5 or ring:12")
	}
	return b
}

// conditions reads a list of conditions; a mistake in one is reported where it
// stands.
func (r *reader) conditions(n ast.Node) task.Conditions {
	var texts []string
	nodes := r.list(n, "conditions")
	for _, v := range nodes {
		text := r.word(v)
		if _, err := task.ParseCondition(text); err != nil {
			r.badCondition(v, err)
			return nil
		}
		texts = append(texts, text)
	}
	cs, err := task.Parse(texts)
	if err != nil {
		r.badCondition(n, err)
	}
	return cs
}

func (r *reader) badCondition(n ast.Node, err error) {
	var bad *task.ConditionError
	if errors.As(err, &bad) {
		r.refuse(n, fmt.Sprintf("condition %q: %s", bad.Text, bad.What), bad.Mend)
		return
	}
	r.refuse(n, err.Error(), "write it like sides=6")
}

func (r *reader) wayIn(n ast.Node, t Task) WayIn {
	var w WayIn
	set := 0
	for _, f := range r.fields(n, "a way in", "begin", "board", "word") {
		set++
		switch f.key {
		case "begin":
			figure, err := board.ParseFigure(t.Board, r.word(f.value))
			if err != nil {
				r.refuse(f.value, err.Error(), "write pegs in order, like A1 D1")
			} else if len(figure.Bands) == 0 {
				r.refuse(f.value, "nothing is begun", "write pegs in order, like A1 D1")
			}
			w.Begun = &figure
		case "board":
			w.Board = r.board(f.value)
		case "word":
			w.Word = r.word(f.value)
			if _, ok := word.Find(w.Word); !ok {
				r.noWord(f.value, w.Word)
			}
		}
	}
	if set != 1 {
		r.refuse(n, "a way in is one of begin, board and word", "keep one of them")
	}
	return w
}

func (r *reader) stretch(n ast.Node, t Task) Stretch {
	var s Stretch
	for _, f := range r.fields(n, "a stretch", "another", "largest", "also", "impossible", "say", "because") {
		switch goal := Goal(f.key); goal {
		case Another, Largest, Also, Impossible:
			if s.Goal != "" {
				r.refuse(f.at, fmt.Sprintf("a stretch is %s or %s, not both", s.Goal, goal), "keep one of them")
			}
			s.Goal = goal
			r.stretchGoal(&s, f)
		case "say":
			s.Say = r.text(f.value)
		default:
			s.Because = r.text(f.value)
		}
	}
	switch {
	case s.Goal == "":
		r.refuse(n, "the stretch has no goal", "add another: yes, largest: and an area, also: or impossible: and conditions")
	case s.Say.EN == "":
		r.refuse(n, "the stretch has no words to the pupils", "add say: and what to make")
	case (s.Goal == Impossible) != (s.Because.EN != ""):
		r.refuse(n, "a stretch says why exactly when it is impossible", "add because: and the reason, or leave it out")
	}
	if r.fault == nil && s.Goal != Impossible {
		if _, err := task.Parse(slices.Concat(t.Conditions, s.Conditions, s.Area).Texts()); err != nil {
			r.badCondition(n, err)
		}
	}
	return s
}

func (r *reader) stretchGoal(s *Stretch, f field) {
	switch s.Goal {
	case Another:
		if !r.yes(f.value, f.key) {
			r.refuse(f.value, "another: no says nothing", "leave it out")
		}
	case Largest:
		c, err := task.ParseCondition("area=" + r.word(f.value))
		if err != nil {
			r.badCondition(f.value, err)
		}
		s.Area = task.Conditions{c}
	default:
		s.Conditions = r.conditions(f.value)
	}
}

// sortable reports whether figures can be sorted by a word.
func sortable(id string) bool {
	w, ok := word.Find(id)
	return !ok || w.OfPolygons()
}
