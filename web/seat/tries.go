package seat

import (
	"net"
	"net/http"
	"sync"
	"time"
)

// tries counts wrong room words by address, so that nobody finds a room by
// trying words.
type tries struct {
	most int
	span time.Duration

	mu    sync.Mutex
	wrong map[string][]time.Time
}

// mostAddresses bounds the memory that strangers can take up.
const mostAddresses = 10_000

func newTries(most int, span time.Duration) *tries {
	return &tries{most: most, span: span, wrong: map[string][]time.Time{}}
}

// over reports whether an address has had its tries for now.
func (t *tries) over(address string, now time.Time) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	return len(t.recent(address, now)) >= t.most
}

// miss counts a wrong word.
func (t *tries) miss(address string, now time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if len(t.wrong) >= mostAddresses {
		for a := range t.wrong {
			t.recent(a, now)
		}
	}
	if len(t.wrong) < mostAddresses || len(t.wrong[address]) > 0 {
		t.wrong[address] = append(t.recent(address, now), now)
	}
}

// recent returns the wrong words of the last span and forgets older ones; a
// clock that was set back forgets too. The lock is held.
func (t *tries) recent(address string, now time.Time) []time.Time {
	var kept []time.Time
	for _, at := range t.wrong[address] {
		if age := now.Sub(at); age >= 0 && age < t.span {
			kept = append(kept, at)
		}
	}
	if len(kept) == 0 {
		delete(t.wrong, address)
		return nil
	}
	t.wrong[address] = kept
	return kept
}

// addressOf returns the address that a request comes from. What a proxy says
// is not asked: anybody may say it.
func addressOf(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}
