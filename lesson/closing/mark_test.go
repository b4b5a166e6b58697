package closing_test

import (
	"strings"
	"testing"

	"pegwright/lesson/closing"
	"pegwright/lesson/wording"
	"pegwright/say"
	"pegwright/word"
)

// TestEveryMarkIsSaid: each mark of each word has its words in both languages,
// and no sign of the data file is left in them.
func TestEveryMarkIsSaid(t *testing.T) {
	for _, language := range wording.Languages() {
		condition := say.In(language).Condition
		for _, w := range word.All() {
			for _, m := range w.Marks {
				text := closing.SayMark(m.String(), language, condition)
				if text == "" || strings.ContainsAny(text, "[=_{") {
					t.Errorf("%s: the mark %s of %s is said %q", language, m, w.ID, text)
				}
				idea := closing.SayIdea(wording.Message{ID: "idea.leaves_out_a_mark", Fill: map[string]string{"Mark": m.String()}}, language, condition)
				if !strings.Contains(idea, text) {
					t.Errorf("%s: the idea is said %q", language, idea)
				}
			}
		}
	}
	if got := closing.SayIdea(wording.Message{ID: "idea.counted_pegs"}, "es", nil); got != "cuenta clavijas, no esquinas" {
		t.Errorf("an idea without a mark is said %q", got)
	}
}
