package demo

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"pegwright/class"
	"pegwright/store"
)

// Room is a room with simulated pupils in its seats.
type Room struct {
	Scenario
	Base  string       // the server's address, http://127.0.0.1:8320
	Store *store.Store // where it is read what a task asks for, which seats are not told
	Seed  uint64
	Log   *slog.Logger
	Now   func() time.Time
	Pause Pause
	// Random makes the ids of showings; it is read by all pupils at once.
	Random io.Reader
}

// Work lets the pupils work until the context ends: they join, make what is
// asked, show it, and wait for the next task. It returns when all have gone.
func (r Room) Work(ctx context.Context) {
	c := &classroom{Room: r, choices: map[string]func() (*Choices, error){}, tables: map[string]*table{}}
	transport := &http.Transport{MaxIdleConnsPerHost: 2 * len(r.Pupils)}
	defer transport.CloseIdleConnections()
	var all sync.WaitGroup
	for _, p := range r.Pupils {
		if p.Absent {
			continue
		}
		all.Go(func() {
			w := &worker{classroom: c, Pupil: p, seat: NewSeat(r.Base, transport)}
			if err := w.live(ctx); err != nil && ctx.Err() == nil {
				r.Log.WarnContext(ctx, "simulated pupil left", "seat", p.Number, "err", err)
			}
		})
	}
	all.Wait()
}

// classroom is what the pupils of a room share.
type classroom struct {
	Room

	mu      sync.Mutex
	choices map[string]func() (*Choices, error) // by task
	tables  map[string]*table                   // by task
}

// work returns a task with the choices for it.
func (c *classroom) work(ctx context.Context, taskID string) (class.Task, *Choices, error) {
	t, err := c.Store.Task(ctx, taskID)
	if err != nil {
		return t, nil, err
	}
	c.mu.Lock()
	once, ok := c.choices[taskID]
	if !ok {
		once = sync.OnceValues(func() (*Choices, error) { return NewChoices(t) })
		c.choices[taskID] = once
	}
	c.mu.Unlock()
	choices, err := once()
	return t, choices, err
}

// table returns the boards that lie on the tables for a task.
func (c *classroom) table(taskID string) *table {
	c.mu.Lock()
	defer c.mu.Unlock()
	t, ok := c.tables[taskID]
	if !ok {
		t = &table{boards: map[string]*boardOnTable{}}
		c.tables[taskID] = t
	}
	return t
}

// table is where neighbours see each other's boards. That is no matter of the
// server: they look up.
type table struct {
	mu     sync.Mutex
	boards map[string]*boardOnTable // by pupil
}

type boardOnTable struct {
	figure string
	done   chan struct{} // closed when there is a figure to see
}

func (t *table) at(pupil string) *boardOnTable {
	t.mu.Lock()
	defer t.mu.Unlock()
	b, ok := t.boards[pupil]
	if !ok {
		b = &boardOnTable{done: make(chan struct{})}
		t.boards[pupil] = b
	}
	return b
}

// put lays a pupil's first figure on the table for others to see.
func (t *table) put(pupil, figure string) {
	b := t.at(pupil)
	t.mu.Lock()
	defer t.mu.Unlock()
	if b.figure == "" && figure != "" {
		b.figure = figure
		close(b.done)
	}
}

// see waits for a pupil's figure.
func (t *table) see(ctx context.Context, pupil string) (string, error) {
	b := t.at(pupil)
	select {
	case <-ctx.Done():
		return "", ctx.Err()
	case <-b.done:
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	return b.figure, nil
}

// retry runs a request until it succeeds, as a seat does whose network is bad.
// Being sent out is final.
func (r Room) retry(ctx context.Context, request func() error) error {
	for wait := 500 * time.Millisecond; ; wait = min(2*wait, 15*time.Second) {
		err := request()
		if err == nil || errors.Is(err, ErrOut) {
			return err
		}
		if r.Pause(ctx, wait) != nil {
			return fmt.Errorf("given up: %w", err)
		}
	}
}
