package period

import (
	"slices"

	"pegwright/lesson/gathering"
)

// MaxPicks is the most boards that a teacher can choose to talk about.
const MaxPicks = 12

// Gather is the state of a gather step: the boards chosen, in the order in which
// they are shown, and which one is at the front.
type Gather struct {
	Make   int    `json:"make,omitempty"` // ID of the make step whose boards they are, and which of
	Of     int    `json:"of,omitempty"`   // its tasks, from 1; as the plan says
	TaskID string `json:"task,omitempty"` // of the run, whose showings they are
	Picks  []Pick `json:"picks,omitempty"`
	At     int    `json:"at"`
}

// Pick is a showing that was chosen. Why and Same are empty for the teacher's
// own choice.
type Pick struct {
	Showing string        `json:"showing"`
	Why     gathering.Why `json:"why,omitempty"`
	Same    int           `json:"same,omitempty"` // as in gathering.Pick
}

// Gathered returns the pick as package gathering has it, for its reason and its
// question, and false for the teacher's own choice, which has neither.
func (p Pick) Gathered() (gathering.Pick, bool) {
	return gathering.Pick{Board: gathering.Board{ID: p.Showing}, Why: p.Why, Same: p.Same}, p.Why != ""
}

// Propose takes over a choice among the showings of a task, in place of the one
// before.
func (g Gather) Propose(taskID string, picks []gathering.Pick) Gather {
	out := Gather{Make: g.Make, Of: g.Of, TaskID: taskID}
	for _, p := range picks {
		if !out.Has(p.Board.ID) && len(out.Picks) < MaxPicks {
			out.Picks = append(out.Picks, Pick{Showing: p.Board.ID, Why: p.Why, Same: p.Same})
		}
	}
	return out
}

// Has reports whether a showing is chosen.
func (g Gather) Has(showing string) bool { return g.index(showing) >= 0 }

func (g Gather) index(showing string) int {
	return slices.IndexFunc(g.Picks, func(p Pick) bool { return p.Showing == showing })
}

// Add chooses a showing too, as the last one.
func (g Gather) Add(showing string) Gather {
	if showing == "" || g.Has(showing) || len(g.Picks) >= MaxPicks {
		return g
	}
	g.Picks = append(slices.Clone(g.Picks), Pick{Showing: showing})
	return g
}

// Drop chooses a showing no longer. What is at the front stays there, if it is
// another one.
func (g Gather) Drop(showing string) Gather {
	i := g.index(showing)
	if i < 0 {
		return g
	}
	g.Picks = slices.Delete(slices.Clone(g.Picks), i, i+1)
	if g.At > i {
		g.At--
	}
	return g.GoTo(g.At)
}

// Move puts a chosen showing at an index, or at the end that is nearest. What is
// at the front stays there.
func (g Gather) Move(showing string, to int) Gather {
	i := g.index(showing)
	if i < 0 {
		return g
	}
	front, p := g.Showing(), g.Picks[i]
	rest := slices.Delete(slices.Clone(g.Picks), i, i+1)
	g.Picks = slices.Insert(rest, max(0, min(to, len(rest))), p)
	return g.GoTo(g.index(front))
}

// Showing returns the showing at the front, "" when none is chosen.
func (g Gather) Showing() string {
	if g.At < 0 || g.At >= len(g.Picks) {
		return ""
	}
	return g.Picks[g.At].Showing
}

// Next shows the next board; the last one stays.
func (g Gather) Next() Gather { return g.GoTo(g.At + 1) }

// Previous shows the board before.
func (g Gather) Previous() Gather { return g.GoTo(g.At - 1) }

// GoTo shows a board by its index, or the nearest one.
func (g Gather) GoTo(at int) Gather {
	g.At = clamp(at, len(g.Picks))
	return g
}

// mended drops picks whose showing is gone.
func (g Gather) mended() Gather {
	for g.Has("") {
		g = g.Drop("")
	}
	return g.GoTo(g.At)
}

// TaskToGather returns the task of the run whose boards a gather step is about: the
// one that was chosen, or else the one that the plan names, "" while it is not
// set.
func (s State) TaskToGather(id int) string {
	p, _ := s.Step(id)
	if p.Gather.TaskID != "" {
		return p.Gather.TaskID
	}
	from, _ := s.Step(p.Gather.Make)
	if i := p.Gather.Of - 1; i >= 0 && i < len(from.Make.Set) {
		return from.Make.Set[i]
	}
	return ""
}

// Picked lists the showings that were chosen in any gather step, so that a desk can
// tell whose boards were talked about lately.
func (s State) Picked() []string {
	var out []string
	for _, p := range s.Steps {
		for _, pick := range p.Gather.Picks {
			out = append(out, pick.Showing)
		}
	}
	return out
}
