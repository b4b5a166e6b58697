package class

import (
	"slices"
	"strings"
	"testing"
)

func TestRoomWordListsAreFitForChildren(t *testing.T) {
	all := slices.Concat(firstWords, secondWords)
	if len(firstWords) < 100 || len(secondWords) < 115 {
		t.Errorf("%d first words and %d second", len(firstWords), len(secondWords))
	}
	for i, word := range all {
		if strings.Trim(word, "abcdefghijklmnopqrstuvwxyz") != "" || len(word) < 3 || len(word) > 10 {
			t.Errorf("%q is not a short word in small plain letters", word)
		}
		for _, other := range all[:i] {
			if changes(word, other) < 2 {
				t.Errorf("%q and %q look alike", word, other)
			}
		}
	}
	// Words that make a pair rude, sad, or about someone's body or colour.
	for _, word := range strings.Fields(`black white brown yellow pink red fat big small hot wet hard soft naked bare
		dirty sad lost dead wild sick poor old ugly lazy slow thin short hairy ass cock tit pussy beaver snake rat pig cow
		worm slug snail monkey ape gorilla donkey goat dog bitch chicken shark whale hippo pansy nut toad thrush`) {
		if slices.Contains(all, word) {
			t.Errorf("%q must not be in the lists", word)
		}
	}
}

func TestRoomWordsDifferWithoutTheirHyphen(t *testing.T) {
	seen := map[string]string{}
	for i := range RoomWords {
		word := roomWordAt(i)
		joined := strings.ReplaceAll(word, "-", "")
		if other, again := seen[joined]; again {
			t.Errorf("%s and %s", word, other)
		}
		seen[joined] = word
		if got := CleanRoomWord(joined); got != word {
			t.Errorf("CleanRoomWord(%q) = %q, want %q", joined, got, word)
		}
	}
	if len(seen) < 12_000 {
		t.Errorf("only %d room words", len(seen))
	}
}

// changes returns how many letters must be put in, left out or replaced to
// make one word of the other.
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
