package desk

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"strings"

	"pegwright/board"
	"pegwright/class"
)

// scene is a run as it stands: what the pages of a run are drawn from.
type scene struct {
	Run      class.Run
	Class    class.Class
	Pupils   []class.Pupil // in table-group order
	Task     *class.Task   // the last one set, ended or not; nil when there is none
	Board    *board.Board  // of the current task
	Showings []class.Showing
	Ideas    class.Gathering
	Seats    map[string]class.Seat // those in, by pupil
	Front    class.FrontView
}

// scene reads a run and its last task: the boards stay to be talked about when
// it has ended.
func (d *Desk) scene(ctx context.Context, id string) (*scene, error) {
	s, err := d.bareScene(ctx, id)
	if err != nil {
		return nil, err
	}
	tasks, err := d.Store.Tasks(ctx, id)
	if err != nil || len(tasks) == 0 {
		return s, err
	}
	return s, d.setTask(ctx, s, tasks[len(tasks)-1])
}

// setTask reads what was handed in for a task.
func (d *Desk) setTask(ctx context.Context, s *scene, t class.Task) (err error) {
	s.Task = &t
	if s.Board, err = board.Parse(t.Board); err != nil {
		return err
	}
	if s.Showings, err = d.Store.TaskShowings(ctx, t.ID); err != nil {
		return err
	}
	s.Ideas = class.Ideas(t, s.Showings, s.Pupils)
	return nil
}

// bareScene reads a run without its tasks.
func (d *Desk) bareScene(ctx context.Context, id string) (*scene, error) {
	run, err := d.Store.Run(ctx, id)
	if err != nil {
		return nil, err
	}
	c, err := d.Store.Class(ctx, run.ClassID)
	if err != nil {
		return nil, err
	}
	pupils, err := d.Store.Pupils(ctx, c.ID)
	if err != nil {
		return nil, err
	}
	seats, err := d.Store.Seats(ctx, id)
	if err != nil {
		return nil, err
	}
	front, err := d.Store.Front(ctx, id)
	if err != nil && !errors.Is(err, class.ErrNotFound) {
		return nil, err
	}
	s := &scene{Run: run, Class: c, Pupils: tableOrder(pupils), Seats: map[string]class.Seat{}, Front: front}
	for _, seat := range seats {
		s.Seats[seat.PupilID] = seat
	}
	return s, nil
}

// tableOrder puts pupils of one table group together, groups by name and those
// without one last.
func tableOrder(pupils []class.Pupil) []class.Pupil {
	out := slices.Clone(pupils)
	slices.SortStableFunc(out, func(a, b class.Pupil) int {
		switch {
		case a.Group == b.Group:
			return a.Number - b.Number
		case a.Group == "":
			return 1
		case b.Group == "":
			return -1
		}
		return strings.Compare(a.Group, b.Group)
	})
	return out
}

// pupil returns a pupil of the run's class, or class.ErrNotFound.
func (s *scene) pupil(id string) (class.Pupil, error) {
	i := slices.IndexFunc(s.Pupils, func(p class.Pupil) bool { return p.ID == id })
	if i < 0 {
		return class.Pupil{}, class.ErrNotFound
	}
	return s.Pupils[i], nil
}

// latest returns a pupil's last showing of the current task.
func (s *scene) latest(pupil string) (class.Showing, bool) {
	for i := len(s.Showings) - 1; i >= 0; i-- {
		if s.Showings[i].PupilID == pupil {
			return s.Showings[i], true
		}
	}
	return class.Showing{}, false
}

// own returns a pupil's showings of the current task, in order.
func (s *scene) own(pupil string) []class.Showing {
	var own []class.Showing
	for _, o := range s.Showings {
		if o.PupilID == pupil {
			own = append(own, o)
		}
	}
	return own
}

// path returns an address of the run's pages.
func (s *scene) path(more string) string { return "/desk/run/" + s.Run.ID + more }

// runOf reads the scene of a request's address.
func (d *Desk) runOf(r *http.Request) (*scene, error) {
	return d.scene(r.Context(), r.PathValue("run"))
}
