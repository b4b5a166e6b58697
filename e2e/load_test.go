package e2e

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/rand"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/demo"
	"pegwright/store"
	"pegwright/web"
)

// The loads, which are those of the job: a class whose boards move twice a
// second, and a district in one process.
const (
	classSeats = 35
	movesEvery = 500 * time.Millisecond
	watched    = 10 * time.Second
	rooms      = 200
	roomSeats  = 30
)

// district is a server with rooms, and what talks to it.
type district struct {
	b         *testing.B
	store     *store.Store
	base      string
	transport *http.Transport
	rooms     []class.Run
	tasks     []class.Task
	pupils    [][]class.Pupil
}

func newDistrict(b *testing.B, rooms, seats int) *district {
	b.Helper()
	st, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "pegwright.db"))
	must(b, err)
	pages := web.New(web.Config{Store: st})
	server := httptest.NewServer(pages.Handler())
	d := &district{b: b, store: st, base: server.URL, transport: &http.Transport{MaxIdleConnsPerHost: 4 * classSeats}}
	b.Cleanup(func() {
		pages.Stop()
		d.transport.CloseIdleConnections()
		server.CloseClientConnections()
		server.Close()
		must(b, st.Close())
	})
	for n := range rooms {
		d.add(n, seats)
	}
	return d
}

func (d *district) add(n, seats int) {
	ctx, now := context.Background(), time.Now()
	c := class.Class{ID: class.NewID(rand.Reader), Name: fmt.Sprintf("Class %d", n), Language: "en", Created: now}
	must(d.b, d.store.AddClass(ctx, c))
	pupils := make([]class.Pupil, seats)
	for i := range pupils {
		pupils[i] = class.Pupil{ID: class.NewID(rand.Reader), ClassID: c.ID, Number: i + 1, Nickname: fmt.Sprintf("Bird %d", i+1)}
	}
	must(d.b, d.store.AddPupils(ctx, c.ID, pupils))
	word := class.NewRoomWord(rand.Reader, func(w string) bool {
		return slices.ContainsFunc(d.rooms, func(r class.Run) bool { return r.RoomWord == w })
	})
	run := class.Run{ID: class.NewID(rand.Reader), ClassID: c.ID, RoomWord: word, Started: now}
	must(d.b, d.store.AddRun(ctx, run))
	t := class.Task{ID: class.NewID(rand.Reader), RunID: run.ID, Words: "Make a triangle.", Board: "square:5x5", Conditions: []string{"sides=3"}, Feedback: class.AllFeedback, Started: now}
	must(d.b, d.store.AddTask(ctx, t))
	d.rooms, d.tasks, d.pupils = append(d.rooms, run), append(d.tasks, t), append(d.pupils, pupils)
}

// join seats everybody in a room.
func (d *district) join(room int) []*demo.Seat {
	seats := make([]*demo.Seat, len(d.pupils[room]))
	var all sync.WaitGroup
	for i, p := range d.pupils[room] {
		seats[i] = demo.NewSeat(d.base, d.transport)
		all.Go(func() {
			if err := seats[i].Join(context.Background(), d.rooms[room].RoomWord, d.rooms[room].ID, p.ID); err != nil {
				d.b.Error(err)
			}
		})
	}
	all.Wait()
	return seats
}

// desk is a desk that listens to a run.
type desk struct {
	d      *district
	client *http.Client
	mu     sync.Mutex
	moved  map[string]time.Time // moves not yet heard of, by piece
	heard  []time.Duration      // from a move's start to the event
	drawn  []time.Duration      // and until its tile has been fetched
}

func (d *district) desk() *desk {
	jar, _ := cookiejar.New(nil)
	k := &desk{d: d, client: &http.Client{Jar: jar, Transport: d.transport}, moved: map[string]time.Time{}}
	res, err := k.client.PostForm(d.base+"/desk/setup", url.Values{"passphrase": {passphrase}})
	must(d.b, err)
	must(d.b, res.Body.Close())
	return k
}

// listen follows the stream as the page of the desk does: an event names
// pieces, which are fetched.
func (k *desk) listen(ctx context.Context) {
	req, _ := http.NewRequestWithContext(ctx, http.MethodGet, k.run("/stream"), nil)
	res, err := k.client.Do(req)
	if err != nil {
		return
	}
	defer func() { _ = res.Body.Close() }()
	for lines := bufio.NewScanner(res.Body); lines.Scan(); {
		var pieces []string
		if data, ok := strings.CutPrefix(lines.Text(), "data: ["); ok && json.Unmarshal([]byte("["+data), &pieces) == nil {
			k.fetch(pieces)
		}
	}
}

func (k *desk) run(path string) string { return k.d.base + "/desk/run/" + k.d.rooms[0].ID + path }

func (k *desk) fetch(pieces []string) {
	now := time.Now()
	var starts []time.Time
	k.mu.Lock()
	for _, p := range pieces {
		if at, ok := k.moved[p]; ok {
			delete(k.moved, p)
			starts = append(starts, at)
			k.heard = append(k.heard, now.Sub(at))
		}
	}
	k.mu.Unlock()
	res, err := k.client.Get(k.run("/pieces?" + url.Values{"name": pieces}.Encode()))
	if err != nil {
		return
	}
	_, _ = io.Copy(io.Discard, res.Body)
	_ = res.Body.Close()
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, at := range starts {
		k.drawn = append(k.drawn, time.Since(at))
	}
}

// BenchmarkMovesReachTheDesk is a class whose boards move twice a second, each
// seat with its stream open, before a desk that listens and fetches.
func BenchmarkMovesReachTheDesk(b *testing.B) {
	d := newDistrict(b, 1, classSeats)
	seats, k := d.join(0), d.desk()
	for b.Loop() {
		ctx, cancel := context.WithTimeout(context.Background(), watched)
		var all sync.WaitGroup
		all.Go(func() { k.listen(ctx) })
		for i, s := range seats {
			all.Go(func() { _ = s.Listen(ctx, func([]string) {}) })
			all.Go(func() { k.move(ctx, s, i) })
		}
		all.Wait()
		cancel()
	}
	heard, drawn := quantiles(k.heard), quantiles(k.drawn)
	b.ReportMetric(heard(0.5), "heard-p50-ms")
	b.ReportMetric(heard(0.99), "heard-p99-ms")
	b.ReportMetric(within(k.heard, 50*time.Millisecond), "%-heard-in-50ms")
	b.ReportMetric(drawn(0.5), "drawn-p50-ms")
	b.ReportMetric(drawn(0.99), "drawn-p99-ms")
	b.ReportMetric(float64(len(k.heard)), "moves")
}

// move moves the board of one seat until the context ends. Seats are out of
// step, as hands are.
func (k *desk) move(ctx context.Context, s *demo.Seat, i int) {
	time.Sleep(time.Duration(i) * movesEvery / classSeats)
	beat := time.NewTicker(movesEvery)
	defer beat.Stop()
	piece := "tile-" + k.d.pupils[0][i].ID
	for n := 0; ; n++ {
		select {
		case <-ctx.Done():
			return
		case <-beat.C:
		}
		k.mu.Lock()
		if _, waits := k.moved[piece]; !waits {
			k.moved[piece] = time.Now()
		}
		k.mu.Unlock()
		_ = s.Move(ctx, k.d.tasks[0].ID, []string{"A1 D1", "A1 D1 D3", "A1 D1 C4"}[n%3])
	}
}

func quantiles(all []time.Duration) func(q float64) float64 {
	slices.Sort(all)
	return func(q float64) float64 {
		if len(all) == 0 {
			return 0
		}
		return float64(all[min(len(all)-1, int(q*float64(len(all))))].Microseconds()) / 1000
	}
}

func within(all []time.Duration, limit time.Duration) float64 {
	n := 0
	for _, d := range all {
		if d <= limit {
			n++
		}
	}
	return 100 * float64(n) / float64(max(1, len(all)))
}

// BenchmarkDistrict is two hundred rooms of thirty in one process: everybody
// joins and hands in one board; all that was acknowledged must be on disk.
func BenchmarkDistrict(b *testing.B) {
	d := newDistrict(b, rooms, roomSeats)
	seats := make([][]*demo.Seat, rooms)
	began := time.Now()
	d.eachRoom(func(room int) { seats[room] = d.join(room) })
	joined := float64(rooms*roomSeats) / time.Since(began).Seconds()
	var kept atomic.Int64
	var mu sync.Mutex
	var took []time.Duration
	began = time.Now()
	for b.Loop() {
		d.eachRoom(func(room int) {
			for _, s := range seats[room] {
				at := time.Now()
				got, err := s.Show(context.Background(), demo.Showing{ID: class.NewID(rand.Reader), Task: d.tasks[room].ID, Figure: "A1 D1 D3", Made: at.UnixMilli()})
				if err != nil || !got.Kept {
					b.Errorf("room %d: %+v, %v", room, got, err)
					return
				}
				kept.Add(1)
				mu.Lock()
				took = append(took, time.Since(at))
				mu.Unlock()
			}
		})
	}
	b.ReportMetric(joined, "joins/s")
	q := quantiles(took)
	b.ReportMetric(float64(kept.Load())/time.Since(began).Seconds(), "showings/s")
	b.ReportMetric(q(0.5), "shown-p50-ms")
	b.ReportMetric(q(0.99), "shown-p99-ms")
	b.ReportMetric(float64(kept.Load()-int64(d.count())), "lost")
}

// eachRoom does something in all rooms, so many at a time.
func (d *district) eachRoom(do func(room int)) {
	var all sync.WaitGroup
	turns := make(chan struct{}, 50)
	for room := range d.rooms {
		turns <- struct{}{}
		all.Go(func() { do(room); <-turns })
	}
	all.Wait()
}

// count counts what is on disk.
func (d *district) count() (n int) {
	for _, run := range d.rooms {
		all, err := d.store.Showings(context.Background(), run.ID)
		must(d.b, err)
		n += len(all)
	}
	return n
}

// BenchmarkStart is the program from its start to the first page, and what it
// takes of the memory when nobody is there.
func BenchmarkStart(b *testing.B) {
	exe := filepath.Join(b.TempDir(), "pegwright")
	if out, err := exec.Command("go", "build", "-trimpath", "-o", exe, "pegwright").CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	folder := b.TempDir()
	var first, idle float64
	n := 0
	for b.Loop() {
		ms, mb := startOnce(b, exe, folder)
		first, idle = first+ms, idle+mb
		n++
	}
	b.ReportMetric(first/float64(n), "first-page-ms")
	if runtime.GOOS == "linux" {
		b.ReportMetric(idle/float64(n), "idle-MB")
	}
}

func startOnce(b *testing.B, exe, folder string) (ms, mb float64) {
	l := fmt.Sprintf("127.0.0.1:%d", freePort(b))
	cmd := exec.Command(exe, "serve", "--listen", l, "--data", folder)
	began := time.Now()
	must(b, cmd.Start())
	defer func() { _ = cmd.Process.Kill(); _ = cmd.Wait() }()
	for {
		res, err := http.Get("http://" + l + "/")
		if err == nil {
			_, _ = io.Copy(io.Discard, res.Body)
			_ = res.Body.Close()
			break
		}
		if time.Since(began) > 20*time.Second {
			b.Fatal("no page")
		}
		time.Sleep(time.Millisecond)
	}
	ms = float64(time.Since(began).Microseconds()) / 1000
	time.Sleep(time.Second)
	return ms, resident(cmd.Process.Pid)
}

var rss = regexp.MustCompile(`VmRSS:\s+(\d+) kB`)

// resident returns the memory of a process in MB, where the system tells.
func resident(pid int) float64 {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	m := rss.FindSubmatch(text)
	if m == nil {
		return 0
	}
	kb, _ := strconv.ParseFloat(string(m[1]), 64)
	return kb / 1024
}

var links = regexp.MustCompile(`(?:href|src)="(/asset/[^"]+)"|url\((/asset/[^)]+)\)`)

// BenchmarkSeatPage weighs the page of a seat with all that it brings.
func BenchmarkSeatPage(b *testing.B) {
	d := newDistrict(b, 1, 1)
	jar, _ := cookiejar.New(nil)
	client := &http.Client{Jar: jar, Transport: d.transport}
	res, err := client.PostForm(d.base+"/join", url.Values{"word": {d.rooms[0].RoomWord}})
	must(b, err)
	must(b, res.Body.Close())
	res, err = client.PostForm(d.base+"/room/"+d.rooms[0].ID+"/take", url.Values{"pupil": {d.pupils[0][0].ID}})
	must(b, err)
	must(b, res.Body.Close())
	total := 0
	for b.Loop() {
		total = d.weigh(client, "/seat", map[string]bool{})
	}
	b.ReportMetric(float64(total)/1000, "kB-compressed")
}

// weigh returns the compressed size of a file and of all that it names.
func (d *district) weigh(client *http.Client, path string, seen map[string]bool) int {
	if seen[path] {
		return 0
	}
	seen[path] = true
	res, err := client.Get(d.base + path)
	must(d.b, err)
	body, err := io.ReadAll(res.Body)
	must(d.b, err)
	must(d.b, res.Body.Close())
	var z bytes.Buffer
	w := gzip.NewWriter(&z)
	_, _ = w.Write(body)
	must(d.b, w.Close())
	total := z.Len()
	for _, m := range links.FindAllStringSubmatch(string(body), -1) {
		total += d.weigh(client, m[1]+m[2], seen)
	}
	return total
}
