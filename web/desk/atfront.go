package desk

import (
	"errors"
	"net/http"
	"slices"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// frontPiece is what the front shows, with its controls.
type frontPiece struct {
	*say.Speaker
	Path     string
	Address  string
	Kind     class.FrontKind
	Boards   int
	Standing bool
	HaveTask bool
	Back     string
}

func (d *Desk) frontPiece(say *say.Speaker, s *scene) frontPiece {
	return frontPiece{
		Speaker: say, Path: s.path(""), Address: "/front/" + s.Run.ID, Kind: s.Front.Kind, Boards: len(s.Front.Showings),
		Standing: s.Front.Standing, HaveTask: s.Task != nil, Back: s.path(""),
	}
}

// mostAtFront is how many boards the front shows at once; more cannot be read
// from the back of a room.
const mostAtFront = 6

// SetFront chooses what the front shows: a kind, a showing added or taken off,
// or whether the standings are shown.
func (d *Desk) SetFront(w http.ResponseWriter, r *http.Request) error {
	s, err := d.bareScene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	view := s.Front
	if err := d.changeFront(r, s, &view); err != nil {
		return err
	}
	if err := d.Store.SetFront(r.Context(), s.Run.ID, view); err != nil {
		return err
	}
	d.tellFront(s.Run.ID)
	d.publish(s.Run.ID, "front")
	for _, id := range slices.Concat(s.Front.Showings, view.Showings) {
		if shown, err := d.Store.Showing(r.Context(), id); err == nil {
			d.publish(s.Run.ID, "tile-"+shown.PupilID)
		}
	}
	return see(w, r, orPath(r.FormValue("back"), s.path("")))
}

func (d *Desk) changeFront(r *http.Request, s *scene, view *class.FrontView) error {
	view.Showings = slices.Clone(view.Showings)
	if id := r.FormValue("add"); id != "" {
		shown, err := d.Store.Showing(r.Context(), id)
		if err != nil || shown.RunID != s.Run.ID {
			return errors.Join(err, class.ErrNotFound)
		}
		if view.Kind != class.FrontBoards {
			view.Showings, view.Standing = nil, false
		}
		view.Kind = class.FrontBoards
		view.Showings = append(slices.DeleteFunc(view.Showings, func(o string) bool { return o == id }), id)
		view.Showings = view.Showings[max(0, len(view.Showings)-mostAtFront):]
		return nil
	}
	if id := r.FormValue("remove"); id != "" {
		view.Showings = slices.DeleteFunc(view.Showings, func(o string) bool { return o == id })
		if len(view.Showings) == 0 && view.Kind == class.FrontBoards {
			view.Kind = class.FrontTask
		}
		return nil
	}
	if st := r.FormValue("standing"); st != "" {
		view.Standing = st == "yes"
		return nil
	}
	kind := class.FrontKind(r.FormValue("kind"))
	if !slices.Contains([]class.FrontKind{class.FrontBlank, class.FrontJoin, class.FrontTask, class.FrontBoards}, kind) {
		return page.Refuse(http.StatusUnprocessableEntity, "front.no_kind")
	}
	view.Kind = kind
	return nil
}
