package page

import (
	"time"

	"pegwright/class"
	"pegwright/say"
)

// Timer is a line that shortens while time passes, and the words beside it. The
// script of live pages keeps the words true; without it they are those of the
// moment the page was drawn.
type Timer struct {
	*say.Speaker
	Left  int // seconds
	Share int // of the line that is left, in thousandths
	Until string
	Over  bool
	Words string // how many minutes are left
}

// NewTimer returns the timer of a task, nil when it has none.
func NewTimer(s *say.Speaker, t class.Task, now time.Time) *Timer {
	left, timed := t.Remaining(now)
	if !timed {
		return nil
	}
	deadline, _ := t.Deadline()
	whole := time.Duration(t.Minutes) * time.Minute
	return &Timer{
		Speaker: s, Left: int(left / time.Second), Share: int(1000 * left / whole), Over: left <= 0,
		Until: deadline.Local().Format("15:04"), Words: leftWords(s, left),
	}
}

// leftWords says how much time is left, in minutes begun.
func leftWords(s *say.Speaker, left time.Duration) string {
	switch minutes := int((left + time.Minute - 1) / time.Minute); minutes {
	case 0, 1:
		return s.Text("timer.last")
	default:
		return s.Text("timer.minutes", "N", minutes)
	}
}
