package demo

import (
	"context"
	"crypto/rand"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/store"
	"pegwright/web"
	"pegwright/web/live"
)

// school is a server with today's lesson in it.
type school struct {
	t *testing.T
	Scenario
	store  *store.Store
	live   *live.Live
	server *httptest.Server
}

func newSchool(t *testing.T) *school {
	t.Helper()
	s := &school{t: t, store: openStore(t), live: live.New()}
	w := writer{ctx: context.Background(), store: s.store, random: rand.Reader, seed: 5}
	var err error
	s.Scenario, err = w.enrol(time.Now())
	must(t, err)
	must(t, w.begin(&s.Scenario, time.Now()))
	pages := web.New(web.Config{Store: s.store, Live: s.live})
	s.server = httptest.NewServer(pages.Handler())
	t.Cleanup(func() { pages.Stop(); s.server.Close() })
	return s
}

// room is the room of the scenario, in which nobody waits for anything longer
// than the machine.
func (s *school) room(pause Pause) Room {
	return Room{
		Scenario: s.Scenario, Base: s.server.URL, Store: s.store, Seed: 5, Log: slog.New(slog.DiscardHandler),
		Now: time.Now, Pause: pause, Random: rand.Reader,
	}
}

// hurry is a pause ten thousand times as short.
func hurry(ctx context.Context, d time.Duration) error { return Wait(ctx, d/10000+time.Millisecond) }

// work lets the pupils work until a condition holds.
func (s *school) work(pause Pause, until func() bool) {
	s.t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	var room sync.WaitGroup
	room.Go(func() { s.room(pause).Work(ctx) })
	defer room.Wait()
	defer cancel()
	for deadline := time.Now().Add(2 * time.Minute); time.Now().Before(deadline); time.Sleep(10 * time.Millisecond) {
		if until() {
			return
		}
	}
	s.t.Error("it never came to pass")
}

// shown returns the figures shown for a task, by pupil, in order.
func (s *school) shown(taskID string) map[string][]string {
	s.t.Helper()
	all, err := s.store.TaskShowings(context.Background(), taskID)
	must(s.t, err)
	out := map[string][]string{}
	for _, one := range all {
		out[one.PupilID] = append(out[one.PupilID], one.Figure)
	}
	return out
}

func (s *school) seated() (out []Pupil) {
	for _, p := range s.Pupils {
		if !p.Absent {
			out = append(out, p)
		}
	}
	return out
}

func TestTheRoomWorksThroughTwoTasks(t *testing.T) {
	s := newSchool(t)
	second := class.Task{ID: class.NewID(rand.Reader), RunID: s.Run.ID, Words: "Make a square.", Board: "square:4x4", Conditions: []string{"kind=square"}, Started: time.Now()}
	begun := false
	s.work(hurry, func() bool {
		if len(s.shown(s.Task.ID)) == len(s.seated()) && !begun {
			begun = true
			must(t, s.store.AddTask(context.Background(), second))
			// The desk would say so on the bus; a stream that opens again
			// hears of it all the same.
			s.server.CloseClientConnections()
		}
		return begun && len(s.shown(second.ID)) == len(s.seated())
	})
	for _, p := range s.Pupils {
		figures := s.shown(s.Task.ID)[p.ID]
		if p.Absent != (len(figures) == 0) || len(figures) > goes {
			t.Errorf("%s (%s) showed %q", p.Nickname, p.Character, figures)
		}
	}
	s.checkCopies()
}

// checkCopies checks that whoever copies has what the neighbour made first.
func (s *school) checkCopies() {
	s.t.Helper()
	shown := s.shown(s.Task.ID)
	for _, p := range s.Pupils {
		if p.Character == Copier && shown[p.ID][0] != shown[p.Beside][0] {
			s.t.Errorf("%s made %s, the neighbour %s", p.Nickname, shown[p.ID][0], shown[p.Beside][0])
		}
	}
}

func TestTheRoomIsRepeatable(t *testing.T) {
	first := func() map[string]string {
		s := newSchool(t)
		s.work(hurry, func() bool { return len(s.shown(s.Task.ID)) == len(s.seated()) })
		out := map[string]string{}
		for _, p := range s.seated() {
			out[p.Nickname] = s.shown(s.Task.ID)[p.ID][0]
		}
		return out
	}
	a, b := first(), first()
	for name, figure := range a {
		if b[name] != figure {
			t.Errorf("%s made %s and then %s", name, figure, b[name])
		}
	}
}

// TestTheDropperIsAwayWhileItShows: nothing is heard between the last move and
// the showing, which comes with the time it was made.
func TestTheDropperIsAwayWhileItShows(t *testing.T) {
	s := newSchool(t)
	i := slices.IndexFunc(s.Pupils, func(p Pupil) bool { return p.Character == Dropper })
	dropper := s.Pupils[i]
	s.Pupils = s.Pupils[i : i+1]
	var mu sync.Mutex
	connected := -1
	pause := func(ctx context.Context, d time.Duration) error {
		if d > away/2 { // the longest pause of its kind
			time.Sleep(200 * time.Millisecond)
			mu.Lock()
			if connected != 0 {
				connected = s.live.Connected(s.Run.ID, dropper.ID)
			}
			mu.Unlock()
		}
		return hurry(ctx, d)
	}
	s.work(pause, func() bool { return len(s.shown(s.Task.ID)) > 0 })
	all, err := s.store.TaskShowings(context.Background(), s.Task.ID)
	must(t, err)
	if mu.Lock(); connected != 0 {
		t.Errorf("%d streams while away", connected)
	}
	if !all[0].Made.Before(all[0].Received) {
		t.Errorf("made %s, received %s", all[0].Made, all[0].Received)
	}
}

func TestSomeoneSentOutStaysOut(t *testing.T) {
	s := newSchool(t)
	s.Pupils = s.Pupils[:1]
	s.work(func(ctx context.Context, _ time.Duration) error { return Wait(ctx, 20*time.Millisecond) }, func() bool {
		seats, err := s.store.Seats(context.Background(), s.Run.ID)
		must(t, err)
		return len(seats) == 1
	})
	ctx := context.Background()
	must(t, s.store.FreePupil(ctx, s.Run.ID, s.Pupils[0].ID, time.Now()))
	seat := NewSeat(s.server.URL, http.DefaultTransport)
	if _, err := seat.State(ctx); err == nil || !strings.Contains(err.Error(), "401") {
		t.Errorf("a device without a place hears %v", err)
	}
}

func TestASeatHearsWhyItIsRefused(t *testing.T) {
	s := newSchool(t)
	ctx := context.Background()
	seat := NewSeat(s.server.URL, http.DefaultTransport)
	must(t, seat.Join(ctx, s.Run.RoomWord, s.Run.ID, s.Pupils[3].ID))
	got, err := seat.Show(ctx, Showing{ID: class.NewID(rand.Reader), Task: s.Task.ID, Figure: "Z9 A1", Made: 1})
	if err != nil || got.Kept || got.Words == "" {
		t.Errorf("a figure of another board: %+v, %v", got, err)
	}
	ok := Showing{ID: class.NewID(rand.Reader), Task: s.Task.ID, Figure: "A1 D1 D3", Made: time.Now().UnixMilli()}
	for range 2 { // a resend is harmless
		if got, err := seat.Show(ctx, ok); err != nil || !got.Kept {
			t.Errorf("%+v, %v", got, err)
		}
	}
	if n := len(s.shown(s.Task.ID)[s.Pupils[3].ID]); n != 1 {
		t.Errorf("%d showings, want 1", n)
	}
	if err := seat.Join(ctx, "no-such-room", s.Run.ID, s.Pupils[3].ID); err == nil {
		t.Error("joined with a wrong word")
	}
}

func TestReadEvents(t *testing.T) {
	var got []string
	text := "event: hello\ndata: \"v1\"\n\n: still here\n\nevent: changed\ndata: [\"task\",\"x\"]\n\n"
	must(t, readEvents(strings.NewReader(text), func(p []string) { got = append(got, strings.Join(p, "+")) }))
	if strings.Join(got, "|") != "|task+x" {
		t.Errorf("events %q", got)
	}
	if err := readEvents(strings.NewReader("event: changed\ndata: nonsense\n\n"), func([]string) {}); err == nil {
		t.Error("nonsense was read")
	}
}

func TestWaitEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if Wait(ctx, time.Hour) == nil || Wait(context.Background(), 0) != nil {
		t.Error("Wait does not keep its word")
	}
}

func TestVaried(t *testing.T) {
	r := random(1)
	for range 100 {
		if d := varied(time.Second, r); d < time.Second/2 || d > 3*time.Second/2 {
			t.Fatalf("varied to %s", d)
		}
	}
}
