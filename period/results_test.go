package period_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"pegwright/class"
	"pegwright/lesson/closing"
	"pegwright/lesson/sorting"
	"pegwright/period"
)

// test4 is a close step with four items in two forms.
func test4() period.Close {
	var c period.Close
	for i := range 4 {
		word := []string{"square", "kite"}[i%2]
		c.A = append(c.A, period.Item{ID: fmt.Sprint("a", i+1), Kind: closing.Pick, Word: word, Older: i == 3})
		c.B = append(c.B, period.Item{ID: fmt.Sprint("b", i+1), Kind: closing.Pick, Word: word, Older: i == 3})
	}
	return c.Assign(pupils("ann", "bob", "cem", "dee"))
}

// gave is answers in short: "ann a1 +" or "bob b2 idea".
func gave(lines ...string) []class.Answer {
	var out []class.Answer
	for _, line := range lines {
		var a class.Answer
		if n, _ := fmt.Sscan(line, &a.PupilID, &a.Item, &a.Idea); n < 2 {
			panic(line)
		}
		if a.Idea == "+" {
			a.Right, a.Idea = true, ""
		}
		out = append(out, a)
	}
	return out
}

func TestResultsItemByItem(t *testing.T) {
	got := test4().Results(gave(
		"ann a1 +", "bob b1 upright", "cem a1 upright", "dee b1 convex",
		"ann a2", "ann a2 +", // mended
		"bob b2 +", "bob b2 upright", // made worse
		"zoe a3 +",  // no pupil of the class
		"ann x9 +",  // no item
		"bob a4 +",  // of the other form, as on a borrowed device
		"dee b4 up", // alone
	), pupils("ann", "bob", "cem", "dee"))
	same(t, "results", got, []period.ItemResult{
		{Place: 0, Kind: closing.Pick, Word: "square", Tally: period.Tally{
			Right: []string{"ann"}, Wrong: []string{"bob", "cem", "dee"},
			Ideas: []period.IdeaCount{{Idea: "upright", Pupils: []string{"bob", "cem"}}, {Idea: "convex", Pupils: []string{"dee"}}},
		}},
		{Place: 1, Kind: closing.Pick, Word: "kite", Tally: period.Tally{
			Right: []string{"ann"}, Wrong: []string{"bob"}, Missing: []string{"cem", "dee"},
			Ideas: []period.IdeaCount{{Idea: "upright", Pupils: []string{"bob"}}},
		}},
		{Place: 2, Kind: closing.Pick, Word: "square", Tally: period.Tally{Missing: []string{"ann", "bob", "cem", "dee"}}},
		{Place: 3, Kind: closing.Pick, Word: "kite", Older: true, Tally: period.Tally{
			Right: []string{"bob"}, Wrong: []string{"dee"}, Missing: []string{"ann", "cem"},
			Ideas: []period.IdeaCount{{Idea: "up", Pupils: []string{"dee"}}},
		}},
	})
	same(t, "answered", got[0].Answered(), 4)
}

func TestSitWith(t *testing.T) {
	member := func(id string, items ...int) period.Member { return period.Member{Pupil: id, Items: items} }
	for _, c := range []struct {
		name  string
		given []class.Answer
		want  []period.Group
	}{
		{"nobody answered", nil, nil},
		{"a slip is no reason", gave("ann a1 upright", "ann a2 +", "bob b1 upright"), nil},
		{
			"one idea at two items, among right answers",
			gave("ann a1 upright", "ann a2 upright", "ann a3 +", "ann a4 +"),
			[]period.Group{{Idea: "upright", Pupils: []period.Member{member("ann", 0, 1)}}},
		},
		{"two ideas once each, among right answers", gave("ann a1 upright", "ann a2 convex", "ann a3 +", "ann a4 +", "bob b1 +"), []period.Group{
			{Idea: "convex", Pupils: []period.Member{member("ann", 1)}}, // half is wrong
		}},
		{"less than half wrong, and no two agree", gave("ann a1 upright", "ann a2 convex", "ann a3 +", "ann a4 +", "ann a2 +"), nil},
		{
			"of two ideas the commoner in the class",
			gave("ann a1 upright", "ann a2 convex", "bob b1 upright", "bob b2 upright"),
			[]period.Group{{Idea: "upright", Pupils: []period.Member{member("ann", 0), member("bob", 0, 1)}}},
		},
		{
			"without an idea, by the word",
			gave("ann a1", "ann a3", "bob b2", "bob b4", "cem a2", "cem a4"),
			[]period.Group{
				{Word: "kite", Pupils: []period.Member{member("bob", 1, 3), member("cem", 1, 3)}},
				{Word: "square", Pupils: []period.Member{member("ann", 0, 2)}},
			},
		},
	} {
		class := pupils("ann", "bob", "cem", "dee")
		same(t, c.name, period.SitWith(test4().Results(c.given, class), class), c.want)
	}
	same(t, "agreed", []bool{member("ann", 0).Agreed(), member("ann", 0, 2).Agreed()}, []bool{false, true})
}

// TestGroupsAreSmall: everybody in one group at most, nobody in it without two
// wrong answers, groups of six at most and even, the largest first.
func TestGroupsAreSmall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []class.Pupil
		var given []class.Answer
		wrong := map[string]int{}
		for i := range rapid.IntRange(0, 30).Draw(t, "pupils") {
			p := class.Pupil{ID: fmt.Sprint("p", i), Number: i}
			all = append(all, p)
			for item := range 4 {
				idea := rapid.SampledFrom([]string{"+", "upright", "convex", ""}).Draw(t, "answer")
				given = append(given, gave(fmt.Sprintf("%s a%d %s", p.ID, item+1, idea))...)
				if idea != "+" {
					wrong[p.ID]++
				}
			}
		}
		seen := map[string]bool{}
		last := period.MostInGroup
		for _, g := range period.SitWith(test4().Results(given, all), all) {
			if len(g.Pupils) > last || len(g.Pupils) == 0 || (g.Idea == "") == (g.Word == "") {
				t.Fatalf("group %+v after one of %d", g, last)
			}
			last = len(g.Pupils)
			for _, m := range g.Pupils {
				if seen[m.Pupil] || wrong[m.Pupil] < 2 || len(m.Items) == 0 || len(m.Items) > wrong[m.Pupil] {
					t.Fatalf("%+v has %d wrong", m, wrong[m.Pupil])
				}
				seen[m.Pupil] = true
			}
		}
		for id, n := range wrong {
			if n >= 2 && !seen[id] {
				t.Fatalf("%s has %d of 4 wrong and is in no group", id, n)
			}
		}
	})
}

func TestSortResults(t *testing.T) {
	set := rhombuses()
	c := period.Cards{}.Sort(set, set).Assign(pupils("ann", "bob", "cem"))
	got := c.Results(gave("ann a1 upright", "cem a1 +", "bob b1 +", "bob b1 +", "ann b2 +"), pupils("ann", "bob", "cem"))
	same(t, "cards of both forms", len(got), 2*len(set.Cards))
	same(t, "a1", got[0].Tally, period.Tally{
		Right: []string{"cem"}, Wrong: []string{"ann"}, Ideas: []period.IdeaCount{{Idea: "upright", Pupils: []string{"ann"}}},
	})
	same(t, "divided", []int{got[0].Divided(), got[1].Divided()}, []int{1, 0})
	same(t, "a2 is missing", got[1].Missing, []string{"ann", "cem"})
	b1 := got[len(set.Cards)]
	same(t, "b1", b1.Tally, period.Tally{Right: []string{"bob"}})
	same(t, "b2, answered on a borrowed device", got[len(set.Cards)+1].Tally, period.Tally{Right: []string{"ann"}, Missing: []string{"bob"}})
	if b1.Said != nil {
		t.Errorf("words were counted in a sort step: %v", b1.Said)
	}
}

func TestNameResultsCountWords(t *testing.T) {
	m := matches()
	square := m[0] // the one with most names comes first
	c := period.Cards{}.Name(kinds, []sorting.Match{square}, nil).Assign(pupils("ann", "bob", "cem"))
	var given []class.Answer
	for id, said := range map[string]period.Reply{"ann": {Words: []string{"square"}}, "bob": {Words: kinds}, "zoe": {Words: kinds}} {
		given = append(given, class.Answer{PupilID: id, Item: "a1", Body: said.String(), Right: id == "bob"})
	}
	got := c.Results(given, pupils("ann", "bob", "cem"))
	same(t, "words", got[0].Said, []period.WordCount{
		{Word: "square", True: true, Count: 2}, {Word: "rectangle", True: true, Count: 1}, {Word: "rhombus", True: true, Count: 1},
	})
	same(t, "tally", got[0].Tally, period.Tally{Right: []string{"bob"}, Wrong: []string{"ann"}, Missing: []string{"cem"}})
}
