// Package desk is the teacher's place: the pages behind the passphrase, from
// the first visit to what a lesson leaves behind.
//
// Every page is a struct with its template beside it, and every handler
// returns its error; web lists the addresses and turns errors into pages.
// Start at Desk, then at Desk.Run and scene.
package desk

import (
	"crypto/rand"
	"embed"
	"io"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"pegwright/atlas"
	"pegwright/bus"
	"pegwright/class"
	"pegwright/say"
	"pegwright/store"
	"pegwright/web/live"
	"pegwright/web/page"
)

//go:embed *.html
var files embed.FS

// Room lets other devices in or keeps them out.
type Room interface {
	// Open listens for other devices and returns the addresses they reach.
	Open() ([]string, error)
	// Close listens to this machine alone.
	Close() error
	// Addresses returns where other devices reach the room, none when closed.
	Addresses() []string
}

// Config is what a desk works with.
type Config struct {
	Store  *store.Store
	Bus    bus.Bus
	Live   *live.Live
	Log    *slog.Logger
	Now    func() time.Time
	Random io.Reader
	Room   Room // nil where the room cannot be opened or closed
	// Stopping is closed when the server shuts down, so that streams end.
	Stopping <-chan struct{}
	// Version of the program; pages that live through a change load again.
	Version string
}

// Desk answers for the teacher's pages.
type Desk struct {
	Config
	guesses   *guesses
	hashing   chan struct{} // one at a time, so that guesses do not fill the memory
	first     sync.Mutex
	fresh     *freshCodes
	answers   *answers
	judged    *judged
	snapshots *snapshots
}

// New makes a desk.
func New(c Config) *Desk {
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Random == nil {
		c.Random = rand.Reader
	}
	d := &Desk{
		Config: c, guesses: newGuesses(), hashing: make(chan struct{}, 1), fresh: newFreshCodes(),
		answers: newAnswers(atlas.Find), judged: newJudged(),
	}
	d.snapshots = newSnapshots(c.Bus, d.scene, c.Now)
	return d
}

// frame is the frame of a page behind the passphrase.
func (d *Desk) frame(r *http.Request, title string, crumbs ...page.Crumb) page.Frame {
	f := d.plainFrame(r, title)
	f.Place = "desk"
	f.Bar = &page.Bar{Crumbs: crumbs, Here: r.URL.RequestURI()}
	return f
}

// plainFrame is the frame of a page before the passphrase.
func (d *Desk) plainFrame(r *http.Request, title string) page.Frame {
	s := page.Speaker(r)
	return page.Frame{
		Speaker: s, Title: title, Place: "plain",
		Styles: page.Assets("type.css", "page.css", "desk.css"), Scripts: page.Assets("desk.js"),
	}
}

// newID returns a new id.
func (d *Desk) newID() string { return class.NewID(d.Random) }

// publish says that pieces of a run's pages changed.
func (d *Desk) publish(run string, pieces ...string) {
	for _, p := range pieces {
		d.Bus.Publish(bus.Event{Topic: "run/" + run, Piece: p})
	}
}

// see sends the browser to another page.
func see(w http.ResponseWriter, r *http.Request, address string) error {
	http.Redirect(w, r, address, http.StatusSeeOther)
	return nil
}

// speakerOf returns the speaker of a class's seats.
func speakerOf(c class.Class) *say.Speaker { return say.In(c.Language) }

// Language chooses the language of the desk on this device.
func (d *Desk) Language(w http.ResponseWriter, r *http.Request) error {
	http.SetCookie(w, &http.Cookie{
		Name: page.LanguageCookie, Value: say.In(r.FormValue("language")).Language(), Path: "/",
		HttpOnly: true, SameSite: http.SameSiteStrictMode, MaxAge: 365 * 24 * 3600,
	})
	return see(w, r, backOf(r.FormValue("back")))
}
