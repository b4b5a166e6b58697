package lesson

import (
	"testing"

	"pegwright/internal/golden"
)

// TestPlansAreReadable: one plan as a teacher meets it in an editor.
func TestPlansAreReadable(t *testing.T) {
	p, ok := Find("7-squares")
	if !ok {
		t.Fatal("the plan is gone")
	}
	golden.Check(t, "7-squares.yaml", []byte(p.String()))
}

// TestQuoted: plain words stay plain, and everything that YAML would read as
// something else gets quotation marks.
func TestQuoted(t *testing.T) {
	cases := map[string]string{
		"Make a square.":        "Make a square.",
		"¿Qué es?":              `"¿Qué es?"`,
		"Ángulo recto, ¿sí?":    `"Ángulo recto, ¿sí?"`,
		"Ángulos rectos":        "Ángulos rectos",
		"yes":                   `"yes"`,
		"No":                    `"No"`,
		"null":                  `"null"`,
		"12":                    `"12"`,
		"2 sides":               `"2 sides"`,
		"- a":                   `"- a"`,
		"a: b":                  `"a: b"`,
		"a #b":                  `"a #b"`,
		`say "yes"`:             `"say \"yes\""`,
		`a \ b`:                 `"a \\ b"`,
		"[a]":                   `"[a]"`,
		"a (b), c; d! e? f's":   "a (b), c; d! e? f's",
		"x=3+4-1":               "x=3+4-1",
		"nan":                   `"nan"`,
		"":                      `""`,
		"don’t":                 "don’t",
		"a|b":                   `"a|b"`,
		"Fold it: does it fit?": `"Fold it: does it fit?"`,
	}
	for text, want := range cases {
		if got := quoted(text); got != want {
			t.Errorf("quoted(%q) = %s, want %s", text, got, want)
		}
		p, err := Parse("p", "title: "+quoted(text)+"\nsteps:\n  - note: 1\n")
		if text != "" && (err != nil || p.Title.EN != text) {
			t.Errorf("%q is read again as %q, %v", text, p.Title.EN, err)
		}
	}
}

// TestNearestOffersWhatIsMeant and nothing where nothing is near.
func TestNearestOffersWhatIsMeant(t *testing.T) {
	cases := map[string]string{"recal": "recall", "gahter": "gather", "SORT": "sort", "xyzzy": "", "": "", "n": ""}
	for typed, want := range cases {
		if got, _ := nearest(typed, kindWords()); got != want {
			t.Errorf("nearest(%q) = %q, want %q", typed, got, want)
		}
	}
}
