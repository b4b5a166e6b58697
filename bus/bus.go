// Package bus tells the parts of a running program what has changed. An event
// carries no contents: whoever hears it fetches the piece again, so hearing of
// it once is enough however often it changed, and a listener that is slow
// misses nothing.
//
// Hub is the bus inside one process. A broker that joins several processes
// takes its place behind the two methods of Bus.
package bus

import (
	"maps"
	"slices"
	"sync"
)

// Event says that one piece of a topic has changed.
type Event struct {
	Topic string // such as "run/" and a run's ID
	Piece string // what changed there, such as "counts" or "tile-" and a pupil's ID
}

// Bus carries events from those who change something to those who show it.
type Bus interface {
	// Publish tells every subscription of the event's topic. It never waits
	// for one of them.
	Publish(Event)
	// Subscribe listens to a topic until the subscription is closed.
	Subscribe(topic string) Subscription
}

// Subscription is a listener's end of a bus. It holds each changed piece once,
// so its memory is bounded by the pieces there are, not by the events.
type Subscription interface {
	// Changed returns a channel that is ready when there may be something to
	// take. It is never closed.
	Changed() <-chan struct{}
	// Take returns the pieces that changed since the last Take, each once and
	// sorted, and nil if there are none.
	Take() []string
	// Close ends the subscription. It may be called more than once.
	Close()
}

// Hub is a Bus inside one process. The zero Hub is ready for use, and so is
// one made with NewHub.
//
// After Publish returns, the piece is in every subscription that was open when
// it began, and Changed is ready there until it is taken.
type Hub struct {
	mu     sync.RWMutex
	topics map[string]map[*listener]struct{}
}

var _ Bus = (*Hub)(nil)

// NewHub returns a hub with no subscriptions.
func NewHub() *Hub { return &Hub{} }

// Publish tells every subscription of the event's topic.
func (h *Hub) Publish(e Event) {
	h.mu.RLock()
	defer h.mu.RUnlock()
	for l := range h.topics[e.Topic] {
		l.add(e.Piece)
	}
}

// Subscribe listens to a topic.
func (h *Hub) Subscribe(topic string) Subscription {
	l := &listener{hub: h, topic: topic, signal: make(chan struct{}, 1)}
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.topics == nil {
		h.topics = map[string]map[*listener]struct{}{}
	}
	if h.topics[topic] == nil {
		h.topics[topic] = map[*listener]struct{}{}
	}
	h.topics[topic][l] = struct{}{}
	return l
}

// Listeners returns how many subscriptions a topic has.
func (h *Hub) Listeners(topic string) int {
	h.mu.RLock()
	defer h.mu.RUnlock()
	return len(h.topics[topic])
}

func (h *Hub) leave(l *listener) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.topics[l.topic], l)
	if len(h.topics[l.topic]) == 0 {
		delete(h.topics, l.topic)
	}
}

// listener is a Subscription of a Hub.
type listener struct {
	hub    *Hub
	topic  string
	signal chan struct{}

	mu     sync.Mutex
	pieces map[string]struct{}
}

func (l *listener) add(piece string) {
	l.mu.Lock()
	if l.pieces == nil {
		l.pieces = map[string]struct{}{}
	}
	l.pieces[piece] = struct{}{}
	l.mu.Unlock()
	select {
	case l.signal <- struct{}{}:
	default: // a signal is waiting already
	}
}

func (l *listener) Changed() <-chan struct{} { return l.signal }

func (l *listener) Take() []string {
	l.mu.Lock()
	taken := l.pieces
	l.pieces = nil
	l.mu.Unlock()
	return slices.Sorted(maps.Keys(taken))
}

func (l *listener) Close() { l.hub.leave(l) }
