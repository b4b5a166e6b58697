package period_test

import (
	"testing"
	"time"

	"pegwright/period"
)

func TestClock(t *testing.T) {
	type S = period.State
	for _, c := range []struct {
		name                     string
		do                       func(s S) S // at 12:00
		at                       float64
		used, soFar, ahead, left float64 // minutes
	}{
		{"before the start", func(s S) S { return s }, 9, 0, 0, 0, 30},
		{"on time", func(s S) S { return s.Start(noon) }, 3, 3, 3, 0, 27},
		{"out of time", func(s S) S { return s.Start(noon) }, 7, 7, 5, -2, 25},
		{"done early", func(s S) S { return s.Start(noon).Next(at(2)) }, 3, 3, 6, 3, 24},
		{"skipped", func(s S) S { return s.Start(noon).Skip(1, noon) }, 4, 4, 9, 5, 21},
		{"left open", func(s S) S { return s.Start(noon).GoTo(3, at(2)) }, 4, 4, 4, 0, 26},
		{"a quick task costs what it uses", func(s S) S {
			s, id := s.Start(noon).Insert(period.Quick{Minutes: 4}, 1)
			return s.GoTo(id, at(1))
		}, 4, 4, 1, -3, 30},
		{"paused", func(s S) S { return s.Start(noon).Pause(at(2)) }, 9, 2, 2, 0, 28},
		{"over", func(s S) S { return s.Start(noon).Next(at(6)).Next(at(15)).Next(at(24)) }, 99, 24, 30, 6, 0},
		{"the clock was set back", func(s S) S { return s.Start(noon).Tick(at(2)).Tick(at(-60)) }, -58, 4, 4, 0, 26},
		{"the clock was set forward", func(s S) S { return s.Start(noon).Tick(at(2)).Tick(at(200)) }, 201, 3, 3, 0, 27},
		{"a closed laptop", func(s S) S { return s.Start(noon).Tick(at(2)) }, 500, 2, 2, 0, 28},
	} {
		minutes := func(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }
		got := c.do(three()).Clock(at(c.at))
		got.Steps = nil
		same(t, c.name, got, period.Clock{
			Planned: minutes(30), Used: minutes(c.used), SoFar: minutes(c.soFar), Ahead: minutes(c.ahead), Left: minutes(c.left),
		})
	}
}

func TestClockOfEachStep(t *testing.T) {
	got := three().Start(noon).Next(at(7)).Clock(at(8)).Steps
	same(t, "steps", got, []period.StepClock{
		{ID: 1, Planned: 5 * time.Minute, Used: 7 * time.Minute, Over: 2 * time.Minute},
		{ID: 2, Planned: 10 * time.Minute, Used: time.Minute, Left: 9 * time.Minute},
		{ID: 3, Planned: 15 * time.Minute, Left: 15 * time.Minute},
	})
}

// TestTimeGoesToTheStepThatWasThere, however the steps are ordered meanwhile.
func TestTimeGoesToTheStepThatWasThere(t *testing.T) {
	s := three().Start(noon).Move(1, 2)
	s = s.GoTo(2, at(1)).Move(2, 0).Back(at(3)).Tick(at(3.5))
	got := map[int]time.Duration{}
	for _, p := range s.Steps {
		got[p.ID] = p.Used
	}
	same(t, "used", got, map[int]time.Duration{1: 90 * time.Second, 2: 2 * time.Minute, 3: 0})
}

// TestAnyClockCanBeKept: one that was never set, or is beyond all years.
func TestAnyClockCanBeKept(t *testing.T) {
	for _, now := range []time.Time{{}, noon.AddDate(20000, 0, 0), noon.AddDate(-9000, 0, 0), time.Unix(1<<62, 0)} {
		s := three().Start(now).Next(now)
		got, err := period.Parse(s.String())
		if err != nil || got.String() != s.String() || s.Phase() != period.Running {
			t.Errorf("at %v: %v", now, err)
		}
	}
}

// TestMomentsInAnyPlaceAreTheSame: a desk in another time zone counts on.
func TestMomentsInAnyPlaceAreTheSame(t *testing.T) {
	east := time.FixedZone("east", 5*60*60)
	s := three().Start(noon.In(east)).Tick(at(1).In(east))
	same(t, "state", s.String(), three().Start(noon).Tick(at(1)).String())
}
