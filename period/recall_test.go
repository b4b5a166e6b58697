package period_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"pegwright/class"
	"pegwright/lesson"
	"pegwright/period"
	"pegwright/word/recall"
)

func calling(ids ...string) period.Recall {
	return period.Recall{}.Begin(recall.Question{Words: ids, Today: 100, Seed: 4})
}

func TestAWordIsHeldBeforeItIsShown(t *testing.T) {
	r := calling("ray", "line")
	same(t, "a tap before the beat", r.Reveal(noon), r)
	r = r.Hold(noon)
	same(t, "a second tap", r.Hold(at(1)), r)
	for _, c := range []struct {
		after time.Duration
		left  time.Duration
		stage period.Stage
	}{
		{0, period.Beat, period.Silent},
		{2 * time.Second, time.Second, period.Silent},
		{period.Beat, 0, period.Revealed},
		{time.Hour, 0, period.Revealed},
		{-time.Hour, 0, period.Revealed}, // the clock was set back: nobody waits for an hour
	} {
		now := noon.Add(c.after)
		if left, stage := r.SilenceLeft(now), r.Reveal(now).Stage; left != c.left || stage != c.stage {
			t.Errorf("after %s: %s left, stage %q, want %s, %q", c.after, left, stage, c.left, c.stage)
		}
	}
	if left := calling("ray").SilenceLeft(noon); left != 0 {
		t.Errorf("no beat, and %s of it left", left)
	}
}

func TestMarkGoesOnToTheNextWord(t *testing.T) {
	r := calling("ray", "line", "point")
	r = r.Mark("nonsense").Mark(recall.AllDid).Hold(noon).Reveal(at(1)).Mark(recall.FewDid)
	same(t, "marks", r.Marks, map[int]recall.Mark{0: "all", 1: "few"})
	same(t, "place", r.At, 2)
	same(t, "stage", r.Stage, period.Asked)
	again := r.Previous().Mark(recall.MostDid)
	same(t, "marked again", again.Marks[1], recall.MostDid)
	same(t, "the marks before", r.Marks[1], recall.FewDid)
	same(t, "before the first", r.Previous().Previous().Previous().At, 0)
}

// TestEveryWordOnceThenAgain: rounds follow each other, each as package recall
// makes it, and the order stays once it is there.
func TestEveryWordOnceThenAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := recall.Question{Words: []string{"ray", "line", "point", "angle"}, Today: 9, Seed: rapid.Uint64().Draw(t, "seed")}
		r := period.Recall{}.Begin(q)
		n := 0
		for call := range recall.Calls(q) {
			got, ok := r.Call()
			if !ok || got != call || r.AllCalled() != (n >= len(q.Words)) {
				t.Fatalf("call %d: %+v, want %+v", n, got, call)
			}
			if n++; n == 15 {
				break
			}
			r = r.Begin(recall.Question{Words: []string{"square"}}).Next()
		}
	})
}

func TestRecallEndsAndCanBeEmpty(t *testing.T) {
	r := calling("ray")
	for range 100 {
		r = r.Next()
	}
	if c, ok := r.Call(); !ok || c.Round != 19 {
		t.Errorf("after a hundred calls: %+v, %v", c, ok)
	}
	var none period.Recall
	same(t, "no words", none.Begin(recall.Question{}).Hold(noon).Reveal(noon).Mark("all").Next().Previous(), none)
	if none.AllCalled() {
		t.Error("no word was called, and all were")
	}
}

func TestMarkOfAStateComesWithItsRecord(t *testing.T) {
	s := period.Begin(lesson.Plan{Steps: []lesson.Step{{Kind: lesson.Recall, Minutes: 6}}}).Start(noon)
	unchanged := func(name string, id int, m recall.Mark) {
		if got, marks := s.Mark(id, m, at(1)); len(marks) != 0 || got.String() != s.String() {
			t.Errorf("%s: %v, %s", name, marks, got)
		}
	}
	unchanged("no order yet", 1, recall.AllDid)
	s = s.Change(1, noon, func(p period.Step) period.Step { p.Recall = calling("ray", "line"); return p })
	unchanged("no such step", 7, recall.AllDid)
	unchanged("no such mark", 1, "nearly all")

	first, _ := s.Steps[0].Recall.Call()
	s, marks := s.Mark(1, recall.SomeDid, at(1))
	same(t, "record", marks, []class.WordMark{{Step: 1, Call: 0, Word: first.Word, Mark: "some", Made: at(1)}})
	s, marks = s.Mark(1, recall.AllDid, at(2))
	same(t, "the next call", marks[0].Call, 1)
	same(t, "time", s.Steps[0].Used, 2*time.Minute)
}
