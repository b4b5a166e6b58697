package desk

import (
	"bytes"
	"net/http"
	"strings"
	"time"

	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/web/page"
)

// mostPieces is how many pieces may be asked for at once.
const mostPieces = 100

// Pieces hands out pieces of a run's page by name. Names that the page does
// not have are passed over. Beside a tile come the tiles whose marks change
// with it.
func (d *Desk) Pieces(w http.ResponseWriter, r *http.Request) error {
	names := r.URL.Query()["name"]
	if len(names) > mostPieces {
		names = names[:mostPieces]
	}
	s, err := d.snapshots.scene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	var out bytes.Buffer
	sent := map[string]bool{}
	for _, name := range names {
		if err := d.piece(&out, page.Speaker(r), s, name, sent); err != nil {
			return err
		}
	}
	return page.SendPieces(w, &out)
}

// piece draws one piece, once.
func (d *Desk) piece(out *bytes.Buffer, say *say.Speaker, s *scene, name string, sent map[string]bool) error {
	if sent[name] {
		return nil
	}
	sent[name] = true
	if id, ok := strings.CutPrefix(name, "tile-"); ok {
		return d.tilePieces(out, say, s, id, sent)
	}
	var data any
	switch name {
	case "task":
		data = d.taskPiece(say, s)
	case "counts":
		data = d.countsPiece(say, s)
	case "front":
		data = d.frontPiece(say, s)
	case "room":
		data = d.roomPiece(say, s)
	case "tiles":
		data = d.tilesPiece(say, s)
		for _, p := range s.Pupils {
			sent["tile-"+p.ID] = true
		}
	case "figures":
		data = d.figuresPiece(say, s)
	default:
		return nil
	}
	return runTemplate.Piece(out, name, data)
}

// tilePieces draws a tile and those of figures congruent to any that its
// pupil showed: they may have become the first of their kind, or the only one.
func (d *Desk) tilePieces(out *bytes.Buffer, say *say.Speaker, s *scene, pupil string, sent map[string]bool) error {
	draw := func(id string) error {
		p, err := s.pupil(id)
		if err != nil {
			return nil // deleted; the page will hear of it
		}
		sent["tile-"+id] = true
		return runTemplate.Piece(out, "tile", d.tile(say, s, p))
	}
	if err := draw(pupil); err != nil {
		return err
	}
	for _, k := range s.changedKinds(pupil, d.Now()) {
		for _, o := range k.Showings {
			if !sent["tile-"+o.PupilID] {
				if err := draw(o.PupilID); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// changedKinds returns the kinds whose marks a pupil's last showing may have
// changed: the one it is of, and the one that the showing before it was of.
func (s *scene) changedKinds(pupil string, now time.Time) []class.Kind {
	own := s.own(pupil)
	if len(own) == 0 || now.Sub(own[len(own)-1].Received) > recent {
		return nil
	}
	var out []class.Kind
	for _, o := range own[max(0, len(own)-2):] {
		p := s.Task.Polygon(o.Figure)
		for _, k := range s.Ideas.Kinds {
			q := s.Task.Polygon(k.Showings[0].Figure)
			// Of three and more, none is the only one, and the first is known.
			if len(k.Showings) <= 3 && p != nil && q != nil && shape.Congruent(p, q) {
				out = append(out, k)
			}
		}
	}
	return out
}

// recent is how long after a showing the marks of other tiles are drawn again
// with its own.
const recent = 2 * time.Second
