package class

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// The limits of a class list.
const (
	MaxPupils   = 60
	MaxNickname = 24 // characters as a reader counts them, more or less: runes
)

// NicknameFault names what is wrong with a pasted class list.
type NicknameFault string

// The faults.
const (
	NoNicknames   NicknameFault = "no nicknames"
	TooMany       NicknameFault = "too many"
	TooLong       NicknameFault = "too long"
	Repeated      NicknameFault = "repeated"
	Unprintable   NicknameFault = "unprintable"
	NotText       NicknameFault = "not text"
	NothingToRead NicknameFault = "nothing to read"
)

// NicknameError says what is wrong with a class list, where, and how to mend
// it. Its fields are what a translated sentence needs.
type NicknameError struct {
	Fault NicknameFault
	Line  int    // in the pasted text, from 1; 0 when the whole list is meant
	First int    // for Repeated, the line of the first one
	Name  string // as it was written, made safe to show
	Count int    // for TooMany, the names found; for TooLong, the characters
}

// Error returns one sentence: where, what is wrong, what to do.
func (e *NicknameError) Error() string {
	switch e.Fault {
	case NoNicknames:
		return "the list has no nicknames: write one nickname on each line"
	case TooMany:
		return fmt.Sprintf("the list has %d nicknames and a class holds %d: split it into two classes", e.Count, MaxPupils)
	case TooLong:
		return fmt.Sprintf("line %d: %q has %d characters: shorten it to %d or fewer", e.Line, e.Name, e.Count, MaxNickname)
	case Repeated:
		return fmt.Sprintf("line %d: %q is on line %d too: give one of them another nickname", e.Line, e.Name, e.First)
	case Unprintable:
		return fmt.Sprintf("line %d: %q holds a sign that cannot be seen: type the nickname again", e.Line, e.Name)
	case NotText:
		return fmt.Sprintf("line %d: this is not text: save the list as UTF-8 or type it here", e.Line)
	default:
		return fmt.Sprintf("line %d: %q has no letter or number: write a nickname that can be read aloud", e.Line, e.Name)
	}
}

// ParseNicknames reads a pasted class list: a nickname on each line, or several
// on a line with commas, semicolons or tabs between them. It drops empty
// entries and leading numbers such as "1." or "1)" or a table's first column,
// and keeps accents, in composed form. Names that differ only in capitals or
// spaces are the same. The error is a *NicknameError about the first fault.
func ParseNicknames(text string) ([]string, error) {
	var names []string
	first := map[string]int{}
	for i, line := range strings.Split(lineEnds.Replace(strings.TrimPrefix(text, "\ufeff")), "\n") {
		line = column.ReplaceAllString(line, "$1")
		for _, entry := range strings.FieldsFunc(line, isSeparator) {
			name := tidyNickname(entry)
			if name == "" {
				continue
			}
			if err := checkNickname(name, i+1); err != nil {
				return nil, err
			}
			key := NicknameKey(name)
			if at, again := first[key]; again {
				return nil, &NicknameError{Fault: Repeated, Line: i + 1, First: at, Name: name}
			}
			first[key] = i + 1
			names = append(names, name)
		}
	}
	switch {
	case len(names) == 0:
		return nil, &NicknameError{Fault: NoNicknames}
	case len(names) > MaxPupils:
		return nil, &NicknameError{Fault: TooMany, Count: len(names)}
	}
	return names, nil
}

// NicknameKey returns what two nicknames share when a class would take them
// for the same.
func NicknameKey(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(norm.NFKC.String(name)), " "))
}

var (
	lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n")
	column   = regexp.MustCompile(`^\s*[0-9]{1,3}\.?\t\s*([^\s])`) // the numbers of a table
	numbered = regexp.MustCompile(`^\(?[0-9]{1,3}[.):](\s+|$|\b|[^0-9])`)
	counted  = regexp.MustCompile(`^\(?[0-9]{1,3}[.):]\s*`)
	bulleted = regexp.MustCompile(`^[-*•–]\s+`)
)

func isSeparator(r rune) bool { return r == ',' || r == ';' || r == '\t' }

// tidyNickname takes numbering and needless space off one entry of a list. A
// bare number stays: it may be all that a pupil is called by.
func tidyNickname(entry string) string {
	if !utf8.ValidString(entry) {
		return strings.TrimSpace(entry)
	}
	entry = strings.TrimSpace(entry)
	entry = bulleted.ReplaceAllString(entry, "")
	if numbered.MatchString(entry) {
		entry = counted.ReplaceAllString(entry, "")
	}
	return strings.Join(strings.FieldsFunc(norm.NFC.String(entry), isSpace), " ")
}

// isSpace reports whether r is a space of any width; line ends and other
// control characters are none.
func isSpace(r rune) bool { return unicode.Is(unicode.Zs, r) }

func checkNickname(name string, line int) error {
	if !utf8.ValidString(name) {
		return &NicknameError{Fault: NotText, Line: line}
	}
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return &NicknameError{Fault: Unprintable, Line: line, Name: clip(visible(name))}
	}
	if n := utf8.RuneCountInString(name); n > MaxNickname {
		return &NicknameError{Fault: TooLong, Line: line, Name: clip(name), Count: n}
	}
	if !strings.ContainsFunc(name, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }) {
		return &NicknameError{Fault: NothingToRead, Line: line, Name: name}
	}
	return nil
}

// visible puts a mark in the place of signs that cannot be seen.
func visible(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return '\ufffd'
	}, name)
}

// clip shortens a text that is shown in an error.
func clip(text string) string {
	runes := []rune(text)
	if len(runes) <= MaxNickname {
		return text
	}
	return string(runes[:MaxNickname]) + "…"
}
