package recall_test

import (
	"testing"

	"pgregory.net/rapid"

	"pegwright/word/recall"
)

func TestAfter(t *testing.T) {
	cases := []struct {
		name   string
		before recall.Record
		known  bool
		mark   recall.Mark
		want   recall.Record
	}{
		{"the first call is followed by the next day", recall.Record{}, false, recall.AllDid, recall.Record{Stage: 0, Due: 101, Calls: 1}},
		{"all: then a week", recall.Record{Stage: 0, Due: 100}, true, recall.AllDid, recall.Record{Stage: 1, Due: 107, Calls: 1}},
		{"all: then three to four weeks", recall.Record{Stage: 1, Due: 95}, true, recall.AllDid, recall.Record{Stage: 2, Due: 124, Calls: 1}},
		{"all: then the next unit, and that again", recall.Record{Stage: 3, Due: 95}, true, recall.AllDid, recall.Record{Stage: 3, Due: 160, Calls: 1}},
		{"most: the same gap again", recall.Record{Stage: 1, Due: 100}, true, recall.MostDid, recall.Record{Stage: 1, Due: 107, Calls: 1}},
		{"some: one gap back, and shaky", recall.Record{Stage: 2, Due: 100}, true, recall.SomeDid, recall.Record{Stage: 1, Due: 107, Shaky: true, Calls: 1}},
		{"few: tomorrow, and shaky", recall.Record{Stage: 3, Due: 100}, true, recall.FewDid, recall.Record{Stage: 0, Due: 101, Shaky: true, Calls: 1}},
		{"called early and well: nothing changes", recall.Record{Stage: 1, Due: 105}, true, recall.AllDid, recall.Record{Stage: 1, Due: 105, Calls: 1}},
		{"called early and badly: sooner", recall.Record{Stage: 2, Due: 120}, true, recall.FewDid, recall.Record{Stage: 0, Due: 101, Shaky: true, Calls: 1}},
	}
	for _, c := range cases {
		h := recall.History{}
		if c.known {
			h["ray"] = c.before
		}
		if got := h.After("ray", c.mark, 100)["ray"]; got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
		if _, changed := h["ray"]; changed != c.known {
			t.Errorf("%s: After changed the history it was given", c.name)
		}
	}
}

// TestBetterMarksAreNeverDueEarlier, and every word is due some day after today.
func TestBetterMarksAreNeverDueEarlier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := question(t)
		for _, id := range q.Words {
			last := recall.Day(1 << 30)
			for _, m := range recall.Marks() {
				r := q.History.After(id, m, today)[id]
				if r.Due > last || r.Due <= today {
					t.Fatalf("%s: %s is due on %d, a better mark on %d", id, m, r.Due, last)
				}
				last = r.Due
			}
		}
	})
}

func TestNilHistoryTakesMarks(t *testing.T) {
	var h recall.History
	if got := h.After("ray", recall.FewDid, 3)["ray"]; got.Due != 4 || !got.Shaky {
		t.Errorf("After on no history: %+v", got)
	}
}
