package web_test

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"pegwright/store/storetest"
)

// BenchmarkMoveToTile has 35 pupils move a band twice a second and measures how
// long it takes from a move to its tile at the desk, which asks for pieces as
// the page's script does.
func BenchmarkMoveToTile(b *testing.B) {
	h := newHouse(b)
	sc := storetest.NewScene(b, h.store, "kite", 35)
	for i := range sc.Pupils {
		h.show(sc, fmt.Sprintf("showing-of-kite-%d", i), i, "A1 C1 C3")
	}
	d := &watcher{b: h.teacher(), run: "/desk/run/" + sc.Run.ID, sent: map[string]time.Time{}}
	done := make(chan struct{})
	go d.watch(b, done)
	time.Sleep(200 * time.Millisecond)
	var all sync.WaitGroup
	for b.Loop() {
		for i := range sc.Pupils {
			all.Go(func() {
				time.Sleep(time.Duration(i) * 500 * time.Millisecond / 35)
				d.mu.Lock()
				d.moves++
				figure := fmt.Sprintf("A%d %c1 E5", 1+d.moves%4, 'B'+d.moves/4%4)
				d.sent["tile-"+sc.Pupils[i].ID] = time.Now()
				d.mu.Unlock()
				h.move(sc, i, figure)
			})
		}
		all.Wait()
	}
	time.Sleep(200 * time.Millisecond)
	close(done)
	d.report(b)
}

// watcher is a desk that watches tiles.
type watcher struct {
	b     *browser
	run   string
	mu    sync.Mutex
	moves int
	sent  map[string]time.Time
	took  []time.Duration
}

func (d *watcher) watch(t testing.TB, done chan struct{}) {
	s := d.b.stream(d.run + "/stream")
	for {
		select {
		case <-done:
			return
		default:
		}
		var pieces []string
		event, ok := strings.CutPrefix(s.next(t), "changed ")
		if !ok || json.Unmarshal([]byte(event), &pieces) != nil {
			return
		}
		d.fetch(t, pieces)
	}
}

func (d *watcher) fetch(t testing.TB, pieces []string) {
	answer, err := d.b.Get(d.b.h.url + d.run + "/pieces?" + url.Values{"name": pieces}.Encode())
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Errorf("pieces: %v", err)
		return
	}
	_, _ = io.Copy(io.Discard, answer.Body)
	_ = answer.Body.Close()
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, piece := range pieces {
		if at, ok := d.sent[piece]; ok {
			d.took = append(d.took, time.Since(at))
			delete(d.sent, piece)
		}
	}
}

func (d *watcher) report(b *testing.B) {
	d.mu.Lock()
	defer d.mu.Unlock()
	slices.Sort(d.took)
	if len(d.took) == 0 {
		b.Fatal("no tile came")
	}
	at := func(share float64) float64 {
		return float64(d.took[int(share*float64(len(d.took)-1))].Microseconds()) / 1000
	}
	b.ReportMetric(at(.5), "p50-ms")
	b.ReportMetric(at(.99), "p99-ms")
	b.ReportMetric(float64(len(d.took)), "tiles")
}
