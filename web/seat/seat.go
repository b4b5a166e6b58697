// Package seat answers for the pupils' pages: joining a room, taking one's
// place, the board, and what a device hands in. A device has no account; it
// holds a cookie for one place in one run, and reaches nothing else.
//
// The board itself is worked by seat.ts; every figure is read and judged here.
// Start at New and Seats.Handler.
package seat

import (
	"crypto/rand"
	"embed"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"time"

	"pegwright/bus"
	"pegwright/class"
	"pegwright/say"
	"pegwright/store"
	"pegwright/web/live"
	"pegwright/web/page"
)

//go:embed *.html
var files embed.FS

// Config is what the pupils' pages work with.
type Config struct {
	Store  *store.Store
	Bus    bus.Bus
	Live   *live.Live
	Log    *slog.Logger     // nil for none
	Now    func() time.Time // nil for the clock
	Random io.Reader        // nil for crypto/rand
	// Stopping is closed when the server shuts down, so that streams end.
	Stopping <-chan struct{}
	// Version of the program, told on every stream.
	Version string
}

// Seats answers for the pupils' pages.
type Seats struct {
	Config
	tries  *tries
	recent *recent
}

// New makes the pupils' side of a server.
func New(c Config) *Seats {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Random == nil {
		c.Random = rand.Reader
	}
	return &Seats{Config: c, tries: newTries(10, time.Minute), recent: newRecent(time.Second)}
}

// Handler serves every address of the pupils' side.
func (s *Seats) Handler() http.Handler {
	mux := http.NewServeMux()
	for pattern, h := range map[string]page.Handler{
		"GET /{$}":              s.join,
		"POST /join":            s.joined,
		"GET /room/{run}":       s.room,
		"POST /room/{run}/take": s.take,
		"GET /seat":             s.board,
		"GET /seat/state":       s.state,
		"GET /seat/stream":      s.stream,
		"POST /seat/move":       s.move,
		"POST /seat/show":       s.show,
		"POST /seat/leave":      s.leave,
	} {
		mux.HandleFunc(pattern, s.answer(h))
	}
	return mux
}

// answer makes a handler's error a page for people.
func (s *Seats) answer(h page.Handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		err := h(w, r)
		var refusal *page.Refusal
		switch {
		case err == nil:
		case errors.As(err, &refusal):
			_ = page.Sorry(w, r, refusal.Status, refusal.ID, refusal.Args...)
		case errors.Is(err, class.ErrNotFound):
			_ = page.Sorry(w, r, http.StatusNotFound, "seat.tile_gone")
		default:
			s.Log.ErrorContext(r.Context(), "seat page failed", "path", r.Pattern, "err", err)
			_ = page.Sorry(w, r, http.StatusInternalServerError, "seat.disk")
		}
	}
}

// frame is the frame of every page for pupils.
func frame(speaker *say.Speaker, id string) page.Frame {
	return page.Frame{
		Speaker: speaker, Title: speaker.Text(id), Place: "seat",
		Styles: page.Assets("type.css", "pegs.css", "seat.css"), Scripts: page.Assets("seat.js"),
	}
}

// tell says that pieces of the pages that watch a pupil have changed.
func (s *Seats) tell(p *place, pieces ...string) {
	for _, piece := range pieces {
		s.Bus.Publish(bus.Event{Topic: "run/" + p.Run.ID, Piece: piece})
	}
}

func see(w http.ResponseWriter, r *http.Request, address string) error {
	http.Redirect(w, r, address, http.StatusSeeOther)
	return nil
}
