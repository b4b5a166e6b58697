package period

import (
	"maps"
	"slices"
	"time"

	"pegwright/class"
	"pegwright/word/recall"
)

// Beat is how long a word stands in silence before its action may be shown.
const Beat = 3 * time.Second

// maxRounds is how often all words can be called in one step.
const maxRounds = 20

// Stage says how far the present call has got.
type Stage string

// The stages of a call.
const (
	Asked    Stage = ""      // the word is called
	Silent   Stage = "beat"  // everybody thinks
	Revealed Stage = "shown" // the action and the picture are there
)

// Recall is the state of a recall step.
type Recall struct {
	Words    []string            `json:"words,omitempty"`   // of the plan
	Question recall.Question     `json:"question,omitzero"` // what the order was made for
	Calls    []recall.Call       `json:"calls,omitempty"`   // in order, whole rounds, up to the present one
	At       int                 `json:"at"`                // index of the present call
	Stage    Stage               `json:"stage,omitempty"`
	Silence  time.Time           `json:"silence,omitzero"` // when the beat began
	Marks    map[int]recall.Mark `json:"marks,omitempty"`  // by index of the call
}

// Begin makes the order. Once there is one it stays.
func (r Recall) Begin(q recall.Question) Recall {
	if len(r.Calls) > 0 {
		return r
	}
	r.Question, r.Calls = q, q.Round(0)
	return r
}

// Call returns the present call, and whether there is one.
func (r Recall) Call() (recall.Call, bool) {
	if r.At < 0 || r.At >= len(r.Calls) {
		return recall.Call{}, false
	}
	return r.Calls[r.At], true
}

// AllCalled reports whether every word has been called once.
func (r Recall) AllCalled() bool {
	c, ok := r.Call()
	return ok && c.Round > 0
}

// Hold begins the silent beat of a word that is called.
func (r Recall) Hold(now time.Time) Recall {
	if _, ok := r.Call(); ok && r.Stage == Asked {
		r.Stage, r.Silence = Silent, moment(now)
	}
	return r
}

// SilenceLeft returns how much of the beat is left: never more than Beat, and
// nothing when the clock was set back.
func (r Recall) SilenceLeft(now time.Time) time.Duration {
	gone := now.Sub(r.Silence)
	if r.Stage != Silent || gone < 0 {
		return 0
	}
	return max(0, Beat-gone)
}

// Reveal shows the action and the picture, once the beat is over. A tap that
// comes too early has no effect.
func (r Recall) Reveal(now time.Time) Recall {
	if r.Stage == Silent && r.SilenceLeft(now) == 0 {
		r.Stage, r.Silence = Revealed, time.Time{}
	}
	return r
}

// Mark says how the class did with the present word and goes on to the next one.
func (r Recall) Mark(m recall.Mark) Recall {
	if _, ok := r.Call(); !ok || !slices.Contains(recall.Marks(), m) {
		return r
	}
	marks := maps.Clone(r.Marks)
	if marks == nil {
		marks = map[int]recall.Mark{}
	}
	marks[r.At] = m
	r.Marks = marks
	return r.Next()
}

// Next calls the next word; after the last one of a round another round begins.
func (r Recall) Next() Recall {
	c, ok := r.Call()
	if !ok {
		return r
	}
	if r.At+1 == len(r.Calls) && c.Round+1 < maxRounds {
		r.Calls = slices.Concat(r.Calls, r.Question.Round(c.Round+1))
	}
	return r.goTo(r.At + 1)
}

// Previous calls the word before again.
func (r Recall) Previous() Recall { return r.goTo(r.At - 1) }

func (r Recall) goTo(at int) Recall {
	r.At, r.Stage, r.Silence = clamp(at, len(r.Calls)), Asked, time.Time{}
	return r
}

func (r Recall) mended() Recall {
	if r.At != clamp(r.At, len(r.Calls)) {
		return r.goTo(r.At)
	}
	return r
}

// Mark marks the present word of a recall step and goes on to the next one. It
// returns the record of it too, for store.SetPeriod to keep with the state; none
// when the mark had no effect.
func (s State) Mark(id int, m recall.Mark, now time.Time) (State, []class.WordMark) {
	p, _ := s.Step(id)
	call, ok := p.Recall.Call()
	if !ok || !slices.Contains(recall.Marks(), m) {
		return s, nil
	}
	out := s.Change(id, now, func(p Step) Step {
		p.Recall = p.Recall.Mark(m)
		return p
	})
	return out, []class.WordMark{{Step: id, Call: p.Recall.At, Word: call.Word, Mark: string(m), Made: moment(now)}}
}
