package period_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"pegwright/period"
)

// shown is a state in short: the steps in order, + done, - skipped, * current.
func shown(s period.State) string {
	out := string(s.Phase())
	for _, p := range s.Steps {
		mark := map[period.Status]string{period.Done: "+", period.Skipped: "-"}[p.Status]
		if p.ID == s.Current {
			mark += "*"
		}
		out += fmt.Sprintf(" %d%s", p.ID, mark)
	}
	return out
}

func TestMoves(t *testing.T) {
	type S = period.State
	for _, c := range []struct {
		name string
		do   func(s S) S
		want string
	}{
		{"nothing", func(s S) S { return s }, "before 1 2 3"},
		{"start", func(s S) S { return s.Start(noon) }, "running 1* 2 3"},
		{"start twice", func(s S) S { return s.Start(noon).Next(noon).Start(noon) }, "running 1+ 2* 3"},
		{"next before the start", func(s S) S { return s.Next(noon) }, "before 1 2 3"},
		{"the first is skipped before the start", func(s S) S { return s.Skip(1, noon).Start(noon) }, "running 1- 2* 3"},
		{"next to the end", func(s S) S { return s.Start(noon).Next(noon).Next(noon).Next(noon) }, "over 1+ 2+ 3+"},
		{"back from the end", func(s S) S { return s.Start(noon).Next(noon).Next(noon).Next(noon).Back(noon) }, "running 1+ 2+ 3*"},
		{"back at the start", func(s S) S { return s.Start(noon).Back(noon) }, "running 1* 2 3"},
		{"skip the present one", func(s S) S { return s.Start(noon).Skip(1, noon) }, "running 1- 2* 3"},
		{"back after skip", func(s S) S { return s.Start(noon).Skip(1, noon).Back(noon) }, "running 1* 2 3"},
		{"next passes over what is skipped", func(s S) S { return s.Start(noon).Skip(2, noon).Next(noon) }, "running 1+ 2- 3*"},
		{"what is done cannot be skipped", func(s S) S { return s.Start(noon).Next(noon).Skip(1, noon) }, "running 1+ 2* 3"},
		{"unskip", func(s S) S { return s.Start(noon).Skip(2, noon).Unskip(2).Next(noon) }, "running 1+ 2* 3"},
		{"go to a skipped one", func(s S) S { return s.Start(noon).Skip(3, noon).GoTo(3, noon) }, "running 1 2 3*"},
		{"go leaves the step open", func(s S) S { return s.Start(noon).GoTo(3, noon) }, "running 1 2 3*"},
		{"what was left open is not taken up at the end", func(s S) S { return s.Start(noon).GoTo(3, noon).Next(noon) }, "over 1 2 3+"},
		{"go to it and then back", func(s S) S { return s.Start(noon).GoTo(3, noon).Back(noon) }, "running 1* 2 3"},
		{"go before the start", func(s S) S { return s.GoTo(2, noon) }, "running 1 2* 3"},
		{"go nowhere", func(s S) S { return s.Start(noon).GoTo(8, noon).GoTo(0, noon) }, "running 1* 2 3"},
		{"go to one that is done, then on to what is not", func(s S) S { return s.Start(noon).Next(noon).Next(noon).GoTo(1, noon).Next(noon) }, "running 1+ 2+ 3*"},
		{"finish", func(s S) S { return s.Start(noon).Next(noon).Finish(noon) }, "over 1+ 2 3"},
		{"back after finish", func(s S) S { return s.Start(noon).Next(noon).Finish(noon).Back(noon) }, "running 1+ 2* 3"},
		{"go on after the end", func(s S) S { return s.Start(noon).Finish(noon).GoTo(2, noon).Back(noon) }, "over 1 2 3"},
		{"move the last to the front", func(s S) S { return s.Start(noon).Move(3, -5) }, "running 3 1* 2"},
		{"move beyond the end", func(s S) S { return s.Start(noon).Move(1, 99).Next(noon) }, "over 2 3 1+"},
		{"move what is not there", func(s S) S { return s.Move(9, 0) }, "before 1 2 3"},
		{"pause", func(s S) S { return s.Start(noon).Pause(noon).Next(noon) }, "paused 1+ 2* 3"},
		{"pause before the start", func(s S) S { return s.Pause(noon).Start(noon) }, "running 1* 2 3"},
		{"resume", func(s S) S { return s.Start(noon).Resume(noon).Pause(noon).Pause(noon).Resume(noon) }, "running 1* 2 3"},
	} {
		if got := shown(c.do(three())); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func TestQuickTaskAtOnce(t *testing.T) {
	s := three().Start(noon)
	here, _ := s.Position()
	s, id := s.Insert(period.Quick{Words: "Make a kite.", Minutes: 3}, here+1)
	s = s.GoTo(id, noon)
	if got := shown(s); got != "running 1 4* 2 3" {
		t.Errorf("a quick task: %s", got)
	}
	if got := shown(s.Back(noon)); got != "running 1* 4 2 3" {
		t.Errorf("back from it: %s", got)
	}
	for range period.MaxSteps {
		s, id = s.Insert(period.Quick{}, 0)
	}
	if len(s.Steps) != period.MaxSteps || id != 0 {
		t.Errorf("%d steps, the last one has number %d", len(s.Steps), id)
	}
}

func TestTrailIsBounded(t *testing.T) {
	s := three().Start(noon)
	for i := range 1000 {
		s = s.GoTo(1+i%3, noon)
	}
	if len(s.Trail) > 200 {
		t.Errorf("the trail has %d visits", len(s.Trail))
	}
	for range 1000 {
		s = s.Back(noon)
	}
	if len(s.Trail) != 0 || s.Phase() != period.Running {
		t.Errorf("after going back all the way: %s", shown(s))
	}
}

// walk is a period under random operations, with the longest time that can have
// been counted.
type walk struct {
	period.State
	now      time.Time
	inserted int
	most     time.Duration
}

// step does one random operation at a random moment: the clock mostly goes on,
// and sometimes jumps.
func (w *walk) step(t *rapid.T) {
	seconds := rapid.OneOf(rapid.IntRange(0, 300), rapid.SampledFrom([]int{-86400, -60, 599, 601, 7200, 1 << 40})).Draw(t, "seconds")
	w.now = w.now.Add(time.Duration(seconds) * time.Second)
	w.most += max(0, min(time.Duration(seconds)*time.Second, period.MostGap))
	id, to := rapid.IntRange(-1, 12).Draw(t, "id"), rapid.IntRange(-2, 15).Draw(t, "to")
	s, now := w.State, w.now
	switch rapid.IntRange(0, 12).Draw(t, "operation") {
	case 0:
		w.State = s.Start(now)
	case 1, 2, 3:
		w.State = s.Next(now)
	case 4:
		w.State = s.Back(now)
	case 5:
		w.State = s.GoTo(id, now)
	case 6:
		w.State = s.Skip(id, now)
	case 7:
		w.State = s.Move(id, to)
	case 8:
		w.State, _ = s.Insert(period.Quick{Words: "quick", Minutes: to}, to)
		w.inserted++
	case 9:
		w.State = s.Pause(now)
	case 10:
		w.State = s.Resume(now)
	case 11:
		w.State = s.Tick(now).Unskip(id)
	case 12:
		w.State = s.Change(id, now, func(p period.Step) period.Step {
			p.Teach, p.Make, p.Recall = p.Teach.GoTo(to), p.Make.GoTo(to).With("x"), p.Recall.Next()
			return p
		})
	}
}

func (w *walk) check(t *rapid.T) {
	var ids []int
	used := time.Duration(0)
	for _, p := range w.Steps {
		ids = append(ids, p.ID)
		used += p.Used
		if p.Used < 0 {
			t.Fatalf("step %d has used %s", p.ID, p.Used)
		}
	}
	slices.Sort(ids)
	for i, id := range ids {
		if id != i+1 {
			t.Fatalf("the steps are %v", ids)
		}
	}
	if len(ids) != len(triangles().Steps)+w.inserted {
		t.Fatalf("%d steps, of which %d inserted", len(ids), w.inserted)
	}
	if _, ok := w.Now(); !ok && w.Current != 0 || ok && w.Started.IsZero() {
		t.Fatalf("the current step is %d", w.Current)
	}
	if used > w.most {
		t.Fatalf("%s are used in %s", used, w.most)
	}
}

func (w *walk) checkClock(t *rapid.T) {
	c := w.Clock(w.now)
	used, left := time.Duration(0), time.Duration(0)
	for _, one := range c.Steps {
		used, left = used+one.Used, left+one.Left
		if one.Left < 0 || one.Over < 0 || one.Over > one.Used {
			t.Fatalf("clock of a step: %+v", one)
		}
	}
	if used != c.Used || left != c.Left || c.SoFar-c.Used != c.Ahead || c.SoFar < 0 || c.SoFar > c.Planned {
		t.Fatalf("clock: %+v", c)
	}
}

// TestAnyOperationsKeepTheLaws: each step of the plan once, the current one valid,
// times never negative, what is given never changed, resuming is the same state,
// Back after Next and Resume after Pause return.
func TestAnyOperationsKeepTheLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &walk{State: period.Begin(triangles()), now: noon}
		for range rapid.IntRange(1, 40).Draw(t, "steps") {
			before := w.State
			text := before.String()
			w.step(t)
			if before.String() != text {
				t.Fatal("an operation changed the state it was given")
			}
			w.check(t)
			w.checkClock(t)
		}
		kept, err := period.Parse(w.String())
		if err != nil || kept.String() != w.String() {
			t.Fatalf("resumed: %v\n%s\n%s", err, kept, w)
		}
		s := w.Tick(w.now)
		if _, ok := s.Now(); ok && s.Next(w.now).Back(w.now).String() != s.String() {
			t.Fatalf("Back after Next: %s\n%s", s.Next(w.now).Back(w.now), s)
		}
		if s.Phase() == period.Running && s.Pause(w.now).Resume(w.now.Add(time.Hour)).Clock(w.now.Add(time.Hour)).Used != s.Clock(w.now).Used {
			t.Fatal("a pause costs time")
		}
	})
}

// TestWhatIsKeptGoesOnTheSame: the operations after a crash give what they would
// have given without one.
func TestWhatIsKeptGoesOnTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &walk{State: period.Begin(triangles()), now: noon}
		for range rapid.IntRange(0, 20).Draw(t, "before") {
			w.step(t)
		}
		kept, err := period.Parse(w.String())
		if err != nil {
			t.Fatal(err)
		}
		for range 5 {
			w.now = w.now.Add(time.Minute)
			w.State, kept = w.Next(w.now).GoTo(2, w.now), kept.Next(w.now).GoTo(2, w.now)
		}
		if kept.String() != w.String() {
			t.Fatalf("went on differently:\n%s\n%s", kept, w)
		}
	})
}
