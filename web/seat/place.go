package seat

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"net/http"
	"strings"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// The cookies of a device: its place, and the room word it has said.
const (
	placeCookie = "pegwright_seat"
	wordCookie  = "pegwright_word"
)

// place is where a device sits.
type place struct {
	Seat    class.Seat
	Run     class.Run
	Class   class.Class
	Pupil   class.Pupil
	Speaker *say.Speaker
}

// Key names the place to the device's own storage, so that a device which
// changes hands never sends one pupil's boards as another's.
func (p *place) Key() string { return p.Run.ID + "." + p.Pupil.ID }

// placeOf returns the place of the device that asks, or class.ErrNotFound.
func (s *Seats) placeOf(r *http.Request) (*place, error) {
	c, err := r.Cookie(placeCookie)
	if err != nil {
		return nil, class.ErrNotFound
	}
	ctx := r.Context()
	p := &place{}
	if p.Seat, err = s.Store.SeatByToken(ctx, hashOf(c.Value)); err != nil {
		return nil, err
	}
	if p.Run, err = s.Store.Run(ctx, p.Seat.RunID); err != nil {
		return nil, err
	}
	if p.Class, err = s.Store.Class(ctx, p.Run.ClassID); err != nil {
		return nil, err
	}
	if p.Pupil, err = s.Store.Pupil(ctx, p.Seat.PupilID); err != nil {
		return nil, err
	}
	p.Speaker = say.In(p.Class.Language)
	return p, nil
}

// current returns the task that is being made, or nil.
func (s *Seats) current(ctx context.Context, runID string) (*class.Task, error) {
	t, err := s.Store.CurrentTask(ctx, runID)
	if errors.Is(err, class.ErrNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return &t, nil
}

// lastShown returns what a pupil showed last for a task, or nil.
func (s *Seats) lastShown(ctx context.Context, taskID, pupilID string) (*class.Showing, error) {
	all, err := s.Store.TaskShowings(ctx, taskID)
	if err != nil {
		return nil, err
	}
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].PupilID == pupilID {
			return &all[i], nil
		}
	}
	return nil, nil
}

func hashOf(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

func cookieOf(r *http.Request, name, value, path string) *http.Cookie {
	return &http.Cookie{
		Name: name, Value: value, Path: path, HttpOnly: true,
		SameSite: http.SameSiteStrictMode, Secure: r.TLS != nil,
	}
}

// speakerOf returns the speaker for a device that is in no class yet: of the
// language it asks for on the page, or the one its browser is set to.
func speakerOf(r *http.Request) *say.Speaker {
	if language := r.FormValue("language"); language != "" {
		return say.In(language)
	}
	if c, err := r.Cookie(page.LanguageCookie); err == nil {
		return say.In(c.Value)
	}
	first, _, _ := strings.Cut(r.Header.Get("Accept-Language"), ",")
	return say.In(strings.TrimSpace(first))
}
