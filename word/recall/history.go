package recall

import "maps"

// Day is a day, counted from any fixed one.
type Day int

// Mark says how many of the class showed a word well, as the teacher taps it.
type Mark string

// The marks.
const (
	AllDid  Mark = "all"
	MostDid Mark = "most"
	SomeDid Mark = "some"
	FewDid  Mark = "few"
)

// Marks lists the marks, the best first.
func Marks() []Mark { return []Mark{AllDid, MostDid, SomeDid, FewDid} }

// Record is what is known of a word in a class.
type Record struct {
	Stage int // how many of the gaps the word has come through
	Due   Day
	Shaky bool // it went badly the last time
	Calls int
}

// History is what a class has been called, by word.
type History map[string]Record

// gaps are the days until a word is called again: the next day, a week, three
// to four weeks, the next unit. An even plan is enough: growing gaps gained
// nothing over equal ones (Latimier and others 2021, as job-and-standards.md
// 5.5 reports).
var gaps = []Day{1, 7, 24, 60}

// After returns the history after a word was called and marked.
//
//	all    the next gap, if the word was due; a word called early keeps its day
//	most   the same gap once more
//	some   one gap back, and shaky
//	few    tomorrow, and shaky
//
// A better mark never makes a word due earlier.
func (h History) After(word string, m Mark, today Day) History {
	out := maps.Clone(h)
	if out == nil {
		out = History{}
	}
	r, known := out[word]
	early := known && !r.Shaky && r.Due > today
	r.Calls++
	r.Shaky = m == SomeDid || m == FewDid
	switch {
	case m == FewDid || !known:
		r.Stage = 0
	case m == SomeDid:
		r.Stage = max(0, r.Stage-1)
	case m == AllDid && !early:
		r.Stage = min(len(gaps)-1, r.Stage+1)
	}
	switch next := today + gaps[r.Stage]; {
	case !early:
		r.Due = next
	case r.Shaky:
		r.Due = min(r.Due, next)
	}
	out[word] = r
	return out
}
