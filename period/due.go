package period

import (
	"cmp"
	"slices"
	"time"

	"pegwright/class"
	"pegwright/word"
	"pegwright/word/recall"
)

// DayIn returns a function that says which day a moment falls on in a place.
func DayIn(place *time.Location) func(time.Time) recall.Day {
	return func(t time.Time) recall.Day {
		year, month, day := t.In(place).Date()
		return recall.Day(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / (24 * 60 * 60))
	}
}

// History returns what a class has been called, from its marks in any order.
// Words that are no longer in the vocabulary and marks that are none are left
// out.
func History(marks []class.WordMark, day func(time.Time) recall.Day) recall.History {
	inOrder := slices.SortedStableFunc(slices.Values(marks), func(a, b class.WordMark) int {
		return cmp.Or(a.Made.Compare(b.Made), cmp.Compare(a.RunID, b.RunID), cmp.Compare(a.Step, b.Step), cmp.Compare(a.Call, b.Call))
	})
	h := recall.History{}
	for _, m := range inOrder {
		if _, ok := word.Find(m.Word); ok && slices.Contains(recall.Marks(), recall.Mark(m.Mark)) {
			h = h.After(m.Word, recall.Mark(m.Mark), day(m.Made))
		}
	}
	return h
}

// DueWord is a word that a class should be called today.
type DueWord struct {
	Call  recall.Call
	Late  int  // days since it was due, never negative
	Shaky bool // it went badly the last time
}

// Due returns the words that are due for a class today, or shaky, in the order in
// which a review calls them.
func Due(h recall.History, today recall.Day, seed uint64) []DueWord {
	var out []DueWord
	for _, c := range (recall.Question{Words: dueIn(h, today), History: h, Today: today, Seed: seed}).Round(0) {
		r := h[c.Word]
		out = append(out, DueWord{c, max(0, int(today-r.Due)), r.Shaky})
	}
	return out
}

// dueIn lists the words that are due or shaky, the shaky ones first, then those
// due longest.
func dueIn(h recall.History, today recall.Day) []string {
	var out []string
	for _, id := range word.IDs() {
		if r, known := h[id]; known && (r.Shaky || r.Due <= today) {
			out = append(out, id)
		}
	}
	slices.SortStableFunc(out, func(a, b string) int {
		if h[a].Shaky != h[b].Shaky {
			if h[a].Shaky {
				return -1
			}
			return 1
		}
		return cmp.Compare(h[a].Due, h[b].Due)
	})
	return out
}

// Review returns what the order of a recall step is made for: the words that the
// plan gives, and up to more others of the class that are due or shaky.
func Review(planned []string, h recall.History, today recall.Day, seed uint64, more int) recall.Question {
	q := recall.Question{Words: slices.Clone(planned), History: recall.History{}, Today: today, Seed: seed}
	for _, id := range dueIn(h, today) {
		if more > 0 && !slices.Contains(q.Words, id) {
			q.Words = append(q.Words, id)
			more--
		}
	}
	for _, id := range q.Words {
		if r, known := h[id]; known {
			q.History[id] = r
		}
	}
	return q
}
