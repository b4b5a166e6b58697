package desk

import (
	"context"
	"strings"
	"sync"
	"time"

	"pegwright/bus"
)

// snapshots keeps the scenes of runs whose pages fetch pieces, so that a board
// that moves reads nothing from the store. A snapshot is dropped by the first
// word on the bus that something of the run was stored; the bus has that word
// before anyone who asks because of it. Moves alone, which tell of a tile and
// nothing more, change nothing that is stored.
type snapshots struct {
	bus  bus.Bus
	read func(context.Context, string) (*scene, error)
	now  func() time.Time
	mu   sync.Mutex
	by   map[string]*snapshot
}

// snapshot is the scene of one run, as long as it is true.
type snapshot struct {
	mu    sync.Mutex
	heard bus.Subscription
	scene *scene
	taken time.Time
}

// The bounds of snapshots: how long one is used when nothing is heard, in case
// something else writes to the store, and how many there are.
const (
	freshness     = time.Second
	mostSnapshots = 500
)

func newSnapshots(b bus.Bus, read func(context.Context, string) (*scene, error), now func() time.Time) *snapshots {
	return &snapshots{bus: b, read: read, now: now, by: map[string]*snapshot{}}
}

// scene returns the scene of a run, which is not to be changed.
func (s *snapshots) scene(ctx context.Context, run string) (*scene, error) {
	one := s.of(run)
	one.mu.Lock()
	defer one.mu.Unlock()
	// Taken before reading: what is told meanwhile drops what is read here.
	stored := storedIn(one.heard.Take())
	age := s.now().Sub(one.taken)
	if one.scene != nil && !stored && age >= 0 && age < freshness {
		return one.scene, nil
	}
	one.scene = nil
	now, err := s.read(ctx, run)
	if err != nil {
		return nil, err
	}
	if !now.Run.Open() {
		s.drop(run, one)
		return now, nil
	}
	one.scene, one.taken = now, s.now()
	return now, nil
}

// storedIn reports whether one of the pieces that changed tells of something
// stored.
func storedIn(pieces []string) bool {
	for _, p := range pieces {
		if !strings.HasPrefix(p, "tile-") {
			return true
		}
	}
	return false
}

// of returns the snapshot of a run, with nothing in it when it is new.
func (s *snapshots) of(run string) *snapshot {
	s.mu.Lock()
	defer s.mu.Unlock()
	one, ok := s.by[run]
	if ok {
		return one
	}
	if len(s.by) >= mostSnapshots {
		s.sweep()
	}
	one = &snapshot{heard: s.bus.Subscribe("run/" + run)}
	s.by[run] = one
	return one
}

// sweep forgets the snapshots that are too old to be used; the lock is held.
func (s *snapshots) sweep() {
	for run, one := range s.by {
		if !one.mu.TryLock() {
			continue // being used
		}
		if s.now().Sub(one.taken) >= freshness {
			one.heard.Close()
			delete(s.by, run)
		}
		one.mu.Unlock()
	}
}

// drop forgets the snapshot of a run.
func (s *snapshots) drop(run string, one *snapshot) {
	s.mu.Lock()
	defer s.mu.Unlock()
	one.heard.Close()
	if s.by[run] == one {
		delete(s.by, run)
	}
}
