// Package web is the server: it puts the places of the program (desk, front,
// seats) under their addresses, guards them, and makes errors into pages.
//
// Start at New and Server.routes.
package web

import (
	"crypto/rand"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"pegwright/board"
	"pegwright/bus"
	"pegwright/class"
	"pegwright/store"
	"pegwright/web/asset"
	"pegwright/web/desk"
	"pegwright/web/front"
	"pegwright/web/live"
	"pegwright/web/page"
	"pegwright/web/seat"
)

// RoomOpener lets other devices in or keeps them out.
type RoomOpener = desk.Room

// Config is what a server works with.
type Config struct {
	Store   *store.Store
	Bus     bus.Bus
	Live    *live.Live
	Log     *slog.Logger     // nil for none
	Now     func() time.Time // nil for the clock
	Random  io.Reader        // nil for crypto/rand
	Room    RoomOpener       // nil where the room cannot be opened or closed
	Version string           // of the program
}

// Server answers for all pages.
type Server struct {
	Config
	desk     *desk.Desk
	front    *front.Front
	seats    http.Handler
	stopping chan struct{}
	stop     sync.Once
	handler  http.Handler
}

// New makes a server.
func New(c Config) *Server {
	c = c.filled()
	s := &Server{Config: c, stopping: make(chan struct{})}
	s.desk = desk.New(desk.Config{
		Store: c.Store, Bus: c.Bus, Live: c.Live, Log: c.Log, Now: c.Now, Random: c.Random, Room: c.Room, Stopping: s.stopping, Version: c.Version,
	})
	s.front = front.New(front.Config{
		Store: c.Store, Bus: c.Bus, Now: c.Now, Stopping: s.stopping, Version: c.Version,
		Addresses: s.addresses, Join: desk.JoinAddress, Open: s.desk.Known,
	})
	s.seats = seat.New(seat.Config{
		Store: c.Store, Bus: c.Bus, Live: c.Live, Log: c.Log, Now: c.Now, Random: c.Random, Stopping: s.stopping, Version: c.Version,
	}).Handler()
	s.handler = s.guarded(s.routes())
	return s
}

// filled fills in what is left open.
func (c Config) filled() Config {
	if c.Bus == nil {
		c.Bus = bus.NewHub()
	}
	if c.Live == nil {
		c.Live = live.New()
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Random == nil {
		c.Random = rand.Reader
	}
	return c
}

// Handler returns what answers for every address.
func (s *Server) Handler() http.Handler { return s.handler }

// Stop ends the streams, so that a server can shut down while pages listen.
func (s *Server) Stop() { s.stop.Do(func() { close(s.stopping) }) }

func (s *Server) addresses() []string {
	if s.Room == nil {
		return nil
	}
	return s.Room.Addresses()
}

// routes is every address there is.
func (s *Server) routes() http.Handler {
	mux, d, f := http.NewServeMux(), s.desk, s.front
	handle := func(pattern string, h page.Handler) { mux.HandleFunc(pattern, s.page(h)) }
	behind := func(pattern string, h page.Handler) { handle(pattern, d.Behind(h)) }

	mux.HandleFunc("GET /healthz", s.health)
	mux.Handle("GET "+asset.Root, asset.Handler())
	mux.Handle("/", s.seats)

	handle("GET /desk/setup", d.SetupForm)
	handle("POST /desk/setup", d.Setup)
	handle("GET /desk/login", d.LoginForm)
	handle("POST /desk/login", d.Login)
	handle("GET /desk/recover", d.RecoverForm)
	handle("POST /desk/recover", d.Recover)
	handle("GET /desk/unlock", d.UnlockForm)
	handle("POST /desk/unlock", d.Unlock)
	handle("POST /desk/logout", d.Logout)
	handle("POST /desk/language", d.Language)
	behind("POST /desk/lock", d.Lock)
	behind("GET /desk/code", d.Code)

	behind("GET /desk", d.Today)
	behind("POST /desk/class", d.AddClass)
	behind("GET /desk/class/{class}", d.Class)
	behind("POST /desk/class/{class}/pupils", d.AddPupils)
	behind("POST /desk/class/{class}/group", d.Group)
	behind("POST /desk/class/{class}/language", d.ClassLanguage)
	behind("POST /desk/class/{class}/delete-pupil", d.DeletePupil)
	behind("POST /desk/class/{class}/run", d.StartRun)

	behind("GET /desk/run/{run}", d.Run)
	behind("GET /desk/run/{run}/stream", d.Stream)
	behind("GET /desk/run/{run}/pieces", d.Pieces)
	behind("GET /desk/run/{run}/build", d.Build)
	behind("GET /desk/answer", d.Answer)
	behind("POST /desk/run/{run}/task", d.SetTask)
	behind("POST /desk/run/{run}/task/end", d.EndTask)
	behind("POST /desk/run/{run}/task/extend", d.ExtendTask)
	behind("POST /desk/run/{run}/front", d.SetFront)
	behind("POST /desk/run/{run}/seat/free", d.Free)
	behind("POST /desk/run/{run}/seat/move", d.MoveSeat)
	behind("POST /desk/run/{run}/room/open", d.OpenRoom)
	behind("POST /desk/run/{run}/room/close", d.CloseRoom)
	behind("GET /desk/run/{run}/pupil/{pupil}", d.Pupil)
	behind("POST /desk/run/{run}/look", d.Look)
	behind("GET /desk/run/{run}/tap", d.Tap)
	behind("POST /desk/run/{run}/tap", d.TapIn)
	behind("POST /desk/run/{run}/tap/check", d.TapCheck)
	behind("POST /desk/run/{run}/end", d.EndRun)
	behind("GET /desk/run/{run}/kept", d.Kept)

	handle("GET /front/{run}", d.BehindOrLocked(f.Show))
	handle("GET /front/{run}/stream", d.BehindOrLocked(f.Stream))
	handle("GET /front/{run}/pieces", d.BehindOrLocked(f.Pieces))

	nowhere := func(http.ResponseWriter, *http.Request) error { return class.ErrNotFound }
	handle("/desk/", nowhere)
	handle("/front/", nowhere)
	return mux
}

// page answers a request; errors become pages that say what is wrong, and only
// those that are ours are logged, without what the address or the form said.
func (s *Server) page(h page.Handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		err := h(w, r)
		var refusal *page.Refusal
		var figure *board.FigureError
		var other *class.OtherBoardError
		var large *http.MaxBytesError
		switch {
		case err == nil, r.Context().Err() != nil:
		case errors.As(err, &refusal):
			s.sorry(w, r, refusal.Status, refusal.ID, refusal.Args...)
		case errors.As(err, &large):
			s.sorry(w, r, http.StatusRequestEntityTooLarge, "sorry.too_large")
		case errors.Is(err, class.ErrNotFound):
			s.sorry(w, r, http.StatusNotFound, "sorry.not_found")
		case errors.Is(err, class.ErrOver):
			s.sorry(w, r, http.StatusConflict, "run.over")
		case errors.As(err, &figure), errors.As(err, &other):
			s.sorry(w, r, http.StatusUnprocessableEntity, "tap.fault_figure")
		default:
			s.Log.ErrorContext(r.Context(), "page failed", "route", r.Pattern, "err", err)
			s.sorry(w, r, http.StatusInternalServerError, "sorry.ours")
		}
	}
}

func (s *Server) sorry(w http.ResponseWriter, r *http.Request, status int, id string, args ...any) {
	if err := page.Sorry(w, r, status, id, args...); err != nil {
		s.Log.ErrorContext(r.Context(), "sorry page failed", "route", r.Pattern, "err", err)
	}
}

// health says that the server is ready: that its store answers.
func (s *Server) health(w http.ResponseWriter, r *http.Request) {
	if _, err := s.Store.Keys(r.Context()); err != nil && !errors.Is(err, class.ErrNotFound) {
		http.Error(w, "the store does not answer", http.StatusServiceUnavailable)
		return
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	_, _ = io.WriteString(w, "ok")
}
