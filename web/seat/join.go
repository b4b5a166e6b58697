package seat

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"time"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// joinPage is where a pupil types the room word.
type joinPage struct {
	page.Frame
	Word  string
	Wrong string // what was wrong, "" for nothing
	Other string // the other language
}

// roomPage is where a pupil picks their own tile.
type roomPage struct {
	page.Frame
	Run    string
	Groups []group
	Wrong  string
}

type group struct {
	Name  string
	Tiles []tile
}

type tile struct {
	Pupil class.Pupil
	Taken bool // by another device that is there now
	Mine  bool
}

var (
	joinTemplate = page.Parse(files, "join.html")
	roomTemplate = page.Parse(files, "room.html")
)

// wordLife is how long a device may pick a tile after it said the room word.
const wordLife = 30 * time.Minute

func (s *Seats) join(w http.ResponseWriter, r *http.Request) error {
	return s.drawJoin(w, r, http.StatusOK, r.FormValue("word"), "")
}

func (s *Seats) drawJoin(w http.ResponseWriter, r *http.Request, status int, word, wrong string) error {
	speaker := speakerOf(r)
	if wrong != "" {
		wrong = speaker.Text(wrong)
	}
	out := joinPage{Frame: frame(speaker, "seat.join_title"), Word: shorten(word), Wrong: wrong, Other: "es"}
	if speaker.Language() == out.Other {
		out.Other = "en"
	}
	return joinTemplate.Write(w, status, out)
}

// shorten keeps what someone typed from growing on the page.
func shorten(word string) string {
	if r := []rune(word); len(r) > 40 {
		return string(r[:40])
	}
	return word
}

func (s *Seats) joined(w http.ResponseWriter, r *http.Request) error {
	r.Body = http.MaxBytesReader(w, r.Body, 4<<10)
	typed := r.PostFormValue("word")
	run, status, err := s.runByWord(r, typed)
	if err != nil {
		return err
	}
	switch status {
	case http.StatusOK:
		s.letIn(w, r, run)
		return see(w, r, "/room/"+run.ID)
	case http.StatusTooManyRequests:
		w.Header().Set("Retry-After", "60")
		return s.drawJoin(w, r, status, typed, "seat.join_often")
	}
	return s.drawJoin(w, r, status, typed, "seat.join_wrong")
}

// runByWord returns the open run of a room word, or the status to refuse with.
func (s *Seats) runByWord(r *http.Request, typed string) (class.Run, int, error) {
	address, now := addressOf(r), s.Now()
	if s.tries.over(address, now) {
		return class.Run{}, http.StatusTooManyRequests, nil
	}
	run, err := s.Store.RunByWord(r.Context(), class.CleanRoomWord(typed))
	switch {
	case errors.Is(err, class.ErrNotFound):
		s.tries.miss(address, now)
		return run, http.StatusNotFound, nil
	case err != nil:
		return run, 0, err
	}
	return run, http.StatusOK, nil
}

// letIn gives a device the word, for a while.
func (s *Seats) letIn(w http.ResponseWriter, r *http.Request, run class.Run) {
	c := cookieOf(r, wordCookie, run.RoomWord, "/room/")
	c.MaxAge = int(wordLife.Seconds())
	http.SetCookie(w, c)
}

// allowed returns the open run of the address if the device has said its room
// word. The word may stand in the address, as in the code at the front.
func (s *Seats) allowed(w http.ResponseWriter, r *http.Request) (class.Run, bool, error) {
	word := r.URL.Query().Get("word")
	if word == "" {
		if c, err := r.Cookie(wordCookie); err == nil {
			word = c.Value
		}
	}
	if word == "" {
		return class.Run{}, false, nil
	}
	run, status, err := s.runByWord(r, word)
	if err != nil || status != http.StatusOK || run.ID != r.PathValue("run") {
		return run, false, err
	}
	s.letIn(w, r, run)
	return run, true, nil
}

func (s *Seats) room(w http.ResponseWriter, r *http.Request) error {
	run, ok, err := s.allowed(w, r)
	if err != nil {
		return err
	}
	if !ok {
		return see(w, r, "/")
	}
	return s.drawRoom(w, r, http.StatusOK, run, "")
}

func (s *Seats) drawRoom(w http.ResponseWriter, r *http.Request, status int, run class.Run, wrong string, args ...any) error {
	c, err := s.Store.Class(r.Context(), run.ClassID)
	if err != nil {
		return err
	}
	groups, err := s.tiles(r, run)
	if err != nil {
		return err
	}
	speaker := say.In(c.Language)
	if wrong != "" {
		wrong = speaker.Text(wrong, args...)
	}
	return roomTemplate.Write(w, status, roomPage{frame(speaker, "seat.room_title"), run.ID, groups, wrong})
}

// tiles returns the pupils of a run by table group, those of no group last.
func (s *Seats) tiles(r *http.Request, run class.Run) ([]group, error) {
	pupils, err := s.Store.Pupils(r.Context(), run.ClassID)
	if err != nil {
		return nil, err
	}
	seats, err := s.Store.Seats(r.Context(), run.ID)
	if err != nil {
		return nil, err
	}
	sitting := map[string]bool{}
	for _, seat := range seats {
		sitting[seat.PupilID] = s.Live.Connected(run.ID, seat.PupilID) > 0
	}
	mine := ""
	if p, err := s.placeOf(r); err == nil && p.Run.ID == run.ID {
		mine = p.Pupil.ID
	}
	var groups []group
	for _, p := range pupils {
		i := slices.IndexFunc(groups, func(g group) bool { return g.Name == p.Group })
		if i < 0 {
			i, groups = len(groups), append(groups, group{Name: p.Group})
		}
		groups[i].Tiles = append(groups[i].Tiles, tile{p, sitting[p.ID] && p.ID != mine, p.ID == mine})
	}
	slices.SortStableFunc(groups, func(a, b group) int {
		if (a.Name == "") != (b.Name == "") {
			return len(b.Name) - len(a.Name)
		}
		return 0
	})
	return groups, nil
}

func (s *Seats) take(w http.ResponseWriter, r *http.Request) error {
	r.Body = http.MaxBytesReader(w, r.Body, 4<<10)
	run, ok, err := s.allowed(w, r)
	if err != nil {
		return err
	}
	if !ok {
		return see(w, r, "/")
	}
	pupil, err := s.Store.Pupil(r.Context(), r.PostFormValue("pupil"))
	if err == nil && pupil.ClassID != run.ClassID {
		err = class.ErrNotFound
	}
	if errors.Is(err, class.ErrNotFound) {
		return s.drawRoom(w, r, http.StatusNotFound, run, "seat.tile_gone")
	}
	if err != nil {
		return err
	}
	switch err := s.sit(w, r, run, pupil); {
	case errors.Is(err, class.ErrSeatTaken):
		return s.drawRoom(w, r, http.StatusConflict, run, "seat.tile_taken", "Name", pupil.Nickname)
	case err != nil:
		return err
	}
	return see(w, r, "/seat")
}

// sit gives a device its place. A place whose device has gone silent may be
// taken again; one that is there now may not.
func (s *Seats) sit(w http.ResponseWriter, r *http.Request, run class.Run, pupil class.Pupil) error {
	ctx := r.Context()
	old, err := s.placeOf(r)
	if err == nil && old.Run.ID == run.ID && old.Pupil.ID == pupil.ID {
		return nil
	}
	token := class.NewID(s.Random) + class.NewID(s.Random)
	seat := class.Seat{ID: class.NewID(s.Random), RunID: run.ID, PupilID: pupil.ID, TokenHash: hashOf(token), Joined: s.Now()}
	if err := s.takeSeat(ctx, seat); err != nil {
		return err
	}
	if old != nil {
		if err := s.goOut(ctx, old); err != nil {
			return err
		}
	}
	c := cookieOf(r, placeCookie, token, "/")
	c.MaxAge = int((12 * time.Hour).Seconds())
	http.SetCookie(w, c)
	s.tell(&place{Run: run}, "tile-"+pupil.ID, "counts", "who")
	return nil
}

func (s *Seats) takeSeat(ctx context.Context, seat class.Seat) error {
	err := s.Store.TakeSeat(ctx, seat)
	if !errors.Is(err, class.ErrSeatTaken) || s.Live.Connected(seat.RunID, seat.PupilID) > 0 {
		return err
	}
	if err := s.Store.FreePupil(ctx, seat.RunID, seat.PupilID, s.Now()); err != nil {
		return err
	}
	return s.Store.TakeSeat(ctx, seat)
}

// goOut gives a place up and tells whoever has it open.
func (s *Seats) goOut(ctx context.Context, p *place) error {
	if err := s.Store.LeaveSeat(ctx, p.Seat.ID, s.Now()); err != nil && !errors.Is(err, class.ErrNotFound) {
		return err
	}
	s.tell(p, "tile-"+p.Pupil.ID, "counts", "who")
	return nil
}

func (s *Seats) leave(w http.ResponseWriter, r *http.Request) error {
	p, err := s.placeOf(r)
	if err != nil && !errors.Is(err, class.ErrNotFound) {
		return err
	}
	next := "/"
	if err == nil {
		if err := s.goOut(r.Context(), p); err != nil {
			return err
		}
		if p.Run.Open() {
			s.letIn(w, r, p.Run)
			next = "/room/" + p.Run.ID
		}
	}
	c := cookieOf(r, placeCookie, "", "/")
	c.MaxAge = -1
	http.SetCookie(w, c)
	return see(w, r, next)
}
