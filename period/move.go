package period

import (
	"slices"
	"time"

	"pegwright/lesson"
)

// Start begins the period at the first step that is not skipped.
func (s State) Start(now time.Time) State {
	if !s.Started.IsZero() {
		return s
	}
	s.Started = moment(now)
	return s.enter(s.toDoAfter(-1), now)
}

// Next ends the current step as done and goes on to the next one, in the present
// order, that is neither done nor skipped. When none follows the period is over,
// even if one before was left open.
func (s State) Next(now time.Time) State { return s.end(Done, now) }

// end ends the current step with a status and goes on.
func (s State) end(as Status, now time.Time) State {
	s = s.Tick(now)
	at, ok := s.Position()
	if !ok {
		return s
	}
	return s.leave(as).enter(s.toDoAfter(at), now)
}

// Back goes to where the class was before, after any move, and gives that step
// the status it had. So Back after Next is the state before, but for the time.
func (s State) Back(now time.Time) State {
	s = s.Tick(now)
	if len(s.Trail) == 0 {
		return s
	}
	last := s.Trail[len(s.Trail)-1]
	s.Trail = slices.Clone(s.Trail[:len(s.Trail)-1])
	if i, ok := s.index(last.Step); ok {
		p := s.Steps[i]
		p.Status = last.Was
		s = s.with(i, p)
	}
	return s.enter(last.Step, now)
}

// GoTo goes to any step. The step that is left stays as it is, so that it can be
// taken up again; a skipped one is no longer skipped. Before the start it starts
// the period there.
func (s State) GoTo(id int, now time.Time) State {
	s = s.Tick(now)
	if _, ok := s.index(id); !ok || id == s.Current {
		return s
	}
	if s.Started.IsZero() {
		s.Started = moment(now)
	} else {
		was, _ := s.Now()
		s = s.leave(was.Status)
	}
	return s.Unskip(id).enter(id, now)
}

// Skip leaves a step out: the current one, and the class goes on to the next, or
// one that is not done yet.
func (s State) Skip(id int, now time.Time) State {
	if id == s.Current {
		return s.end(Skipped, now)
	}
	return s.Tick(now).restatus(id, NotYet, Skipped)
}

// Unskip takes a skipped step in again.
func (s State) Unskip(id int) State { return s.restatus(id, Skipped, NotYet) }

func (s State) restatus(id int, from, to Status) State {
	i, ok := s.index(id)
	if !ok || s.Steps[i].Status != from {
		return s
	}
	p := s.Steps[i]
	p.Status = to
	return s.with(i, p)
}

// Finish ends the period. The current step stays as it is.
func (s State) Finish(now time.Time) State {
	s = s.Tick(now)
	was, ok := s.Now()
	if !ok {
		return s
	}
	return s.leave(was.Status).enter(0, now)
}

// Move puts a step at an index of Steps, or at the end that is nearest. Which
// step is current stays.
func (s State) Move(id, to int) State {
	i, ok := s.index(id)
	if !ok {
		return s
	}
	p := s.Steps[i]
	rest := slices.Delete(slices.Clone(s.Steps), i, i+1)
	s.Steps = slices.Insert(rest, max(0, min(to, len(rest))), p)
	return s
}

// Insert adds a make step with one quick task at an index of Steps, or at the end
// that is nearest, and returns its ID, 0 when there are MaxSteps already. To start
// it at once, insert it behind the current step and GoTo it.
func (s State) Insert(q Quick, at int) (State, int) {
	if len(s.Steps) >= MaxSteps {
		return s, 0
	}
	id := 1
	for _, p := range s.Steps {
		id = max(id, p.ID+1)
	}
	q.Conditions = slices.Clone(q.Conditions)
	p := Step{ID: id, Kind: lesson.Make, Minutes: max(0, min(q.Minutes, lesson.MaxMinutes)), Status: NotYet, Quick: &q, Make: Make{Set: make([]string, 1)}}
	s.Steps = slices.Insert(slices.Clone(s.Steps), max(0, min(at, len(s.Steps))), p)
	return s, id
}

// Pause stops the clock of a running period.
func (s State) Pause(now time.Time) State {
	if s.Phase() != Running {
		return s
	}
	s = s.Tick(now)
	s.Held = true
	return s.count(now)
}

// Resume lets the clock go on.
func (s State) Resume(now time.Time) State {
	if s.Phase() != Paused {
		return s
	}
	s.Held = false
	return s.count(now)
}

// toDoAfter returns the ID of the first step behind an index that is not yet
// done, 0 when there is none.
func (s State) toDoAfter(at int) int {
	for _, p := range s.Steps[min(at+1, len(s.Steps)):] {
		if p.Status == NotYet {
			return p.ID
		}
	}
	return 0
}

// leave gives the current step, if there is one, a status and remembers for Back
// what it was.
func (s State) leave(as Status) State {
	i, ok := s.Position()
	visit := Visit{Step: s.Current}
	if ok {
		p := s.Steps[i]
		visit.Was, p.Status = p.Status, as
		s = s.with(i, p)
	}
	s.Trail = append(slices.Clone(s.Trail), visit)
	s.Trail = s.Trail[max(0, len(s.Trail)-maxTrail):]
	return s
}

// enter makes a step the current one.
func (s State) enter(id int, now time.Time) State {
	s.Current = id
	return s.count(now)
}
