package period

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"

	"pegwright/class"
	"pegwright/lesson/closing"
)

// Tally is how a class did with one question. Each pupil counts once, with the
// last answer.
type Tally struct {
	Right   []string // IDs of pupils, in the order of the class
	Wrong   []string
	Missing []string // who had the question and has not answered
	Ideas   []IdeaCount
}

// Answered returns how many have answered.
func (t Tally) Answered() int { return len(t.Right) + len(t.Wrong) }

// IdeaCount is an idea with those whose wrong answers show it.
type IdeaCount struct {
	Idea   Idea
	Pupils []string
}

// tally counts the answers of pupils, by pupil, to one question.
func tally(pupils []class.Pupil, answers map[string]class.Answer) Tally {
	var t Tally
	ideas := map[Idea][]string{}
	for _, p := range pupils {
		a, answered := answers[p.ID]
		switch {
		case !answered:
			t.Missing = append(t.Missing, p.ID)
		case a.Right:
			t.Right = append(t.Right, p.ID)
		default:
			t.Wrong = append(t.Wrong, p.ID)
			if a.Idea != "" {
				ideas[Idea(a.Idea)] = append(ideas[Idea(a.Idea)], p.ID)
			}
		}
	}
	for idea, who := range ideas {
		t.Ideas = append(t.Ideas, IdeaCount{idea, who})
	}
	slices.SortFunc(t.Ideas, func(a, b IdeaCount) int {
		return cmp.Or(cmp.Compare(len(b.Pupils), len(a.Pupils)), cmp.Compare(a.Idea, b.Idea))
	})
	return t
}

// lastBy returns the last answer of each pupil to each question. key says which
// question an item belongs to, if any; answers are in the order received.
func lastBy[K comparable](answers []class.Answer, key func(item string) (K, bool)) map[K]map[string]class.Answer {
	out := map[K]map[string]class.Answer{}
	for _, a := range answers {
		k, ok := key(a.Item)
		if !ok {
			continue
		}
		if out[k] == nil {
			out[k] = map[string]class.Answer{}
		}
		out[k][a.PupilID] = a
	}
	return out
}

// ItemResult is how a class did with one item of a close step, both forms
// together.
type ItemResult struct {
	Place int // from 0
	Kind  closing.Kind
	Word  string
	Older bool
	Tally
}

// Results returns how a class did, item by item, from the answers in the step in
// the order received.
func (c Close) Results(answers []class.Answer, pupils []class.Pupil) []ItemResult {
	last := lastBy(answers, func(id string) (int, bool) {
		_, place, ok := c.Item(id)
		return place, ok
	})
	var out []ItemResult
	for i, item := range c.A {
		out = append(out, ItemResult{i, item.Kind, item.Word, item.Older, tally(pupils, last[i])})
	}
	return out
}

// CardResult is how a class did with one card of a sort or name step, those who
// have it in their form.
type CardResult struct {
	Card Card
	Tally
	Said []WordCount // name: how many said each word, in the order asked
}

// WordCount is how often a word was said of a card.
type WordCount struct {
	Word  string
	True  bool
	Count int
}

// Divided returns how many are on the smaller side: the larger, the more there
// is to talk about.
func (r CardResult) Divided() int { return min(len(r.Right), len(r.Wrong)) }

// Results returns how a class did, card by card, from the answers in the step in
// the order received.
func (c Cards) Results(answers []class.Answer, pupils []class.Pupil) []CardResult {
	last := lastBy(answers, func(id string) (string, bool) {
		_, ok := c.Card(id)
		return id, ok
	})
	var out []CardResult
	for _, card := range slices.Concat(c.A, c.B) {
		var who []class.Pupil
		for _, p := range pupils {
			if _, answered := last[card.ID][p.ID]; answered || slices.ContainsFunc(c.Of(p.ID), card.is) {
				who = append(who, p)
			}
		}
		out = append(out, CardResult{card, tally(who, last[card.ID]), c.said(card, last[card.ID], who)})
	}
	return out
}

func (c Card) is(other Card) bool { return c.ID == other.ID }

func (c Cards) said(card Card, answers map[string]class.Answer, who []class.Pupil) []WordCount {
	if card.Role != "" {
		return nil // to sort
	}
	var out []WordCount
	for _, id := range c.Words {
		n := WordCount{Word: id, True: slices.Contains(card.True, id)}
		for _, p := range who {
			var r Reply
			if json.Unmarshal([]byte(answers[p.ID].Body), &r) == nil && slices.Contains(r.Words, id) {
				n.Count++
			}
		}
		out = append(out, n)
	}
	return out
}

// MostInGroup is the most pupils to sit with at once.
const MostInGroup = 6

// Group is some pupils to sit with tomorrow, for one idea, or for one word that
// they did not get in different ways.
type Group struct {
	Idea   Idea   // "" for a word
	Word   string // "" for an idea
	Pupils []Member
}

// Member is a pupil of a group, with the places of the items that speak for it.
type Member struct {
	Pupil string
	Items []int
}

// Agreed reports whether two different items agree; one alone is "seen once".
func (m Member) Agreed() bool { return len(m.Items) > 1 }

// SitWith returns who to sit with tomorrow, from the results of a close step:
// pupils who show one idea at two different items, and those who have two answers
// or more, and at least half of theirs, wrong. A single slip is no reason. Each
// pupil is in one group, of what shows at most items, of equals of the commoner in
// the class. Groups are of up to MostInGroup, the largest first.
func SitWith(results []ItemResult, pupils []class.Pupil) []Group {
	needs := map[string]need{}
	common := map[reason]int{}
	for _, p := range pupils {
		n := needOf(results, p.ID)
		needs[p.ID] = n
		for why := range n.items {
			common[why]++
		}
	}
	members := map[reason][]Member{}
	for _, p := range pupils {
		if why, ok := needs[p.ID].chosen(common); ok {
			members[why] = append(members[why], Member{p.ID, needs[p.ID].items[why]})
		}
	}
	var out []Group
	for why, all := range members {
		out = append(out, why.groups(all)...)
	}
	slices.SortFunc(out, func(a, b Group) int {
		return cmp.Or(cmp.Compare(len(b.Pupils), len(a.Pupils)), cmp.Compare(a.Idea, b.Idea), cmp.Compare(a.Word, b.Word),
			cmp.Compare(a.Pupils[0].Pupil, b.Pupils[0].Pupil))
	})
	return out
}

// reason is what a wrong answer speaks for: an idea, or without one its word.
type reason struct {
	idea Idea
	word string
}

// need is what the wrong answers of one pupil speak for, by places of items.
type need struct {
	answered, wrong int
	items           map[reason][]int
}

func needOf(results []ItemResult, pupil string) need {
	n := need{items: map[reason][]int{}}
	for _, r := range results {
		switch {
		case slices.Contains(r.Wrong, pupil):
			n.answered++
			n.wrong++
			why := r.reasonOf(pupil)
			n.items[why] = append(n.items[why], r.Place)
		case slices.Contains(r.Right, pupil):
			n.answered++
		}
	}
	return n
}

func (r ItemResult) reasonOf(pupil string) reason {
	for _, i := range r.Ideas {
		if slices.Contains(i.Pupils, pupil) {
			return reason{idea: i.Idea}
		}
	}
	return reason{word: r.Word}
}

// chosen returns the reason that shows most, and whether it is worth a group.
func (n need) chosen(common map[reason]int) (reason, bool) {
	all := slices.SortedFunc(maps.Keys(n.items), func(a, b reason) int {
		return cmp.Or(cmp.Compare(len(n.items[b]), len(n.items[a])), cmp.Compare(common[b], common[a]),
			cmp.Compare(a.word, b.word), cmp.Compare(a.idea, b.idea)) // an idea before a word
	})
	if len(all) == 0 || n.wrong < 2 {
		return reason{}, false
	}
	agreed := all[0].idea != "" && len(n.items[all[0]]) > 1
	return all[0], agreed || 2*n.wrong >= n.answered
}

// groups cuts members into groups that are as even as can be.
func (why reason) groups(all []Member) []Group {
	count := (len(all) + MostInGroup - 1) / MostInGroup
	var out []Group
	for i := range count {
		out = append(out, Group{why.idea, why.word, all[i*len(all)/count : (i+1)*len(all)/count]})
	}
	return out
}
