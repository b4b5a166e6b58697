package seat

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// catalogue reads the messages of the pupils' pages in a language, by id.
func catalogue(t *testing.T, language string) map[string]string {
	t.Helper()
	var tables map[string]map[string]any
	_, err := toml.DecodeFile(filepath.Join("..", "..", "say", "messages", "seat."+language+".toml"), &tables)
	must(t, err)
	out := map[string]string{}
	for table, entries := range tables {
		for id, v := range entries {
			switch v := v.(type) {
			case string:
				out[table+"."+id] = v
			case map[string]any:
				out[table+"."+id] = v["one"].(string) + " " + v["other"].(string)
			}
		}
	}
	return out
}

var blanks = regexp.MustCompile(`\{+\.?\w+\}+`)

func TestEveryMessageIsUsedAndTranslated(t *testing.T) {
	var sources strings.Builder
	for _, pattern := range []string{"*.go", "*.html", "../pegs/*.go", "../pegs/*.html", "../desk/*.go", "../desk/*.html"} {
		names, err := filepath.Glob(pattern)
		must(t, err)
		for _, name := range names {
			text, err := os.ReadFile(name)
			must(t, err)
			sources.Write(text)
		}
	}
	english, spanish := catalogue(t, "en"), catalogue(t, "es")
	for id, text := range english {
		if !strings.Contains(sources.String(), `"`+id+`"`) {
			t.Errorf("nothing says %s", id)
		}
		other, ok := spanish[id]
		if !ok || other == "" {
			t.Errorf("%s is not in Spanish", id)
		}
		for _, b := range blanks.FindAllString(text, -1) {
			if !strings.Contains(other, b) {
				t.Errorf("%s lacks %s in Spanish", id, b)
			}
		}
	}
	for id := range spanish {
		if _, ok := english[id]; !ok {
			t.Errorf("%s is in Spanish only", id)
		}
	}
	for _, m := range regexp.MustCompile(`"((?:seat|pegboard)\.[a-z_]+)"`).FindAllStringSubmatch(sources.String(), -1) {
		if _, ok := english[m[1]]; !ok && m[1] != "seat.css" && m[1] != "seat.js" {
			t.Errorf("%s is said and not written", m[1])
		}
	}
}

// TestChildrenCanReadIt holds the words to short sentences: at most twelve
// words each.
func TestChildrenCanReadIt(t *testing.T) {
	for _, language := range []string{"en", "es"} {
		for id, text := range catalogue(t, language) {
			for _, sentence := range regexp.MustCompile(`[.!?:]\s`).Split(text, -1) {
				if n := len(strings.Fields(sentence)); n > 13 {
					t.Errorf("%s %s: %d words in %q", language, id, n, sentence)
				}
			}
		}
	}
}
