package storetest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pegwright/class"
	"pegwright/store"
)

// ctx is the context of every call of the suite.
var ctx = context.Background()

// Run runs the whole suite on every engine. Each test has a database to itself.
func Run(t *testing.T) {
	for _, c := range []struct {
		name string
		test func(*testing.T, *store.Store)
	}{
		{"the desk has one pair of keys", testKeys},
		{"a desk session is locked, unlocked and ended", testDeskSessions},
		{"a class is kept as it was given", testClasses},
		{"pupils are numbered and have different names", testPupils},
		{"deleting a pupil leaves others as they were", testDeletePupil},
		{"deleting a class deletes all in it", testDeleteClass},
		{"a room word is free again when its run is over", testRuns},
		{"a new task ends the one before", testTasks},
		{"a task's time can be extended", testExtend},
		{"one device sits at a pupil's place", testSeats},
		{"a showing is kept as it was given", testShowing},
		{"a showing sent again is kept once", testResend},
		{"a showing must belong to its run", testForgedShowing},
		{"showings keep the order received when the clock jumps", testOrder},
		{"a late showing is kept", testLateShowing},
		{"a showing is first looked at once", testLooked},
		{"the front is blank until it is set", testFront},
		{"a plan is kept as it was given", testPlans},
		{"a plan saved at two desks keeps the first", testStalePlan},
		{"a run has one period, which outlives its plan", testPeriod},
		{"a period changed at two desks keeps the first", testStalePeriod},
		{"one of many desks takes the step", testRaceForStep},
		{"a tick leaves the version", testTick},
		{"marks are kept with the period or not at all", testMarksWithPeriod},
		{"a call has one mark", testMarks},
		{"an answer is kept as it was given", testAnswer},
		{"an answer sent again is kept once", testAnswerResend},
		{"an answer must belong to its run", testForgedAnswer},
		{"answers keep the order received, among showings", testAnswerOrder},
		{"a deleted pupil is in no answer and no period", testForgetPupil},
		{"a period that cannot be read forgets a pupil too", testForgetUnreadable},
		{"two rooms never see each other", testTwoRooms},
		{"what is not there is not found", testNotFound},
		{"every letter survives", testLetters},
		{"eight writers lose nothing", testWriters},
		{"one showing from many sides is kept once", testSameFromMany},
		{"one of many devices gets the seat", testRaceForSeat},
		{"a cancelled change leaves nothing", testCancelled},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			Each(t, func(t *testing.T, address string) { c.test(t, Open(t, address)) })
		})
	}
}

func testKeys(t *testing.T, s *store.Store) {
	_, err := s.Keys(ctx)
	wantErr(t, err, class.ErrNotFound)
	for _, want := range []store.Keys{{Passphrase: "a", Recovery: "b"}, {Passphrase: "c", Recovery: "d"}} {
		need(t, s.SetKeys(ctx, want))
		got, err := s.Keys(ctx)
		same(t, got, want, err)
	}
}

func testDeskSessions(t *testing.T, s *store.Store) {
	need(t, s.AddDeskSession(ctx, "one", Noon))
	need(t, s.AddDeskSession(ctx, "two", Noon))
	need(t, s.LockDeskSession(ctx, "one"))
	got, err := s.DeskSession(ctx, "one")
	same(t, got, store.DeskSession{Locked: true, Created: Noon}, err)
	got, err = s.DeskSession(ctx, "two")
	same(t, got, store.DeskSession{Created: Noon}, err)
	need(t, s.UnlockDeskSession(ctx, "one"))
	got, err = s.DeskSession(ctx, "one")
	same(t, got, store.DeskSession{Created: Noon}, err)
	need(t, s.EndDeskSession(ctx, "one"))
	need(t, s.EndDeskSession(ctx, "one"))
	_, err = s.DeskSession(ctx, "one")
	wantErr(t, err, class.ErrNotFound)
	wantErr(t, s.LockDeskSession(ctx, "one"), class.ErrNotFound)
	need(t, s.EndDeskSessions(ctx))
	_, err = s.DeskSession(ctx, "two")
	wantErr(t, err, class.ErrNotFound)
}

func testClasses(t *testing.T, s *store.Store) {
	none, err := s.Classes(ctx)
	same(t, none, nil, err)
	b, a := makeScene("b", 0).Class, makeScene("a", 0).Class
	a.Name = "élan" // sorts after "The" only where letters are compared as bytes
	need(t, s.AddClass(ctx, b))
	need(t, s.AddClass(ctx, a))
	all, err := s.Classes(ctx)
	same(t, all, []class.Class{b, a}, err)
	b.Name, b.Language, b.Definitions.IsoscelesExactlyTwo = "Kestrels", "en", true
	need(t, s.UpdateClass(ctx, b))
	got, err := s.Class(ctx, b.ID)
	same(t, got, b, err)
	if err := s.AddClass(ctx, b); err == nil {
		t.Error("the same class was added twice")
	}
}

func testPupils(t *testing.T, s *store.Store) {
	c := makeScene("wren", 0).Class
	need(t, s.AddClass(ctx, c))
	need(t, s.AddPupils(ctx, c.ID, []class.Pupil{{ID: "p1", Nickname: "Alder"}, {ID: "p2", Nickname: "Éva", Group: "red"}}))
	need(t, s.AddPupils(ctx, c.ID, []class.Pupil{{ID: "p3", Nickname: "Clover"}}))
	want := []class.Pupil{
		{ID: "p1", ClassID: c.ID, Number: 1, Nickname: "Alder"},
		{ID: "p2", ClassID: c.ID, Number: 2, Nickname: "Éva", Group: "red"},
		{ID: "p3", ClassID: c.ID, Number: 3, Nickname: "Clover"},
	}
	got, err := s.Pupils(ctx, c.ID)
	same(t, got, want, err)

	wantErr(t, s.AddPupils(ctx, c.ID, []class.Pupil{{ID: "p4", Nickname: "New"}, {ID: "p5", Nickname: "éVA"}}), class.ErrNameTaken)
	renamed := want[2]
	renamed.Nickname = "ALDER"
	wantErr(t, s.UpdatePupil(ctx, renamed), class.ErrNameTaken)
	got, err = s.Pupils(ctx, c.ID)
	same(t, got, want, err) // all or none

	renamed.Nickname, renamed.Group, renamed.Number = "CLOVER", "blue", 9
	need(t, s.UpdatePupil(ctx, renamed))
	one, err := s.Pupil(ctx, "p3")
	same(t, one, renamed, err)
}

func testDeletePupil(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 3)
	for n := range 6 {
		add(t, s, sc.Showing(n, n%3))
	}
	need(t, s.SetFront(ctx, sc.Run.ID, class.FrontView{Kind: class.FrontBoards, Showings: []string{"kite-showing-1", "kite-showing-0", "kite-showing-4"}}))
	need(t, s.DeletePupil(ctx, sc.Pupils[1].ID))

	pupils, err := s.Pupils(ctx, sc.Class.ID)
	same(t, pupils, []class.Pupil{sc.Pupils[0], sc.Pupils[2]}, err)
	showings, err := s.Showings(ctx, sc.Run.ID)
	same(t, ids(showings), []string{"kite-showing-0", "kite-showing-2", "kite-showing-3", "kite-showing-5"}, err)
	seats, err := s.Seats(ctx, sc.Run.ID)
	same(t, seats, []class.Seat{sc.Seats[0], sc.Seats[2]}, err)
	_, err = s.SeatByToken(ctx, sc.Seats[1].TokenHash)
	wantErr(t, err, class.ErrNotFound)
	front, err := s.Front(ctx, sc.Run.ID)
	same(t, front, class.FrontView{Kind: class.FrontBoards, Showings: []string{"kite-showing-0"}}, err)
	_, err = s.AddShowing(ctx, sc.Showing(7, 1))
	wantErr(t, err, class.ErrNotFound)
	wantErr(t, s.DeletePupil(ctx, sc.Pupils[1].ID), class.ErrNotFound)
}

func testDeleteClass(t *testing.T, s *store.Store) {
	sc, other := NewScene(t, s, "kite", 2), NewScene(t, s, "wren", 2)
	add(t, s, sc.Showing(1, 0))
	add(t, s, other.Showing(1, 0))
	need(t, s.SetFront(ctx, sc.Run.ID, class.FrontView{Kind: class.FrontTask}))
	need(t, s.DeleteClass(ctx, sc.Class.ID))
	all, err := s.Classes(ctx)
	same(t, all, []class.Class{other.Class}, err)
	_, err = s.Pupil(ctx, sc.Pupils[0].ID)
	wantErr(t, err, class.ErrNotFound)
	_, err = s.Showing(ctx, "kite-showing-1")
	wantErr(t, err, class.ErrNotFound)
	_, err = s.Task(ctx, sc.Task.ID)
	wantErr(t, err, class.ErrNotFound)
	kept, err := s.Showings(ctx, other.Run.ID)
	same(t, kept, []class.Showing{other.Showing(1, 0)}, err)
}

func testRuns(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	got, err := s.RunByWord(ctx, sc.Run.RoomWord)
	same(t, got, sc.Run, err)
	next := class.Run{ID: "next", ClassID: sc.Class.ID, RoomWord: sc.Run.RoomWord, Started: Noon.Add(time.Hour)}
	wantErr(t, s.AddRun(ctx, next), class.ErrWordTaken)

	need(t, s.EndRun(ctx, sc.Run.ID, Noon.Add(time.Minute)))
	need(t, s.EndRun(ctx, sc.Run.ID, Noon.Add(time.Hour)))
	sc.Run.Ended = Noon.Add(time.Minute)
	got, err = s.Run(ctx, sc.Run.ID)
	same(t, got, sc.Run, err)
	_, err = s.CurrentTask(ctx, sc.Run.ID)
	wantErr(t, err, class.ErrNotFound)
	_, err = s.RunByWord(ctx, sc.Run.RoomWord)
	wantErr(t, err, class.ErrNotFound)
	wantErr(t, s.AddTask(ctx, NewTask(sc.Run.ID, "late")), class.ErrOver)
	wantErr(t, s.TakeSeat(ctx, class.Seat{ID: "late", RunID: sc.Run.ID, PupilID: sc.Pupils[0].ID, TokenHash: "late"}), class.ErrOver)

	need(t, s.AddRun(ctx, next))
	open, err := s.OpenRuns(ctx)
	same(t, open, []class.Run{next}, err)
	all, err := s.Runs(ctx, sc.Class.ID)
	same(t, all, []class.Run{next, sc.Run}, err)
}

func testTasks(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	first, err := s.CurrentTask(ctx, sc.Run.ID)
	same(t, first, sc.Task, err)
	second := class.Task{ID: "second", RunID: sc.Run.ID, Ordinal: 7, Board: "ring:12+centre", Started: Noon.Add(time.Minute)}
	need(t, s.AddTask(ctx, second))
	first.Ended, second.Ordinal = second.Started, 2
	all, err := s.Tasks(ctx, sc.Run.ID)
	same(t, all, []class.Task{first, second}, err)
	need(t, s.EndTask(ctx, second.ID, Noon.Add(time.Hour)))
	need(t, s.EndTask(ctx, second.ID, Noon.Add(2*time.Hour)))
	second.Ended = Noon.Add(time.Hour)
	got, err := s.Task(ctx, second.ID)
	same(t, got, second, err)
	_, err = s.CurrentTask(ctx, sc.Run.ID)
	wantErr(t, err, class.ErrNotFound)
	if err := s.AddTask(ctx, second); err == nil {
		t.Error("the same task was added twice")
	}
}

func testExtend(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	need(t, s.ExtendTask(ctx, sc.Task.ID, 2))
	got, err := s.Task(ctx, sc.Task.ID)
	same(t, got.Minutes, 7, err)
	free := NewTask(sc.Run.ID, "free")
	free.Minutes = 0
	need(t, s.AddTask(ctx, free))
	need(t, s.ExtendTask(ctx, "free", 2))
	got, err = s.Task(ctx, "free")
	same(t, got.Minutes, 0, err)
}

func testSeats(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 2)
	again := class.Seat{ID: "again", RunID: sc.Run.ID, PupilID: sc.Pupils[0].ID, TokenHash: "again", Joined: Noon.Add(time.Hour)}
	wantErr(t, s.TakeSeat(ctx, again), class.ErrSeatTaken)
	got, err := s.SeatByToken(ctx, sc.Seats[0].TokenHash)
	same(t, got, sc.Seats[0], err)

	need(t, s.FreePupil(ctx, sc.Run.ID, sc.Pupils[0].ID, Noon))
	need(t, s.FreePupil(ctx, sc.Run.ID, sc.Pupils[0].ID, Noon))
	seatMoves(t, s)
	_, err = s.SeatByToken(ctx, sc.Seats[0].TokenHash)
	wantErr(t, err, class.ErrNotFound)
	need(t, s.TakeSeat(ctx, again))
	all, err := s.Seats(ctx, sc.Run.ID)
	same(t, all, []class.Seat{sc.Seats[1], again}, err)

	need(t, s.LeaveSeat(ctx, again.ID, Noon))
	need(t, s.LeaveSeat(ctx, again.ID, Noon.Add(time.Hour)))
	all, err = s.Seats(ctx, sc.Run.ID)
	same(t, all, []class.Seat{sc.Seats[1]}, err)
}

func testShowing(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	want := sc.Showing(1, 0)
	want.Source, want.Figure, want.Standing = class.FromDesk, "A1 D1 / D1 D3 / D3 A1", "unfinished"
	want.Made = time.Date(1969, 1, 2, 3, 4, 5, int(6*time.Millisecond), time.UTC) // a device's clock
	add(t, s, want)
	got, err := s.Showing(ctx, want.ID)
	same(t, got, want, err)
	all, err := s.TaskShowings(ctx, sc.Task.ID)
	same(t, all, []class.Showing{want}, err)
}

func testResend(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 2)
	first := sc.Showing(1, 0)
	add(t, s, first)
	again := first
	again.Received, again.Rules, again.Standing = Noon.Add(time.Hour), 99, "nearly"
	for range 3 {
		added, err := s.AddShowing(ctx, again)
		same(t, added, false, err)
	}
	for name, change := range map[string]func(*class.Showing){
		"figure": func(o *class.Showing) { o.Figure = "A1 B1 A2" },
		"pupil":  func(o *class.Showing) { o.PupilID = sc.Pupils[1].ID },
		"source": func(o *class.Showing) { o.Source = class.FromPaper },
	} {
		other := first
		change(&other)
		if _, err := s.AddShowing(ctx, other); !errors.Is(err, class.ErrDifferent) {
			t.Errorf("another %s under the same ID: got error %v, want ErrDifferent", name, err)
		}
	}
	all, err := s.Showings(ctx, sc.Run.ID)
	same(t, all, []class.Showing{first}, err)
}

func testForgedShowing(t *testing.T, s *store.Store) {
	sc, other := NewScene(t, s, "kite", 1), NewScene(t, s, "wren", 1)
	for name, change := range map[string]func(*class.Showing){
		"another room's task":    func(o *class.Showing) { o.TaskID = other.Task.ID },
		"another class's pupil":  func(o *class.Showing) { o.PupilID = other.Pupils[0].ID },
		"another run":            func(o *class.Showing) { o.RunID = other.Run.ID },
		"a run that never was":   func(o *class.Showing) { o.RunID = "none" },
		"a task that never was":  func(o *class.Showing) { o.TaskID = "none" },
		"a pupil who never was":  func(o *class.Showing) { o.PupilID = "none" },
		"nothing at all":         func(o *class.Showing) { *o = class.Showing{} },
		"words instead of an ID": func(o *class.Showing) { o.PupilID = "'; DROP TABLE showing; --" },
	} {
		forged := sc.Showing(1, 0)
		change(&forged)
		if _, err := s.AddShowing(ctx, forged); !errors.Is(err, class.ErrNotFound) {
			t.Errorf("%s: got error %v, want ErrNotFound", name, err)
		}
	}
	for _, run := range []string{sc.Run.ID, other.Run.ID} {
		all, err := s.Showings(ctx, run)
		same(t, all, nil, err)
	}
}

func testOrder(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	var want []string
	for n := 9; n >= 0; n-- {
		showing := sc.Showing(n, 0)
		showing.Received = Noon.Add(time.Duration(n%3) * time.Hour)
		add(t, s, showing)
		want = append(want, showing.ID)
	}
	all, err := s.Showings(ctx, sc.Run.ID)
	same(t, ids(all), want, err)
	all, err = s.TaskShowings(ctx, sc.Task.ID)
	same(t, ids(all), want, err)
}

func testLateShowing(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	need(t, s.EndTask(ctx, sc.Task.ID, Noon))
	add(t, s, sc.Showing(1, 0))
	need(t, s.EndRun(ctx, sc.Run.ID, Noon))
	if _, err := s.SeatByToken(ctx, sc.Seats[0].TokenHash); err != nil {
		t.Errorf("the device has no seat after the run: %v", err)
	}
	add(t, s, sc.Showing(2, 0))
}

func testLooked(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	want := sc.Showing(1, 0)
	add(t, s, want)
	need(t, s.MarkLooked(ctx, want.ID, Noon))
	need(t, s.MarkLooked(ctx, want.ID, Noon.Add(time.Hour)))
	want.Looked = Noon
	got, err := s.Showing(ctx, want.ID)
	same(t, got, want, err)
}

func testFront(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	got, err := s.Front(ctx, sc.Run.ID)
	same(t, got, class.FrontView{Kind: class.FrontBlank}, err)
	for _, want := range []class.FrontView{
		{Kind: class.FrontBoards, Showings: []string{"b", "a"}, Standing: true},
		{Kind: class.FrontJoin},
	} {
		need(t, s.SetFront(ctx, sc.Run.ID, want))
		got, err := s.Front(ctx, sc.Run.ID)
		same(t, got, want, err)
	}
}

func testTwoRooms(t *testing.T, s *store.Store) {
	a, b := NewScene(t, s, "kite", 2), NewScene(t, s, "wren", 2)
	add(t, s, a.Showing(1, 0))
	wantErr(t, s.TakeSeat(ctx, class.Seat{ID: "x", RunID: a.Run.ID, PupilID: b.Pupils[0].ID, TokenHash: "x"}), class.ErrNotFound)
	showings, err := s.Showings(ctx, b.Run.ID)
	same(t, showings, nil, err)
	seats, err := s.Seats(ctx, b.Run.ID)
	same(t, seats, b.Seats, err)
	tasks, err := s.Tasks(ctx, b.Run.ID)
	same(t, tasks, []class.Task{b.Task}, err)
	need(t, s.EndRun(ctx, a.Run.ID, Noon))
	current, err := s.CurrentTask(ctx, b.Run.ID)
	same(t, current, b.Task, err)
}

func testNotFound(t *testing.T, s *store.Store) {
	for name, call := range map[string]func() error{
		"Class":           func() error { _, err := s.Class(ctx, "no"); return err },
		"UpdateClass":     func() error { return s.UpdateClass(ctx, class.Class{ID: "no"}) },
		"DeleteClass":     func() error { return s.DeleteClass(ctx, "no") },
		"AddPupils":       func() error { return s.AddPupils(ctx, "no", []class.Pupil{{ID: "p"}}) },
		"Pupil":           func() error { _, err := s.Pupil(ctx, "no"); return err },
		"UpdatePupil":     func() error { return s.UpdatePupil(ctx, class.Pupil{ID: "no"}) },
		"DeletePupil":     func() error { return s.DeletePupil(ctx, "no") },
		"AddRun":          func() error { return s.AddRun(ctx, class.Run{ID: "r", ClassID: "no"}) },
		"Run":             func() error { _, err := s.Run(ctx, "no"); return err },
		"RunByWord":       func() error { _, err := s.RunByWord(ctx, "no"); return err },
		"EndRun":          func() error { return s.EndRun(ctx, "no", Noon) },
		"AddTask":         func() error { return s.AddTask(ctx, NewTask("no", "t")) },
		"Task":            func() error { _, err := s.Task(ctx, "no"); return err },
		"CurrentTask":     func() error { _, err := s.CurrentTask(ctx, "no"); return err },
		"EndTask":         func() error { return s.EndTask(ctx, "no", Noon) },
		"ExtendTask":      func() error { return s.ExtendTask(ctx, "no", 1) },
		"TakeSeat":        func() error { return s.TakeSeat(ctx, class.Seat{RunID: "no"}) },
		"SeatByToken":     func() error { _, err := s.SeatByToken(ctx, "no"); return err },
		"LeaveSeat":       func() error { return s.LeaveSeat(ctx, "no", Noon) },
		"AddShowing":      func() error { _, err := s.AddShowing(ctx, class.Showing{RunID: "no"}); return err },
		"Showing":         func() error { _, err := s.Showing(ctx, "no"); return err },
		"MarkLooked":      func() error { return s.MarkLooked(ctx, "no", Noon) },
		"SetFront":        func() error { return s.SetFront(ctx, "no", class.FrontView{}) },
		"Front":           func() error { _, err := s.Front(ctx, "no"); return err },
		"UpdatePlan":      func() error { _, err := s.UpdatePlan(ctx, class.Plan{ID: "no"}); return err },
		"Plan":            func() error { _, err := s.Plan(ctx, "no"); return err },
		"DeletePlan":      func() error { return s.DeletePlan(ctx, "no") },
		"AddPeriod":       func() error { return s.AddPeriod(ctx, class.Period{RunID: "no"}) },
		"Period":          func() error { _, err := s.Period(ctx, "no"); return err },
		"SetPeriod":       func() error { _, err := s.SetPeriod(ctx, class.Period{RunID: "no"}); return err },
		"TickPeriod":      func() error { return s.TickPeriod(ctx, class.Period{RunID: "no"}) },
		"MarkWord":        func() error { return s.MarkWord(ctx, class.WordMark{RunID: "no"}) },
		"AddAnswer":       func() error { _, err := s.AddAnswer(ctx, class.Answer{RunID: "no"}); return err },
		"Answer":          func() error { _, err := s.Answer(ctx, "no"); return err },
		"DeskSession":     func() error { _, err := s.DeskSession(ctx, "no"); return err },
		"LockDeskSession": func() error { return s.LockDeskSession(ctx, "no") },
	} {
		if err := call(); !errors.Is(err, class.ErrNotFound) {
			t.Errorf("%s: got error %v, want ErrNotFound", name, err)
		}
	}
}

func testLetters(t *testing.T, s *store.Store) {
	for i, text := range []string{"Ñandú", "李小龍", "محمد", "O'Neil \"x\" $1 ?1", "🦦", ""} {
		c := makeScene(fmt.Sprint(i), 0).Class
		c.Name = text
		need(t, s.AddClass(ctx, c))
		got, err := s.Class(ctx, c.ID)
		same(t, got, c, err)
	}
}

// testWriters adds from eight sides, half of them to one run, and reads all the
// while.
func testWriters(t *testing.T, s *store.Store) {
	const writers, each = 8, 25
	rooms := []Scene{NewScene(t, s, "kite", writers), NewScene(t, s, "wren", writers)}
	var work sync.WaitGroup
	for w := range writers {
		work.Go(func() {
			for n := range each {
				showing := rooms[w%2].Showing(w*each+n, w)
				if added, err := s.AddShowing(ctx, showing); err != nil || !added {
					t.Errorf("writer %d: AddShowing = %t, %v", w, added, err)
				}
				if got, err := s.Showing(ctx, showing.ID); err != nil || got != showing {
					t.Errorf("writer %d does not read what it wrote: %v, %v", w, got, err)
				}
			}
		})
	}
	work.Wait()
	for _, room := range rooms {
		all, err := s.Showings(ctx, room.Run.ID)
		same(t, len(all), writers/2*each, err)
	}
}

func testSameFromMany(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	first := make(chan bool, 8)
	var work sync.WaitGroup
	for range cap(first) {
		work.Go(func() {
			added, err := s.AddShowing(ctx, sc.Showing(1, 0))
			if err != nil {
				t.Error(err)
			}
			first <- added
		})
	}
	work.Wait()
	close(first)
	count := 0
	for added := range first {
		if added {
			count++
		}
	}
	if count != 1 {
		t.Errorf("the showing was added %d times, want once", count)
	}
}

func testRaceForSeat(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	need(t, s.FreePupil(ctx, sc.Run.ID, sc.Pupils[0].ID, Noon))
	results := make(chan error, 8)
	var work sync.WaitGroup
	for i := range cap(results) {
		work.Go(func() {
			id := fmt.Sprint("device-", i)
			results <- s.TakeSeat(ctx, class.Seat{ID: id, RunID: sc.Run.ID, PupilID: sc.Pupils[0].ID, TokenHash: id, Joined: Noon})
		})
	}
	work.Wait()
	close(results)
	in := 0
	for err := range results {
		if err == nil {
			in++
		} else if !errors.Is(err, class.ErrSeatTaken) {
			t.Errorf("TakeSeat: %v, want ErrSeatTaken", err)
		}
	}
	if in != 1 {
		t.Errorf("%d devices got the seat, want 1", in)
	}
}

func testCancelled(t *testing.T, s *store.Store) {
	sc := NewScene(t, s, "kite", 1)
	cancelled, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := s.AddShowing(cancelled, sc.Showing(1, 0)); !errors.Is(err, context.Canceled) {
		t.Errorf("AddShowing: %v, want context.Canceled", err)
	}
	all, err := s.Showings(ctx, sc.Run.ID)
	same(t, all, nil, err)
	add(t, s, sc.Showing(1, 0))
}

func add(t *testing.T, s *store.Store, showing class.Showing) {
	t.Helper()
	added, err := s.AddShowing(ctx, showing)
	same(t, added, true, err)
}

func same[T any](t *testing.T, got, want T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("want - got +\n%s", diff)
	}
}

func wantErr(t *testing.T, got, want error) {
	t.Helper()
	if !errors.Is(got, want) {
		t.Errorf("got error %v, want %v", got, want)
	}
}

func ids(showings []class.Showing) []string {
	return slices.Collect(func(yield func(string) bool) {
		for _, s := range showings {
			if !yield(s.ID) {
				return
			}
		}
	})
}

// seatMoves: a device moves to a free place of its class and to no other.
func seatMoves(t *testing.T, s *store.Store) {
	t.Helper()
	ctx := context.Background()
	sc, other := NewScene(t, s, "wrong-tile", 3), NewScene(t, s, "next-door", 1)
	for _, p := range sc.Pupils {
		need(t, s.FreePupil(ctx, sc.Run.ID, p.ID, Noon))
	}
	for i, p := range sc.Pupils[:2] {
		need(t, s.TakeSeat(ctx, class.Seat{ID: sc.Run.ID + p.ID, RunID: sc.Run.ID, PupilID: p.ID, TokenHash: sc.Run.ID + string(rune('a'+i)), Joined: Noon}))
	}
	if err := s.MoveSeat(ctx, sc.Run.ID, sc.Pupils[0].ID, sc.Pupils[1].ID); !errors.Is(err, class.ErrSeatTaken) {
		t.Errorf("moving onto a taken place: %v, want class.ErrSeatTaken", err)
	}
	for _, to := range []string{other.Pupils[0].ID, "nobody"} {
		if err := s.MoveSeat(ctx, sc.Run.ID, sc.Pupils[0].ID, to); !errors.Is(err, class.ErrNotFound) {
			t.Errorf("moving to %s: %v, want class.ErrNotFound", to, err)
		}
	}
	need(t, s.MoveSeat(ctx, sc.Run.ID, sc.Pupils[0].ID, sc.Pupils[2].ID))
	if err := s.MoveSeat(ctx, sc.Run.ID, sc.Pupils[0].ID, sc.Pupils[2].ID); err == nil {
		t.Error("a device that is not there was moved")
	}
	seat, err := s.SeatByToken(ctx, sc.Run.ID+"a")
	if err != nil || seat.PupilID != sc.Pupils[2].ID {
		t.Errorf("the device sits at %s (%v), want %s", seat.PupilID, err, sc.Pupils[2].ID)
	}
}
