package bus_test

import (
	"fmt"
	"runtime"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"pegwright/bus"
)

func TestTakeGivesEachPieceOnceAndSorted(t *testing.T) {
	h := bus.NewHub()
	s := h.Subscribe("run/1")
	for _, piece := range []string{"tile-b", "counts", "tile-a", "counts", "tile-b"} {
		h.Publish(bus.Event{Topic: "run/1", Piece: piece})
	}
	wantChanged(t, s, true)
	wantTake(t, s, "counts", "tile-a", "tile-b")
	wantTake(t, s)
	h.Publish(bus.Event{Topic: "run/1", Piece: "counts"})
	wantChanged(t, s, true)
	wantTake(t, s, "counts")
	wantChanged(t, s, false)
}

func TestTopicsAreApart(t *testing.T) {
	var h bus.Hub // the zero Hub is ready
	one, again, two := h.Subscribe("run/1"), h.Subscribe("run/1"), h.Subscribe("run/2")
	h.Publish(bus.Event{Topic: "run/1", Piece: "task"})
	h.Publish(bus.Event{Topic: "run/3", Piece: "task"})
	wantTake(t, one, "task")
	wantTake(t, again, "task")
	wantTake(t, two)
	wantChanged(t, two, false)
}

func TestNothingFromBeforeIsHeard(t *testing.T) {
	h := bus.NewHub()
	h.Publish(bus.Event{Topic: "run/1", Piece: "task"})
	s := h.Subscribe("run/1")
	wantChanged(t, s, false)
	wantTake(t, s)
}

func TestClosedSubscriptionHearsNothing(t *testing.T) {
	h := bus.NewHub()
	s, other := h.Subscribe("run/1"), h.Subscribe("run/1")
	s.Close()
	s.Close()
	h.Publish(bus.Event{Topic: "run/1", Piece: "task"})
	wantTake(t, s)
	wantTake(t, other, "task")
	if n := h.Listeners("run/1"); n != 1 {
		t.Errorf("%d listeners, want 1", n)
	}
	other.Close()
	if n := h.Listeners("run/1"); n != 0 {
		t.Errorf("%d listeners, want 0", n)
	}
}

// TestTakeAfterAnyInterleaving checks the law of Hub for one listener that is
// at every possible point of its loop when something is published.
func TestTakeAfterAnyInterleaving(t *testing.T) {
	for at := range 4 {
		h := bus.NewHub()
		s := h.Subscribe("x")
		publish := func(step int) {
			if step == at {
				h.Publish(bus.Event{Topic: "x", Piece: "late"})
			}
		}
		h.Publish(bus.Event{Topic: "x", Piece: "early"})
		publish(0)
		<-s.Changed()
		publish(1)
		got := s.Take()
		publish(2)
		publish(3)
		for range 2 {
			select {
			case <-s.Changed():
				got = append(got, s.Take()...)
			default:
			}
		}
		if !slices.Equal(got, []string{"early", "late"}) {
			t.Errorf("published at step %d: took %q", at, got)
		}
	}
}

// TestManySlowListeners has 400 listeners in 20 topics, each slow in its own
// way, and 16 publishers. Every listener must end with the last state of every
// piece, and no publisher may wait for a listener.
func TestManySlowListeners(t *testing.T) {
	const topics, listeners, publishers, rounds, pieces = 20, 400, 16, 200, 7
	h := bus.NewHub()
	var state [topics][pieces]version
	stop := make(chan struct{})
	var listening, publishing sync.WaitGroup
	for i := range listeners {
		s := h.Subscribe(topic(i % topics))
		listening.Go(func() {
			seen := [pieces]int{}
			hear := func() {
				for _, piece := range s.Take() {
					var p int
					fmt.Sscanf(piece, "tile-%d", &p)
					seen[p] = state[i%topics][p].get()
				}
			}
			for open := true; open; {
				select {
				case <-s.Changed():
					time.Sleep(time.Duration(i%5) * time.Millisecond)
					hear()
				case <-stop:
					open = false
				}
			}
			hear()
			s.Close()
			for p := range pieces {
				if want := state[i%topics][p].get(); seen[p] != want {
					t.Errorf("listener %d saw version %d of piece %d, want %d", i, seen[p], p, want)
				}
			}
		})
	}
	start := time.Now()
	for p := range publishers {
		publishing.Go(func() {
			for n := range rounds {
				topicNumber, piece := (p+n)%topics, n%pieces
				state[topicNumber][piece].raise()
				h.Publish(bus.Event{Topic: topic(topicNumber), Piece: fmt.Sprint("tile-", piece)})
			}
		})
	}
	publishing.Wait()
	t.Logf("%d events to %d listeners in %v", publishers*rounds, listeners, time.Since(start))
	close(stop)
	listening.Wait()
	for i := range topics {
		if n := h.Listeners(topic(i)); n != 0 {
			t.Errorf("%s has %d listeners left", topic(i), n)
		}
	}
}

// TestListenersComeAndGo subscribes and closes while others publish.
func TestListenersComeAndGo(t *testing.T) {
	h := bus.NewHub()
	steady := h.Subscribe("x")
	var work sync.WaitGroup
	for i := range 200 {
		work.Go(func() {
			for range 20 {
				s := h.Subscribe("x")
				h.Publish(bus.Event{Topic: "x", Piece: fmt.Sprint(i)})
				if !slices.Contains(s.Take(), fmt.Sprint(i)) {
					t.Error("a listener missed what was published after it subscribed")
				}
				s.Close()
			}
		})
	}
	work.Wait()
	if got := len(steady.Take()); got != 200 {
		t.Errorf("took %d pieces, want 200", got)
	}
	if n := h.Listeners("x"); n != 1 {
		t.Errorf("%d listeners, want 1", n)
	}
}

// TestPublishNeverWaits has listeners that never listen, in a bubble where a
// publisher that waits would be reported as a deadlock.
func TestPublishNeverWaits(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := bus.NewHub()
		for range 300 {
			h.Subscribe("x")
		}
		began := time.Now()
		for range 1000 {
			h.Publish(bus.Event{Topic: "x", Piece: "counts"})
		}
		if waited := time.Since(began); waited != 0 {
			t.Errorf("publishing waited %v", waited)
		}
	})
}

func TestNoGoroutineAndNoMemoryStays(t *testing.T) {
	before := runtime.NumGoroutine()
	h := bus.NewHub()
	s := h.Subscribe("x")
	for range 1_000 {
		h.Subscribe("y").Close()
	}
	if after := runtime.NumGoroutine(); after > before {
		t.Errorf("%d goroutines more than before", after-before)
	}
	h.Publish(bus.Event{Topic: "x", Piece: "counts"})
	grown := testing.AllocsPerRun(10_000, func() { h.Publish(bus.Event{Topic: "x", Piece: "counts"}) })
	if grown != 0 {
		t.Errorf("an event that is known already takes %v allocations", grown)
	}
	wantTake(t, s, "counts")
}

func BenchmarkPublishToRoom(b *testing.B) {
	h := bus.NewHub()
	for range 36 {
		h.Subscribe("x")
	}
	for b.Loop() {
		h.Publish(bus.Event{Topic: "x", Piece: "counts"})
	}
}

// version counts the changes of a piece.
type version struct {
	mu sync.Mutex
	n  int
}

func (v *version) raise() { v.mu.Lock(); v.n++; v.mu.Unlock() }

func (v *version) get() int { v.mu.Lock(); defer v.mu.Unlock(); return v.n }

func topic(i int) string { return fmt.Sprint("run/", i) }

func wantTake(t *testing.T, s bus.Subscription, want ...string) {
	t.Helper()
	if got := s.Take(); !slices.Equal(got, want) {
		t.Errorf("Take() = %q, want %q", got, want)
	}
}

func wantChanged(t *testing.T, s bus.Subscription, want bool) {
	t.Helper()
	got := false
	select {
	case <-s.Changed():
		got = true
	default:
	}
	if got != want {
		t.Errorf("Changed is ready: %t, want %t", got, want)
	}
}
