package class_test

import (
	"bytes"
	"crypto/rand"
	"math/bits"
	mathrand "math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"pegwright/class"
)

func TestNewID(t *testing.T) {
	if got, want := class.NewID(bytes.NewReader(make([]byte, 16))), strings.Repeat("a", 26); got != want {
		t.Errorf("NewID of zeros = %s, want %s", got, want)
	}
	seen := map[string]bool{}
	for range 10_000 {
		id := class.NewID(rand.Reader)
		if !regexp.MustCompile(`^[a-z2-7]{26}$`).MatchString(id) || !class.ValidID(id) || seen[id] {
			t.Fatalf("NewID = %s", id)
		}
		seen[id] = true
	}
}

func TestNewIDUsesEveryBit(t *testing.T) {
	zero := class.NewID(bytes.NewReader(make([]byte, 16)))
	for bit := range 128 {
		random := make([]byte, 16)
		random[bit/8] = byte(bits.Reverse8(1 << (bit % 8)))
		if class.NewID(bytes.NewReader(random)) == zero {
			t.Errorf("bit %d makes no difference", bit)
		}
	}
}

func TestValidID(t *testing.T) {
	for id, want := range map[string]bool{
		"": false, "short": false, "0123456789abcdef": true, "0123456789abcde": false,
		"0b8cdd1e-52a5-4f8c-8d0c-6a4bb2a0a6f0": true, "0B8CDD1E-52A5-4F8C": false,
		strings.Repeat("a", 64): true, strings.Repeat("a", 65): false,
		"0123456789abcde\x00": false, "0123456789abcdeé": false, "../../../etc/passwd": false,
	} {
		if got := class.ValidID(id); got != want {
			t.Errorf("ValidID(%q) = %t", id, got)
		}
	}
}

func TestNoRandomnessPanics(t *testing.T) {
	for name, call := range map[string]func(){
		"NewID":       func() { class.NewID(strings.NewReader("too short")) },
		"NewRoomWord": func() { class.NewRoomWord(strings.NewReader(""), func(string) bool { return false }) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s went on without randomness", name)
				}
			}()
			call()
		}()
	}
}

func TestNewRoomWord(t *testing.T) {
	random := mathrand.NewChaCha8([32]byte{1})
	seen := map[string]bool{}
	taken := func(word string) bool { return seen[word] }
	for range class.RoomWords {
		word := class.NewRoomWord(random, taken)
		if word == "" || seen[word] || class.CleanRoomWord(word) != word {
			t.Fatalf("after %d words: %q", len(seen), word)
		}
		seen[word] = true
	}
	if word := class.NewRoomWord(random, taken); word != "" {
		t.Errorf("with all taken: %q", word)
	}
}

func TestRoomWordsAreDrawnEvenly(t *testing.T) {
	random := mathrand.NewChaCha8([32]byte{2})
	first := map[string]int{}
	const draws = 100_000
	for range draws {
		word, _, _ := strings.Cut(class.NewRoomWord(random, func(string) bool { return false }), "-")
		first[word]++
	}
	mean := draws / len(first)
	for word, n := range first {
		if n < mean*3/4 || n > mean*5/4 {
			t.Errorf("%s was drawn %d times, the mean is %d", word, n, mean)
		}
	}
}

func TestCleanRoomWord(t *testing.T) {
	for typed, want := range map[string]string{
		"amber-otter": "amber-otter", "Amber Otter": "amber-otter", "  AMBER -- otter\n": "amber-otter",
		"amber_otter": "amber-otter", "amber–otter": "amber-otter", "amberotter": "amber-otter", "AmberOtter.": "amber-otter",
		"": "", "12 34": "", "amber": "amber", "amber-otter-fox": "amber-otter-fox", "ámber otter": "ámber-otter",
		strings.Repeat("otter ", 1000): "",
	} {
		if got := class.CleanRoomWord(typed); got != want {
			t.Errorf("CleanRoomWord(%q) = %q, want %q", typed, got, want)
		}
	}
}

func FuzzCleanRoomWord(f *testing.F) {
	f.Add("Amber Otter")
	f.Add("\xff-İx")
	f.Fuzz(func(t *testing.T, typed string) {
		clean := class.CleanRoomWord(typed)
		if again := class.CleanRoomWord(clean); again != clean {
			t.Errorf("CleanRoomWord(%q) = %q, and of that %q", typed, clean, again)
		}
	})
}
