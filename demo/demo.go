// Package demo is a class that can be watched without children: a school, its
// lessons and its pupils, all of them invented, and the pupils at work in their
// seats. They come over HTTP as any seat does, and every figure they make is a
// real one on the task's board, found through the atlas.
//
// Start at Seed and Room.Work.
package demo

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"time"

	"pegwright/class"
	"pegwright/shape"
	"pegwright/store"
)

// School is the name of the school, which does not exist.
const School = "Harbour Lane Primary"

const className = "Kestrels, " + School + " (invented)"

// Scenario is a class with lessons behind it and one begun.
type Scenario struct {
	Class  class.Class
	Pupils []Pupil
	Run    class.Run  // open
	Task   class.Task // being made
}

// Pupil is an invented pupil.
type Pupil struct {
	class.Pupil
	Character Character
	Beside    string // the id of the neighbour whose board can be seen, "" for none
	Absent    bool   // leaves the place free for someone real
}

// Seed writes the scenario into a store: three lessons taught in the days
// before now, and one that has just begun. The same seed makes the same
// figures; random makes the ids.
func Seed(ctx context.Context, st *store.Store, random io.Reader, now time.Time, seed uint64) (Scenario, error) {
	w := writer{ctx: ctx, store: st, random: random, seed: seed}
	s, err := w.enrol(now)
	if err != nil {
		return s, err
	}
	for _, l := range taught {
		if err := w.lesson(s, l, now); err != nil {
			return s, fmt.Errorf("lesson of %d days ago: %w", l.daysAgo, err)
		}
	}
	err = w.begin(&s, now)
	return s, err
}

// ErrOthers is returned by Resume for a store that holds other records, among
// which nothing invented may be written.
var ErrOthers = errors.New("the store holds records that are not invented")

// Resume returns the scenario of a store that was seeded before, and whether
// there is one.
func Resume(ctx context.Context, st *store.Store) (Scenario, bool, error) {
	var s Scenario
	classes, err := st.Classes(ctx)
	if err != nil || len(classes) == 0 {
		return s, false, err
	}
	if len(classes) != 1 || classes[0].Name != className {
		return s, false, ErrOthers
	}
	s.Class = classes[0]
	pupils, err := st.Pupils(ctx, s.Class.ID)
	if err != nil {
		return s, false, err
	}
	s.Pupils = played(pupils)
	runs, err := st.OpenRuns(ctx)
	if err != nil || len(runs) == 0 {
		return s, err == nil, err
	}
	s.Run = runs[0]
	s.Task, err = st.CurrentTask(ctx, s.Run.ID)
	if errors.Is(err, class.ErrNotFound) {
		err = nil
	}
	return s, true, err
}

func records(pupils []Pupil) []class.Pupil {
	out := make([]class.Pupil, len(pupils))
	for i, p := range pupils {
		out[i] = p.Pupil
	}
	return out
}

// writer writes lessons into a store.
type writer struct {
	ctx    context.Context
	store  *store.Store
	random io.Reader
	seed   uint64
}

// enrol writes the class.
func (w writer) enrol(now time.Time) (Scenario, error) {
	s := Scenario{Class: class.Class{ID: class.NewID(w.random), Name: className, Language: "en", Created: now.AddDate(0, 0, -14)}}
	s.Pupils = played(kestrels(w.random, s.Class.ID))
	if err := w.store.AddClass(w.ctx, s.Class); err != nil {
		return s, err
	}
	return s, w.store.AddPupils(w.ctx, s.Class.ID, records(s.Pupils))
}

// begin begins today's lesson, with its task at the front.
func (w writer) begin(s *Scenario, now time.Time) (err error) {
	if s.Run, err = w.open(s.Class.ID, now); err != nil {
		return err
	}
	if s.Task, err = w.set(s.Run, today, now); err != nil {
		return err
	}
	return w.store.SetFront(w.ctx, s.Run.ID, class.FrontView{Kind: class.FrontTask})
}

// open begins a run.
func (w writer) open(classID string, at time.Time) (class.Run, error) {
	word := class.NewRoomWord(w.random, func(word string) bool {
		_, err := w.store.RunByWord(w.ctx, word)
		return err == nil
	})
	run := class.Run{ID: class.NewID(w.random), ClassID: classID, RoomWord: word, Started: at}
	return run, w.store.AddRun(w.ctx, run)
}

// set sets a task in a run.
func (w writer) set(run class.Run, t class.Task, at time.Time) (class.Task, error) {
	t.ID, t.RunID, t.Started = class.NewID(w.random), run.ID, at
	if err := w.store.AddTask(w.ctx, t); err != nil {
		return t, err
	}
	return w.store.Task(w.ctx, t.ID)
}

// lesson writes a lesson that was taught, with all that was shown in it.
func (w writer) lesson(s Scenario, l lesson, now time.Time) error {
	at := now.AddDate(0, 0, -l.daysAgo).Truncate(time.Hour)
	run, err := w.open(s.Class.ID, at)
	if err != nil {
		return err
	}
	for _, t := range l.tasks {
		set, err := w.set(run, t, at)
		if err != nil {
			return err
		}
		if err := w.shown(s, set, at); err != nil {
			return err
		}
		at = at.Add(12 * time.Minute)
	}
	return w.store.EndRun(w.ctx, run.ID, at)
}

// shown writes what every pupil showed for a task, one after another.
func (w writer) shown(s Scenario, t class.Task, at time.Time) error {
	choices, err := NewChoices(t)
	if err != nil {
		return err
	}
	first := map[string]string{}
	for i, p := range s.Pupils {
		random := rand.New(rand.NewPCG(w.seed, uint64(p.Number)<<16|uint64(t.Ordinal)))
		figure := choices.First(p.Character, random, first[p.Beside])
		first[p.ID] = figure.String()
		at := at.Add(time.Duration(60+i*12) * time.Second)
		if err := w.show(t, p, figure.String(), at); err != nil {
			return err
		}
		again, ok := choices.Again(figure, random)
		if !ok || !p.Character.heeds(random) {
			continue
		}
		if err := w.show(t, p, again.String(), at.Add(2*time.Minute)); err != nil {
			return err
		}
	}
	return nil
}

// show writes one showing.
func (w writer) show(t class.Task, p Pupil, figure string, at time.Time) error {
	v, err := class.Judge(t, figure)
	if err != nil {
		return err
	}
	_, err = w.store.AddShowing(w.ctx, class.Showing{
		ID: class.NewID(w.random), RunID: t.RunID, TaskID: t.ID, PupilID: p.ID, Figure: figure, Source: class.FromSeat,
		Standing: v.Standing, Rules: class.RulesVersion, Made: at, Received: at,
	})
	return err
}

// polygons are the definitions of the class, which are the product's own.
var polygons shape.Definitions
