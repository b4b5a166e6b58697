// Package live carries what changes while a class works: the event stream that
// tells a page which of its pieces to fetch again, and the boards that are
// moving and not yet shown, which are kept in memory only.
//
// Start at Stream and Live.
package live

import "sync"

// Live holds the boards that are being made. The zero value is not ready; see
// New.
type Live struct {
	mu   sync.Mutex
	runs map[string]map[string]*place
}

// place is one pupil's part in a run.
type place struct {
	figure string
	moved  bool
	open   int // seat streams
}

// New returns an empty Live.
func New() *Live { return &Live{runs: map[string]map[string]*place{}} }

// at returns a pupil's place, made when need be; the lock is held.
func (l *Live) at(run, pupil string) *place {
	places, ok := l.runs[run]
	if !ok {
		places = map[string]*place{}
		l.runs[run] = places
	}
	p, ok := places[pupil]
	if !ok {
		p = &place{}
		places[pupil] = p
	}
	return p
}

// Move remembers what is on a pupil's board now.
func (l *Live) Move(run, pupil, figure string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	p := l.at(run, pupil)
	p.figure, p.moved = figure, true
}

// Figure returns what is on a pupil's board now, "" when nothing is known.
func (l *Live) Figure(run, pupil string) string {
	figure, _ := l.Moving(run, pupil)
	return figure
}

// Moving returns what is on a pupil's board and whether anything is known of
// it.
func (l *Live) Moving(run, pupil string) (figure string, known bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if p, ok := l.runs[run][pupil]; ok {
		return p.figure, p.moved
	}
	return "", false
}

// Enter counts an open stream of a pupil's seat; the function it returns
// counts it off, once.
func (l *Live) Enter(run, pupil string) (leave func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.at(run, pupil).open++
	return sync.OnceFunc(func() {
		l.mu.Lock()
		defer l.mu.Unlock()
		if p, ok := l.runs[run][pupil]; ok && p.open > 0 {
			p.open--
		}
	})
}

// Connected returns how many streams a pupil's seat has open.
func (l *Live) Connected(run, pupil string) int {
	l.mu.Lock()
	defer l.mu.Unlock()
	if p, ok := l.runs[run][pupil]; ok {
		return p.open
	}
	return 0
}

// Clear forgets the boards of a run but not who is there: a new task begins on
// empty boards.
func (l *Live) Clear(run string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, p := range l.runs[run] {
		p.figure, p.moved = "", false
	}
}

// Forget forgets a run.
func (l *Live) Forget(run string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.runs, run)
}
