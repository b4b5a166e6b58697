// Package level measures how hard a text is to read: the Flesch-Kincaid grade
// level, which says after how many years at school a reader of English can
// follow it.
//
//	0.39 · words/sentences + 11.8 · syllables/words − 15.59
//
// Source: Kincaid, Fishburne, Rogers and Chissom, Derivation of New Readability
// Formulas for Navy Enlisted Personnel, Research Branch Report 8-75, 1975 (from
// memory). It is a formula for English; Spanish would need another one.
//
// The words that a lesson is there to teach are not what makes its sentences
// hard. As the trade does with names and taught terms, each of them counts as
// one word of one syllable; which words these are, the caller says.
package level

import (
	"slices"
	"strings"
	"unicode"
)

// Grade returns the grade level of a text. taught are the terms being taught, of
// one word or several; their plurals in s and es are recognised. An empty text
// has level 0, and no text has less.
func Grade(text string, taught []string) float64 {
	words, sentences, syllables := 0, 0, 0
	for _, sentence := range sentencesOf(text) {
		list := replaceTaught(wordsOf(sentence), taught)
		if len(list) == 0 {
			continue
		}
		sentences++
		words += len(list)
		for _, w := range list {
			syllables += Syllables(w)
		}
	}
	if words == 0 {
		return 0
	}
	perSentence := float64(words) / float64(sentences)
	perWord := float64(syllables) / float64(words)
	return max(0, 0.39*perSentence+11.8*perWord-15.59)
}

func sentencesOf(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(".!?:", r) })
}

func wordsOf(sentence string) []string {
	return strings.FieldsFunc(strings.ToLower(sentence), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '’'
	})
}

// termMark stands for a taught term; it has one syllable.
const termMark = "word"

// replaceTaught puts one short word in the place of each taught term, longer
// terms first.
func replaceTaught(list, taught []string) []string {
	terms := make([][]string, 0, len(taught))
	for _, t := range taught {
		if words := wordsOf(t); len(words) > 0 {
			terms = append(terms, words)
		}
	}
	slices.SortStableFunc(terms, func(a, b []string) int { return len(b) - len(a) })
	var out []string
	for i := 0; i < len(list); {
		n := 0
		for _, term := range terms {
			if startsWith(list[i:], term) {
				n = len(term)
				break
			}
		}
		if n == 0 {
			out = append(out, list[i])
			i++
			continue
		}
		out = append(out, termMark)
		i += n
	}
	return out
}

func startsWith(list, term []string) bool {
	if len(list) < len(term) {
		return false
	}
	last := len(term) - 1
	for i, w := range term {
		if list[i] != w && (i != last || list[i] != w+"s" && list[i] != w+"es") {
			return false
		}
	}
	return true
}

// Syllables counts the syllables of an English word by its groups of vowels,
// without a silent e or ed at the end; words that break the rule are listed.
// Figures count as one syllable each.
func Syllables(word string) int {
	word = strings.ToLower(strings.Trim(word, "'’"))
	if n, ok := exceptions[word]; ok {
		return n
	}
	if plural, ok := strings.CutSuffix(word, "s"); ok {
		if n, known := exceptions[plural]; known {
			return n
		}
	}
	n, inVowels := 0, false
	for _, r := range word {
		vowel := strings.ContainsRune("aeiouyáéíóú", r)
		if vowel && !inVowels || unicode.IsDigit(r) {
			n++
		}
		inVowels = vowel
	}
	if silentEnd(word) {
		n--
	}
	return max(1, n)
}

// silentEnd reports whether the last group of vowels is not spoken: the e of
// "side" and "sides", not of "circle" or "edges", and the e of "turned", not of
// "slanted".
func silentEnd(word string) bool {
	stem, plural := strings.CutSuffix(word, "s")
	if before, ok := strings.CutSuffix(stem, "e"); ok {
		if len(before) < 2 || strings.ContainsRune("aeiouy", rune(before[len(before)-1])) {
			return false
		}
		if before[len(before)-1] == 'l' {
			return strings.ContainsRune("aeiou", rune(before[len(before)-2])) // "whole", not "angle"
		}
		return !plural || !hissing(before)
	}
	before, ok := strings.CutSuffix(word, "ed")
	return ok && len(before) > 1 && !strings.HasSuffix(before, "t") && !strings.HasSuffix(before, "d") && !strings.ContainsRune("aeiouy", rune(before[len(before)-1]))
}

// hissing reports whether a plural s after a stem's silent e makes a syllable of
// its own, as in "edges" and "faces".
func hissing(stem string) bool {
	for _, end := range []string{"s", "z", "x", "c", "g", "ch", "sh"} {
		if strings.HasSuffix(stem, end) {
			return true
		}
	}
	return false
}

// exceptions are words whose vowels mislead.
var exceptions = map[string]int{
	"being": 2, "create": 2, "area": 3, "idea": 3, "every": 2, "evening": 2, "sometimes": 2, "somewhere": 2,
	"something": 2, "someone": 2, "none": 1, "one": 1, "ones": 1, "once": 1, "people": 2, "lion": 2, "real": 1,
	"riding": 2, "doing": 2, "going": 2, "trying": 2, "science": 2, "quiet": 2, "poem": 2, "piece": 1, "pieces": 2,
	"before": 2, "lines": 1, "likely": 2, "likeness": 2, "sidewise": 2, "careful": 2, "carefully": 3, "moved": 1,
	"whole": 1, "people's": 2, "isn't": 2, "doesn't": 2, "tied": 1, "noted": 2, "trapezoids": 3,
}
