package storetest

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pegwright/class"
	"pegwright/store"
)

func testPlans(t *testing.T, s *store.Store) {
	want := class.Plan{ID: "p", Title: "Triángulos", Text: "title: \"x\"\n# a note\n", Version: 1, Updated: Noon}
	need(t, s.AddPlan(ctx, want))
	need(t, s.AddPlan(ctx, class.Plan{ID: "q", Title: "angles", Version: 7, Updated: Noon}))
	got, err := s.Plan(ctx, "p")
	same(t, got, want, err)
	all, err := s.Plans(ctx)
	same(t, all, []class.Plan{{ID: "q", Title: "angles", Version: 1, Updated: Noon}, want}, err)
	need(t, s.DeletePlan(ctx, "p"))
	_, err = s.Plan(ctx, "p")
	wantErr(t, err, class.ErrNotFound)
	if err := s.AddPlan(ctx, class.Plan{ID: "q"}); err == nil {
		t.Error("the same plan was added twice")
	}
}

func testStalePlan(t *testing.T, s *store.Store) {
	first := class.Plan{ID: "p", Title: "One", Text: "one", Version: 1, Updated: Noon}
	need(t, s.AddPlan(ctx, first))
	second := first
	second.Text, first.Text = "of the second desk", "of the first desk"
	version, err := s.UpdatePlan(ctx, first)
	same(t, version, 2, err)
	_, err = s.UpdatePlan(ctx, second)
	wantStale(t, err, class.StaleError{What: "plan", ID: "p", Given: 1, Kept: 2})
	first.Version = 2
	got, err := s.Plan(ctx, "p")
	same(t, got, first, err)
}

func testPeriod(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	_, err := s.Period(ctx, sc.Run.ID)
	wantErr(t, err, class.ErrNotFound)
	want := sc.Period()
	need(t, s.AddPlan(ctx, class.Plan{ID: want.PlanID, Text: want.Plan}))
	need(t, s.AddPeriod(ctx, want))
	wantStale(t, s.AddPeriod(ctx, want), class.StaleError{What: "period", ID: sc.Run.ID, Kept: 1})
	need(t, s.DeletePlan(ctx, want.PlanID))
	got, err := s.Period(ctx, sc.Run.ID)
	same(t, got, want, err)

	need(t, s.EndRun(ctx, sc.Run.ID, Noon))
	later := class.Run{ID: "later", ClassID: sc.Class.ID, RoomWord: "x-y", Started: Noon.Add(time.Hour)}
	need(t, s.AddRun(ctx, later))
	next := want
	next.RunID = later.ID
	need(t, s.AddPeriod(ctx, next))
	all, err := s.Periods(ctx, sc.Class.ID)
	same(t, all, []class.Period{next, want}, err)
	want.State = `{"current": 2}`
	version, err := s.SetPeriod(ctx, want) // the teacher looks back
	same(t, version, 2, err)
	need(t, s.EndRun(ctx, later.ID, Noon))
	wantErr(t, s.AddPeriod(ctx, next), class.ErrOver)
}

func testStalePeriod(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	first := sc.Period()
	need(t, s.AddPeriod(ctx, first))
	second := first
	first.State, second.State = `{"current": 2}`, `{"current": 3}`
	first.Updated = Noon.Add(time.Minute)
	first.Plan, first.PlanID = "not this", "nor this"
	version, err := s.SetPeriod(ctx, first)
	same(t, version, 2, err)
	_, err = s.SetPeriod(ctx, second)
	wantStale(t, err, class.StaleError{What: "period", ID: sc.Run.ID, Given: 1, Kept: 2})
	wantStale(t, s.TickPeriod(ctx, second), class.StaleError{What: "period", ID: sc.Run.ID, Given: 1, Kept: 2})
	got, err := s.Period(ctx, sc.Run.ID)
	want := sc.Period()
	want.State, want.Version, want.Updated = first.State, 2, first.Updated
	same(t, got, want, err)
}

func testRaceForStep(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	need(t, s.AddPeriod(ctx, sc.Period()))
	results := make(chan error, 8)
	var work sync.WaitGroup
	for i := range cap(results) {
		work.Go(func() {
			p := sc.Period()
			p.State = fmt.Sprintf(`{"current": %d}`, i)
			_, err := s.SetPeriod(ctx, p)
			results <- err
		})
	}
	work.Wait()
	close(results)
	set := 0
	for err := range results {
		var stale *class.StaleError
		if err == nil {
			set++
		} else if !errors.As(err, &stale) || stale.Kept != 2 {
			t.Errorf("SetPeriod: %v, want a StaleError about version 2", err)
		}
	}
	if set != 1 {
		t.Errorf("%d desks set the step, want 1", set)
	}
}

func testTick(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	want := sc.Period()
	need(t, s.AddPeriod(ctx, want))
	want.State, want.Updated = `{"used": 5}`, Noon.Add(time.Minute)
	for range 2 {
		need(t, s.TickPeriod(ctx, want))
	}
	got, err := s.Period(ctx, sc.Run.ID)
	same(t, got, want, err)
	version, err := s.SetPeriod(ctx, want)
	same(t, version, 2, err)
}

func testMarksWithPeriod(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	p := sc.Period()
	need(t, s.AddPeriod(ctx, p))
	mark := class.WordMark{RunID: sc.Run.ID, ClassID: sc.Class.ID, Step: 2, Word: "ray", Mark: "most", Made: Noon}
	_, err := s.SetPeriod(ctx, p, mark)
	need(t, err)
	other := mark
	other.Call = 1
	if _, err := s.SetPeriod(ctx, p, other); err == nil {
		t.Error("a stale period was set")
	}
	all, err := s.WordMarks(ctx, sc.Class.ID)
	same(t, all, []class.WordMark{mark}, err)
}

func testMarks(t *testing.T, s *store.Store) {
	sc, other := NewScene(t, s, "kite", 1), NewScene(t, s, "wren", 1)
	mark := class.WordMark{RunID: sc.Run.ID, ClassID: sc.Class.ID, Step: 2, Call: 3, Word: "ray", Mark: "most", Made: Noon.Add(time.Minute)}
	need(t, s.MarkWord(ctx, mark))
	mark.Mark = "few"
	need(t, s.MarkWord(ctx, mark))
	early := mark
	early.Call, early.Word, early.Made = 4, "line", Noon
	need(t, s.MarkWord(ctx, early))
	foreign := mark
	foreign.RunID = other.Run.ID
	need(t, s.MarkWord(ctx, foreign))
	all, err := s.WordMarks(ctx, sc.Class.ID)
	same(t, all, []class.WordMark{early, mark}, err)
	need(t, s.DeleteClass(ctx, sc.Class.ID))
	all, err = s.WordMarks(ctx, sc.Class.ID)
	same(t, all, nil, err)
}

func testAnswer(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 2)
	want := sc.Answer(1, 0)
	want.Made = time.Date(1969, 1, 2, 3, 4, 5, int(6*time.Millisecond), time.UTC) // a device's clock
	check := sc.Answer(2, 1)
	check.AboutID, check.Right, check.Idea, check.Step, check.Source = sc.Pupils[0].ID, true, "", 3, class.FromDesk
	need(t, s.EndRun(ctx, sc.Run.ID, Noon)) // what comes late is kept
	for _, a := range []class.Answer{want, check} {
		addAnswer(t, s, a)
		got, err := s.Answer(ctx, a.ID)
		same(t, got, a, err)
	}
	all, err := s.Answers(ctx, sc.Run.ID)
	same(t, all, []class.Answer{want, check}, err)
	all, err = s.StepAnswers(ctx, sc.Run.ID, 3)
	same(t, all, []class.Answer{check}, err)
	all, err = s.PupilAnswers(ctx, sc.Pupils[0].ID)
	same(t, all, []class.Answer{want}, err)
}

func testAnswerResend(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 2)
	first := sc.Answer(1, 0)
	addAnswer(t, s, first)
	again := first
	again.Received, again.Rules, again.Right, again.Idea = Noon.Add(time.Hour), 99, true, ""
	for range 3 {
		added, err := s.AddAnswer(ctx, again)
		same(t, added, false, err)
	}
	for name, change := range map[string]func(*class.Answer){
		"body":    func(o *class.Answer) { o.Body = `{}` },
		"pupil":   func(o *class.Answer) { o.PupilID = sc.Pupils[1].ID },
		"partner": func(o *class.Answer) { o.AboutID = sc.Pupils[1].ID },
		"item":    func(o *class.Answer) { o.Item = "b2" },
		"step":    func(o *class.Answer) { o.Step = 1 },
		"source":  func(o *class.Answer) { o.Source = class.FromPaper },
	} {
		other := first
		change(&other)
		if added, err := s.AddAnswer(ctx, other); added || !errors.Is(err, class.ErrDifferent) {
			t.Errorf("another %s under the same ID: got error %v, want ErrDifferent", name, err)
		}
	}
	all, err := s.Answers(ctx, sc.Run.ID)
	same(t, all, []class.Answer{first}, err)
}

func testForgedAnswer(t *testing.T, s *store.Store) {
	sc, other := NewScene(t, s, "kite", 1), NewScene(t, s, "wren", 1)
	for name, change := range map[string]func(*class.Answer){
		"another class's pupil":   func(o *class.Answer) { o.PupilID = other.Pupils[0].ID },
		"another class's partner": func(o *class.Answer) { o.AboutID = other.Pupils[0].ID },
		"another run":             func(o *class.Answer) { o.RunID = other.Run.ID },
		"a run that never was":    func(o *class.Answer) { o.RunID = "none" },
		"a partner who never was": func(o *class.Answer) { o.AboutID = "none" },
		"nothing at all":          func(o *class.Answer) { *o = class.Answer{} },
	} {
		forged := sc.Answer(1, 0)
		change(&forged)
		if added, err := s.AddAnswer(ctx, forged); added || !errors.Is(err, class.ErrNotFound) {
			t.Errorf("%s: got error %v, want ErrNotFound", name, err)
		}
	}
	for _, run := range []string{sc.Run.ID, other.Run.ID} {
		all, err := s.Answers(ctx, run)
		same(t, all, nil, err)
	}
}

func testAnswerOrder(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	var want []class.Answer
	for n := 5; n >= 0; n-- {
		a := sc.Answer(n, 0)
		a.Received = Noon.Add(time.Duration(n%3) * time.Hour)
		addAnswer(t, s, a)
		add(t, s, sc.Showing(n, 0))
		want = append(want, a)
	}
	all, err := s.Answers(ctx, sc.Run.ID)
	same(t, all, want, err)
	showings, err := s.Showings(ctx, sc.Run.ID)
	same(t, len(showings), 6, err)
}

func testForgetPupil(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 3)
	gone, stays := sc.Pupils[0].ID, sc.Pupils[1].ID
	add(t, s, sc.Showing(1, 0))
	mine, about, onBoard, others := sc.Answer(1, 0), sc.Answer(2, 1), sc.Answer(3, 1), sc.Answer(4, 1)
	about.AboutID, onBoard.Item, others.AboutID = gone, sc.Showing(1, 0).ID, sc.Pupils[2].ID
	for _, a := range []class.Answer{mine, about, onBoard, others} {
		addAnswer(t, s, a)
	}
	p := sc.Period()
	p.State = fmt.Sprintf(`{"seed":18446744073709551615,"forms":{%q:"a",%q:"b"},"picks":[{"showing":%q,"why":"rare"},{"showing":"x"}]}`,
		gone, stays, sc.Showing(1, 0).ID)
	need(t, s.AddPeriod(ctx, p))

	need(t, s.DeletePupil(ctx, gone))
	all, err := s.Answers(ctx, sc.Run.ID)
	same(t, all, []class.Answer{others}, err)
	got, err := s.Period(ctx, sc.Run.ID)
	want := p
	want.State, want.Version = fmt.Sprintf(`{"forms":{%q:"b"},"picks":[{"why":"rare"},{"showing":"x"}],"seed":18446744073709551615}`, stays), 2
	same(t, got, want, err)
	_, err = s.SetPeriod(ctx, p)
	wantStale(t, err, class.StaleError{What: "period", ID: sc.Run.ID, Given: 1, Kept: 2})
	need(t, s.DeletePupil(ctx, sc.Pupils[2].ID))
	got, err = s.Period(ctx, sc.Run.ID)
	same(t, got, want, err) // nothing was about that one
}

func testForgetUnreadable(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	p := sc.Period()
	p.State = `{"forms": {"` + sc.Pupils[0].ID
	need(t, s.AddPeriod(ctx, p))
	need(t, s.DeletePupil(ctx, sc.Pupils[0].ID))
	got, err := s.Period(ctx, sc.Run.ID)
	same(t, strings.Contains(got.State, sc.Pupils[0].ID), false, err)
}

func addAnswer(t *testing.T, s *store.Store, a class.Answer) {
	t.Helper()
	added, err := s.AddAnswer(ctx, a)
	same(t, added, true, err)
}

func wantStale(t *testing.T, err error, want class.StaleError) {
	t.Helper()
	var stale *class.StaleError
	if !errors.As(err, &stale) {
		t.Fatalf("got error %v, want a StaleError", err)
	}
	if diff := cmp.Diff(want, *stale); diff != "" {
		t.Errorf("want - got +\n%s", diff)
	}
}
