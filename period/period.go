// Package period holds a plan being taught: its steps in their present order,
// which one the class is at, the time each has used, and what each needs to go
// on exactly where it was after a crash or a closed laptop. It also answers what
// the pages ask of marks and answers: the words that are due, how a class did at
// a close, sort or name step, and who to sit with tomorrow.
//
// Everything here is a function of values: moments and seeds come in as
// arguments, nothing is kept or drawn. A State is never changed; each operation
// returns another one, and none can fail: an operation that makes no sense, as
// Next when the period is over, has no effect. Start reading at State, then at
// Begin.
package period

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"pegwright/lesson"
)

// MaxSteps is the most steps that a period has, with those inserted.
const MaxSteps = 100

// mostUsed is more than any step uses.
const mostUsed = 10000 * time.Hour

// maxTrail is how many moves Back can take back.
const maxTrail = 200

// Status says how far a step has got.
type Status string

// The states of a step. The current step usually is not yet done.
const (
	NotYet  Status = "not yet"
	Done    Status = "done"
	Skipped Status = "skipped"
)

// Phase says how far a period has got.
type Phase string

// The phases.
const (
	Before  Phase = "before"
	Running Phase = "running"
	Paused  Phase = "paused"
	Over    Phase = "over"
)

// State is how far a period has got. The zero State is a period without steps.
// In JSON, as String writes it and Parse reads it, its names are those of the
// tags below, moments are as in RFC 3339, durations are nanoseconds, and what is
// empty is left out:
//
//	{"format":1, "current":2, "started":"2026-11-25T09:00:00Z",
//	 "since":"2026-11-25T09:03:00Z",
//	 "steps":[{"id":1,"kind":"note","minutes":2,"status":"done","used":180000000000},
//	          {"id":2,"kind":"make","minutes":18,"status":"not yet","used":0,
//	           "make":{"at":0,"set":["","",""]}}],
//	 "trail":[{"step":1,"was":"not yet"}]}
//
// Pupils and showings occur in it only as whole names or values of members or as
// elements of lists, so that class.Forget can take a pupil out.
type State struct {
	Format  int       `json:"format"`
	Current int       `json:"current"`          // ID of a step, 0 before and after
	Started time.Time `json:"started,omitzero"` // zero before
	Since   time.Time `json:"since,omitzero"`   // up to when time is counted, zero when none is
	Held    bool      `json:"paused,omitempty"`
	Steps   []Step    `json:"steps"`
	Trail   []Visit   `json:"trail,omitempty"` // the steps that Back goes to, the next one last
}

// Step is a step of a period. Its number, kind and minutes stay as they are; the
// part that its kind needs is filled.
type Step struct {
	ID      int           `json:"id"` // the place in the plan from 1, or above for what was inserted
	Kind    lesson.Kind   `json:"kind"`
	Minutes int           `json:"minutes"`
	Status  Status        `json:"status"`
	Used    time.Duration `json:"used"`

	Quick  *Quick `json:"quick,omitempty"` // what was inserted, nil for steps of the plan
	Recall Recall `json:"recall,omitzero"`
	Teach  Teach  `json:"teach,omitzero"`
	Make   Make   `json:"make,omitzero"`
	Gather Gather `json:"gather,omitzero"`
	Cards  Cards  `json:"cards,omitzero"` // sort and name
	Close  Close  `json:"close,omitzero"`
}

// Visit is a step that was left, and its status before that. Step 0 is the end.
type Visit struct {
	Step int    `json:"step"`
	Was  Status `json:"was,omitempty"`
}

// format is the version of the JSON text.
const format = 1

// Begin returns the state of a plan before it starts.
func Begin(plan lesson.Plan) State {
	s := State{Format: format}
	lastMake := 0
	for i, p := range plan.Steps {
		step := Step{ID: i + 1, Kind: p.Kind, Minutes: p.Minutes, Status: NotYet}
		switch p.Kind {
		case lesson.Recall:
			step.Recall.Words = slices.Clone(p.Words)
		case lesson.Teach:
			step.Teach.Slides = slides(p.Words)
		case lesson.Make:
			step.Make.Set = make([]string, len(p.Tasks))
			lastMake = step.ID
		case lesson.Gather:
			step.Gather = Gather{Make: lastMake, Of: p.Of}
		case lesson.Sort, lesson.Naming:
			step.Cards.Words = slices.Clone(p.Words)
		}
		s.Steps = append(s.Steps, step)
	}
	return s
}

// Phase returns how far the period has got.
func (s State) Phase() Phase {
	switch {
	case s.Started.IsZero():
		return Before
	case s.Current == 0:
		return Over
	case s.Held:
		return Paused
	}
	return Running
}

// Position returns the index of the current step in Steps, and whether there is
// one.
func (s State) Position() (int, bool) { return s.index(s.Current) }

// Now returns the current step, and whether there is one.
func (s State) Now() (Step, bool) { return s.Step(s.Current) }

// Step returns the step of an ID.
func (s State) Step(id int) (Step, bool) {
	i, ok := s.index(id)
	if !ok {
		return Step{}, false
	}
	return s.Steps[i], true
}

func (s State) index(id int) (int, bool) {
	i := slices.IndexFunc(s.Steps, func(p Step) bool { return p.ID == id })
	return max(i, 0), i >= 0
}

// PlanStep returns the step of a plan that a step teaches, and false for one
// that was inserted. A plan that is not the one the period began with may have
// none or another.
func (p Step) PlanStep(plan lesson.Plan) (lesson.Step, bool) {
	if p.Quick != nil || p.ID < 1 || p.ID > len(plan.Steps) || plan.Steps[p.ID-1].Kind != p.Kind {
		return lesson.Step{}, false
	}
	return plan.Steps[p.ID-1], true
}

// Change returns the state with the part of a step that its kind needs replaced
// by what do makes of it, and the time up to now counted. What the step is and how
// far it has got stay as they are, whatever do says.
func (s State) Change(id int, now time.Time, do func(Step) Step) State {
	s = s.Tick(now)
	i, ok := s.index(id)
	if !ok {
		return s
	}
	old := s.Steps[i]
	changed := do(old)
	changed.ID, changed.Kind, changed.Minutes = old.ID, old.Kind, old.Minutes
	changed.Status, changed.Used, changed.Quick = old.Status, old.Used, old.Quick
	return s.with(i, changed)
}

func (s State) with(i int, p Step) State {
	s.Steps = slices.Clone(s.Steps)
	s.Steps[i] = p
	return s
}

// String returns the state as JSON.
func (s State) String() string {
	s.Format = format
	out, err := json.Marshal(s)
	if err != nil {
		panic(err) // texts, numbers and moments only
	}
	return string(out)
}

// StateError says why the text of a state cannot be read.
type StateError struct{ What string }

// Error returns one sentence.
func (e *StateError) Error() string {
	return fmt.Sprintf("the state of this period cannot be read: %s", e.What)
}

// Parse reads the text of a state, so that Parse(s.String()) is s. Picks of a
// pupil who was deleted are left out. The error is a *StateError.
func Parse(text string) (State, error) {
	var s State
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		return State{}, &StateError{err.Error()}
	}
	if s.Format > format {
		return State{}, &StateError{fmt.Sprintf("it is in format %d, and this program knows %d", s.Format, format)}
	}
	if what := s.fault(); what != "" {
		return State{}, &StateError{what}
	}
	for i := range s.Steps {
		s.Steps[i] = s.Steps[i].mended()
	}
	return s, nil
}

// fault returns what is wrong in a state, "" for nothing.
func (s State) fault() string {
	seen := map[int]bool{0: true}
	for _, p := range s.Steps {
		switch {
		case p.ID < 1 || seen[p.ID]:
			return fmt.Sprintf("two steps are number %d, or it is none", p.ID)
		case p.Status != NotYet && p.Status != Done && p.Status != Skipped:
			return fmt.Sprintf("step %d is %q", p.ID, p.Status)
		case p.Used < 0 || p.Used > mostUsed || p.Minutes < 0 || p.Minutes > lesson.MaxMinutes:
			return fmt.Sprintf("step %d has %d minutes and has used %s", p.ID, p.Minutes, p.Used)
		}
		seen[p.ID] = true
	}
	for _, v := range append(s.Trail[:len(s.Trail):len(s.Trail)], Visit{Step: s.Current}) {
		if !seen[v.Step] {
			return fmt.Sprintf("there is no step %d", v.Step)
		}
	}
	if s.Started.IsZero() && s.Current != 0 {
		return "it is at a step and has not started"
	}
	return ""
}

// mended brings the places within a step into its bounds.
func (p Step) mended() Step {
	p.Recall = p.Recall.mended()
	p.Teach = p.Teach.GoTo(p.Teach.At)
	p.Make = p.Make.GoTo(p.Make.At)
	p.Gather = p.Gather.mended()
	p.Cards.At = clamp(p.Cards.At, max(len(p.Cards.A), len(p.Cards.B)))
	p.Close.At = clamp(p.Close.At, max(len(p.Close.A), len(p.Close.B)))
	return p
}

// clamp brings an index into a list of n; in an empty one it is 0.
func clamp(i, n int) int { return max(0, min(i, n-1)) }
