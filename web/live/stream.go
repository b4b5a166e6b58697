package live

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"time"

	"pegwright/bus"
)

// The timing of a stream: changes within a window are told together, a quiet
// stream pings so that both ends know the other is there, and a listener that
// takes nothing for too long is cut off.
const (
	window   = 25 * time.Millisecond
	quiet    = 15 * time.Second
	patience = 10 * time.Second
)

// Away is the piece that a page asks for in vain when it may no longer be seen;
// the refusal makes it load again, and that shows the form to come back in.
const Away = "away"

// Streamer is a stream with choices; the zero value is Stream.
type Streamer struct {
	// Version is told on connecting; a page that hears another one than
	// before loads itself again.
	Version string
	// Open, when set, is asked before every change is told; a stream that is
	// no longer open ends.
	Open func() bool
	// Done ends the stream when it is closed; nil for never.
	Done <-chan struct{}
}

// Stream tells a browser which pieces of its page have changed, as events that
// any subscription brings, until the browser goes away:
//
//	event: hello    data: "version"   on connecting; fetch everything
//	event: changed  data: ["a","b"]   fetch these pieces
//
// It closes the subscriptions.
func Stream(w http.ResponseWriter, r *http.Request, subs ...bus.Subscription) {
	Streamer{}.Stream(w, r, subs...)
}

// Stream is Stream with choices.
func (s Streamer) Stream(w http.ResponseWriter, r *http.Request, subs ...bus.Subscription) {
	for _, sub := range subs {
		defer sub.Close()
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no")
	l := line{w, http.NewResponseController(w)}
	if err := l.event("hello", s.Version); err != nil {
		return
	}
	changed, stop := merge(r.Context().Done(), subs)
	defer stop()
	ping := time.NewTicker(quiet)
	defer ping.Stop()
	for {
		select {
		case <-r.Context().Done():
			return
		case <-s.Done:
			return
		case <-ping.C:
			if s.Open != nil && !s.Open() {
				_ = l.event("changed", []string{Away})
				return
			}
			if l.comment() != nil {
				return
			}
		case <-changed:
			if !s.tell(r, l, subs) {
				return
			}
		}
	}
}

// tell waits out the window and tells what has changed; it reports whether the
// stream goes on.
func (s Streamer) tell(r *http.Request, l line, subs []bus.Subscription) bool {
	select {
	case <-r.Context().Done():
		return false
	case <-time.After(window):
	}
	var pieces []string
	for _, sub := range subs {
		pieces = append(pieces, sub.Take()...)
	}
	if s.Open != nil && !s.Open() {
		_ = l.event("changed", []string{Away})
		return false
	}
	if len(pieces) == 0 {
		return true
	}
	slices.Sort(pieces)
	return l.event("changed", slices.Compact(pieces)) == nil
}

// merge brings the signals of several subscriptions into one channel.
func merge(done <-chan struct{}, subs []bus.Subscription) (changed <-chan struct{}, stop func()) {
	if len(subs) == 1 {
		return subs[0].Changed(), func() {}
	}
	out, end := make(chan struct{}, 1), make(chan struct{})
	for _, sub := range subs {
		go func() {
			for {
				select {
				case <-done:
					return
				case <-end:
					return
				case _, ok := <-sub.Changed():
					if !ok {
						return
					}
					select {
					case out <- struct{}{}:
					default:
					}
				}
			}
		}()
	}
	return out, func() { close(end) }
}

// line writes events to a browser.
type line struct {
	w       http.ResponseWriter
	control *http.ResponseController
}

func (l line) event(name string, data any) error {
	text, err := json.Marshal(data)
	if err != nil {
		return err
	}
	return l.write(fmt.Sprintf("event: %s\ndata: %s\n\n", name, text))
}

func (l line) comment() error { return l.write(": still here\n\n") }

func (l line) write(text string) error {
	// Writers that know no deadline (those of tests) are written to without.
	_ = l.control.SetWriteDeadline(time.Now().Add(patience))
	if _, err := l.w.Write([]byte(text)); err != nil {
		return err
	}
	return l.control.Flush()
}
