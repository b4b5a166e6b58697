package web_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"log/slog"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"pegwright/bus"
	"pegwright/class"
	"pegwright/store"
	"pegwright/store/storetest"
	"pegwright/web"
	"pegwright/web/live"
)

// house is a real server with a real store, and a clock that the test turns.
type house struct {
	t     testing.TB
	store *store.Store
	hub   *bus.Hub
	live  *live.Live
	srv   *web.Server
	url   string
	log   *logBuffer
	mu    sync.Mutex
	now   time.Time
}

// logBuffer takes a log written by many goroutines.
type logBuffer struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

func (l *logBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.Write(p)
}

func (l *logBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.buf.String()
}

// door is a room's door that listens to nothing.
type door struct {
	mu   sync.Mutex
	open bool
}

func (d *door) Open() ([]string, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.open = true
	return []string{"http://192.0.2.7:8080"}, nil
}

func (d *door) Close() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.open = false
	return nil
}

func (d *door) Addresses() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.open {
		return []string{"http://192.0.2.7:8080"}
	}
	return nil
}

func newHouse(t testing.TB) *house {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "pegwright.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	h := &house{t: t, store: s, hub: bus.NewHub(), live: live.New(), log: &logBuffer{}, now: storetest.Noon}
	h.srv = web.New(web.Config{
		Store: s, Bus: h.hub, Live: h.live, Room: &door{}, Now: h.clock,
		Log: slog.New(slog.NewTextHandler(h.log, &slog.HandlerOptions{Level: slog.LevelDebug})),
	})
	ts := httptest.NewServer(h.srv.Handler())
	h.url = ts.URL
	t.Cleanup(func() {
		h.srv.Stop()
		ts.Close()
	})
	return h
}

func (h *house) clock() time.Time {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.now
}

func (h *house) wait(d time.Duration) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.now = h.now.Add(d)
}

// browser is a client with a cookie jar that follows nothing by itself.
type browser struct {
	*http.Client
	h *house
}

func (h *house) browser() *browser {
	jar, err := cookiejar.New(nil)
	if err != nil {
		h.t.Fatal(err)
	}
	return &browser{&http.Client{
		Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}, h}
}

// teacher is a browser with an open session.
func (h *house) teacher() *browser {
	b := h.browser()
	b.carry("pegwright_desk", "token-of-"+h.t.Name())
	sum := sha256.Sum256([]byte("token-of-" + h.t.Name()))
	if err := h.store.AddDeskSession(context.Background(), hex.EncodeToString(sum[:]), h.clock()); err != nil {
		h.t.Fatal(err)
	}
	return b
}

func (b *browser) carry(name, value string) {
	u, err := url.Parse(b.h.url)
	if err != nil {
		b.h.t.Fatal(err)
	}
	b.Jar.SetCookies(u, []*http.Cookie{{Name: name, Value: url.QueryEscape(value), Path: "/"}})
}

// answer is what came back.
type answer struct {
	status int
	body   string
	to     string // where it sends the browser
	header http.Header
}

func (b *browser) do(method, path string, form url.Values) answer {
	b.h.t.Helper()
	var body io.Reader
	if form != nil {
		body = strings.NewReader(form.Encode())
	}
	r, err := http.NewRequest(method, b.h.url+path, body)
	if err != nil {
		b.h.t.Fatal(err)
	}
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	return b.send(r)
}

func (b *browser) send(r *http.Request) answer {
	b.h.t.Helper()
	w, err := b.Do(r)
	if err != nil {
		b.h.t.Fatal(err)
	}
	defer w.Body.Close()
	text, err := io.ReadAll(w.Body)
	if err != nil {
		b.h.t.Fatal(err)
	}
	return answer{w.StatusCode, string(text), w.Header.Get("Location"), w.Header}
}

func (b *browser) get(path string) answer { b.h.t.Helper(); return b.do("GET", path, nil) }

// post posts fields given as name and value in turn.
func (b *browser) post(path string, fields ...string) answer {
	b.h.t.Helper()
	form := url.Values{}
	for i := 0; i+1 < len(fields); i += 2 {
		form.Add(fields[i], fields[i+1])
	}
	return b.do("POST", path, form)
}

// want checks a status and that the page says something.
func (a answer) want(t *testing.T, status int, says ...string) {
	t.Helper()
	if a.status != status {
		t.Fatalf("status %d, want %d\n%s", a.status, status, a.body)
	}
	for _, s := range says {
		if !strings.Contains(a.body, s) {
			t.Errorf("the page does not say %q\n%s", s, a.body)
		}
	}
}

func (a answer) sends(t *testing.T, to string) {
	t.Helper()
	if a.status != http.StatusSeeOther || !strings.HasPrefix(a.to, to) {
		t.Fatalf("status %d to %q, want 303 to %q\n%s", a.status, a.to, to, a.body)
	}
}

// kites and rooks are two scenes.
func (h *house) scene(name string, pupils int) storetest.Scene {
	h.t.Helper()
	return storetest.NewScene(h.t, h.store, name, pupils)
}

// route is an address of the desk with what it answers to a teacher.
type route struct {
	method, path string
	form         []string
	status       int
}

func routesOf(sc storetest.Scene, showing string) []route {
	run, cl, pupil := "/desk/run/"+sc.Run.ID, "/desk/class/"+sc.Class.ID, sc.Pupils[0].ID
	return []route{
		{"GET", "/desk", nil, 200},
		{"GET", cl, nil, 200},
		{"GET", cl + "?delete=" + pupil, nil, 200},
		{"GET", run, nil, 200},
		{"GET", run + "?view=figures", nil, 200},
		{"GET", run + "/pieces?name=task&name=counts&name=front&name=room&name=figures&name=tile-" + pupil, nil, 200},
		{"GET", run + "/build", nil, 200},
		{"GET", run + "/tap", nil, 200},
		{"GET", run + "/tap?pupil=" + pupil, nil, 200},
		{"GET", run + "/pupil/" + pupil, nil, 200},
		{"GET", run + "/kept", nil, 200},
		{"GET", "/desk/answer?board=square:3x3&property=sides&comparison=%3D&value=4", nil, 200},
		{"GET", "/front/" + sc.Run.ID, nil, 200},
		{"GET", "/front/" + sc.Run.ID + "/pieces?name=front", nil, 200},
		{"POST", "/desk/class", []string{"name", "Owls", "nicknames", "Ash\nBeech", "language", "en"}, 303},
		{"POST", cl + "/pupils", []string{"nicknames", "Newcomer"}, 303},
		{"POST", cl + "/group", []string{"group-" + pupil, "Window"}, 303},
		{"POST", cl + "/language", []string{"language", "en"}, 303},
		{"POST", cl + "/delete-pupil", []string{"pupil", pupil}, 303},
		{"POST", cl + "/run", nil, 303},
		{"POST", run + "/task", []string{"quick", "triangle", "board", "square:5x5"}, 303},
		{"POST", run + "/task/extend", []string{"minutes", "2"}, 303},
		{"POST", run + "/front", []string{"kind", "join"}, 303},
		{"POST", run + "/front", []string{"add", showing}, 303},
		{"POST", run + "/look", []string{"showing", showing}, 303},
		{"POST", run + "/tap", []string{"id", class.NewID(noise{}), "pupil", pupil, "figure", "A1 B1 B2"}, 303},
		{"POST", run + "/tap/check", []string{"figure", "A1 B1 B2"}, 200},
		{"POST", run + "/seat/move", []string{"pupil", pupil, "to", "nobody"}, 404},
		{"POST", run + "/seat/free", []string{"pupil", pupil}, 303},
		{"POST", run + "/room/open", nil, 303},
		{"POST", run + "/room/close", nil, 303},
		{"POST", run + "/task/end", nil, 303},
		{"POST", run + "/end", nil, 303},
		{"POST", "/desk/lock", nil, 303},
	}
}

// noise is a source of bytes that are always the same.
type noise struct{}

func (noise) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(7 * i)
	}
	return len(p), nil
}

// show hands in a figure for a pupil of a scene.
func (h *house) show(sc storetest.Scene, id string, pupil int, figure string) class.Showing {
	h.t.Helper()
	v, err := class.Judge(sc.Task, figure)
	if err != nil {
		h.t.Fatal(err)
	}
	s := class.Showing{
		ID: id, RunID: sc.Run.ID, TaskID: sc.Task.ID, PupilID: sc.Pupils[pupil].ID, Figure: figure, Source: class.FromSeat,
		Standing: v.Standing, Rules: class.RulesVersion, Made: h.clock(), Received: h.clock(),
	}
	if _, err := h.store.AddShowing(context.Background(), s); err != nil {
		h.t.Fatal(err)
	}
	return s
}

func TestEveryRouteForTheTeacher(t *testing.T) {
	h := newHouse(t)
	sc := h.scene("kite", 4)
	shown := h.show(sc, "showing-of-kite-1", 0, "A1 C1 C3")
	b := h.teacher()
	for _, r := range routesOf(sc, shown.ID) {
		a := b.send(b.request(r))
		if a.status != r.status {
			t.Errorf("%s %s: status %d, want %d\n%s", r.method, r.path, a.status, r.status, a.body)
		}
		if strings.HasPrefix(a.header.Get("Content-Type"), "text/html") && a.status == 200 {
			if a.header.Get("Cache-Control") != "no-store" {
				t.Errorf("%s may be kept by caches", r.path)
			}
			for _, open := range unspoken.FindAllString(a.body, -1) {
				t.Errorf("%s: no message for %s", r.path, open)
			}
		}
	}
}

func (b *browser) request(r route) *http.Request {
	form := url.Values{}
	for i := 0; i+1 < len(r.form); i += 2 {
		form.Add(r.form[i], r.form[i+1])
	}
	var body io.Reader
	if r.method == "POST" {
		body = strings.NewReader(form.Encode())
	}
	req, err := http.NewRequest(r.method, b.h.url+r.path, body)
	if err != nil {
		b.h.t.Fatal(err)
	}
	if r.method == "POST" {
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	return req
}

// TestDeskIsShutToOthers: without a session, with a seat's cookie, with a made
// up desk cookie, and at a locked desk, no route of the desk gives anything.
func TestDeskIsShutToOthers(t *testing.T) {
	h := newHouse(t)
	sc := h.scene("kite", 4)
	shown := h.show(sc, "showing-of-kite-1", 0, "A1 C1 C3")
	locked := h.teacher()
	locked.post("/desk/lock").sends(t, "/desk/unlock")
	pupil := h.browser()
	pupil.carry("pegwright_seat", "kite-token-1")
	forged := h.browser()
	forged.carry("pegwright_desk", "made up")
	for who, b := range map[string]*browser{"nobody": h.browser(), "a pupil": pupil, "a forger": forged, "a locked desk": locked} {
		for _, r := range routesOf(sc, shown.ID) {
			if who == "a locked desk" && strings.HasPrefix(r.path, "/front/") {
				continue // the front goes on
			}
			a := b.send(b.request(r))
			if a.status == 200 || a.status == 303 && !strings.HasPrefix(a.to, "/desk/login") && !strings.HasPrefix(a.to, "/desk/unlock") {
				t.Errorf("%s: %s %s: status %d to %q", who, r.method, r.path, a.status, a.to)
			}
			if strings.Contains(a.body, sc.Pupils[0].Nickname) || strings.Contains(a.body, "<svg class=\"picture\"") {
				t.Errorf("%s: %s %s shows something", who, r.method, r.path)
			}
		}
	}
	if tasks, err := h.store.Tasks(context.Background(), sc.Run.ID); err != nil || len(tasks) != 1 {
		t.Errorf("tasks = %d, %v; want the first one only", len(tasks), err)
	}
}

func TestOtherSitesAreRefused(t *testing.T) {
	h := newHouse(t)
	sc := h.scene("kite", 1)
	b := h.teacher()
	for _, head := range [][2]string{{"Sec-Fetch-Site", "cross-site"}, {"Origin", "http://evil.example"}} {
		r := b.request(route{"POST", "/desk/run/" + sc.Run.ID + "/end", nil, 0})
		r.Header.Set(head[0], head[1])
		b.send(r).want(t, http.StatusForbidden, "has not been done")
	}
	if run, err := h.store.Run(context.Background(), sc.Run.ID); err != nil || !run.Open() {
		t.Errorf("run = %v, %v; want it open", run, err)
	}
}

func TestHeaders(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"/", "/desk/setup", "/healthz", "/no/such/page"} {
		head := h.browser().get(path).header
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin", "Cache-Control": "no-store",
		} {
			if got := head.Get(name); got != want {
				t.Errorf("%s: %s = %q, want %q", path, name, got, want)
			}
		}
		if csp := head.Get("Content-Security-Policy"); !strings.HasPrefix(csp, "default-src 'self'") || strings.Contains(csp, "unsafe") {
			t.Errorf("%s: policy %q", path, csp)
		}
	}
	h.browser().get("/healthz").want(t, 200, "ok")
}

func TestTooLargeAForm(t *testing.T) {
	h := newHouse(t)
	a := h.teacher().post("/desk/class", "name", "Owls", "nicknames", strings.Repeat("x", 300<<10))
	if a.status != http.StatusRequestEntityTooLarge {
		t.Errorf("status %d, want 413", a.status)
	}
}

// stream reads a page's events in the background.
type stream struct {
	events chan string
	end    context.CancelFunc
}

func (b *browser) stream(path string) *stream {
	b.h.t.Helper()
	ctx, end := context.WithCancel(context.Background())
	b.h.t.Cleanup(end)
	r, err := http.NewRequestWithContext(ctx, "GET", b.h.url+path, nil)
	if err != nil {
		b.h.t.Fatal(err)
	}
	w, err := b.Do(r)
	if err != nil {
		b.h.t.Fatal(err)
	}
	if w.StatusCode != 200 {
		b.h.t.Fatalf("stream %s: status %d", path, w.StatusCode)
	}
	s := &stream{make(chan string, 100), end}
	go func() {
		defer close(s.events)
		defer w.Body.Close()
		lines := bufio.NewScanner(w.Body)
		name := ""
		for lines.Scan() {
			if e, ok := strings.CutPrefix(lines.Text(), "event: "); ok {
				name = e
			}
			if d, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				s.events <- name + " " + d
			}
		}
	}()
	if got := s.next(b.h.t); !strings.HasPrefix(got, "hello") {
		b.h.t.Fatalf("first event %q, want hello", got)
	}
	return s
}

func (s *stream) next(t testing.TB) string {
	t.Helper()
	select {
	case e, ok := <-s.events:
		if !ok {
			return "closed"
		}
		return e
	case <-time.After(5 * time.Second):
		return "nothing"
	}
}
