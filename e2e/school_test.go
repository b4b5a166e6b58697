// Package e2e tests the program as people meet it: whole pages in a real
// browser against a whole server.
package e2e

import (
	"context"
	"crypto/rand"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pegwright/bus"
	"pegwright/class"
	"pegwright/cli"
	"pegwright/internal/browser"
	"pegwright/store"
	"pegwright/web"
	"pegwright/web/live"
)

// TestMain lets the test program be the server that is killed.
func TestMain(m *testing.M) {
	if line := os.Getenv("PEGWRIGHT_E2E_RUN"); line != "" {
		os.Exit(cli.Main(strings.Fields(line), cli.System()))
	}
	os.Exit(m.Run())
}

const passphrase = "six seats and a kettle"

// school is a server with classes in it.
type school struct {
	t     *testing.T
	store *store.Store
	live  *live.Live
	bus   *bus.Hub
	base  string
}

func newSchool(t *testing.T) *school {
	t.Helper()
	st, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "pegwright.db"))
	must(t, err)
	s := &school{t: t, store: st, live: live.New(), bus: bus.NewHub()}
	pages := web.New(web.Config{Store: st, Live: s.live, Bus: s.bus})
	server := httptest.NewServer(pages.Handler())
	s.base = server.URL
	t.Cleanup(func() { pages.Stop(); server.CloseClientConnections(); server.Close(); must(t, st.Close()) })
	return s
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// room is a class with an open run.
type room struct {
	*school
	class  class.Class
	run    class.Run
	pupils []class.Pupil
}

// nicknames are those of the first class; the second has its own.
var nicknames = [][]string{
	{"Alder", "Bryony", "Clover", "Dunlin", "Elder", "Finch"},
	{"Ash", "Beech", "Cedar", "Dogwood", "Elm", "Fir"},
}

// room opens a room for the n-th class.
func (s *school) room(n int, language string) *room {
	s.t.Helper()
	ctx, now := context.Background(), time.Now()
	r := &room{school: s, class: class.Class{ID: class.NewID(rand.Reader), Name: fmt.Sprintf("Class %d", n+1), Language: language, Created: now}}
	must(s.t, s.store.AddClass(ctx, r.class))
	for i, name := range nicknames[n] {
		r.pupils = append(r.pupils, class.Pupil{ID: class.NewID(rand.Reader), ClassID: r.class.ID, Number: i + 1, Nickname: name, Group: fmt.Sprintf("Table %d", i/3+1)})
	}
	must(s.t, s.store.AddPupils(ctx, r.class.ID, r.pupils))
	r.run = class.Run{ID: class.NewID(rand.Reader), ClassID: r.class.ID, RoomWord: []string{"amber-otter", "quiet-maple"}[n], Started: now}
	must(s.t, s.store.AddRun(ctx, r.run))
	return r
}

// set sets a task: a hexagon on five by five pegs unless changed.
func (r *room) set(change func(*class.Task)) class.Task {
	r.t.Helper()
	t := class.Task{
		ID: class.NewID(rand.Reader), RunID: r.run.ID, Words: "Make a hexagon.", Board: "square:5x5",
		Conditions: []string{"sides=6"}, Feedback: class.AllFeedback, Started: time.Now(),
	}
	if change != nil {
		change(&t)
	}
	must(r.t, r.store.AddTask(context.Background(), t))
	r.live.Clear(r.run.ID)
	r.bus.Publish(bus.Event{Topic: "seats/" + r.run.ID, Piece: "task"})
	r.bus.Publish(bus.Event{Topic: "run/" + r.run.ID, Piece: "task"})
	return t
}

// teacher opens the desk for the first time and chooses a passphrase.
func (s *school) teacher(b *browser.Browser) *browser.Tab {
	s.t.Helper()
	p := b.Device(s.t)
	p.Open(s.base + "/desk")
	p.Until(`location.pathname === "/desk/setup"`)
	p.Fill("#passphrase", passphrase)
	p.Click(`form[action="/desk/setup"] button.main`)
	p.Until(`location.pathname === "/desk/code"`)
	return p
}

// desk opens the run's page at a desk.
func (r *room) desk(p *browser.Tab) { r.t.Helper(); p.Open(r.base + "/desk/run/" + r.run.ID) }

// front opens a front in another window of a desk.
func (r *room) front(desk *browser.Tab) *browser.Tab {
	r.t.Helper()
	p := desk.Another()
	p.Size(1920, 1080)
	p.Open(r.base + "/front/" + r.run.ID)
	return p
}

// seat joins with the room word and takes a pupil's tile.
func (r *room) seat(b *browser.Browser, pupil int) *browser.Tab {
	r.t.Helper()
	p := b.Device(r.t)
	p.Size(820, 1180)
	r.join(p, pupil)
	return p
}

func (r *room) join(p *browser.Tab, pupil int) {
	r.t.Helper()
	p.Open(r.base + "/")
	p.Fill("#word", strings.ReplaceAll(r.run.RoomWord, "-", " "))
	p.Click("form button.show")
	p.Until(`location.pathname.startsWith("/room/")`)
	p.Click(fmt.Sprintf(`button[value=%q]`, r.pupils[pupil].ID))
	p.Until(`location.pathname === "/seat" && document.readyState === "complete"`)
}

// ready waits until a seat has a board to work on.
func ready(p *browser.Tab) { p.Until(`document.querySelector(".pegs g.peg")`) }

// show presses the big button and waits until the server has it.
func show(p *browser.Tab) {
	p.Click("[data-show]")
	p.Until(`document.querySelector("[data-answer][data-kind=kept]")`)
}

// tile is the selector of a pupil's tile at the desk.
func (r *room) tile(pupil int) string { return "#tile-" + r.pupils[pupil].ID }

// standing waits until a tile at the desk says how the board stands.
func (r *room) standing(desk *browser.Tab, pupil int, want string) {
	r.t.Helper()
	desk.Until(fmt.Sprintf(`document.querySelector(%q)?.dataset.standing === %q`, r.tile(pupil), want))
}

// kept waits until so many showings of the run are on disk.
func (r *room) kept(n int) []class.Showing {
	r.t.Helper()
	for deadline := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		all, err := r.store.Showings(context.Background(), r.run.ID)
		must(r.t, err)
		if len(all) >= n {
			return all
		}
		if time.Now().After(deadline) {
			r.t.Fatalf("%d showings on disk, want %d", len(all), n)
		}
	}
}

// moved waits until the server knows what is on a pupil's board.
func (r *room) moved(pupil int, want string) {
	r.t.Helper()
	got := ""
	for deadline := time.Now().Add(20 * time.Second); time.Now().Before(deadline); time.Sleep(10 * time.Millisecond) {
		if got = r.live.Figure(r.run.ID, r.pupils[pupil].ID); got == want {
			return
		}
	}
	r.t.Fatalf("the server has %q on the board, want %q", got, want)
}
