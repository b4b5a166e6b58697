package class_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pegwright/class"
)

func TestParseNicknames(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"one", "Alder", []string{"Alder"}},
		{"one a line", "Alder\nBryony\nClover\n", []string{"Alder", "Bryony", "Clover"}},
		{"lines of other systems", "Alder\r\nBryony\rClover\u2028Dunlin", []string{"Alder", "Bryony", "Clover", "Dunlin"}},
		{"commas, semicolons, tabs", "Alder, Bryony;Clover\tDunlin", []string{"Alder", "Bryony", "Clover", "Dunlin"}},
		{"empty lines and entries", "\n\n Alder ,, ;\n\t\nBryony", []string{"Alder", "Bryony"}},
		{"numbered", "1. Alder\n2) Bryony\n(3) Clover\n4: Dunlin\n5.Elm", []string{"Alder", "Bryony", "Clover", "Dunlin", "Elm"}},
		{"numbers alone", "1\n2\n3", []string{"1", "2", "3"}},
		{"a numbered number", "1. 12\n2. 7", []string{"12", "7"}},
		{"a number with nothing", "1.\n2. Bryony", []string{"Bryony"}},
		{"a column of a table", "1\tAlder\n2\t\tBryony\n3.\t3", []string{"Alder", "Bryony", "3"}},
		{"bullets", "- Alder\n* Bryony\n• Clover", []string{"Alder", "Bryony", "Clover"}},
		{"accents", "Éva\nÑandú\nŁukasz", []string{"Éva", "Ñandú", "Łukasz"}},
		{"accents in two parts", "E\u0301va", []string{"Éva"}},
		{"other scripts", "李小龍\nمحمد\nअनु", []string{"李小龍", "محمد", "अनु"}},
		{"two words and odd spaces", "Little  Owl\nJay\u00a0B", []string{"Little Owl", "Jay B"}},
		{"marks of names", "O'Neil\nAnne-Marie\nJay B.", []string{"O'Neil", "Anne-Marie", "Jay B."}},
		{"a mark of byte order", "\ufeffAlder", []string{"Alder"}},
		{"the longest", strings.Repeat("é", 24), []string{strings.Repeat("é", 24)}},
	} {
		got, err := class.ParseNicknames(c.text)
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s: ParseNicknames(%q) = %q, %v, want %q", c.name, c.text, got, err, c.want)
		}
	}
}

func TestParseNicknamesRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       class.NicknameError
		sentence   string
	}{
		{"nothing", "", class.NicknameError{Fault: class.NoNicknames}, "one nickname on each line"},
		{"only separators", " ,\n;\t", class.NicknameError{Fault: class.NoNicknames}, "no nicknames"},
		{"the same twice", "Alder\nBryony\n\nALDER", class.NicknameError{Fault: class.Repeated, Line: 4, First: 1, Name: "ALDER"}, `line 4: "ALDER" is on line 1 too: give one`},
		{"the same on one line", "Alder, alder", class.NicknameError{Fault: class.Repeated, Line: 1, First: 1, Name: "alder"}, "another nickname"},
		{"the same in wide letters", "Jay\nＪａｙ", class.NicknameError{Fault: class.Repeated, Line: 2, First: 1, Name: "Ｊａｙ"}, "line 2"},
		{"too long", "Alder\n" + strings.Repeat("a", 25), class.NicknameError{Fault: class.TooLong, Line: 2, Name: strings.Repeat("a", 24) + "…", Count: 25}, "25 characters: shorten it to 24"},
		{"a bell", "Al\x07der", class.NicknameError{Fault: class.Unprintable, Line: 1, Name: "Al\ufffdder"}, "cannot be seen"},
		{"text that runs backwards", "Al\u202eder", class.NicknameError{Fault: class.Unprintable, Line: 1, Name: "Al\ufffdder"}, "type the nickname again"},
		{"a space without width", "Al\u200bder", class.NicknameError{Fault: class.Unprintable, Line: 1, Name: "Al\ufffdder"}, "line 1"},
		{"not text", "Alder\n\xff\xfe", class.NicknameError{Fault: class.NotText, Line: 2}, "UTF-8"},
		{"nothing to read", "Alder\n???", class.NicknameError{Fault: class.NothingToRead, Line: 2, Name: "???"}, "read aloud"},
		{"sixty-one", names(61), class.NicknameError{Fault: class.TooMany, Count: 61}, "61 nicknames and a class holds 60: split"},
	} {
		_, err := class.ParseNicknames(c.text)
		var got *class.NicknameError
		if !errors.As(err, &got) {
			t.Errorf("%s: error %v, want a NicknameError", c.name, err)
			continue
		}
		if *got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, *got, c.want)
		}
		if !strings.Contains(got.Error(), c.sentence) {
			t.Errorf("%s: %q does not say %q", c.name, got, c.sentence)
		}
	}
	if got, err := class.ParseNicknames(names(60)); err != nil || len(got) != 60 {
		t.Errorf("sixty: %d, %v", len(got), err)
	}
}

func names(n int) string {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, "%d. Pupil %d\n", i+1, i+1)
	}
	return text.String()
}

func FuzzParseNicknames(f *testing.F) {
	for _, text := range []string{"1. Alder\n2) Éva", "a,b;c\td", "\ufeff\r\n- x", "(1) 1.", "1.2.3", "\xff", "A\u0301\u0301", "1:1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		names, err := class.ParseNicknames(text)
		if err != nil {
			if !utf8.ValidString(err.Error()) || strings.ContainsFunc(err.Error(), unicode.IsControl) {
				t.Errorf("a sentence that cannot be shown: %q", err)
			}
			return
		}
		keys := map[string]bool{}
		for _, name := range names {
			if n := utf8.RuneCountInString(name); n < 1 || n > class.MaxNickname || strings.TrimSpace(name) != name {
				t.Errorf("nickname %q", name)
			}
			if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Errorf("nickname %q cannot be seen", name)
			}
			keys[class.NicknameKey(name)] = true
		}
		if len(keys) != len(names) || len(names) == 0 || len(names) > class.MaxPupils {
			t.Errorf("%d names of which %d differ", len(names), len(keys))
		}
	})
}
