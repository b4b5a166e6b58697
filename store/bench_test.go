package store_test

import (
	"fmt"
	"sync/atomic"
	"testing"

	"pegwright/class"
	"pegwright/store"
	"pegwright/store/storetest"
)

// BenchmarkAddShowing adds showings one after another, each on the disk before
// the next.
func BenchmarkAddShowing(b *testing.B) {
	s := storetest.New(b)
	room := storetest.NewScene(b, s, "kite", 36)
	n := 0
	for b.Loop() {
		if _, err := s.AddShowing(b.Context(), room.Showing(n, n%36)); err != nil {
			b.Fatal(err)
		}
		n++
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "showings/s")
}

// BenchmarkAddShowingFromManySides adds from sixteen rooms at once.
func BenchmarkAddShowingFromManySides(b *testing.B) {
	s := storetest.New(b)
	var rooms []storetest.Scene
	for i := range 16 {
		rooms = append(rooms, storetest.NewScene(b, s, fmt.Sprintf("room%d", i), 2))
	}
	var count atomic.Int64
	b.SetParallelism(8)
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			n := int(count.Add(1))
			if _, err := s.AddShowing(b.Context(), rooms[n%16].Showing(n, n%2)); err != nil {
				b.Error(err)
				return
			}
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "showings/s")
}

// BenchmarkReadRun reads all showings of a run of 36 pupils and 20 tasks.
func BenchmarkReadRun(b *testing.B) {
	s, room, tasks := wholeRun(b)
	b.Run("all showings", func(b *testing.B) {
		for b.Loop() {
			all, err := s.Showings(b.Context(), room.Run.ID)
			if err != nil || len(all) != 36*20 {
				b.Fatal(len(all), err)
			}
		}
	})
	b.Run("one task", func(b *testing.B) {
		for b.Loop() {
			all, err := s.TaskShowings(b.Context(), tasks[10].ID)
			if err != nil || len(all) != 36 {
				b.Fatal(len(all), err)
			}
		}
	})
}

func wholeRun(b *testing.B) (*store.Store, storetest.Scene, []class.Task) {
	s := storetest.New(b)
	room := storetest.NewScene(b, s, "kite", 36)
	n := 0
	for i := range 20 {
		if i > 0 {
			room.Task = storetest.NewTask(room.Run.ID, fmt.Sprint("task-", i))
			need(b, s.AddTask(b.Context(), room.Task))
		}
		for pupil := range 36 {
			_, err := s.AddShowing(b.Context(), room.Showing(n, pupil))
			need(b, err)
			n++
		}
	}
	tasks, err := s.Tasks(b.Context(), room.Run.ID)
	need(b, err)
	return s, room, tasks
}

// BenchmarkOpen opens a store that is up to date, as every start does.
func BenchmarkOpen(b *testing.B) {
	path := b.TempDir() + "/pegwright.db"
	storetest.Open(b, path)
	for b.Loop() {
		s, err := store.Open(b.Context(), path)
		need(b, err)
		need(b, s.Close())
	}
}
