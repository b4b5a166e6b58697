package seat

import (
	"encoding/json"
	"errors"
	"net/http"
	"regexp"
	"strings"
	"time"

	"pegwright/board"
	"pegwright/bus"
	"pegwright/class"
	"pegwright/say"
	"pegwright/store"
)

// largest is the most that a device may send: far more than the largest board
// full of bands.
const largest = 16 << 10

// move is a board as it moves.
type move struct {
	Task   string `json:"task"`
	Figure string `json:"figure"`
	Tab    string `json:"tab"`
}

// sent is a showing as a device sends it.
type sent struct {
	ID     string `json:"id"`
	Task   string `json:"task"`
	Figure string `json:"figure"`
	Made   int64  `json:"made"`
}

// refusal says what is wrong with what a device sent; the device keeps it.
type refusal struct {
	status int
	id     string // of the words
}

func (r *refusal) Error() string { return r.id }

var tabName = regexp.MustCompile(`^[0-9a-f]{1,16}$`)

func (s *Seats) move(w http.ResponseWriter, r *http.Request) error {
	p, err := s.recent.placeOf(s, r)
	if err != nil {
		return s.refuse(w, r, err)
	}
	var m move
	if err := read(w, r, &m); err != nil {
		return s.refuse(w, r, err)
	}
	t, err := s.current(r.Context(), p.Run.ID)
	if err == nil && (t == nil || t.ID != m.Task || !p.Run.Open()) {
		err = &refusal{http.StatusConflict, "seat.refuse_task"}
	}
	if err != nil {
		return s.refuse(w, r, err)
	}
	figure, err := clean(t, m.Figure)
	if err != nil {
		return s.refuse(w, r, err)
	}
	s.Live.Move(p.Run.ID, p.Pupil.ID, figure)
	s.tell(p, "tile-"+p.Pupil.ID)
	if s.Live.Connected(p.Run.ID, p.Pupil.ID) > 1 && tabName.MatchString(m.Tab) {
		s.tellSeat(p, "live-"+m.Tab)
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// clean returns a figure as the board writes it.
func clean(t *class.Task, figure string) (string, error) {
	b, err := board.Parse(t.Board)
	if err != nil {
		return "", err
	}
	f, err := board.ParseFigure(b, figure)
	if err != nil {
		return "", &refusal{http.StatusUnprocessableEntity, "seat.refuse_figure"}
	}
	return f.String(), nil
}

func (s *Seats) show(w http.ResponseWriter, r *http.Request) error {
	p, err := s.placeOf(r)
	if err != nil {
		return s.refuse(w, r, err)
	}
	var in sent
	if err := read(w, r, &in); err != nil {
		return s.refuse(w, r, err)
	}
	out, err := s.keep(r, p, in)
	if err != nil {
		return s.refuse(w, r, err)
	}
	return sendJSON(w, http.StatusOK, out)
}

// keep judges a showing and returns when it is on the disk. It is kept however
// late it comes and whatever the device's clock says.
func (s *Seats) keep(r *http.Request, p *place, in sent) (answer, error) {
	if !class.ValidID(in.ID) {
		return answer{}, &refusal{http.StatusUnprocessableEntity, "seat.refuse_id"}
	}
	t, err := s.Store.Task(r.Context(), in.Task)
	if err == nil && t.RunID != p.Run.ID {
		err = class.ErrNotFound
	}
	if errors.Is(err, class.ErrNotFound) {
		return answer{}, &refusal{http.StatusUnprocessableEntity, "seat.refuse_task"}
	}
	if err != nil {
		return answer{}, err
	}
	figure, err := clean(&t, in.Figure)
	if err != nil {
		return answer{}, err
	}
	verdict, err := class.Judge(t, figure)
	if err != nil {
		return answer{}, err
	}
	now := s.Now()
	added, err := s.Store.AddShowing(r.Context(), class.Showing{
		ID: in.ID, RunID: p.Run.ID, TaskID: t.ID, PupilID: p.Pupil.ID, Figure: figure, Source: class.FromSeat,
		Standing: verdict.Standing, Rules: class.RulesVersion, Made: madeAt(in.Made, now), Received: now,
	})
	if errors.Is(err, class.ErrDifferent) {
		return answer{}, &refusal{http.StatusConflict, "seat.refuse_id"}
	}
	if err != nil {
		return answer{}, err
	}
	if added {
		s.told(p, t, figure)
	}
	return answerTo(p.Speaker, t, verdict, late(t, now)), nil
}

// told says to all who watch that a showing was kept.
func (s *Seats) told(p *place, t class.Task, figure string) {
	if t.Open() && p.Run.Open() {
		s.Live.Move(p.Run.ID, p.Pupil.ID, figure)
	}
	s.tell(p, "tile-"+p.Pupil.ID, "counts", "figures")
	s.Bus.Publish(bus.Event{Topic: "front/" + p.Run.ID, Piece: "counts"})
	s.tellSeat(p, "shown")
}

func (s *Seats) tellSeat(p *place, piece string) {
	s.Bus.Publish(bus.Event{Topic: "seat/" + p.Run.ID + "/" + p.Pupil.ID, Piece: piece})
}

// madeAt returns the moment on the device's clock; one that cannot be a moment
// of any lesson is replaced by the server's.
func madeAt(ms int64, now time.Time) time.Time {
	if made := time.UnixMilli(ms); ms > 0 && made.Before(now.AddDate(10, 0, 0)) {
		return made
	}
	return now
}

func late(t class.Task, received time.Time) bool { return !t.Open() && !received.Before(t.Ended) }

// read reads what a script sent. Only JSON is read: a form of another site
// cannot send that unasked.
func read(w http.ResponseWriter, r *http.Request, into any) error {
	if kind := r.Header.Get("Content-Type"); kind != "application/json" {
		return &refusal{http.StatusUnsupportedMediaType, "seat.refuse_body"}
	}
	d := json.NewDecoder(http.MaxBytesReader(w, r.Body, largest))
	err := d.Decode(into)
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return &refusal{http.StatusRequestEntityTooLarge, "seat.refuse_large"}
	case err != nil || d.More():
		return &refusal{http.StatusBadRequest, "seat.refuse_body"}
	}
	return nil
}

// refuse answers a script with words: the device keeps what it has.
func (s *Seats) refuse(w http.ResponseWriter, r *http.Request, err error) error {
	status, id := http.StatusServiceUnavailable, "seat.disk"
	var bad *refusal
	switch {
	case errors.As(err, &bad):
		status, id = bad.status, bad.id
	case errors.Is(err, class.ErrNotFound):
		status, id = http.StatusUnauthorized, "seat.refuse_out"
	case errors.Is(err, store.ErrDisk):
		s.Log.ErrorContext(r.Context(), "disk took nothing", "path", r.Pattern, "err", err)
	default:
		s.Log.ErrorContext(r.Context(), "seat request failed", "path", r.Pattern, "err", err)
	}
	first, _, _ := strings.Cut(r.Header.Get("Accept-Language"), ",")
	speaker := say.In(first)
	if p, err := s.placeOf(r); err == nil {
		speaker = p.Speaker
	}
	return sendJSON(w, status, answer{Words: speaker.Text(id)})
}

func sendJSON(w http.ResponseWriter, status int, v any) error {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	return json.NewEncoder(w).Encode(v)
}
