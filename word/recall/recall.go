// Package recall decides in which order words are called in the stand-up
// review, and what a class's marks mean for the next time.
//
// The order is one round after another, each with every word once. Words that
// are due or shaky come first, words that children mix up stand side by side,
// and one seed gives one order. What to show and say of a word is package
// word's business; start reading at Calls, then at History.After.
package recall

import (
	"iter"
	"math/rand/v2"
	"slices"

	"pegwright/word"
)

// Question is what an order is made for.
type Question struct {
	Words   []string // ids; one that stands twice counts once
	History History
	Today   Day
	Seed    uint64
}

// Call is one word called.
type Call struct {
	Word   string
	Turned bool // ask for the turned action: "parallel, but nothing level"
	Round  int  // from 0
	Due    bool // called because it was due or shaky
}

// Calls returns the calls of a review without an end, round after round. A
// review that was interrupted goes on where it was by skipping as many calls.
//
// In each round
//   - every word is called once;
//   - two words that are confused and both called stand side by side;
//   - a word that is not due comes before one that is only as part of a chain
//     of confused words with a due one in it.
//
// In two rounds running every word is called once plain and once turned.
func Calls(q Question) iter.Seq[Call] {
	return func(yield func(Call) bool) {
		for round := 0; len(q.Words) > 0; round++ {
			for _, c := range q.Round(round) {
				if !yield(c) {
					return
				}
			}
		}
	}
}

// Round returns the calls of one round.
func (q Question) Round(round int) []Call {
	random := rand.New(rand.NewPCG(q.Seed, uint64(round)))
	chains := q.chains()
	random.Shuffle(len(chains), func(i, j int) { chains[i], chains[j] = chains[j], chains[i] })
	slices.SortStableFunc(chains, func(a, b []string) int { return int(q.urgencyOf(a)) - int(q.urgencyOf(b)) })
	var out []Call
	for _, chain := range chains {
		if q.backwards(chain, random) {
			slices.Reverse(chain)
		}
		for _, id := range chain {
			out = append(out, Call{Word: id, Turned: turned(q.Seed, id, round), Round: round, Due: q.urgency(id) == due})
		}
	}
	return out
}

// backwards reports whether a chain is to be called from its other end: the
// more urgent end comes first, and between equals chance decides.
func (q Question) backwards(chain []string, random *rand.Rand) bool {
	coin := random.IntN(2) == 1
	first, last := q.urgency(chain[0]), q.urgency(chain[len(chain)-1])
	if first != last {
		return last < first
	}
	return coin
}

// turned tells the version of a word, the other one in every other round.
func turned(seed uint64, id string, round int) bool {
	h := seed
	for _, r := range id {
		h = (h ^ uint64(r)) * 1099511628211 // FNV-1a's prime
	}
	return (h>>32+uint64(round))%2 == 1
}

// urgency says how soon a word is called.
type urgency int

const (
	due urgency = iota // or shaky
	fresh
	settled
)

func (q Question) urgency(id string) urgency {
	r, known := q.History[id]
	switch {
	case !known:
		return fresh
	case r.Shaky || r.Due <= q.Today:
		return due
	}
	return settled
}

func (q Question) urgencyOf(chain []string) urgency {
	best := settled
	for _, id := range chain {
		best = min(best, q.urgency(id))
	}
	return best
}

// chains cuts the words into the longest chains of confused ones, from end to
// end; most chains are one word long. The words make no circle, as a test of
// package word shows.
func (q Question) chains() [][]string {
	partners := map[string][]string{}
	for _, id := range q.Words {
		partners[id] = nil
	}
	for id := range partners {
		w, _ := word.Find(id)
		for _, other := range w.Confused {
			if _, called := partners[other]; called {
				partners[id] = append(partners[id], other)
			}
		}
	}
	var out [][]string
	placed := map[string]bool{}
	for _, id := range q.Words {
		if placed[id] || len(partners[id]) > 1 {
			continue // not the end of a chain
		}
		var chain []string
		for at, more := id, true; more; {
			chain, placed[at] = append(chain, at), true
			i := slices.IndexFunc(partners[at], func(other string) bool { return !placed[other] })
			if more = i >= 0; more {
				at = partners[at][i]
			}
		}
		out = append(out, chain)
	}
	return out
}
