package desk

import (
	"net/http"
	"strconv"

	"pegwright/class"
	"pegwright/web/page"
)

// SetTask sets a task, from a card or from the builder; it takes the place of
// the one before.
func (d *Desk) SetTask(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if !s.Run.Open() {
		return page.Refuse(http.StatusConflict, "run.over")
	}
	f := readForm(r)
	if id := r.FormValue("quick"); id != "" {
		if err := f.quick(speakerOf(s.Class), id); err != nil {
			return err
		}
	}
	t, fault := f.task(page.Speaker(r), s.Class.Definitions)
	if fault != "" {
		return d.buildPage(w, r, http.StatusUnprocessableEntity, s, f, fault)
	}
	t.ID, t.RunID, t.Started = d.newID(), s.Run.ID, d.Now()
	if err := d.start(r, s, t); err != nil {
		return err
	}
	return see(w, r, s.path(""))
}

// start sets a task and puts it on the front.
func (d *Desk) start(r *http.Request, s *scene, t class.Task) error {
	if err := d.Store.AddTask(r.Context(), t); err != nil {
		return err
	}
	d.Live.Clear(s.Run.ID)
	if err := d.Store.SetFront(r.Context(), s.Run.ID, class.FrontView{Kind: class.FrontTask}); err != nil {
		return err
	}
	d.tellAll(s)
	return nil
}

// EndTask ends the current task.
func (d *Desk) EndTask(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if s.Task != nil {
		if err := d.Store.EndTask(r.Context(), s.Task.ID, d.Now()); err != nil {
			return err
		}
		d.tellAll(s)
	}
	return see(w, r, s.path(""))
}

// ExtendTask gives the current task more time.
func (d *Desk) ExtendTask(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	minutes, err := strconv.Atoi(r.FormValue("minutes"))
	if err != nil || minutes < 1 || minutes > 30 {
		return page.Refuse(http.StatusUnprocessableEntity, "task.fault_minutes")
	}
	if s.Task != nil {
		if err := d.Store.ExtendTask(r.Context(), s.Task.ID, s.Task.Extension(d.Now(), minutes)); err != nil {
			return err
		}
		d.publish(s.Run.ID, "task")
		d.tellFront(s.Run.ID)
		d.tellSeats(s.Run.ID)
	}
	return see(w, r, s.path(""))
}
