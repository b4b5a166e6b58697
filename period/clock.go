package period

import "time"

// MostGap is the longest time between two ticks that is taken for teaching.
// Whatever is longer was a closed laptop, or a clock that jumped, and counts as
// a pause.
const MostGap = 10 * time.Minute

// Tick counts the time up to now to the current step. The desk ticks at least
// once a minute while it is open; every move ticks too. However the clock jumps,
// no step's time goes down or up by more than MostGap.
func (s State) Tick(now time.Time) State {
	i, ok := s.Position()
	if !ok || s.Phase() != Running {
		return s
	}
	if gap := moment(now).Sub(s.Since); gap > 0 && gap <= MostGap && s.Steps[i].Used < mostUsed-MostGap {
		p := s.Steps[i]
		p.Used += gap
		s = s.with(i, p)
	}
	return s.count(now)
}

// count counts time from now on, or not, as the phase wants.
func (s State) count(now time.Time) State {
	s.Since = time.Time{}
	if s.Phase() == Running {
		s.Since = moment(now)
	}
	return s
}

// moment is a time as it is kept: to the millisecond in UTC, and between 1970 and
// 9999, so that it can be written and is never the zero time.
func moment(t time.Time) time.Time {
	const last = 253402300799999
	return time.UnixMilli(max(1, min(t.UnixMilli(), last))).UTC()
}

// Clock is the plan held against the real time.
type Clock struct {
	Planned time.Duration // the whole plan, without what was inserted
	SoFar   time.Duration // what the plan gives for as far as the class has got
	Used    time.Duration // what was really used
	Ahead   time.Duration // SoFar less Used: negative when the class is behind
	Left    time.Duration // what the steps to come need by their minutes
	Steps   []StepClock   // in their present order
}

// StepClock is the clock of one step.
type StepClock struct {
	ID      int
	Planned time.Duration
	Used    time.Duration
	Left    time.Duration // 0 when it is done, skipped, or out of time
	Over    time.Duration // what was used beyond the minutes
}

// Clock returns the clock at a moment. A step that is done or skipped counts with
// its minutes, so that a skipped one puts the class ahead; one that is open with
// the time it has used, up to its minutes; one that was inserted with none, so
// that it costs what it uses.
func (s State) Clock(now time.Time) Clock {
	var c Clock
	for _, p := range s.Tick(now).Steps {
		one := p.clock()
		c.Steps = append(c.Steps, one)
		c.Used += one.Used
		c.Left += one.Left
		if p.Quick != nil {
			continue
		}
		c.Planned += one.Planned
		if p.Status == NotYet {
			c.SoFar += one.Used - one.Over
		} else {
			c.SoFar += one.Planned
		}
	}
	c.Ahead = c.SoFar - c.Used
	return c
}

func (p Step) clock() StepClock {
	c := StepClock{ID: p.ID, Planned: time.Duration(p.Minutes) * time.Minute, Used: p.Used}
	c.Over = max(0, c.Used-c.Planned)
	if p.Status == NotYet {
		c.Left = max(0, c.Planned-c.Used)
	}
	return c
}
