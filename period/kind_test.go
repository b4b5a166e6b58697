package period_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pegwright/class"
	"pegwright/lesson"
	"pegwright/lesson/gathering"
	"pegwright/period"
	"pegwright/shape"
	"pegwright/word"
)

// TestSlidesShowEveryPictureOnce of every word, the usual one first.
func TestSlidesShowEveryPictureOnce(t *testing.T) {
	s := period.Begin(lesson.Plan{Steps: []lesson.Step{{Kind: lesson.Teach, Words: word.IDs()}}})
	teach := s.Steps[0].Teach
	count := map[string]int{}
	for range teach.Slides {
		slide, _ := teach.Slide()
		picture, ok := slide.Picture()
		if !ok {
			t.Fatalf("%+v has no picture", slide)
		}
		w := word.MustFind(slide.Word)
		if w.Holds(picture, shape.Definitions{}) == slide.Not {
			t.Errorf("%+v: the picture is on the wrong side", slide)
		}
		if count[slide.Word] == 0 && (slide.Not || slide.Index != 0) {
			t.Errorf("%s begins with %+v", slide.Word, slide)
		}
		count[slide.Word]++
		teach = teach.Next()
	}
	for _, w := range word.All() {
		if count[w.ID] != len(w.Show)+len(w.Not) {
			t.Errorf("%s: %d slides of %d pictures", w.ID, count[w.ID], len(w.Show)+len(w.Not))
		}
	}
}

func TestTeachGoesFromEndToEnd(t *testing.T) {
	teach := period.Begin(triangles()).Steps[2].Teach
	same(t, "before the first", teach.Previous().At, 0)
	second := teach.GoToWord("scalene-triangle")
	slide, _ := second.Slide()
	same(t, "a word's first picture", slide, period.Slide{Word: "scalene-triangle"})
	same(t, "there and back", second.Next().Previous(), second)
	same(t, "no such word", second.GoToWord("ray"), second)
	end := teach.GoTo(999)
	same(t, "behind the last", end.Next(), end)
	if _, ok := (period.Teach{}).Next().Slide(); ok {
		t.Error("nothing to teach has a slide")
	}
}

func TestWordThatIsGoneKeepsItsPlace(t *testing.T) {
	s := period.Begin(lesson.Plan{Steps: []lesson.Step{{Kind: lesson.Teach, Words: []string{"squircle"}}}})
	slide, ok := s.Steps[0].Teach.Slide()
	if !ok || slide.Word != "squircle" {
		t.Errorf("slide: %+v, %v", slide, ok)
	}
	for _, slide := range []period.Slide{slide, {Word: "square", Index: 99}, {Word: "square", Index: -1}, {Word: "square", Not: true, Index: 99}} {
		if _, ok := slide.Picture(); ok {
			t.Errorf("%+v has a picture", slide)
		}
	}
}

func TestMake(t *testing.T) {
	m := period.Make{Set: make([]string, 3)}
	same(t, "before it is set", m.TaskID(), "")
	m = m.With("one").Check(map[string]string{"ann": "bob"}).Next().With("two")
	same(t, "set", m, period.Make{At: 1, Set: []string{"one", "two", ""}})
	same(t, "the last stays", m.GoTo(9).Next().At, 2)
	same(t, "back", m.Previous().TaskID(), "one")
	m = m.Check(map[string]string{"ann": "bob"})
	same(t, "the check goes on at the same task", m.GoTo(1), m)
	same(t, "no tasks", period.Make{}.Next().With("x").TaskID(), "")
}

func TestPartners(t *testing.T) {
	group := func(name string, ids ...string) []class.Pupil {
		out := pupils(ids...)
		for i := range out {
			out[i].Group = name
		}
		return out
	}
	for _, c := range []struct {
		name   string
		pupils []class.Pupil
		want   map[string]string
	}{
		{"nobody", nil, nil},
		{"one alone", group("x", "a"), nil},
		{"two", group("x", "a", "b"), map[string]string{"a": "b", "b": "a"}},
		{"three in a ring", group("x", "a", "b", "c"), map[string]string{"a": "b", "b": "c", "c": "a"}},
		{"five", group("x", "a", "b", "c", "d", "e"), map[string]string{"a": "b", "b": "a", "c": "d", "d": "e", "e": "c"}},
		{"groups stay among themselves", append(group("x", "a", "b"), group("y", "c", "d")...), map[string]string{"a": "b", "b": "a", "c": "d", "d": "c"}},
		{"two who are alone", append(group("x", "a"), group("y", "b")...), map[string]string{"a": "b", "b": "a"}},
	} {
		same(t, c.name, period.Partners(c.pupils), c.want)
	}
}

// TestEverybodyIsCheckedOnce, whatever the groups; only one pupil alone in a
// group can be left over.
func TestEverybodyIsCheckedOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []class.Pupil
		for i, group := range rapid.SliceOfN(rapid.SampledFrom([]string{"x", "y", "z", ""}), 0, 12).Draw(t, "groups") {
			all = append(all, class.Pupil{ID: string(rune('a' + i)), Number: i, Group: group})
		}
		partners := period.Partners(all)
		if len(partners) < len(all)-1 {
			t.Fatalf("%d of %d have a partner", len(partners), len(all))
		}
		checked := map[string]bool{}
		for who, whom := range partners {
			if who == whom || checked[whom] {
				t.Fatalf("partners: %v", partners)
			}
			checked[whom] = true
		}
	})
}

func TestTasksForTheRun(t *testing.T) {
	d := shape.Definitions{TrapezoidExactlyOne: true}
	for i, planned := range triangles().Tasks() {
		got := period.Task(planned, "es", d)
		if err := got.Check(); err != nil || got.Words != planned.Say.ES || got.Definitions != d || got.Minutes != planned.Minutes {
			t.Errorf("task %d: %+v, %v", i, got, err)
		}
		asked, err := got.Asked()
		if err != nil {
			t.Fatal(err)
		}
		same(t, "asked", asked.Conditions.Texts(), planned.Asked(d).Conditions.Texts())
	}
	quick := period.Quick{Words: "Make a dart.", Board: "ring:12", Conditions: []string{"kind=dart"}, MaxBands: 1, Minutes: 3, Feedback: "all", Model: "1 2 3"}
	got := quick.Task(d)
	if err := got.Check(); err != nil || got.MaxBands != 1 || got.Feedback != class.AllFeedback || got.Model != "1 2 3" {
		t.Errorf("quick task: %+v, %v", got, err)
	}
}

func proposed(ids ...string) period.Gather {
	var picks []gathering.Pick
	for _, id := range ids {
		picks = append(picks, gathering.Pick{Board: gathering.Board{ID: id}, Why: gathering.Common, Same: 3})
	}
	return period.Gather{}.Propose("task", picks)
}

func chosen(g period.Gather) string {
	out := ""
	for _, p := range g.Picks {
		out += p.Showing
	}
	return out + " " + g.Showing()
}

func TestGather(t *testing.T) {
	g := proposed("a", "b", "c", "b")
	for _, c := range []struct {
		name string
		g    period.Gather
		want string
	}{
		{"proposed", g, "abc a"},
		{"nothing", period.Gather{}.Next().Drop("a").Move("a", 1), " "},
		{"the next", g.Next(), "abc b"},
		{"behind the last", g.GoTo(7).Next(), "abc c"},
		{"before the first", g.Previous(), "abc a"},
		{"one more", g.Add("d").Add("a").Add(""), "abcd a"},
		{"one less, shown before", g.GoTo(2).Drop("a"), "bc c"},
		{"one less, shown now", g.GoTo(1).Drop("b"), "ac c"},
		{"one less, the last and shown", g.GoTo(2).Drop("c"), "ab b"},
		{"moved past the front", g.GoTo(1).Move("a", 2), "bca b"},
		{"moved while at the front", g.Move("a", 99), "bca a"},
		{"moved before all", g.Move("c", -1), "cab a"},
		{"proposed again", g.Add("d").Propose("other", nil), " "},
	} {
		if got := chosen(c.g); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	for i := range 30 {
		g = g.Add(string(rune('d' + i)))
	}
	same(t, "the most", len(g.Picks), period.MaxPicks)
}

func TestGatherIsOfATaskOfThePlan(t *testing.T) {
	plan, _ := lesson.Find("3-sides")
	s := period.Begin(plan)
	i := slices.IndexFunc(s.Steps, func(p period.Step) bool { return p.Kind == lesson.Gather })
	gather := s.Steps[i]
	same(t, "before the task is set", s.TaskToGather(gather.ID), "")
	s = s.Change(gather.Gather.Make, noon, func(p period.Step) period.Step {
		p.Make = p.Make.With("first").Next().With("second")
		return p
	})
	same(t, "as the plan says", s.TaskToGather(gather.ID), "second")
	s = s.Change(gather.ID, noon, func(p period.Step) period.Step {
		p.Gather = p.Gather.Propose("first", []gathering.Pick{{Board: gathering.Board{ID: "a"}}}).Add("b")
		return p
	})
	same(t, "as the teacher chose", s.TaskToGather(gather.ID), "first")
	same(t, "picked", s.Picked(), []string{"a", "b"})
	same(t, "no gather step", s.TaskToGather(1), "")
}

func TestPicksHaveTheirReasonAndQuestion(t *testing.T) {
	g := proposed("a").Add("b")
	pick, ok := g.Picks[0].Gathered()
	want := gathering.Pick{Why: gathering.Common, Same: 3}
	if !ok || pick.Board.ID != "a" {
		t.Errorf("pick: %+v, %v", pick, ok)
	}
	same(t, "reason", pick.Reason(), want.Reason())
	same(t, "question", pick.Question(), want.Question())
	if _, ok := g.Picks[1].Gathered(); ok {
		t.Error("the teacher's own choice has a reason")
	}
}
