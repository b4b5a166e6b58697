package storetest

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/shape"
	"pegwright/store"
	"pegwright/task"
)

// Noon is when the scenes of tests begin.
var Noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// Scene is a class at its first task, with every pupil's device in. The IDs are
// those of its name: "kite-pupil-1", "kite-run", "kite-task-1".
type Scene struct {
	Name   string
	Class  class.Class
	Pupils []class.Pupil
	Run    class.Run
	Task   class.Task
	Seats  []class.Seat
}

// NewScene adds a scene with so many pupils to a store.
func NewScene(t testing.TB, s *store.Store, name string, pupils int) Scene {
	t.Helper()
	scene, err := AddScene(context.Background(), s, name, pupils)
	need(t, err)
	return scene
}

// AddScene is NewScene for where there is no test.
func AddScene(ctx context.Context, s *store.Store, name string, pupils int) (Scene, error) {
	scene := makeScene(name, pupils)
	err := errors.Join(s.AddClass(ctx, scene.Class),
		s.AddPupils(ctx, scene.Class.ID, scene.Pupils),
		s.AddRun(ctx, scene.Run),
		s.AddTask(ctx, scene.Task))
	for _, seat := range scene.Seats {
		err = errors.Join(err, s.TakeSeat(ctx, seat))
	}
	return scene, err
}

func makeScene(name string, pupils int) Scene {
	sc := Scene{Name: name}
	sc.Class = class.Class{
		ID: name + "-class", Name: "The " + name + "s", Language: "es",
		Definitions: shape.Definitions{KiteNotRhombus: true}, Created: Noon,
	}
	sc.Run = class.Run{ID: name + "-run", ClassID: sc.Class.ID, RoomWord: "amber-" + name, Started: Noon}
	sc.Task = NewTask(sc.Run.ID, name+"-task-1")
	sc.Task.Ordinal = 1
	for i := 1; i <= pupils; i++ {
		p := class.Pupil{
			ID: fmt.Sprintf("%s-pupil-%d", name, i), ClassID: sc.Class.ID, Number: i,
			Nickname: fmt.Sprintf("%s %d", name, i), Group: fmt.Sprintf("Table %d", i%4),
		}
		sc.Pupils = append(sc.Pupils, p)
		sc.Seats = append(sc.Seats, class.Seat{
			ID: fmt.Sprintf("%s-seat-%d", name, i), RunID: sc.Run.ID, PupilID: p.ID,
			TokenHash: fmt.Sprintf("%s-token-%d", name, i), Joined: Noon.Add(time.Duration(i) * time.Second),
		})
	}
	return sc
}

// NewTask returns a task of a run with something in every field that one can
// set.
func NewTask(runID, id string) class.Task {
	return class.Task{
		ID: id, RunID: runID, Words: "Make a triangle.", Board: "square:5x5",
		Conditions: []string{"sides=3", "right-angles=1"}, Definitions: shape.Definitions{TrapezoidExactlyOne: true},
		MaxBands: 1, Minutes: 5, Feedback: class.HintFeedback, Model: "A1 B1 A2", Started: Noon,
	}
}

// Showing returns the n-th showing of the scene's task, by the pupil at an
// index.
func (sc Scene) Showing(n, pupil int) class.Showing {
	return class.Showing{
		ID: fmt.Sprintf("%s-showing-%d", sc.Name, n), RunID: sc.Run.ID, TaskID: sc.Task.ID,
		PupilID: sc.Pupils[pupil].ID, Figure: "A1 D1 A2", Source: class.FromSeat, Standing: task.Fits,
		Rules: class.RulesVersion, Made: Noon.Add(-time.Hour), Received: Noon.Add(time.Duration(n) * time.Millisecond),
	}
}

// Period returns the period of the scene's run, not yet added.
func (sc Scene) Period() class.Period {
	return class.Period{
		RunID: sc.Run.ID, PlanID: sc.Name + "-plan", Plan: "title: Triangles\n", State: `{"current": 1}`, Version: 1, Updated: Noon,
	}
}

// Answer returns the n-th answer of the scene, by the pupil at an index.
func (sc Scene) Answer(n, pupil int) class.Answer {
	return class.Answer{
		ID: fmt.Sprintf("%s-answer-%d", sc.Name, n), RunID: sc.Run.ID, Step: 6, Item: fmt.Sprintf("a%d", n%4+1),
		PupilID: sc.Pupils[pupil].ID, Body: `{"picks":[1,4]}`, Source: class.FromSeat, Idea: "idea.upright_only",
		Rules: class.RulesVersion, Made: Noon.Add(-time.Hour), Received: Noon.Add(time.Duration(n) * time.Millisecond),
	}
}

func need(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
