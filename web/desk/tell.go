package desk

import (
	"context"

	"pegwright/bus"
)

// tellSeat says to one seat of a run that something changed for it.
func (d *Desk) tellSeat(run, pupil string) {
	d.Bus.Publish(bus.Event{Topic: "seat/" + run + "/" + pupil, Piece: "seat-" + pupil})
}

// tellSeats says to all seats of a run that the task changed.
func (d *Desk) tellSeats(run string) { d.Bus.Publish(bus.Event{Topic: "seats/" + run, Piece: "task"}) }

// tellFront says that the front shows something else.
func (d *Desk) tellFront(run string) { d.Bus.Publish(bus.Event{Topic: "front/" + run, Piece: "front"}) }

// tellClass says to the open runs of a class that its pupils are others, or
// sit elsewhere; and to the seats of those who are gone.
func (d *Desk) tellClass(ctx context.Context, id string, gone ...string) error {
	runs, err := d.Store.Runs(ctx, id)
	if err != nil {
		return err
	}
	for _, run := range runs {
		if run.Open() {
			d.tellFront(run.ID)
			d.publish(run.ID, "tiles", "counts", "room")
			for _, pupil := range gone {
				d.tellSeat(run.ID, pupil)
			}
		}
	}
	return nil
}

// tellAll says that a run has another task.
func (d *Desk) tellAll(s *scene) {
	d.tellSeats(s.Run.ID)
	d.tellFront(s.Run.ID)
	pieces := []string{"task", "counts", "front", "figures"}
	for _, p := range s.Pupils {
		pieces = append(pieces, "tile-"+p.ID)
	}
	d.publish(s.Run.ID, pieces...)
}
