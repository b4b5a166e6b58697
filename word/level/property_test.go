package level

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var plainWords = []string{"a", "peg", "side", "corner", "parallel", "every", "polygon", "open", "seven", "elbow", "straight", "animal", "quadrilateral"}

func sentence(t *rapid.T) string {
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(plainWords), 1, 12).Draw(t, "words"), " ") + "."
}

// TestSaidTwiceIsAsHard: repeating a text changes neither words a sentence nor
// syllables a word.
func TestSaidTwiceIsAsHard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sentence(t)
		if one, two := Grade(s, nil), Grade(s+" "+s, nil); one-two > 1e-9 || two-one > 1e-9 {
			t.Fatalf("%q: %.3f once, %.3f twice", s, one, two)
		}
	})
}

// TestCuttingASentenceNeverMakesItHarder.
func TestCuttingASentenceNeverMakesItHarder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sentence(t)
		cut := strings.ReplaceAll(s, " ", ". ")
		if Grade(cut, nil) > Grade(s, nil)+1e-9 {
			t.Fatalf("%q is at %.2f, cut up at %.2f", s, Grade(s, nil), Grade(cut, nil))
		}
	})
}

// TestCapitalsAndCommasDoNotCount.
func TestCapitalsAndCommasDoNotCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sentence(t)
		loud := strings.ToUpper(strings.ReplaceAll(s, " ", ", "))
		if Grade(loud, nil) != Grade(s, nil) {
			t.Fatalf("%q is at %.2f, %q at %.2f", s, Grade(s, nil), loud, Grade(loud, nil))
		}
	})
}

// TestSyllablesAreAtLeastOne, whatever is typed.
func TestSyllablesAreAtLeastOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.String().Draw(t, "word")
		if n := Syllables(word); n < 1 || n > 1+len(word) {
			t.Fatalf("Syllables(%q) = %d", word, n)
		}
		if g := Grade(word, []string{word}); g < 0 {
			t.Fatalf("Grade(%q) = %f", word, g)
		}
	})
}
