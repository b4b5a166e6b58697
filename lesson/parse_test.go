package lesson_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"pegwright/lesson"
)

// short is the shortest good plan.
const short = `title: T
steps:
  - note: 1
`

func TestParseReadsWhatStringWrites(t *testing.T) {
	for _, p := range lesson.Unit() {
		again, err := lesson.Parse(p.Name, p.String())
		if err != nil {
			t.Errorf("%v\n%s", err, p.String())
			continue
		}
		if !reflect.DeepEqual(again, p) {
			t.Errorf("%s changes when written and read again:\n%s", p.Name, p.String())
		}
	}
}

func TestParseTakesOneLanguageAndFoldedText(t *testing.T) {
	p, err := lesson.Parse("mine", `
title: >
  A long
  title
words: triangle # a single word
steps:
  - {sort: 5, word: triangle}
  - make: 5
    tasks:
      - {say: "Make it: now", board: "square:3x3", holds: sides=3}
`)
	if err != nil {
		t.Fatal(err)
	}
	if p.Title.In("es") != "A long title" || p.Steps[0].From != lesson.FromClass || p.Tasks()[0].Say.EN != "Make it: now" || p.Tasks()[0].Feedback != lesson.NoFeedback {
		t.Errorf("%+v", p)
	}
}

// TestParseRefuses: one sentence with line, column, what was expected, and the
// nearest word.
func TestParseRefuses(t *testing.T) {
	make := "title: T\nsteps:\n  - make: 9\n    tasks:\n      - say: S\n        board: square:3x3\n        holds: [sides=3]\n"
	cases := []struct{ name, text, want string }{
		{"nothing", "", "p: the file is empty; a plan has a title, words and steps"},
		{"only a comment", "# hello\n", "p: the file is empty; a plan has a title, words and steps"},
		{"not YAML", "title: [T", "p:1:8: "},
		{"not text", "title: \xff", "p: the file is not text in UTF-8; save it as plain text"},
		{"a list", "- a\n- b\n", "p:1:1: expected a plan with keys such as title; write title: and a value"},
		{"no title", "steps:\n  - note: 1\n", "p:1:1: the plan has no title; add title: and a name for the lesson"},
		{"no steps", "title: T\n", "p:1:1: the plan has no steps; add steps: and a list of them"},
		{"an unknown key", "titel: T\n", `p:1:1: a plan has no key "titel"; did you mean title?`},
		{"a wrong step", "title: T\nsteps:\n  - maek: 5\n", `p:3:5: there is no kind of step "maek"; did you mean make?`},
		{"a step that is no step", "title: T\nsteps:\n  - 5\n", "p:3:5: expected a step; write it like recall: 6, with the minutes"},
		{"minutes in words", "title: T\nsteps:\n  - note: five\n", `p:3:11: "five" is no number of minutes; write a whole number from 0 to 180`},
		{"too many minutes", "title: T\nsteps:\n  - note: 181\n", `p:3:11: "181" is no number of minutes; write a whole number from 0 to 180`},
		{"negative minutes", "title: T\nsteps:\n  - note: -1\n", `p:3:11: "-1" is no number of minutes; write a whole number from 0 to 180`},
		{"too long together", "title: T\nsteps:\n  - note: 100\n  - note: 100\n", "p:1:1: the steps take 200 minutes together; a lesson takes at most 180"},
		{"an unknown word", "title: T\nwords: [line, rombus]\nsteps:\n  - note: 1\n", `p:2:15: there is no word "rombus"; did you mean rhombus?`},
		{"a word far from all", "title: T\nwords: [xyzzyxyzzyxyzzy]\nsteps:\n  - note: 1\n", `p:2:9: there is no word "xyzzyxyzzyxyzzy"; the words are listed in the vocabulary, from point to dodecagon`},
		{"a word twice", "title: T\nwords: [line, line]\nsteps:\n  - note: 1\n", "p:2:15: the word line stands twice; keep one of them"},
		{"a key of another step", "title: T\nsteps:\n  - note: 1\n    items: 4\n", `p:4:5: a note step has no key "items"; write one of note, say, talk, expect`},
		{"a key twice", "title: T\ntitle: U\n", `p:2:1: mapping key "title" already defined`},
		{"an anchor", "title: &a T\nsteps:\n  - note: 1\n", "p:1:8: expected a text; write a text on one line; anchors, tags and lists cannot stand here"},
		{"two documents", short + "---\n" + short, "p:5:1: there is a second document in the file; keep one plan in one file"},
		{"a sign that cannot be printed", "title: \"a\\u0007b\"\nsteps:\n  - note: 1\n", "p:1:8: there is a sign here that cannot be printed; delete it"},
		{"a make step without tasks", "title: T\nsteps:\n  - make: 5\n", "p:3:5: the make step has no tasks; add tasks: and a list of them"},
		{"a sort step without a word", "title: T\nsteps:\n  - sort: 5\n", "p:3:5: the sort step has no word; add word: and the word to sort by"},
		{"a sort by lines", "title: T\nsteps:\n  - sort: 5\n    word: parallel\n", "p:3:5: figures cannot be sorted by parallel; take a word for a kind of polygon"},
		{"figures from nowhere", "title: T\nsteps:\n  - sort: 5\n    word: square\n    from: atals\n", `p:5:11: "atals" is not a source of figures; did you mean atlas?`},
		{"too few items", "title: T\nsteps:\n  - close: 5\n    items: 2\n", `p:4:12: "2" is no number of items; write a whole number from 3 to 8`},
		{"gather before any make", "title: T\nsteps:\n  - gather: 5\n", "p:3:5: gather is of task 1, and the make step before it has 0; write of: and the number of one of its tasks"},
		{"a bad board", strings.Replace(make, "3x3", "1x3", 1), "p:6:16: "},
		{"a misspelt condition", strings.Replace(make, "sides=3", "side=3", 1), `p:7:17: condition "side=3": there is no property "side"; did you mean sides?`},
		{"conditions that contradict", strings.Replace(make, "sides=3", "sides=3, kind=square", 1), `p:7:16: condition "kind=square": it contradicts`},
		{"a task without words", strings.Replace(make, "say: S", "bands: 1", 1), "p:5:9: the task has no words to the pupils; add say: and what to make"},
		{"tasks longer than the step", make + "        minutes: 10\n", "p:3:5: the tasks take 10 minutes and the step 9; give the step more minutes or the tasks fewer"},
		{"impossible without why", make + "        impossible: yes\n", "p:5:9: the task is meant to be impossible and does not say why; add because: and the reason"},
		{"why without impossible", make + "        because: B\n", "p:5:9: the task says why it is impossible, and is not marked so; add impossible: yes or leave because out"},
		{"neither yes nor no", make + "        impossible: perhaps\n", `p:8:21: "perhaps" is neither yes nor no; write impossible: yes or leave it out`},
		{"two ways in", make + "        way-in: {word: line, begin: A1 B1}\n", "p:8:18: a way in is one of begin, board and word; keep one of them"},
		{"a way in off the board", make + "        way-in: {begin: A1 Z9}\n", "p:8:25: "},
		{"an empty way in", make + "        way-in: {begin: ''}\n", "p:8:25: nothing is begun; write pegs in order, like A1 D1"},
		{"a way in by no word", make + "        way-in: {word: trinagle}\n", `p:8:24: there is no word "trinagle"; did you mean triangle?`},
		{"a stretch without a goal", make + "        stretch: {say: S}\n", "p:8:19: the stretch has no goal; "},
		{"a stretch without words", make + "        stretch: {another: yes}\n", "p:8:19: the stretch has no words to the pupils; add say: and what to make"},
		{"a stretch with two goals", make + "        stretch: {another: yes, largest: 2}\n", "p:8:33: a stretch is another or largest, not both; keep one of them"},
		{"an impossible stretch without why", make + "        stretch: {impossible: [sides=9], say: S}\n", "p:8:19: a stretch says why exactly when it is impossible; "},
		{"a stretch against its task", make + "        stretch: {also: [sides=4], say: S}\n", "p:8:19: condition "},
		{"a largest that is no area", make + "        stretch: {largest: lots, say: S}\n", "p:8:28: condition "},
		{"a feedback that is none", make + "        feedback: hints\n", `p:8:19: "hints" is not a feedback; did you mean hint?`},
	}
	for _, c := range cases {
		_, err := lesson.Parse("p", c.text)
		var bad *lesson.PlanError
		if !errors.As(err, &bad) {
			t.Errorf("%s: error %v, want a *PlanError", c.name, err)
			continue
		}
		if !strings.HasPrefix(err.Error(), c.want) || strings.Contains(err.Error(), "\n") || bad.What == "" || bad.Mend == "" {
			t.Errorf("%s:\n got %s\nwant %s", c.name, err, c.want)
		}
	}
}

func TestParseRefusesWhatIsTooMuch(t *testing.T) {
	for name, text := range map[string]string{
		"steps": "title: T\nsteps:\n" + strings.Repeat("  - note: 0\n", lesson.MaxSteps+1),
		"tasks": "title: T\nsteps:\n  - make: 9\n    tasks:\n" + strings.Repeat("      - {say: S, board: \"square:3x3\", holds: [sides=3]}\n", lesson.MaxTasks+1),
		"bytes": "title: T\n" + strings.Repeat("# a comment\n", 1<<17) + "steps:\n  - note: 0\n",
	} {
		if _, err := lesson.Parse("p", text); err == nil {
			t.Errorf("too many %s were taken", name)
		}
	}
}

// FuzzParse: nothing panics, every error says something in one line, and what is
// read and written again is the same.
func FuzzParse(f *testing.F) {
	f.Add(short)
	for _, p := range lesson.Unit() {
		f.Add(p.String())
	}
	f.Add("title: 'a: b'\nsteps:\n  - make: 5\n    tasks:\n      - say: {en: \"#\\\\ \\\" x\", es: ''}\n        board: ring:12\n        holds: [sides>=3, area>=2.5]\n        stretch: {largest: 3 1/2, say: '- a'}\n")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := lesson.Parse("p", text)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Fatalf("an error of several lines: %q", err)
			}
			return
		}
		written := p.String()
		again, err := lesson.Parse("p", written)
		if err != nil {
			t.Fatalf("%v\n%s", err, written)
		}
		if again.String() != written {
			t.Fatalf("read and written again:\n%s\nwas\n%s", again.String(), written)
		}
	})
}
