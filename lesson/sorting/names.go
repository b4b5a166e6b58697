package sorting

import (
	"math/rand/v2"
	"slices"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/word"
)

// Match is a figure with those of the asked words that are true of it.
type Match struct {
	Figure board.Figure
	True   []string
}

// MatchWords chooses up to most figures to match with words: so that, as far as the
// figures allow, every word is true of one and untrue of another, and figures
// with many names come before those with few. Figures that are no polygons are
// left out. One seed gives one choice.
func MatchWords(words []word.Word, figures []board.Figure, d shape.Definitions, most int, seed uint64) []Match {
	all := matches(words, figures, d)
	random := rand.New(rand.NewPCG(seed, 3))
	random.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	var out []Match
	need := map[string]bool{}
	for _, w := range words {
		need["+"+w.ID], need["-"+w.ID] = true, true
	}
	for len(out) < most && len(all) > 0 {
		best, gain := 0, -1
		for i, m := range all {
			if g := gains(m, words, need); g > gain {
				best, gain = i, g
			}
		}
		for _, s := range signs(all[best], words) {
			delete(need, s)
		}
		out = append(out, all[best])
		all = slices.Delete(all, best, best+1)
	}
	return out
}

// matches holds every different polygon against the words.
func matches(words []word.Word, figures []board.Figure, d shape.Definitions) []Match {
	var out []Match
	var seen []*shape.Polygon
	for _, f := range figures {
		p := shape.Read(f, d).Polygon
		if p == nil || slices.ContainsFunc(seen, func(q *shape.Polygon) bool { return shape.Congruent(p, q) }) {
			continue
		}
		seen = append(seen, p)
		m := Match{Figure: f}
		for _, w := range words {
			if w.OfPolygons() && len(w.Lacks(p, d)) == 0 {
				m.True = append(m.True, w.ID)
			}
		}
		out = append(out, m)
	}
	return out
}

// signs lists what a match shows: each word as true or as untrue.
func signs(m Match, words []word.Word) []string {
	var out []string
	for _, w := range words {
		if slices.Contains(m.True, w.ID) {
			out = append(out, "+"+w.ID)
		} else {
			out = append(out, "-"+w.ID)
		}
	}
	return out
}

// gains scores a match by what it shows for the first time, and then by its
// names.
func gains(m Match, words []word.Word, need map[string]bool) int {
	g := len(m.True)
	for _, s := range signs(m, words) {
		if need[s] {
			g += 100
		}
	}
	return g
}
