package seat

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"pegwright/bus"
	"pegwright/class"
	"pegwright/store"
	"pegwright/web/asset"
	"pegwright/web/live"
)

// room is a server with a class in it, on a store of its own.
type room struct {
	*testing.T
	store  *store.Store
	seats  *Seats
	live   *live.Live
	hub    *bus.Hub
	server *httptest.Server
	run    class.Run
	pupils []class.Pupil
	ahead  atomic.Int64 // seconds that the clock is ahead
	down   atomic.Bool  // the network is down
}

var start = time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)

func (r *room) now() time.Time { return start.Add(time.Duration(r.ahead.Load()) * time.Second) }

// newRoom opens a room with pupils Alder, Bryony, Clover and Dunlin.
func newRoom(t *testing.T, language string) *room {
	t.Helper()
	ctx := context.Background()
	st, err := store.Open(ctx, filepath.Join(t.TempDir(), "pegwright.db"))
	must(t, err)
	r := &room{T: t, store: st, live: live.New(), hub: bus.NewHub()}
	t.Cleanup(func() { must(t, st.Close()) })
	c := class.Class{ID: "class-kestrels-0001", Name: "Kestrels", Language: language, Created: start}
	must(t, st.AddClass(ctx, c))
	for i, name := range []string{"Alder", "Bryony", "Clover", "Dunlin"} {
		group := []string{"Blue table", "Green table"}[i/2]
		r.pupils = append(r.pupils, class.Pupil{ID: "pupil-" + strings.ToLower(name) + "-0001", ClassID: c.ID, Number: i + 1, Nickname: name, Group: group})
	}
	must(t, st.AddPupils(ctx, c.ID, r.pupils))
	r.run = class.Run{ID: "run-0001-0001-0001", ClassID: c.ID, RoomWord: "amber-otter", Started: start}
	must(t, st.AddRun(ctx, r.run))
	r.seats = New(Config{Store: st, Bus: r.hub, Live: r.live, Now: r.now})
	mux := http.NewServeMux()
	mux.Handle("/", r.seats.Handler())
	mux.Handle(asset.Root, asset.Handler())
	r.server = httptest.NewServer(r.cut(mux))
	t.Cleanup(r.server.Close)
	return r
}

// cut is the network between the room and its devices.
func (r *room) cut(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if r.down.Load() {
			panic(http.ErrAbortHandler)
		}
		w.Header().Set("Content-Security-Policy", "default-src 'self'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'none'; form-action 'self'")
		next.ServeHTTP(w, req)
	})
}

// set sets a task of a right triangle on a 5x5 board.
func (r *room) set(id string, change func(*class.Task)) class.Task {
	r.Helper()
	t := class.Task{
		ID: id, RunID: r.run.ID, Words: "Make a triangle.\nIt has one square corner.", Board: "square:5x5",
		Conditions: []string{"sides=3", "right-angles=1"}, Feedback: class.AllFeedback, Started: r.now(),
	}
	if change != nil {
		change(&t)
	}
	must(r.T, r.store.AddTask(context.Background(), t))
	r.live.Clear(r.run.ID)
	r.hub.Publish(bus.Event{Topic: "seats/" + r.run.ID, Piece: "task"})
	return t
}

// device is a browser without scripts.
type device struct {
	*room
	http *http.Client
}

func (r *room) device() *device {
	jar, err := cookiejar.New(nil)
	must(r.T, err)
	return &device{r, &http.Client{Jar: jar}}
}

// sitting returns a device in a pupil's place.
func (r *room) sitting(pupil int) *device {
	r.Helper()
	d := r.device()
	d.post("/join", url.Values{"word": {"Amber Otter"}})
	_, body := d.post("/room/"+r.run.ID+"/take", url.Values{"pupil": {r.pupils[pupil].ID}})
	if !strings.Contains(body, r.pupils[pupil].Nickname) {
		r.Fatalf("not in: %s", body)
	}
	return d
}

func (d *device) get(path string) (int, string) {
	d.Helper()
	res, err := d.http.Get(d.server.URL + path)
	must(d.T, err)
	return read2(d.T, res)
}

func (d *device) post(path string, form url.Values) (int, string) {
	d.Helper()
	res, err := d.http.PostForm(d.server.URL+path, form)
	must(d.T, err)
	return read2(d.T, res)
}

func (d *device) send(path string, v any) (int, answer) {
	d.Helper()
	body, ok := v.(string)
	if !ok {
		b, err := json.Marshal(v)
		must(d.T, err)
		body = string(b)
	}
	res, err := d.http.Post(d.server.URL+path, "application/json", bytes.NewReader([]byte(body)))
	must(d.T, err)
	status, text := read2(d.T, res)
	var a answer
	if text != "" {
		if err := json.Unmarshal([]byte(text), &a); err != nil {
			d.Fatalf("%s: %d %s", path, status, text)
		}
	}
	return status, a
}

// listen opens the stream of a device until the function it returns is called.
func (d *device) listen(pupil int) (close func()) {
	d.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, d.server.URL+"/seat/stream", nil)
	must(d.T, err)
	res, err := d.http.Do(req)
	must(d.T, err)
	return func() {
		cancel()
		_ = res.Body.Close()
		for d.live.Connected(d.run.ID, d.pupils[pupil].ID) > 0 {
			time.Sleep(time.Millisecond)
		}
	}
}

func read2(t *testing.T, res *http.Response) (int, string) {
	t.Helper()
	defer func() { _ = res.Body.Close() }()
	b, err := io.ReadAll(res.Body)
	must(t, err)
	return res.StatusCode, string(b)
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
