package class_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"pegwright/board"
	"pegwright/class"
	"pegwright/shape"
	"pegwright/task"
)

func TestJudge(t *testing.T) {
	right := class.Task{Board: "square:5x5", Conditions: []string{"sides=3", "right-angles=1"}}
	oneBand := right
	oneBand.MaxBands = 1
	exclusive := class.Task{Board: "square:5x5", Conditions: []string{"kind is trapezoid"}, Definitions: shape.Definitions{TrapezoidExactlyOne: true}}
	for _, c := range []struct {
		name   string
		task   class.Task
		figure string
		want   task.Standing
	}{
		{"empty", right, "", task.Unfinished},
		{"open", right, "A1 B1 / B1 C3", task.Unfinished},
		{"crossing", right, "A1 B2 A2 B1", task.Unfinished},
		{"fits", right, "A1 D1 A2", task.Fits},
		{"fits in small letters and commas", right, "a1, d1, a2", task.Fits},
		{"nearly", right, "A1 D1 B2", task.Nearly},
		{"three bands when any will do", right, "A1 D1 / D1 A2 / A2 A1", task.Fits},
		{"three bands for one", oneBand, "A1 D1 / D1 A2 / A2 A1", task.NotYet},
		{"one band for one", oneBand, "A1 D1 A2", task.Fits},
		{"a square is no trapezoid here", exclusive, "A1 B1 B2 A2", task.Nearly},
		{"no conditions", class.Task{Board: "ring:6"}, "1 3 5", task.Fits},
	} {
		got, err := class.Judge(c.task, c.figure)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if c.name == "three bands for one" && got.Standing == task.Nearly {
			continue // the hint may find one corner to change
		}
		if got.Standing != c.want {
			t.Errorf("%s: %s, want %s", c.name, got.Standing, c.want)
		}
	}
	if len(oneBand.Conditions) != 2 {
		t.Errorf("Judge changed the task: %q", oneBand.Conditions)
	}
}

func TestJudgeRefuses(t *testing.T) {
	good := class.Task{Board: "square:3x3", Conditions: []string{"sides=3"}}
	var part *class.TaskError
	var other *class.OtherBoardError
	var figure *board.FigureError
	for _, c := range []struct {
		name     string
		task     class.Task
		figure   string
		as       any
		sentence string
	}{
		{"a peg of a larger board", good, "A1 E1 A2", &other, "this figure is for another board: band 1, peg 2"},
		{"a figure of a ring", good, "1 2 3", &other, "another board"},
		{"a band with one peg", good, "A1", &figure, "peg"},
		{"a peg twice", good, "A1 B1 A1", &figure, "A1"},
		{"bytes", good, "A1 \xff", &figure, "UTF-8"},
		{"a very long figure", good, strings.Repeat("A1 B1 / ", 100_000), &figure, "band"},
		{"no board", class.Task{}, "A1 B1 A2", &part, "this task's board cannot be read"},
		{"a strange condition", class.Task{Board: "square:3x3", Conditions: []string{"colour=red"}}, "", &part, "this task's conditions cannot be read"},
		{"bands against the limit", class.Task{Board: "square:3x3", Conditions: []string{"bands=3"}, MaxBands: 2}, "", &part, "bands"},
	} {
		_, err := class.Judge(c.task, c.figure)
		if err == nil || !errors.As(err, c.as) {
			t.Errorf("%s: error %v, want %T", c.name, err, c.as)
			continue
		}
		if !strings.Contains(err.Error(), c.sentence) || len(err.Error()) > 500 {
			t.Errorf("%s: %q does not say %q", c.name, err, c.sentence)
		}
	}
}

func TestCheck(t *testing.T) {
	good := class.Task{Board: "ring:12+centre", Conditions: []string{"sides=6"}, Model: "1 3 5 7 9 11"}
	if err := good.Check(); err != nil {
		t.Error(err)
	}
	for _, change := range []func(*class.Task){
		func(o *class.Task) { o.Board = "" },
		func(o *class.Task) { o.Conditions = []string{"sides=3", "sides=4"} },
		func(o *class.Task) { o.Model = "A1 B1 A2" },
	} {
		bad := good
		change(&bad)
		var part *class.TaskError
		if err := bad.Check(); !errors.As(err, &part) || part.Unwrap() == nil {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

func FuzzJudge(f *testing.F) {
	for _, figure := range []string{"", "A1 B1 A2", "A1 C3 / C1 A3", "a1,b1", "A1 /", "\xff", "A1 A1"} {
		f.Add(figure)
	}
	tk := class.Task{Board: "square:3x3", Conditions: []string{"sides=4", "fold lines>=1"}, MaxBands: 2}
	f.Fuzz(func(t *testing.T, figure string) {
		v, err := class.Judge(tk, figure)
		if err == nil && v.Standing == "" {
			t.Errorf("%q has no standing", figure)
		}
		if p := tk.Polygon(figure); p != nil && err != nil {
			t.Errorf("%q is a polygon and cannot be judged: %v", figure, err)
		}
	})
}

func TestRemaining(t *testing.T) {
	start := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	timed := class.Task{Minutes: 5, Started: start}
	for _, c := range []struct {
		name string
		task class.Task
		now  time.Duration // after the start
		want time.Duration
		ok   bool
	}{
		{"no limit", class.Task{Started: start}, time.Minute, 0, false},
		{"a limit of less than nothing", class.Task{Started: start, Minutes: -1}, time.Minute, 0, false},
		{"at the start", timed, 0, 5 * time.Minute, true},
		{"half way", timed, 150 * time.Second, 150 * time.Second, true},
		{"at the end", timed, 5 * time.Minute, 0, true},
		{"after the end", timed, time.Hour, 0, true},
		{"the clock jumped a day back", timed, -24 * time.Hour, 5 * time.Minute, true},
		{"the clock jumped a century on", timed, 876_000 * time.Hour, 0, true},
		{"the task has ended", class.Task{Minutes: 5, Started: start, Ended: start.Add(time.Minute)}, 2 * time.Minute, 0, true},
	} {
		got, ok := c.task.Remaining(start.Add(c.now))
		if got != c.want || ok != c.ok {
			t.Errorf("%s: Remaining = %v, %t, want %v, %t", c.name, got, ok, c.want, c.ok)
		}
	}
}

func TestExtensionGivesTheMinutesFromNow(t *testing.T) {
	start := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	for late := -4 * time.Minute; late < 10*time.Minute; late += 7 * time.Second {
		tk := class.Task{Minutes: 5, Started: start}
		now := start.Add(5*time.Minute + late)
		before, _ := tk.Remaining(now)
		tk.Minutes += tk.Extension(now, 2)
		after, _ := tk.Remaining(now)
		if gain := after - before; gain < 2*time.Minute || gain >= 3*time.Minute {
			t.Errorf("%v after the end: %v more", late, gain)
		}
	}
	if got := (class.Task{}).Extension(start, 2); got != 2 {
		t.Errorf("without a limit: %d", got)
	}
}

func TestOpenAndIn(t *testing.T) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	if !(class.Run{}).Open() || (class.Run{Ended: now}).Open() {
		t.Error("a run is open until it ends")
	}
	if !(class.Task{}).Open() || (class.Task{Ended: now}).Open() {
		t.Error("a task is open until it ends")
	}
	if !(class.Seat{}).In() || (class.Seat{Left: now}).In() {
		t.Error("a device is in until it leaves")
	}
}
