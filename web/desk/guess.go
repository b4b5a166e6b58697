package desk

import (
	"net"
	"net/http"
	"sync"
	"time"
)

// The limits on guessing a passphrase: so many free tries, then waits that
// double with each further one. All addresses together have a limit of their
// own, so that many addresses gain nothing.
const (
	freeTries       = 5
	freeTriesOfAll  = 40
	firstWait       = 30 * time.Second
	longestWait     = 15 * time.Minute
	forgetTriesFrom = time.Hour
	mostTallies     = 4096
)

// guesses limits guesses by address and altogether.
type guesses struct {
	mu  sync.Mutex
	by  map[string]*tally
	all tally
}

// tally counts the wrong guesses in a row.
type tally struct {
	wrong int
	last  time.Time
	until time.Time
}

func newGuesses() *guesses { return &guesses{by: map[string]*tally{}} }

// take counts a guess from an address before it is looked at, so that guesses
// made at once are counted too; it returns the time until which no guess is
// taken, zero when this one is. The machine itself is not held up by the
// guesses of others, or a class could lock its teacher out.
func (g *guesses) take(address string, here bool, now time.Time) (until time.Time) {
	g.mu.Lock()
	defer g.mu.Unlock()
	own := g.tally(address, now)
	if now.Before(own.until) {
		until = own.until
	}
	if !here && now.Before(g.all.until) && g.all.until.After(until) {
		until = g.all.until
	}
	if !until.IsZero() {
		return until
	}
	own.add(now, freeTries)
	if !here && own != &g.all {
		g.all.add(now, freeTriesOfAll)
	}
	return time.Time{}
}

// right forgets the guesses of an address that knew.
func (g *guesses) right(address string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	delete(g.by, address)
}

// tally returns the tally of an address; the lock is held.
func (g *guesses) tally(address string, now time.Time) *tally {
	if len(g.by) >= mostTallies {
		for a, t := range g.by {
			if now.Sub(t.last) > forgetTriesFrom {
				delete(g.by, a)
			}
		}
	}
	t, ok := g.by[address]
	if !ok && len(g.by) >= mostTallies {
		return &g.all
	}
	if !ok {
		t = &tally{}
		g.by[address] = t
	}
	return t
}

func (t *tally) add(now time.Time, free int) {
	if now.Sub(t.last) > forgetTriesFrom {
		*t = tally{}
	}
	t.wrong++
	t.last = now
	if over := t.wrong - free; over >= 0 {
		wait := longestWait
		if over < 10 {
			wait = min(longestWait, firstWait<<over)
		}
		t.until = now.Add(wait)
	}
}

// addressOf returns the address that a request comes from, without its port.
func addressOf(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// fromHere reports whether a request comes from this machine itself, and not
// through something that passes on the requests of others.
func fromHere(r *http.Request) bool {
	ip := net.ParseIP(addressOf(r))
	for _, h := range []string{"X-Forwarded-For", "X-Forwarded-Host", "Forwarded", "X-Real-Ip", "Via"} {
		if r.Header.Get(h) != "" {
			return false
		}
	}
	return ip != nil && ip.IsLoopback()
}
