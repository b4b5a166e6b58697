package atlas

import (
	"context"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// countAll counts the simple polygons of a board with up to so many corners,
// with all cores.
func countAll(t *table, most int) int64 {
	n := int64(t.pegs)
	var next, total atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			w := newWalk(t, 3, most)
			for i := next.Add(1) - 1; i < n*n; i = next.Add(1) - 1 {
				if p, q := i/n, i%n; p < q {
					w.from(board.Peg(p), board.Peg(q))
				}
			}
			for _, c := range w.count {
				total.Add(c)
			}
		})
	}
	wait.Wait()
	return total.Load()
}

// Every simple polygon with up to 8 corners on 5×5, table made afresh.
func BenchmarkCountFiveByFive(b *testing.B) {
	on := board.MustParse("square:5x5")
	for b.Loop() {
		if n := countAll(newTable(on), 8); n != 20855936 {
			b.Fatalf("counted %d polygons, want 20855936", n)
		}
	}
	b.ReportMetric(20855936*float64(b.N)/b.Elapsed().Seconds()/1e6, "Mpolygons/s")
}

// find sides=7 fold-lines=1, from a cold start, and the largest heap it takes.
func BenchmarkFindFoldingHeptagons(b *testing.B) {
	q := Question{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("sides=7", "fold-lines=1"), Examples: 6}
	benchmarkFind(b, q, 3340)
}

// The largest complete question: every polygon with up to 8 corners, told
// apart up to congruence, which is the most classes there are to keep.
func BenchmarkFindEveryFigure(b *testing.B) {
	q := Question{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("sides<=8"), Examples: 6}
	benchmarkFind(b, q, 20855936)
}

// The nearest misses of a task that is impossible: every octagon is scored.
func BenchmarkFindRegularOctagon(b *testing.B) {
	q := Question{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("kind=regular-octagon"), Examples: 6}
	benchmarkFind(b, q, 0)
}

func benchmarkFind(b *testing.B, q Question, want int64) {
	for b.Loop() {
		if a := askAs(b, q); a.Count != want || !a.Complete {
			b.Fatalf("Find = %d, complete %v, want %d", a.Count, a.Complete, want)
		}
	}
	b.StopTimer()
	b.ReportMetric(peakHeap(q)/1e6, "peak-MB")
}

// peakHeap asks once more and samples the heap in use while the search runs.
func peakHeap(q Question) float64 {
	runtime.GC()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	done := make(chan struct{})
	go func() {
		defer close(done)
		_, _ = Find(context.Background(), q)
	}()
	peak := before.HeapInuse
	for {
		var now runtime.MemStats
		runtime.ReadMemStats(&now)
		peak = max(peak, now.HeapInuse)
		select {
		case <-done:
			return float64(peak - before.HeapInuse)
		case <-time.After(2 * time.Millisecond):
		}
	}
}

// How the cost grows with pegs, for polygons with up to 6 corners, and with
// corners, on 5×5. Every row is one more factor of about six.
func BenchmarkGrowth(b *testing.B) {
	for _, tt := range []struct {
		board string
		most  int
	}{
		{"square:3x3", 6},
		{"square:3x4", 6},
		{"square:4x4", 6},
		{"square:4x5", 6},
		{"square:5x5", 6},
		{"square:5x5", 3},
		{"square:5x5", 4},
		{"square:5x5", 5},
		{"square:5x5", 7},
		{"square:5x5", 8},
	} {
		b.Run(fmt.Sprintf("%s/corners=%d", tt.board, tt.most), func(b *testing.B) {
			table := newTable(board.MustParse(tt.board))
			var n int64
			for b.Loop() {
				n = countAll(table, tt.most)
			}
			b.ReportMetric(float64(n), "polygons")
		})
	}
}

// Pairs of ways to one answer, as ratios of one run: the walk by table against
// the walk by the board's arithmetic, a search with the sieve of symmetries
// against one without, and congruence by words against shape.Congruent.
func BenchmarkRatios(b *testing.B) {
	var table, wide, sieved, whole, words, exact time.Duration
	on, larger := board.MustParse("square:4x4"), board.MustParse("square:5x5")
	quads := everyPolygon(on, 4)[:400]
	s := newSpeller(on)
	for b.Loop() {
		table += timed(func() {
			w := newWalk(newTable(on), 3, 6)
			walkAll(w, on)
		})
		wide += timed(func() {
			w := &wideWalk{board: on, least: 3, most: 6, stop: never, visit: func([]board.Peg) bool { return true }}
			walkAll(w, on)
		})
		sieved += timed(func() { foldingHexagons(larger, true) })
		whole += timed(func() { foldingHexagons(larger, false) })
		words += timed(func() {
			seen := map[string]bool{}
			for _, p := range quads {
				seen[spellLong(s.word(p, nil))] = true
			}
		})
		exact += timed(func() {
			var kept []*shape.Polygon
			for _, p := range quads {
				same := false
				for _, q := range kept {
					same = same || shape.Congruent(p, q)
				}
				if !same {
					kept = append(kept, p)
				}
			}
		})
	}
	b.ReportMetric(float64(wide)/float64(table), "wide/table")
	b.ReportMetric(float64(whole)/float64(sieved), "whole/sieved")
	b.ReportMetric(float64(exact)/float64(words), "congruent/word")
}

func timed(f func()) time.Duration {
	start := time.Now()
	f()
	return time.Since(start)
}

func foldingHexagons(on *board.Board, sieve bool) {
	q := Question{Board: on, Conditions: task.MustParse("sides=6", "fold-lines=1"), Limit: DefaultLimit, Progress: func(float64, int64) {}}
	s := newSearch(context.Background(), q, newNeed(q.Board, q.Conditions, q.Definitions))
	if !sieve {
		s.images = &symmetries{}
	}
	s.run()
}

// The word of a hexagon, by which congruent figures are told.
func BenchmarkWord(b *testing.B) {
	on := board.MustParse("square:5x5")
	s, p := newSpeller(on), polygon(b, on, "B1 D1 E3 D5 B5 A3")
	var word []uint32
	b.ReportAllocs()
	for b.Loop() {
		word = s.word(p, word[:0])
	}
}
