package recall_test

import (
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pegwright/word"
	"pegwright/word/recall"
)

const today recall.Day = 100

// question draws words, a history of some of them, and a seed.
func question(t *rapid.T) recall.Question {
	ids := rapid.SliceOfNDistinct(rapid.SampledFrom(word.IDs()), 1, 40, rapid.ID[string]).Draw(t, "words")
	h := recall.History{}
	for _, id := range ids {
		if rapid.Bool().Draw(t, "known") {
			h[id] = recall.Record{
				Stage: rapid.IntRange(0, 3).Draw(t, "stage"),
				Due:   recall.Day(rapid.IntRange(90, 110).Draw(t, "due")),
				Shaky: rapid.IntRange(0, 4).Draw(t, "shaky") == 0,
			}
		}
	}
	return recall.Question{Words: ids, History: h, Today: today, Seed: rapid.Uint64().Draw(t, "seed")}
}

func calls(q recall.Question, n int) []recall.Call {
	var out []recall.Call
	for c := range recall.Calls(q) {
		if out = append(out, c); len(out) == n {
			break
		}
	}
	return out
}

func isDue(q recall.Question, id string) bool {
	r, known := q.History[id]
	return known && (r.Shaky || r.Due <= q.Today)
}

func TestNoWordTwiceBeforeAllOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := question(t)
		n := len(q.Words)
		for round, three := 0, calls(q, 3*n); round < 3; round++ {
			seen := map[string]bool{}
			for _, c := range three[round*n : (round+1)*n] {
				if seen[c.Word] || c.Round != round {
					t.Fatalf("round %d calls %s again", round, c.Word)
				}
				seen[c.Word] = true
			}
		}
	})
}

// TestDueFirst: before the last due word, every word that is not due belongs to
// a chain of confused words with a due one.
func TestDueFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := question(t)
		round := q.Round(0)
		last := -1
		for i, c := range round {
			if c.Due != isDue(q, c.Word) {
				t.Fatalf("%s: Due = %v", c.Word, c.Due)
			}
			if c.Due {
				last = i
			}
		}
		for _, c := range round[:last+1] {
			if !c.Due && !chainedToDue(q, c.Word, map[string]bool{}) {
				t.Fatalf("%s comes before a due word", c.Word)
			}
		}
	})
}

func chainedToDue(q recall.Question, id string, seen map[string]bool) bool {
	if seen[id] || !slices.Contains(q.Words, id) {
		return false
	}
	seen[id] = true
	return isDue(q, id) || slices.ContainsFunc(word.MustFind(id).Confused, func(other string) bool { return chainedToDue(q, other, seen) })
}

// TestNewBeforeSettled: among chains without a due word, those with a new one
// come first.
func TestNewBeforeSettled(t *testing.T) {
	q := recall.Question{Words: []string{"point", "angle", "side"}, History: recall.History{"point": {Due: today + 9}}, Today: today}
	if got := q.Round(0); got[2].Word != "point" {
		t.Errorf("Round(0) = %v; the settled word is not last", got)
	}
}

func TestConfusedWordsStandSideBySide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := question(t)
		round := q.Round(rapid.IntRange(0, 5).Draw(t, "round"))
		at := map[string]int{}
		for i, c := range round {
			at[c.Word] = i
		}
		for id, i := range at {
			for _, other := range word.MustFind(id).Confused {
				if j, called := at[other]; called && i-j != 1 && j-i != 1 {
					t.Fatalf("%s is called at %d, %s at %d", id, i, other, j)
				}
			}
		}
	})
}

func TestOneSeedOneOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := question(t)
		if n := 2 * len(q.Words); !slices.Equal(calls(q, n), calls(q, n)) {
			t.Fatal("two orders from one seed")
		}
	})
	q := recall.Question{Words: word.IDs(), Seed: 1}
	other := q
	other.Seed = 2
	if slices.Equal(q.Round(0), other.Round(0)) || slices.Equal(q.Round(0), q.Round(1)) {
		t.Error("another seed, or the next round, gives the same order")
	}
}

// TestBothVersionsInTwoRounds: every word plain and turned.
func TestBothVersionsInTwoRounds(t *testing.T) {
	q := recall.Question{Words: word.IDs(), Seed: 7}
	plain, turned := map[string]bool{}, map[string]bool{}
	for _, c := range calls(q, 2*len(q.Words)) {
		if c.Turned {
			turned[c.Word] = true
		} else {
			plain[c.Word] = true
		}
	}
	if len(plain) != len(q.Words) || !maps.Equal(plain, turned) {
		t.Errorf("%d words plain and %d turned of %d", len(plain), len(turned), len(q.Words))
	}
	first := 0
	for _, c := range q.Round(0) {
		if c.Turned {
			first++
		}
	}
	if first < len(q.Words)/4 || first > 3*len(q.Words)/4 {
		t.Errorf("%d of %d words are turned in the first round", first, len(q.Words))
	}
}

func TestNoWordsNoCalls(t *testing.T) {
	if got := calls(recall.Question{}, 1); len(got) != 0 {
		t.Errorf("calls of no words: %v", got)
	}
	twice := recall.Question{Words: []string{"ray", "ray", "nonsense"}}
	if got := twice.Round(0); len(got) != 2 {
		t.Errorf("a word that stands twice and one unknown: %v", got)
	}
}
