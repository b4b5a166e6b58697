package desk

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// roomPiece is the room word, who is in, and the door.
type roomPiece struct {
	*say.Speaker
	Path      string
	Word      string
	In, Of    int
	HasDoor   bool
	Addresses []string
	Code      *page.Code
}

func (d *Desk) roomPiece(say *say.Speaker, s *scene) roomPiece {
	p := roomPiece{Speaker: say, Path: s.path(""), Word: s.Run.RoomWord, In: len(s.Seats), Of: len(s.Pupils), HasDoor: d.Room != nil}
	if d.Room == nil {
		return p
	}
	p.Addresses = d.Room.Addresses()
	if len(p.Addresses) > 0 {
		p.Code = page.NewCode(JoinAddress(p.Addresses[0], s.Run.RoomWord))
	}
	return p
}

// JoinAddress is the address that a code leads to: the page where a room word
// is typed, with the word in it.
func JoinAddress(base, word string) string {
	return strings.TrimSuffix(base, "/") + "/?word=" + word
}

// OpenRoom lets other devices in.
func (d *Desk) OpenRoom(w http.ResponseWriter, r *http.Request) error {
	return d.door(w, r, func(room Room) error {
		_, err := room.Open()
		return err
	})
}

// CloseRoom keeps other devices out.
func (d *Desk) CloseRoom(w http.ResponseWriter, r *http.Request) error {
	return d.door(w, r, Room.Close)
}

func (d *Desk) door(w http.ResponseWriter, r *http.Request, do func(Room) error) error {
	run, err := d.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	if d.Room == nil {
		return page.Refuse(http.StatusConflict, "room.no_door")
	}
	if err := do(d.Room); err != nil {
		d.Log.ErrorContext(r.Context(), "the room's door is stuck", "err", err)
		return page.Refuse(http.StatusConflict, "room.stuck")
	}
	d.publish(run.ID, "room")
	d.tellFront(run.ID)
	return see(w, r, "/desk/run/"+run.ID)
}

// MoveSeat lets the device at a pupil's place sit at another's that is free: a
// child who took the wrong tile.
func (d *Desk) MoveSeat(w http.ResponseWriter, r *http.Request) error {
	s, err := d.bareScene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	from, err := s.pupil(r.FormValue("pupil"))
	if err != nil {
		return err
	}
	to, err := s.pupil(r.FormValue("to"))
	if err != nil {
		return err
	}
	err = d.Store.MoveSeat(r.Context(), s.Run.ID, from.ID, to.ID)
	if errors.Is(err, class.ErrSeatTaken) {
		return &page.Refusal{Status: http.StatusConflict, ID: "pupil.move_taken"}
	}
	if err != nil {
		return err
	}
	d.tellSeat(s.Run.ID, from.ID)
	d.publish(s.Run.ID, "tile-"+from.ID, "tile-"+to.ID, "room", "who")
	return see(w, r, s.path("/pupil/"+to.ID))
}

// free returns the pupils at whose places no device sits, in order.
func (s *scene) free() []class.Pupil {
	return slices.DeleteFunc(slices.Clone(s.Pupils), func(p class.Pupil) bool {
		_, taken := s.Seats[p.ID]
		return taken
	})
}

// Free sends the device at a pupil's place out, or frees the place.
func (d *Desk) Free(w http.ResponseWriter, r *http.Request) error {
	s, err := d.bareScene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	p, err := s.pupil(r.FormValue("pupil"))
	if err != nil {
		return err
	}
	if err := d.Store.FreePupil(r.Context(), s.Run.ID, p.ID, d.Now()); err != nil {
		return err
	}
	d.tellSeat(s.Run.ID, p.ID)
	d.publish(s.Run.ID, "tile-"+p.ID, "room", "who")
	return see(w, r, orPath(r.FormValue("back"), s.path("/pupil/"+p.ID)))
}
