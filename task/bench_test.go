package task_test

import (
	"testing"
	"time"

	"pegwright/board"
	"pegwright/shape"
)

// A verdict on a figure that nearly fits, with its hint, against one that
// fits, and against reading alone, as ratios of one run.
func BenchmarkJudge(b *testing.B) {
	job := asked("square:5x5", "kind=square")
	nearly := board.MustParseFigure(job.Board, "A1 D1 C3 A3")
	fits := board.MustParseFigure(job.Board, "A1 C1 C3 A3")
	var hinted, plain, read time.Duration
	for b.Loop() {
		start := time.Now()
		job.Judge(nearly)
		middle := time.Now()
		job.Judge(fits)
		end := time.Now()
		shape.Read(fits, job.Definitions)
		hinted, plain, read = hinted+middle.Sub(start), plain+end.Sub(middle), read+time.Since(end)
	}
	b.ReportMetric(float64(hinted.Nanoseconds())/float64(b.N)/1e3, "µs/nearly")
	b.ReportMetric(float64(plain.Nanoseconds())/float64(b.N)/1e3, "µs/fits")
	b.ReportMetric(float64(hinted)/float64(plain), "nearly/fits")
	b.ReportMetric(float64(plain)/float64(read), "fits/read")
}

// The dearest verdict of a lesson: a figure that no change mends, on the
// largest board, so every change is tried.
func BenchmarkJudgeWithoutMend(b *testing.B) {
	job := asked("square:12x12", "kind=regular-hexagon")
	f := board.MustParseFigure(job.Board, "C1 E2 E4 C5 A4 A2")
	b.ReportAllocs()
	for b.Loop() {
		job.Judge(f)
	}
}

// Conditions compiled for a search, against the same held one by one.
func BenchmarkCompiled(b *testing.B) {
	job := asked("square:3x3", "fold-lines=1", "sides=5", "area>=1", "kind!=triangle")
	all := threeByThree()
	holds := job.Conditions.Compile(job.Board, job.Definitions)
	var compiled, each time.Duration
	for b.Loop() {
		start := time.Now()
		for _, p := range all {
			holds(p)
		}
		middle := time.Now()
		for _, p := range all {
			for _, c := range job.Conditions {
				if !c.Holds(p, job.Definitions) {
					break
				}
			}
		}
		compiled, each = compiled+middle.Sub(start), each+time.Since(middle)
	}
	b.ReportMetric(float64(compiled.Nanoseconds())/float64(b.N)/float64(len(all)), "ns/polygon")
	b.ReportMetric(float64(each)/float64(compiled), "each/compiled")
}
