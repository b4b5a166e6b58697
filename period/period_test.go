package period_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/lesson"
	"pegwright/period"
)

func TestBeginHasEveryStepOfThePlan(t *testing.T) {
	for _, plan := range lesson.Unit() {
		s := period.Begin(plan)
		if len(s.Steps) != len(plan.Steps) || s.Phase() != period.Before {
			t.Errorf("%s: %d steps, phase %s", plan.Name, len(s.Steps), s.Phase())
		}
		for i, p := range s.Steps {
			got, ok := p.PlanStep(plan)
			if !ok || got.Kind != p.Kind || got.Minutes != p.Minutes || p.ID != i+1 || p.Status != period.NotYet {
				t.Errorf("%s: step %d is %+v", plan.Name, i+1, p)
			}
		}
	}
}

func TestBeginFillsWhatAKindNeeds(t *testing.T) {
	s := period.Begin(triangles())
	same(t, "words to recall", s.Steps[1].Recall.Words, triangles().Steps[1].Words)
	same(t, "tasks to make", len(s.Steps[3].Make.Set), 4)
	same(t, "word to sort by", s.Steps[4].Cards.Words, []string{"isosceles-triangle"})
	if len(s.Steps[2].Teach.Slides) < 9 {
		t.Errorf("three words to teach have the slides %v", s.Steps[2].Teach.Slides)
	}
}

func TestPlanStepOfAnotherPlan(t *testing.T) {
	s := period.Begin(triangles())
	s, id := s.Insert(period.Quick{}, 0)
	quick, _ := s.Step(id)
	if _, ok := quick.PlanStep(triangles()); ok {
		t.Error("a quick task has a step in the plan")
	}
	if _, ok := s.Steps[1].PlanStep(lesson.Plan{}); ok {
		t.Error("an empty plan has a step")
	}
	if _, ok := s.Steps[4].PlanStep(lesson.Plan{Steps: make([]lesson.Step, 9)}); ok {
		t.Error("a step of another kind is taken for it")
	}
}

func TestZeroStateTakesEveryOperation(t *testing.T) {
	var s period.State
	for range 2 {
		s = s.Tick(noon).Next(noon).Back(noon).GoTo(1, noon).Skip(0, noon).Skip(1, noon).Unskip(1).Move(1, 1)
		s = s.Pause(noon).Resume(noon).Finish(noon).Change(1, noon, func(p period.Step) period.Step { return p })
		s = s.Start(noon)
	}
	if _, ok := s.Now(); ok || s.Phase() != period.Over {
		t.Errorf("a period without steps is %+v", s)
	}
	s, id := s.Insert(period.Quick{Words: "Make a kite."}, 7)
	if got, ok := s.GoTo(id, noon).Now(); !ok || got.Quick.Words != "Make a kite." {
		t.Errorf("after all, a quick task: %+v", got)
	}
}

func TestChangeKeepsWhatTheStepIs(t *testing.T) {
	s := period.Begin(triangles()).Start(noon).GoTo(4, noon)
	s = s.Change(4, at(1), func(p period.Step) period.Step {
		return period.Step{ID: 9, Kind: lesson.Close, Minutes: 99, Used: -time.Hour, Status: period.Done, Make: p.Make.Next().With("t-2")}
	})
	want := period.Step{
		ID: 4, Kind: lesson.Make, Minutes: 18, Status: period.NotYet, Used: time.Minute,
		Make: period.Make{At: 1, Set: []string{"", "t-2", "", ""}},
	}
	got, _ := s.Now()
	same(t, "step", got, want)
	same(t, "no step 77", s.Change(77, at(1), func(p period.Step) period.Step { panic("called") }), s)
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no JSON", `{`, "unexpected end"},
		{"a newer program", `{"format":2}`, "format 2, and this program knows 1"},
		{"a step twice", `{"steps":[{"id":1,"status":"done"},{"id":1,"status":"done"}]}`, "two steps"},
		{"a step without a number", `{"steps":[{"status":"done"}]}`, "two steps"},
		{"an unknown status", `{"steps":[{"id":1,"status":"lost"}]}`, `step 1 is "lost"`},
		{"time below nothing", `{"steps":[{"id":1,"status":"done","used":-1}]}`, "has used -1ns"},
		{"more time than there is", `{"steps":[{"id":1,"status":"done","used":9223372036854775807}]}`, "has used 2562047h"},
		{"minutes below nothing", `{"steps":[{"id":1,"status":"done","minutes":-5}]}`, "-5 minutes"},
		{"at no step", `{"current":3,"started":"2026-11-25T12:00:00Z"}`, "no step 3"},
		{"back to no step", `{"trail":[{"step":3}]}`, "no step 3"},
		{"at a step before the start", `{"current":1,"steps":[{"id":1,"status":"done"}]}`, "has not started"},
	} {
		_, err := period.Parse(c.text)
		var state *period.StateError
		if !errors.As(err, &state) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// TestParseMendsPlaces: an index beyond its list, as after a pupil was deleted,
// becomes the nearest one.
func TestParseMendsPlaces(t *testing.T) {
	s, err := period.Parse(`{"steps":[{"id":1,"kind":"gather","status":"not yet","recall":{"at":5,"stage":"beat"},"teach":{"at":-3},
		"make":{"at":7,"set":["",""]},"gather":{"picks":[{"showing":"x"},{"why":"rare"}],"at":1},
		"cards":{"at":4},"close":{"at":3,"a":[{"id":"a1"}]}}]}`)
	if err != nil {
		t.Fatal(err)
	}
	want := period.Step{ID: 1, Kind: lesson.Gather, Status: period.NotYet}
	want.Make = period.Make{At: 1, Set: []string{"", ""}}
	want.Gather.Picks = []period.Pick{{Showing: "x"}}
	want.Close.A = []period.Item{{ID: "a1"}}
	same(t, "mended", s.Steps[0], want)
}

// full is a state with something in every part.
func full() period.State {
	s := period.Begin(triangles()).Start(noon).Next(at(2))
	s, id := s.Insert(period.Quick{Words: "Make a dart.", Board: "square:5x5", Conditions: []string{"kind=dart"}, Minutes: 3, Feedback: class.HintFeedback}, 3)
	s = s.Change(2, at(3), func(p period.Step) period.Step {
		p.Recall = p.Recall.Begin(period.Review(p.Recall.Words, nil, 5, 1<<63, 0)).Mark("some").Hold(at(3))
		return p
	})
	s = s.Change(id, at(4), func(p period.Step) period.Step {
		p.Make = p.Make.With("task-1").Check(map[string]string{"ann": "bob", "bob": "ann"})
		return p
	})
	s = s.Change(5, at(4), func(p period.Step) period.Step {
		p.Cards = p.Cards.Sort(rhombuses(), rhombuses()).Assign(pupils("ann", "bob"))
		return p
	})
	s = s.Change(6, at(4), func(p period.Step) period.Step {
		p.Close = p.Close.Take(items()).Assign(pupils("ann", "bob"))
		p.Gather = p.Gather.Add("showing-of-ann").Add("showing-of-bob")
		return p
	})
	return s.Pause(at(5))
}

// TestResumeIsTheSameState: what was kept is what goes on.
func TestResumeIsTheSameState(t *testing.T) {
	s := full()
	got, err := period.Parse(s.String())
	if err != nil {
		t.Fatal(err)
	}
	same(t, "parsed", got, s)
	same(t, "text", got.String(), s.String())
}

// TestForgottenPupilLeavesAState that can be read, with the others as they were.
func TestForgottenPupilLeavesAState(t *testing.T) {
	text, changed, err := class.Forget(full().String(), []string{"ann", "showing-of-ann"})
	if err != nil || !changed || strings.Contains(text, "ann") {
		t.Fatalf("Forget: %v, %v\n%s", changed, err, text)
	}
	s, err := period.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	end, _ := s.Step(6)
	same(t, "forms", end.Close.Forms, map[string]period.Form{"bob": period.FormB})
	same(t, "picks", end.Gather.Picks, []period.Pick{{Showing: "showing-of-bob"}})
	same(t, "items", end.Close.A, period.Close{}.Take(items()).A)
}

// ExampleState_String shows how a state is kept.
func ExampleState_String() {
	plan := lesson.Plan{Steps: []lesson.Step{{Kind: lesson.Note, Minutes: 2}, {Kind: lesson.Make, Minutes: 18, Tasks: make([]lesson.Task, 3)}}}
	s := period.Begin(plan).Start(noon).Next(noon.Add(3 * time.Minute))
	fmt.Println(strings.NewReplacer(`,"`, ",\n \"", `{"id"`, "\n {\"id\"").Replace(s.String()))
	// Output:
	// {"format":1,
	//  "current":2,
	//  "started":"2026-11-25T12:00:00Z",
	//  "since":"2026-11-25T12:03:00Z",
	//  "steps":[
	//  {"id":1,
	//  "kind":"note",
	//  "minutes":2,
	//  "status":"done",
	//  "used":180000000000},
	//  {"id":2,
	//  "kind":"make",
	//  "minutes":18,
	//  "status":"not yet",
	//  "used":0,
	//  "make":{"at":0,
	//  "set":["",
	//  "",
	//  ""]}}],
	//  "trail":[{"step":1,
	//  "was":"not yet"}]}
}

// FuzzParse: a text that can be read is read again as the same, and takes every
// operation.
func FuzzParse(f *testing.F) {
	f.Add(full().String())
	f.Add(three().Start(noon).Next(at(1)).String())
	f.Add(`{"steps":[{"id":1,"status":"done","recall":{"Calls":[{"Round":-9}],"at":-1}}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		s, err := period.Parse(text)
		if err != nil {
			return
		}
		kept := s.String()
		again, err := period.Parse(kept)
		if err != nil || again.String() != kept {
			t.Fatalf("%v\n%s\n%s", err, kept, again)
		}
		for _, p := range s.Steps {
			s, _ = s.GoTo(p.ID, noon).Mark(p.ID, "all", at(1))
			s = s.Change(p.ID, at(1), func(p period.Step) period.Step {
				p.Recall, p.Teach, p.Make = p.Recall.Hold(noon).Reveal(at(1)).Next(), p.Teach.Next(), p.Make.Next().With("x")
				p.Gather, p.Cards, p.Close = p.Gather.Next().Add("x"), p.Cards.Next().Show(), p.Close.Next().Show()
				return p
			})
			s.TaskToGather(p.ID)
		}
		s = s.Next(at(2)).Back(at(3)).Pause(at(4)).Resume(at(5))
		if _, err := period.Parse(s.String()); err != nil {
			t.Fatalf("after some operations: %v", err)
		}
	})
}
