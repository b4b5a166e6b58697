// Package wording holds the sentences of the lesson rooms: questions to ask of
// gathered boards, prompts of closing items, reasons, faults of tasks, cautions.
// Readings and verdicts have their sentences in package say; texts of one plan
// stand in its file.
package wording

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
type Speaker struct{ localizer *i18n.Localizer }

// In returns the speaker of a language, the English one where nobody has
// translated it.
func In(tag string) *Speaker {
	base, _, _ := strings.Cut(strings.ToLower(tag), "-")
	if !slices.Contains(Languages(), base) {
		base = "en"
	}
	return &Speaker{i18n.NewLocalizer(bundle(), base)}
}

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

// Message is a sentence as data: its id, what fills its blanks, and the number
// that chooses its form, if it has forms.
type Message struct {
	ID    string
	Fill  map[string]string
	Count int // 0 for a sentence without forms
}

// strict refuses a message with a blank that nothing fills.
var strict = &template.TextParser{Option: "missingkey=error"}

// Say returns a message in words. One that nobody wrote comes out in brackets;
// tests see to it that there is none.
func (s *Speaker) Say(m Message) string {
	fill := map[string]any{}
	for k, v := range m.Fill {
		fill[k] = v
	}
	config := &i18n.LocalizeConfig{MessageID: m.ID, TemplateData: fill, TemplateParser: strict}
	if m.Count > 0 {
		fill["Count"] = m.Count
		config.PluralCount = m.Count
	}
	out, err := s.localizer.Localize(config)
	if err != nil {
		return fmt.Sprintf("[%s]", m.ID)
	}
	return out
}

// Text returns a message without blanks.
func (s *Speaker) Text(id string) string { return s.Say(Message{ID: id}) }
