package seat

import (
	"net/http"
	"sync"
	"time"
)

// recent remembers for a moment where a device sits, since a device that moves
// its bands asks several times a second. Only moves ask it: they are live and
// never stored, and one of a device that was sent out a moment ago does no
// harm.
type recent struct {
	span time.Duration

	mu     sync.Mutex
	places map[string]recentPlace // by the hash of the cookie
}

type recentPlace struct {
	place *place
	read  time.Time
}

// mostRecent bounds the memory; past it everything is read again.
const mostRecent = 20_000

func newRecent(span time.Duration) *recent {
	return &recent{span: span, places: map[string]recentPlace{}}
}

// placeOf is Seats.placeOf, as it was at most a moment ago.
func (m *recent) placeOf(s *Seats, r *http.Request) (*place, error) {
	c, err := r.Cookie(placeCookie)
	if err != nil {
		return s.placeOf(r)
	}
	hash, now := hashOf(c.Value), s.Now()
	m.mu.Lock()
	kept, ok := m.places[hash]
	m.mu.Unlock()
	if age := now.Sub(kept.read); ok && age >= 0 && age < m.span {
		return kept.place, nil
	}
	p, err := s.placeOf(r)
	if err != nil {
		return nil, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.places) >= mostRecent {
		clear(m.places)
	}
	m.places[hash] = recentPlace{p, now}
	return p, nil
}
