package lesson_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pegwright/board"
	"pegwright/lesson"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// draws makes random parts of plans.
type draws struct{ *rapid.T }

func pickOf[V any](d draws, label string, from ...V) V {
	return rapid.SampledFrom(from).Draw(d.T, label)
}

// text draws texts that YAML would take for something else: signs, numbers,
// words for yes and no, quotation marks.
func (d draws) text() lesson.Text {
	words := []string{"Make", "it", "- a", "yes", "no", "null", "12", "1.5", "true", "#", "x:", "key: value", `"`, `'`, `\`, "é", "¿Qué?", "[a]", "{b}", "&c", "*d", "!e", "|", ">", "%", "@", "`", "~", ",", "2024-01-02", "0x1F", "\u00a0z"}
	one := func(label string) string {
		return strings.TrimSpace(strings.Join(strings.Fields(strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 1, 5).Draw(d.T, label), " ")), " "))
	}
	t := lesson.Text{EN: one("en")}
	if rapid.Bool().Draw(d.T, "two languages") {
		t.ES = one("es")
	}
	return t
}

func (d draws) texts() []lesson.Text {
	var out []lesson.Text
	for range rapid.IntRange(0, 2).Draw(d.T, "texts") {
		out = append(out, d.text())
	}
	return out
}

func (d draws) words(least int) []string {
	out := rapid.SliceOfNDistinct(rapid.SampledFrom(word.IDs()), least, 3, rapid.ID[string]).Draw(d.T, "words")
	if len(out) == 0 {
		return nil
	}
	return out
}

func (d draws) conditions() task.Conditions {
	return task.MustParse(pickOf(d, "conditions", []string{"sides=4"}, []string{"sides>=3", "convex=no"}, []string{"kind!=square"}, []string{"area>=5/2"}, []string{"perimeter<2√5"}, []string{"segments=2", "parallel-pairs=1"})...)
}

func (d draws) task() lesson.Task {
	b := board.MustParse(pickOf(d, "board", "square:5x5", "triangle:5", "square:3x4", "staggered:4x4"))
	t := lesson.Task{Say: d.text(), Board: b, Conditions: d.conditions(), Feedback: pickOf(d, "feedback", lesson.NoFeedback, lesson.CountFeedback, lesson.HintFeedback, lesson.AllFeedback)}
	t.Bands = rapid.IntRange(0, lesson.MaxBands).Draw(d.T, "bands")
	t.Minutes = rapid.IntRange(0, 5).Draw(d.T, "minutes")
	if t.Impossible = rapid.Bool().Draw(d.T, "impossible"); t.Impossible {
		t.Because = d.text()
	}
	switch pickOf(d, "way in", 0, 1, 2, 3) {
	case 1:
		f := board.MustParseFigure(b, pickOf(d, "begun", "A1 B2", "A1 B1 / B1 B2"))
		t.WayIn.Begun = &f
	case 2:
		t.WayIn.Board = board.MustParse("square:3x3")
	case 3:
		t.WayIn.Word = d.words(1)[0]
	}
	t.Stretch = d.stretch()
	return t
}

func (d draws) stretch() lesson.Stretch {
	s := lesson.Stretch{Goal: pickOf(d, "goal", "", lesson.Another, lesson.Largest, lesson.Impossible)}
	switch s.Goal {
	case "":
		return s
	case lesson.Largest:
		s.Area = task.MustParse(pickOf(d, "area", "area=8", "area=7/2", "area=15/4√3"))
	case lesson.Impossible:
		s.Conditions, s.Because = d.conditions(), d.text()
	}
	s.Say = d.text()
	return s
}

func (d draws) step(tasksBefore int) lesson.Step {
	kinds := lesson.Kinds()
	if tasksBefore == 0 {
		kinds = slices.DeleteFunc(kinds, func(k lesson.Kind) bool { return k == lesson.Gather })
	}
	s := lesson.Step{Kind: pickOf(d, "kind", kinds...), Minutes: rapid.IntRange(0, 4).Draw(d.T, "minutes"), Talk: d.texts(), Expect: d.texts()}
	if rapid.Bool().Draw(d.T, "says") {
		s.Say = d.text()
	}
	switch s.Kind {
	case lesson.Recall, lesson.Teach:
		s.Words = d.words(0)
	case lesson.Naming:
		s.Words, s.From = d.words(0), pickOf(d, "from", lesson.FromClass, lesson.FromAtlas)
	case lesson.Sort:
		s.Words, s.From = []string{pickOf(d, "word", "square", "regular", "triangle")}, lesson.FromAtlas
	case lesson.Gather:
		s.Of = rapid.IntRange(1, tasksBefore).Draw(d.T, "of")
	case lesson.Close:
		s.Items = rapid.IntRange(lesson.MinItems, lesson.MaxItems).Draw(d.T, "items")
	case lesson.Make:
		for range rapid.IntRange(1, 3).Draw(d.T, "tasks") {
			s.Tasks = append(s.Tasks, d.task())
		}
		s.Minutes = 15
	}
	return s
}

func (d draws) plan() lesson.Plan {
	p := lesson.Plan{Name: "random", Title: d.text(), Words: d.words(0), Older: d.words(0)}
	if rapid.Bool().Draw(d.T, "aim") {
		p.Aim = d.text()
	}
	tasks := 0
	for range rapid.IntRange(1, 5).Draw(d.T, "steps") {
		s := d.step(tasks)
		if s.Kind == lesson.Make {
			tasks = len(s.Tasks)
		}
		p.Steps = append(p.Steps, s)
	}
	return p
}

// TestAnyPlanCanBeWrittenAndRead: Parse(p.String()) is p, whatever texts it has.
func TestAnyPlanCanBeWrittenAndRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draws{t}.plan()
		contradicts := slices.ContainsFunc(p.Tasks(), func(x lesson.Task) bool {
			_, err := task.Parse(slices.Concat(x.Conditions, x.Stretch.Area).Texts())
			return err != nil
		})
		if contradicts {
			t.Skip("a stretch contradicts its task")
		}
		again, err := lesson.Parse("random", p.String())
		if err != nil {
			t.Fatalf("%v\n%s", err, p)
		}
		if again.String() != p.String() {
			t.Fatalf("read again:\n%s\nwas\n%s", again, p)
		}
		if len(again.Steps) != len(p.Steps) || !reflect.DeepEqual(again.Title, p.Title) || !reflect.DeepEqual(again.AllWords(), p.AllWords()) {
			t.Fatalf("read again:\n%+v\nwas\n%+v", again, p)
		}
		for i, s := range p.Steps {
			if !reflect.DeepEqual(again.Steps[i].Talk, s.Talk) || again.Steps[i].Say != s.Say || again.Steps[i].Kind != s.Kind {
				t.Fatalf("step %d: %+v, was %+v", i+1, again.Steps[i], s)
			}
		}
	})
}

// TestEveryMisspeltKeyIsFound: in each line of the built-in lessons, a key with
// one letter too many is refused in that line, and the right one is offered.
func TestEveryMisspeltKeyIsFound(t *testing.T) {
	for _, p := range lesson.Unit() {
		lines := strings.Split(p.String(), "\n")
		for i, line := range lines {
			at := strings.Index(line, ":")
			key := strings.TrimLeft(line[:max(0, at)], " -")
			if key == "" || strings.ContainsAny(key, ` "`) {
				continue
			}
			wrong := slices.Clone(lines)
			wrong[i] = strings.Replace(line, key+":", key+"q:", 1)
			_, err := lesson.Parse("p", strings.Join(wrong, "\n"))
			if err == nil {
				t.Errorf("%s, line %d: %q is taken", p.Name, i+1, wrong[i])
				continue
			}
			bad := err.(*lesson.PlanError)
			column := strings.Index(line, key) + 1
			if bad.Line != i+1 || bad.Column != column || len(key) > 2 && !strings.Contains(bad.Mend, "did you mean "+key+"?") {
				t.Errorf("%s, line %d, column %d: %v", p.Name, i+1, column, err)
			}
		}
	}
}

func TestTextFallsBack(t *testing.T) {
	both, one := lesson.Text{EN: "yes", ES: "sí"}, lesson.Text{EN: "yes"}
	for _, c := range []struct {
		text           lesson.Text
		language, want string
	}{{both, "en", "yes"}, {both, "es", "sí"}, {both, "fr", "yes"}, {one, "es", "yes"}, {lesson.Text{}, "es", ""}} {
		if got := c.text.In(c.language); got != c.want {
			t.Errorf("%+v.In(%s) = %q, want %q", c.text, c.language, got, c.want)
		}
	}
}

func TestAskedHasTheLimitOnBands(t *testing.T) {
	x := lesson.Task{Board: board.MustParse("square:3x3"), Conditions: task.MustParse("sides=4"), Bands: 2}
	asked := x.Asked(shape.Definitions{TrapezoidExactlyOne: true})
	if got := asked.Conditions.Texts(); !slices.Equal(got, []string{"sides=4", "bands<=2"}) || !asked.Definitions.TrapezoidExactlyOne {
		t.Errorf("Asked = %v, %+v", got, asked.Definitions)
	}
	if len(x.Conditions) != 1 {
		t.Error("Asked changed the task")
	}
	if x.Bands = 0; len(x.Asked(shape.Definitions{}).Conditions) != 1 {
		t.Error("a task without a limit has one")
	}
}

func TestStretched(t *testing.T) {
	x := lesson.Task{Conditions: task.MustParse("sides=4"), Bands: 1}
	cases := []struct {
		stretch lesson.Stretch
		want    []string
	}{
		{lesson.Stretch{}, []string{"sides=4", "bands<=1"}},
		{lesson.Stretch{Goal: lesson.Another}, []string{"sides=4", "bands<=1"}},
		{lesson.Stretch{Goal: lesson.Largest, Area: task.MustParse("area=8")}, []string{"sides=4", "area=8", "bands<=1"}},
		{lesson.Stretch{Goal: lesson.Also, Conditions: task.MustParse("convex=no")}, []string{"sides=4", "convex=no", "bands<=1"}},
		{lesson.Stretch{Goal: lesson.Impossible, Conditions: task.MustParse("sides=9")}, []string{"sides=9", "bands<=1"}},
	}
	for _, c := range cases {
		x.Stretch = c.stretch
		if got := x.Stretched().Texts(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.stretch.Goal, got, c.want)
		}
	}
}

func TestPlanListsItsParts(t *testing.T) {
	p, err := lesson.Parse("p", `
title: T
words: [line, ray]
older: [point]
steps:
  - recall: 2
    words: [line, side]
  - make: 9
    tasks:
      - {say: A, board: "square:3x3", holds: [sides=3], way-in: {word: triangle}}
      - {say: B, board: "ring:6", holds: [sides=3]}
  - make: 5
    tasks:
      - {say: C, board: "square:3x3", holds: [sides=4]}
  - gather: 3
`)
	if err != nil {
		t.Fatal(err)
	}
	var boards []string
	for _, b := range p.Boards() {
		boards = append(boards, b.String())
	}
	if p.Minutes() != 19 || len(p.Tasks()) != 3 || !slices.Equal(boards, []string{"square:3x3", "ring:6"}) {
		t.Errorf("%d minutes, %d tasks, boards %v", p.Minutes(), len(p.Tasks()), boards)
	}
	if got := p.AllWords(); !slices.Equal(got, []string{"line", "ray", "point", "side", "triangle"}) {
		t.Errorf("AllWords() = %v", got)
	}
	if p.Steps[3].Of != 1 {
		t.Errorf("a gather step is of task %d", p.Steps[3].Of)
	}
	if _, ok := lesson.Find("no-such-lesson"); ok {
		t.Error("Find finds what is not there")
	}
}
