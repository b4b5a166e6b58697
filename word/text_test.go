package word_test

import (
	"strings"
	"testing"

	"pegwright/shape"
	"pegwright/word"
	"pegwright/word/level"
)

// grade is the hardest level of a text that children read.
const grade = 3.0

// taught are the terms that count as one short word each: the words themselves.
func taught() []string {
	var out []string
	for _, w := range word.All() {
		t := w.Text("en", shape.Definitions{})
		out = append(out, t.Name, t.Plural)
		if last := strings.Fields(t.Name); len(last) > 1 {
			out = append(out, last[0]) // "right" and "isosceles" as in the term
		}
	}
	return append(out, "angle", "figure", "lateral", "equi", "elbow")
}

// everyWording visits the texts of all words for both choices of definitions.
func everyWording(language string, visit func(w word.Word, t word.Text)) {
	for _, w := range word.All() {
		visit(w, w.Text(language, shape.Definitions{}))
		if strict := w.Text(language, narrow); strict.Exactly != nil {
			visit(w, strict)
		}
	}
}

func TestChildrenCanReadIt(t *testing.T) {
	terms := taught()
	hard := func(w word.Word, what, text string) {
		if text == "" {
			return
		}
		if g := level.Grade(text, terms); g > grade {
			t.Errorf("%s, %s: grade %.1f: %q", w.ID, what, g, text)
		}
	}
	everyWording("en", func(w word.Word, text word.Text) {
		hard(w, "child", text.Child)
		hard(w, "hint", text.Hint)
		hard(w, "do", text.Do)
		hard(w, "turned", text.Turned)
		for _, why := range text.Why {
			hard(w, "why", why)
		}
	})
}

func TestTextsAreComplete(t *testing.T) {
	for _, language := range word.Languages() {
		everyWording(language, func(w word.Word, text word.Text) {
			for what, s := range map[string]string{"name": text.Name, "a": text.A, "plural": text.Plural, "child": text.Child, "precise": text.Precise, "do": text.Do, "turned": text.Turned} {
				if strings.TrimSpace(s) == "" {
					t.Errorf("%s: %s has no %s", language, w.ID, what)
				}
			}
			if len(text.Why) != len(w.Not) {
				t.Errorf("%s: %s has %d reasons for %d non-examples: %q", language, w.ID, len(text.Why), len(w.Not), text.Why)
			}
			if strings.Count(text.Child, ".") != 1 || !strings.HasSuffix(text.Child, ".") {
				t.Errorf("%s: %s: the child wording is not one sentence: %q", language, w.ID, text.Child)
			}
		})
	}
	for _, w := range word.All() {
		en, es := w.Text("en", shape.Definitions{}), w.Text("es", shape.Definitions{})
		if en.Child == es.Child || (en.Exactly == nil) != (es.Exactly == nil) {
			t.Errorf("%s: the Spanish is not Spanish", w.ID)
		}
		if w.Text("fr", shape.Definitions{}).Child != en.Child {
			t.Errorf("%s: an unknown language is not English", w.ID)
		}
	}
}

// TestDefinitionsChangeTheWording of the words that textbooks define in two ways.
func TestDefinitionsChangeTheWording(t *testing.T) {
	for id, d := range map[string]shape.Definitions{
		"trapezoid":          {TrapezoidExactlyOne: true},
		"isosceles-triangle": {IsoscelesExactlyTwo: true},
		"kite":               {KiteNotRhombus: true},
	} {
		w := word.MustFind(id)
		for _, language := range word.Languages() {
			wide, narrowed := w.Text(language, shape.Definitions{}), w.Text(language, d)
			if wide.Child == narrowed.Child || wide.Precise == narrowed.Precise {
				t.Errorf("%s: %s does not change its wording", language, id)
			}
		}
	}
}

func TestFalseFriendsAreNoted(t *testing.T) {
	text := word.MustFind("trapezoid").Text("es", shape.Definitions{})
	if text.Name != "trapecio" || !strings.Contains(text.Note, "rapezoide") {
		t.Errorf("trapezoid in Spanish: %q, note %q", text.Name, text.Note)
	}
}
