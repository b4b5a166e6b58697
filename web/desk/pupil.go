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
	Others  []class.Pupil // whose places are free
	Words   string        // of the task
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
	out.Others = s.free()
	if s.Task != nil {
		out.Words = s.Task.Words
		if err := d.fillPupil(r, s, &out); err != nil {
			return err
		}
	}
	return pupilTemplate.Write(w, http.StatusOK, out)
}

func (d *Desk) fillPupil(r *http.Request, s *scene, out *pupilPage) error {
	own := s.own(out.Pupil.ID)
	slices.Reverse(own)
	chosen := max(0, slices.IndexFunc(own, func(o class.Showing) bool { return o.ID == r.FormValue("showing") }))
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
	if i := slices.IndexFunc(s.Ideas.Unlooked, func(o class.Showing) bool { return o.PupilID != out.Pupil.ID }); i >= 0 {
		out.Next = s.path("/pupil/" + s.Ideas.Unlooked[i].PupilID)
	}
	figure, moving := d.Live.Moving(s.Run.ID, out.Pupil.ID)
	if moving && figure != "" && (len(own) == 0 || own[0].Figure != figure) {
		out.Live = page.Figure(out.Speaker, "live", d.judged.reading(s.Board, figure, s.Task.Definitions), page.Lettered)
	}
	if len(own) == 0 || !own[chosen].Looked.IsZero() {
		return nil
	}
	return d.looked(r, own[chosen])
}

// looked marks a showing as looked at and says so.
func (d *Desk) looked(r *http.Request, o class.Showing) error {
	if err := d.Store.MarkLooked(r.Context(), o.ID, d.Now()); err != nil {
		return err
	}
	d.publish(o.RunID, "tile-"+o.PupilID, "counts")
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
	if err := d.looked(r, shown); err != nil {
		return err
	}
	return see(w, r, orPath(r.FormValue("back"), "/desk/run/"+run))
}
