package desk

import (
	"errors"
	"net/http"

	"pegwright/class"
)

// EndRun ends a run: its task, its seats, its front.
func (d *Desk) EndRun(w http.ResponseWriter, r *http.Request) error {
	run, err := d.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	if err := d.Store.EndRun(r.Context(), run.ID, d.Now()); err != nil {
		return err
	}
	d.Live.Forget(run.ID)
	d.tellSeats(run.ID)
	d.tellFront(run.ID)
	d.publish(run.ID, "task", "counts", "room")
	return see(w, r, "/desk/run/"+run.ID+"/kept")
}

// StartRun starts a run for a class, or goes to the one that goes on.
func (d *Desk) StartRun(w http.ResponseWriter, r *http.Request) error {
	c, err := d.Store.Class(r.Context(), r.PathValue("class"))
	if err != nil {
		return err
	}
	open, err := d.Store.OpenRuns(r.Context())
	if err != nil {
		return err
	}
	words := map[string]bool{}
	for _, run := range open {
		if run.ClassID == c.ID {
			return see(w, r, "/desk/run/"+run.ID)
		}
		words[run.RoomWord] = true
	}
	for range 5 {
		run := class.Run{ID: d.newID(), ClassID: c.ID, Started: d.Now()}
		run.RoomWord = class.NewRoomWord(d.Random, func(w string) bool { return words[w] })
		err = d.Store.AddRun(r.Context(), run)
		if errors.Is(err, class.ErrWordTaken) {
			words[run.RoomWord] = true
			continue
		}
		if err != nil {
			return err
		}
		if err := d.Store.SetFront(r.Context(), run.ID, class.FrontView{Kind: class.FrontJoin}); err != nil {
			return err
		}
		return see(w, r, "/desk/run/"+run.ID)
	}
	return err
}
