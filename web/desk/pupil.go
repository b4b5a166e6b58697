package desk

import (
	"html/template"
	"net/http"
	"slices"

	"pegwright/class"
	"pegwright/web/page"
)

// pupilPage is an opened tile.
type pupilPage struct {
	page.Frame
	Path    string // of the run
	Pupil   class.Pupil
	In      bool
	Words   string // of the task
	Showing *shownBoard
	Live    template.HTML // the board as it is now, when it differs
	Earlier []shownBoard
	Next    string // the next pupil whose board nobody has looked at
	Here    string
}

var pupilTemplate = page.Parse(files, "pupil.html")

// Pupil opens a tile: the pupil's board with all that can be said about it.
// Opening it marks the board as looked at.
func (d *Desk) Pupil(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	p, err := s.pupil(r.PathValue("pupil"))
	if err != nil {
		return err
	}
	f := d.frame(r, p.Nickname, page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID},
		page.Crumb{Name: s.Run.RoomWord, Address: s.path("")}, page.Crumb{Name: p.Nickname})
	f.Stream, f.Pieces = s.path("/stream"), s.path("/pieces")
	f.Scripts = append(f.Scripts, page.Assets("live.js")...)
	out := pupilPage{Frame: f, Path: s.path(""), Pupil: p, Here: r.URL.RequestURI()}
	_, out.In = s.Seats[p.ID]
	if s.Task != nil {
		out.Words = s.Task.Words
		if err := d.fillPupil(r, s, &out); err != nil {
			return err
		}
	}
	return pupilTemplate.Write(w, http.StatusOK, out)
}

func (d *Desk) fillPupil(r *http.Request, s *scene, out *pupilPage) error {
	var own []class.Showing
	for _, o := range s.Showings {
		if o.PupilID == out.Pupil.ID {
			own = append(own, o)
		}
	}
	slices.Reverse(own)
	chosen := 0
	for i, o := range own {
		if o.ID == r.FormValue("showing") {
			chosen = i
		}
	}
	for i, o := range own {
		if i == chosen {
			b, err := d.shownBoard(out.Speaker, s, o, true)
			if err != nil {
				return err
			}
			out.Showing = &b
		}
		if len(own) > 1 {
			b, err := d.shownBoard(out.Speaker, s, o, false)
			if err != nil {
				return err
			}
			out.Earlier = append(out.Earlier, b)
		}
	}
	if len(own) > 0 && own[chosen].Looked.IsZero() {
		if err := d.Store.MarkLooked(r.Context(), own[chosen].ID, d.Now()); err != nil {
			return err
		}
		d.publish(s.Run.ID, "tile-"+out.Pupil.ID, "counts")
	}
	for _, o := range s.Ideas.Unlooked {
		if o.PupilID != out.Pupil.ID {
			out.Next = s.path("/pupil/" + o.PupilID)
			break
		}
	}
	figure, moving := d.Live.Moving(s.Run.ID, out.Pupil.ID)
	if moving && figure != "" && (len(own) == 0 || own[0].Figure != figure) {
		out.Live = page.Figure(out.Speaker, "live", d.judged.reading(s.Board, figure, s.Task.Definitions), page.Lettered)
	}
	return nil
}

// Look marks a showing as looked at.
func (d *Desk) Look(w http.ResponseWriter, r *http.Request) error {
	run := r.PathValue("run")
	shown, err := d.Store.Showing(r.Context(), r.FormValue("showing"))
	if err != nil {
		return err
	}
	if shown.RunID != run {
		return class.ErrNotFound
	}
	if err := d.Store.MarkLooked(r.Context(), shown.ID, d.Now()); err != nil {
		return err
	}
	d.publish(run, "tile-"+shown.PupilID, "counts")
	return see(w, r, orPath(r.FormValue("back"), "/desk/run/"+run))
}
