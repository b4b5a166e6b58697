// Package say makes sentences for people from what the other rooms know as
// data: names, reasons, problems, whole descriptions. It decides nothing; a
// sentence that needs a fact is given it.
//
// Every word comes from messages/*.toml, one file for each language, with
// plural forms. Start at In, then at Speaker.Describe and Speaker.Reason.
package say

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"
	"github.com/nicksnyder/go-i18n/v2/i18n"
	"github.com/nicksnyder/go-i18n/v2/i18n/template"
	"golang.org/x/text/language"
)

//go:embed messages/*.toml
var files embed.FS

// Languages lists the languages that In knows, English first.
func Languages() []string { return []string{"en", "es"} }

// Speaker speaks one language. It may be used by many goroutines at once.
type Speaker struct {
	language  string
	localizer *i18n.Localizer
}

// In returns the speaker of a language, such as "en" or "es-MX"; of one that
// nobody has translated, the English speaker.
func In(tag string) *Speaker {
	base, _, _ := strings.Cut(strings.ToLower(tag), "-")
	if !slices.Contains(Languages(), base) {
		base = "en"
	}
	return &Speaker{base, i18n.NewLocalizer(bundle(), base)}
}

// Language returns the language spoken: "en" or "es".
func (s *Speaker) Language() string { return s.language }

// bundle reads the message files, once. They are part of the program, so a
// fault in them is a fault of the program.
var bundle = sync.OnceValue(func() *i18n.Bundle {
	b := i18n.NewBundle(language.English)
	b.RegisterUnmarshalFunc("toml", toml.Unmarshal)
	names, err := fs.Glob(files, "messages/*.toml")
	if err != nil {
		panic(err)
	}
	for _, name := range names {
		if _, err := b.LoadMessageFileFS(files, name); err != nil {
			panic(err)
		}
	}
	return b
})

// with is what fills the blanks of a message.
type with map[string]any

// strict refuses a message with a blank that nothing fills.
var strict = &template.TextParser{Option: "missingkey=error"}

// text returns a message. The tests see to it that there is one for every id
// and that no blank stays open; should one slip through, the reader gets the
// id rather than a crash.
func (s *Speaker) text(id string, fill with) string {
	out, err := s.localizer.Localize(&i18n.LocalizeConfig{MessageID: id, TemplateData: fill, TemplateParser: strict})
	if err != nil {
		return fmt.Sprintf("[%s]", id)
	}
	return out
}

// count returns the form of a message that goes with n, which fills Count.
func (s *Speaker) count(id string, n int, fill with) string {
	all := with{"Count": n}
	for k, v := range fill {
		all[k] = v
	}
	out, err := s.localizer.Localize(&i18n.LocalizeConfig{MessageID: id, TemplateData: all, PluralCount: n, TemplateParser: strict})
	if err != nil {
		return fmt.Sprintf("[%s]", id)
	}
	return out
}

// list joins things as a sentence does: "A1, B2 and C3".
func (s *Speaker) list(items []string) string {
	if len(items) == 0 {
		return ""
	}
	last := items[len(items)-1]
	if len(items) == 1 {
		return last
	}
	before := strings.Join(items[:len(items)-1], ", ")
	if last[0] == 'I' || last[0] == 'i' {
		return s.text("list.and_i", with{"A": before, "B": last})
	}
	return s.text("list.and", with{"A": before, "B": last})
}

// atMost joins clauses with semicolons; what is past the limit is counted.
func (s *Speaker) atMost(limit int, clauses []string) string {
	if rest := len(clauses) - limit; rest > 0 {
		clauses = append(slices.Clone(clauses[:limit]), s.count("list.more", rest, nil))
	}
	return strings.Join(clauses, "; ")
}
