package level

import (
	"math"
	"testing"
)

func TestSyllables(t *testing.T) {
	cases := map[string]int{
		"a": 1, "the": 1, "peg": 1, "side": 1, "sides": 1, "edges": 2, "angle": 2, "angles": 2, "circle": 2, "whole": 1,
		"corner": 2, "open": 2, "same": 1, "turned": 1, "slanted": 2, "level": 2, "parallel": 3, "polygon": 3, "every": 2,
		"fingers": 2, "piece": 1, "pieces": 2, "straight": 1, "does": 1, "there": 1, "they": 1, "see": 1, "eye": 1, "7": 1,
		"elbow": 2, "table": 2, "ended": 2, "closed": 1, "being": 2, "squares": 1, "faces": 2, "touch": 1, "people": 2, "": 1,
	}
	for word, want := range cases {
		if got := Syllables(word); got != want {
			t.Errorf("Syllables(%q) = %d, want %d", word, got, want)
		}
	}
}

func TestGrade(t *testing.T) {
	cases := []struct {
		name, text string
		taught     []string
		want       float64
	}{
		{"nothing is at level 0", "", nil, 0},
		{"only dots are nothing", "...", nil, 0},
		{"one short sentence is below every grade, so 0", "Hold up one fist.", nil, 0},
		// 8 words, 1 sentence, 11 syllables: 0.39·8 + 11.8·11/8 − 15.59
		{"longer words cost more", "A pencil can open every yellow box here", nil, 0.39*8 + 11.8*12/8 - 15.59},
		// "a word has word and word": 6 words, 6 syllables, below 0
		{"taught terms are one short word each", "A quadrilateral has parallelograms and right angles.", []string{"quadrilateral", "parallelogram", "right angle"}, 0},
		{"the plural in es is the term", "A rhombus is one of the rhombuses.", []string{"rhombus"}, 0},
	}
	for _, c := range cases {
		if got := Grade(c.text, c.taught); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: Grade(%q) = %.2f, want %.2f", c.name, c.text, got, c.want)
		}
	}
}

// TestTaughtTermsOnlyHelp: naming a term never makes a text harder.
func TestTaughtTermsOnlyHelp(t *testing.T) {
	text := "The perpendicular sides of an isosceles triangle may be parallel to something else."
	plain := Grade(text, nil)
	with := Grade(text, []string{"perpendicular", "isosceles triangle", "parallel"})
	if with >= plain {
		t.Errorf("Grade with taught terms = %.1f, without = %.1f", with, plain)
	}
	if all := Grade(text, []string{"isosceles triangle", "triangle", "perpendicular", "parallel"}); all != with {
		t.Errorf("a part of a longer term changed the level: %.2f, want %.2f", all, with)
	}
}
