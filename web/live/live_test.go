package live_test

import (
	"bufio"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"pegwright/bus"
	"pegwright/web/live"
)

func TestLiveKeepsRunsApart(t *testing.T) {
	l := live.New()
	l.Move("a", "p", "A1 B1")
	l.Move("b", "p", "C1 D1")
	if got := l.Figure("a", "p"); got != "A1 B1" {
		t.Errorf("Figure(a) = %q", got)
	}
	if _, known := l.Moving("a", "q"); known {
		t.Error("a board that nobody moved is known")
	}
	leave := l.Enter("a", "p")
	l.Clear("a")
	if _, known := l.Moving("a", "p"); known || l.Connected("a", "p") != 1 {
		t.Error("Clear left a board or took a seat's line away")
	}
	leave()
	leave()
	if got := l.Connected("a", "p"); got != 0 {
		t.Errorf("Connected = %d after leaving twice, want 0", got)
	}
	l.Forget("a")
	if got := l.Figure("b", "p"); got != "C1 D1" {
		t.Errorf("Forget(a) changed b: %q", got)
	}
}

func TestLiveWithManyHands(t *testing.T) {
	l := live.New()
	var all sync.WaitGroup
	for i := range 40 {
		all.Add(1)
		go func() {
			defer all.Done()
			pupil := fmt.Sprint(i)
			leave := l.Enter("run", pupil)
			for j := range 100 {
				l.Move("run", pupil, fmt.Sprint(j))
				l.Figure("run", fmt.Sprint(j%40))
			}
			leave()
		}()
	}
	all.Wait()
	for i := range 40 {
		if got := l.Figure("run", fmt.Sprint(i)); got != "99" {
			t.Errorf("pupil %d ends at %q, want 99", i, got)
		}
	}
}

// listen reads events until the stream ends.
func listen(t *testing.T, s live.Streamer, hub *bus.Hub, topics ...string) (events chan string) {
	t.Helper()
	ts := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		var subs []bus.Subscription
		for _, topic := range topics {
			subs = append(subs, hub.Subscribe(topic))
		}
		s.Stream(w, r, subs...)
	}))
	answer, err := http.Get(ts.URL)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = answer.Body.Close()
		ts.Close()
	})
	events = make(chan string, 100)
	go func() {
		defer close(events)
		lines := bufio.NewScanner(answer.Body)
		for lines.Scan() {
			if d, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				events <- d
			}
		}
	}()
	return events
}

func next(t *testing.T, events chan string) string {
	t.Helper()
	select {
	case e, ok := <-events:
		if !ok {
			return "closed"
		}
		return e
	case <-time.After(10 * time.Second):
		return "nothing"
	}
}

func TestStreamSaysHelloThenWhatChanged(t *testing.T) {
	hub := bus.NewHub()
	done := make(chan struct{})
	events := listen(t, live.Streamer{Version: "7", Done: done}, hub, "one", "two")
	if got := next(t, events); got != `"7"` {
		t.Fatalf("hello says %s", got)
	}
	hub.Publish(bus.Event{Topic: "one", Piece: "b"})
	hub.Publish(bus.Event{Topic: "two", Piece: "a"})
	hub.Publish(bus.Event{Topic: "two", Piece: "b"})
	hub.Publish(bus.Event{Topic: "three", Piece: "c"})
	if got := next(t, events); got != `["a","b"]` {
		t.Errorf("changed says %s", got)
	}
	close(done)
	if got := next(t, events); got != "closed" {
		t.Errorf("the stream goes on: %s", got)
	}
	for range 100 { // its subscriptions end with it
		if hub.Listeners("one")+hub.Listeners("two") == 0 {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Error("subscriptions are left over")
}

func TestStreamOfALockedPage(t *testing.T) {
	hub := bus.NewHub()
	events := listen(t, live.Streamer{Open: func() bool { return false }}, hub, "one")
	next(t, events)
	hub.Publish(bus.Event{Topic: "one", Piece: "tile"})
	if got := next(t, events); got != `["away"]` {
		t.Errorf("a locked page hears %s", got)
	}
	if got := next(t, events); got != "closed" {
		t.Errorf("the stream goes on: %s", got)
	}
}
