package period_test

import (
	"maps"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"pegwright/class"
	"pegwright/period"
	"pegwright/word"
	"pegwright/word/recall"
)

var utc = period.DayIn(time.UTC)

func TestDayIn(t *testing.T) {
	east := time.FixedZone("east", 10*60*60)
	for _, c := range []struct {
		name  string
		place *time.Location
		a, b  time.Time
		apart int
	}{
		{"one day", time.UTC, noon, at(11*60 + 59), 0},
		{"the next day", time.UTC, noon, at(12 * 60), 1},
		{"the next day there", east, noon, at(2 * 60), 1},
		{"before 1970", time.UTC, time.Date(1969, 12, 31, 23, 0, 0, 0, time.UTC), time.Date(1970, 1, 1, 1, 0, 0, 0, time.UTC), 1},
		{"over a leap day", time.UTC, time.Date(2028, 2, 28, 1, 0, 0, 0, time.UTC), time.Date(2028, 3, 1, 1, 0, 0, 0, time.UTC), 2},
	} {
		day := period.DayIn(c.place)
		if got := int(day(c.b) - day(c.a)); got != c.apart {
			t.Errorf("%s: %d days apart, want %d", c.name, got, c.apart)
		}
	}
}

// marked is a mark so many days after noon's day.
func marked(word, mark string, day int) class.WordMark {
	return class.WordMark{Word: word, Mark: mark, Made: noon.AddDate(0, 0, day)}
}

func TestHistoryFollowsTheMarks(t *testing.T) {
	today := utc(noon)
	h := period.History([]class.WordMark{
		marked("ray", "all", 1), marked("ray", "all", 0), // in any order
		marked("line", "few", 0),
		marked("squircle", "all", 0), marked("point", "nearly", 0),
	}, utc)
	same(t, "history", h, recall.History{
		"ray":  {Stage: 1, Due: today + 8, Calls: 2},
		"line": {Stage: 0, Due: today + 1, Shaky: true, Calls: 1},
	})
}

// TestTheEvenSchedule: a word that goes well is called the next day, after a
// week, and after three to four weeks.
func TestTheEvenSchedule(t *testing.T) {
	var marks []class.WordMark
	var days []int
	for day := range 120 {
		h := period.History(marks, utc)
		due := period.Due(h, utc(noon.AddDate(0, 0, day)), 1)
		if len(marks) == 0 || len(due) > 0 {
			marks = append(marks, marked("ray", "all", day))
			days = append(days, day)
		}
	}
	same(t, "days", days, []int{0, 1, 8, 32, 92})
}

func TestDue(t *testing.T) {
	h := recall.History{
		"ray":   {Due: 95},
		"line":  {Due: 100},
		"point": {Due: 101},
		"angle": {Due: 103, Shaky: true},
	}
	late := map[string]int{}
	for _, d := range period.Due(h, 100, 7) {
		late[d.Call.Word] = d.Late
		if !d.Call.Due || d.Shaky != (d.Call.Word == "angle") {
			t.Errorf("%+v", d)
		}
	}
	same(t, "late", late, map[string]int{"ray": 5, "line": 0, "angle": 0})
	same(t, "nothing known", period.Due(nil, 100, 7), []period.DueWord{})
}

// TestDueIsTheOrderOfTheReview: what Today lists is what a review of these words
// calls.
func TestDueIsTheOrderOfTheReview(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := recall.History{}
		for _, id := range rapid.SliceOfNDistinct(rapid.SampledFrom(word.IDs()), 0, 20, rapid.ID[string]).Draw(t, "words") {
			h[id] = recall.Record{Due: recall.Day(rapid.IntRange(90, 110).Draw(t, "due")), Shaky: rapid.Bool().Draw(t, "shaky")}
		}
		seed := rapid.Uint64().Draw(t, "seed")
		q := period.Review(nil, h, 100, seed, 99)
		var listed []recall.Call
		for _, d := range period.Due(h, 100, seed) {
			listed = append(listed, d.Call)
		}
		if !slices.Equal(listed, q.Round(0)) {
			t.Fatalf("due %v, called %v", listed, q.Round(0))
		}
	})
}

func TestReview(t *testing.T) {
	h := recall.History{
		"ray": {Due: 90}, "line": {Due: 80}, "point": {Due: 120}, "angle": {Due: 110, Shaky: true}, "square": {Due: 130},
	}
	planned := []string{"square", "ray"}
	for _, c := range []struct {
		name string
		more int
		want []string
	}{
		{"the plan's", 0, []string{"square", "ray"}},
		{"the shaky one first", 1, []string{"square", "ray", "angle"}},
		{"then what is due longest, each once", 9, []string{"square", "ray", "angle", "line"}},
	} {
		q := period.Review(planned, h, 100, 5, c.more)
		same(t, c.name, q.Words, c.want)
		same(t, c.name+": history", slices.Sorted(maps.Keys(q.History)), slices.Sorted(slices.Values(c.want)))
	}
	same(t, "the plan stays", planned, []string{"square", "ray"})
	q := period.Review([]string{"kite"}, nil, 100, 5, 3)
	same(t, "a new word", q, recall.Question{Words: []string{"kite"}, Today: 100, Seed: 5})
}
