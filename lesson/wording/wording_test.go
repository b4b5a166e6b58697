package wording

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// messages reads a message file as ids with their forms.
func messages(t *testing.T, language string) map[string][]string {
	t.Helper()
	data, err := fs.ReadFile(files, "messages/"+language+".toml")
	if err != nil {
		t.Fatal(err)
	}
	var tables map[string]map[string]any
	if err := toml.Unmarshal(data, &tables); err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	for table, entries := range tables {
		for name, value := range entries {
			switch v := value.(type) {
			case string:
				out[table+"."+name] = []string{v}
			case map[string]any:
				out[table+"."+name] = []string{v["one"].(string), v["other"].(string)}
			}
		}
	}
	return out
}

var blank = regexp.MustCompile(`\{\{\.([A-Za-z]+)\}\}`)

func blanks(text string) []string {
	var out []string
	for _, m := range blank.FindAllStringSubmatch(text, -1) {
		if !slices.Contains(out, m[1]) {
			out = append(out, m[1])
		}
	}
	slices.Sort(out)
	return out
}

// TestLanguagesSayTheSame: the same ids, forms and blanks.
func TestLanguagesSayTheSame(t *testing.T) {
	english, spanish := messages(t, "en"), messages(t, "es")
	if en, es := slices.Sorted(maps.Keys(english)), slices.Sorted(maps.Keys(spanish)); !slices.Equal(en, es) {
		t.Fatalf("ids differ:\n%v\n%v", en, es)
	}
	for id, forms := range english {
		if len(forms) != len(spanish[id]) {
			t.Errorf("%s: %d and %d forms", id, len(forms), len(spanish[id]))
			continue
		}
		for i := range forms {
			if a, b := blanks(forms[i]), blanks(spanish[id][i]); !slices.Equal(a, b) {
				t.Errorf("%s fills %v in English and %v in Spanish", id, a, b)
			}
			if forms[i] == spanish[id][i] {
				t.Errorf("%s is not translated", id)
			}
		}
	}
}

// TestEveryMessageIsUsed: its name stands in the code of a lesson room, as a
// whole or as the part that is put behind its table.
func TestEveryMessageIsUsed(t *testing.T) {
	code := ""
	for _, pattern := range []string{"../*.go", "../*/*.go"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			code += string(data)
		}
	}
	for id := range messages(t, "en") {
		table, name, _ := strings.Cut(id, ".")
		if table == "mark" {
			continue // marks of words: the room closing goes through them all
		}
		if !strings.Contains(code, `"`+id+`"`) && !strings.Contains(code, `"`+name+`"`) {
			t.Errorf("the message %s is written and never used", id)
		}
	}
}

func TestSay(t *testing.T) {
	cases := []struct {
		language string
		message  Message
		want     string
	}{
		{"en", Message{ID: "why.common", Count: 1}, "one board has this figure"},
		{"en-GB", Message{ID: "why.common", Count: 7}, "7 boards have this figure: the commonest answer"},
		{"es-MX", Message{ID: "item.make", Fill: map[string]string{"A": "un rombo"}}, "Haz un rombo."},
		{"fr", Message{ID: "why.rare"}, "nobody else has this one"},
		{"en", Message{ID: "no.such"}, "[no.such]"},
		{"en", Message{ID: "item.make"}, "[item.make]"},
	}
	for _, c := range cases {
		if got := In(c.language).Say(c.message); got != c.want {
			t.Errorf("%s: Say(%v) = %q, want %q", c.language, c.message, got, c.want)
		}
	}
	if got := In("en").Text("near.nothing"); got != "[near.nothing]" {
		t.Errorf("Text = %q", got)
	}
}
