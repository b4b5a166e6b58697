package desk

import (
	"context"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pegwright/bus"
	"pegwright/class"
)

// TestASnapshotNeverOutlivesAChange has many readers while something is stored
// and told again and again: whoever reads after the telling has the news.
func TestASnapshotNeverOutlivesAChange(t *testing.T) {
	hub, now := bus.NewHub(), time.Now()
	var stored atomic.Int64
	s := newSnapshots(hub, func(context.Context, string) (*scene, error) {
		return &scene{Run: class.Run{ID: "kite", RoomWord: string(rune(stored.Load()))}}, nil
	}, func() time.Time { return now })
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 500 {
				told := stored.Load() - 1 // what was stored before has been told
				got, err := s.scene(t.Context(), "kite")
				if err != nil || int64([]rune(got.Run.RoomWord + "\x00")[0]) < told {
					t.Errorf("read %v, %v after %d was told", got, err, told)
					return
				}
			}
		})
	}
	for range 300 {
		stored.Add(1)
		hub.Publish(bus.Event{Topic: "run/kite", Piece: "counts"})
	}
	all.Wait()
}

func TestASnapshotIsDroppedByWhatIsStoredAndByTime(t *testing.T) {
	hub, now, reads := bus.NewHub(), time.Now(), 0
	ended := time.Time{}
	s := newSnapshots(hub, func(context.Context, string) (*scene, error) {
		reads++
		return &scene{Run: class.Run{ID: "kite", Ended: ended}}, nil
	}, func() time.Time { return now })
	read := func(want int, why string) {
		t.Helper()
		if _, err := s.scene(t.Context(), "kite"); err != nil || reads != want {
			t.Errorf("%s: %d readings of the store, want %d (%v)", why, reads, want, err)
		}
	}
	tell := func(topic, piece string) { hub.Publish(bus.Event{Topic: topic, Piece: piece}) }
	read(1, "at first")
	tell("run/kite", "tile-a")
	read(1, "after a move")
	tell("run/rook", "counts")
	read(1, "after something in another run")
	tell("run/kite", "tile-a")
	tell("run/kite", "counts")
	read(2, "after a showing")
	now = now.Add(freshness)
	read(3, "after a while")
	ended = now
	tell("run/kite", "task")
	read(4, "after the end")
	read(5, "of a run that is over")
	if n := hub.Listeners("run/kite"); n != 0 {
		t.Errorf("%d listeners are left over", n)
	}
}
