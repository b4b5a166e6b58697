package period

import (
	"cmp"
	"maps"
	"slices"

	"pegwright/class"
	"pegwright/lesson"
	"pegwright/shape"
)

// Make is the state of a make step: which of its tasks is the present one, and as
// which task of the run each was set.
type Make struct {
	At       int               `json:"at"`
	Set      []string          `json:"set,omitempty"`      // for each task the ID of class.Task, "" before
	Partners map[string]string `json:"partners,omitempty"` // whose board each pupil checks, while they do
}

// Next goes to the next task; the last one stays.
func (m Make) Next() Make { return m.GoTo(m.At + 1) }

// Previous goes to the task before.
func (m Make) Previous() Make { return m.GoTo(m.At - 1) }

// GoTo goes to a task by its index, or the nearest one. A partner check ends.
func (m Make) GoTo(at int) Make {
	if at = clamp(at, len(m.Set)); at != m.At {
		m.At, m.Partners = at, nil
	}
	return m
}

// With keeps as which task of the run the present task was set.
func (m Make) With(taskID string) Make {
	if m.At >= 0 && m.At < len(m.Set) {
		m.Set = slices.Clone(m.Set)
		m.Set[m.At] = taskID
	}
	return m
}

// TaskID returns as which task of the run the present task was set, "" before.
func (m Make) TaskID() string {
	if m.At < 0 || m.At >= len(m.Set) {
		return ""
	}
	return m.Set[m.At]
}

// Check begins a partner check, or ends it with nil.
func (m Make) Check(partners map[string]string) Make {
	m.Partners = maps.Clone(partners)
	return m
}

// Partners says whose board each pupil checks: neighbours of a table group, by
// their numbers, each other's, and the last three of an odd group in a ring.
// Pupils who are alone in their group count as one more group. One pupil alone has
// no partner.
func Partners(pupils []class.Pupil) map[string]string {
	out := map[string]string{}
	var alone []class.Pupil
	for _, group := range groups(pupils) {
		if len(group) == 1 {
			alone = append(alone, group...)
			continue
		}
		pair(group, out)
	}
	pair(alone, out)
	return out
}

// pair lets pupils check each other two by two, the last three in a ring.
func pair(group []class.Pupil, out map[string]string) {
	for len(group) > 1 {
		n := 2
		if len(group) == 3 {
			n = 3
		}
		for i := range n {
			out[group[i].ID] = group[(i+1)%n].ID
		}
		group = group[n:]
	}
}

// groups returns the pupils of each table group by number.
func groups(pupils []class.Pupil) [][]class.Pupil {
	var out [][]class.Pupil
	for _, p := range seated(pupils) {
		if n := len(out); n > 0 && out[n-1][0].Group == p.Group {
			out[n-1] = append(out[n-1], p)
			continue
		}
		out = append(out, []class.Pupil{p})
	}
	return out
}

// seated returns the pupils by group and number, so that neighbours stand
// together.
func seated(pupils []class.Pupil) []class.Pupil {
	return slices.SortedStableFunc(slices.Values(pupils), func(a, b class.Pupil) int {
		return cmp.Or(cmp.Compare(a.Group, b.Group), cmp.Compare(a.Number, b.Number), cmp.Compare(a.ID, b.ID))
	})
}

// Quick is a task that was put in while teaching.
type Quick struct {
	Words      string         `json:"words"`
	Board      string         `json:"board"`
	Conditions []string       `json:"conditions,omitempty"`
	MaxBands   int            `json:"bands,omitempty"`
	Minutes    int            `json:"minutes,omitempty"`
	Feedback   class.Feedback `json:"feedback,omitempty"`
	Model      string         `json:"model,omitempty"`
}

// Task returns the task of a run that a quick one is, for a class with its
// definitions. The caller fills in which run, and when.
func (q Quick) Task(d shape.Definitions) class.Task {
	return class.Task{
		Words: q.Words, Board: q.Board, Conditions: slices.Clone(q.Conditions), Definitions: d,
		MaxBands: q.MaxBands, Minutes: q.Minutes, Feedback: q.Feedback, Model: q.Model,
	}
}

// Task returns the task of a run that a task of a plan is, in the language of the
// class and with its definitions. The caller fills in which run, and when.
func Task(t lesson.Task, language string, d shape.Definitions) class.Task {
	return class.Task{
		Words: t.Say.In(language), Board: t.Board.String(), Conditions: t.Conditions.Texts(), Definitions: d,
		MaxBands: t.Bands, Minutes: t.Minutes, Feedback: class.Feedback(t.Feedback),
	}
}
