package desk

import (
	"time"

	"pegwright/say"
)

// when says when something happened: the clock today, else the day with it.
func (d *Desk) when(s *say.Speaker, at time.Time) string {
	at, now := at.Local(), d.Now().Local()
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return s.Text("when.today", "Clock", at.Format("15:04"))
	}
	return dayOf(s, at)
}

// dayOf says when something happened, with the day.
func dayOf(s *say.Speaker, at time.Time) string {
	return s.Text("when.day", "Day", at.Local().Format(time.DateOnly), "Clock", at.Local().Format("15:04"))
}
