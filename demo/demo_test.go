package demo

import (
	"context"
	"crypto/rand"
	"errors"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/store"
	"pegwright/task"
)

var start = time.Date(2026, 11, 25, 9, 20, 0, 0, time.UTC)

func openStore(t *testing.T) *store.Store {
	t.Helper()
	st, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "pegwright.db"))
	must(t, err)
	t.Cleanup(func() { must(t, st.Close()) })
	return st
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestSeedWritesThreeLessonsAndBeginsOne(t *testing.T) {
	ctx, st := context.Background(), openStore(t)
	s, err := Seed(ctx, st, rand.Reader, start, 1)
	must(t, err)
	if len(s.Pupils) != 28 || s.Pupils[0].Nickname != "Alder" || s.Pupils[27].Nickname != "Yarrow" {
		t.Errorf("pupils %d", len(s.Pupils))
	}
	runs, err := st.Runs(ctx, s.Class.ID)
	must(t, err)
	if len(runs) != 4 || !runs[0].Open() || runs[1].Open() || runs[2].Open() || runs[3].Open() {
		t.Fatalf("runs %+v, want three that ended and an open one", runs)
	}
	for _, run := range runs[1:] {
		tasks, err := st.Tasks(ctx, run.ID)
		must(t, err)
		if len(tasks) != 2 {
			t.Errorf("%d tasks", len(tasks))
		}
		for _, set := range tasks {
			checkShown(t, st, set)
		}
	}
	if current, err := st.CurrentTask(ctx, s.Run.ID); err != nil || current.ID != s.Task.ID {
		t.Errorf("current task %+v, %v", current, err)
	}
}

// checkShown checks that everyone showed something, judged as it is.
func checkShown(t *testing.T, st *store.Store, set class.Task) {
	t.Helper()
	shown, err := st.TaskShowings(context.Background(), set.ID)
	must(t, err)
	by, standings := map[string]bool{}, map[task.Standing]int{}
	for _, s := range shown {
		by[s.PupilID] = true
		standings[s.Standing]++
		v, err := class.Judge(set, s.Figure)
		must(t, err)
		if v.Standing != s.Standing {
			t.Errorf("%s: %s kept as %s, is %s", set.Words, s.Figure, s.Standing, v.Standing)
		}
		if s.Received.Before(set.Started) || s.Received.After(set.Ended) {
			t.Errorf("%s: shown at %s, outside the task", set.Words, s.Received)
		}
	}
	if len(by) != 28 || standings[task.Fits] < 10 {
		t.Errorf("%s: %d pupils, %v", set.Words, len(by), standings)
	}
}

func TestTheSameSeedMakesTheSameFigures(t *testing.T) {
	if raced {
		t.Skip("three lessons three times over")
	}
	all := func(seed uint64) (out []string) {
		ctx, st := context.Background(), openStore(t)
		s, err := Seed(ctx, st, rand.Reader, start, seed)
		must(t, err)
		runs, err := st.Runs(ctx, s.Class.ID)
		must(t, err)
		for _, run := range runs {
			shown, err := st.Showings(ctx, run.ID)
			must(t, err)
			for _, s := range shown {
				out = append(out, s.Figure)
			}
		}
		return out
	}
	first, second, other := all(7), all(7), all(8)
	if !reflect.DeepEqual(first, second) {
		t.Error("one seed made two lessons")
	}
	if reflect.DeepEqual(first, other) {
		t.Error("two seeds made one lesson")
	}
}

func TestResume(t *testing.T) {
	ctx, st := context.Background(), openStore(t)
	if _, found, err := Resume(ctx, st); found || err != nil {
		t.Fatalf("of an empty store: %v, %v", found, err)
	}
	s, err := Seed(ctx, st, rand.Reader, start, 1)
	must(t, err)
	got, found, err := Resume(ctx, st)
	must(t, err)
	if !found || !reflect.DeepEqual(got.Pupils, s.Pupils) || got.Run.ID != s.Run.ID || got.Task.ID != s.Task.ID {
		t.Errorf("resumed %+v", got)
	}
	must(t, st.EndRun(ctx, s.Run.ID, start))
	if got, found, err := Resume(ctx, st); !found || err != nil || got.Run.ID != "" {
		t.Errorf("after the end: %v, %v, run %q", found, err, got.Run.ID)
	}
	must(t, st.AddClass(ctx, class.Class{ID: "class-of-someone-else", Name: "Herons", Language: "en", Created: start}))
	if _, _, err := Resume(ctx, st); !errors.Is(err, ErrOthers) {
		t.Errorf("beside another class: %v", err)
	}
}

func TestPlayedLeavesStrangersOut(t *testing.T) {
	got := played([]class.Pupil{{ID: "a", Nickname: "Alder", Group: "Window"}, {ID: "b", Nickname: "Someone", Group: "Window"}, {ID: "c", Nickname: "Yarrow", Group: "Coats"}})
	if got[0].Absent || !got[1].Absent || !got[2].Absent {
		t.Errorf("absent: %v %v %v", got[0].Absent, got[1].Absent, got[2].Absent)
	}
	if got[1].Beside != "a" || got[2].Beside != "" {
		t.Errorf("beside %q, %q", got[1].Beside, got[2].Beside)
	}
}
