package say

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pegwright/task"
)

// uiIDs collects the ids that the desk, the front and the frame write, and
// those that they put together.
func uiIDs(t *testing.T) map[string]bool {
	t.Helper()
	used := map[string]bool{}
	wanted := regexp.MustCompile(`"([a-z_]+\.[a-z0-9_]+)"`)
	ends := regexp.MustCompile(`\.(html|css|js|toml|svg)$`)
	for _, dir := range []string{"desk", "front", "page", "."} {
		for _, kind := range []string{"*.go", "*.html"} {
			names, err := filepath.Glob(filepath.Join("..", "web", dir, kind))
			if err != nil {
				t.Fatal(err)
			}
			for _, name := range names {
				text, err := os.ReadFile(name)
				if err != nil {
					t.Fatal(err)
				}
				if strings.HasSuffix(name, "_test.go") {
					continue
				}
				for _, m := range wanted.FindAllStringSubmatch(string(text), -1) {
					if !ends.MatchString(m[1]) {
						used[m[1]] = true
					}
				}
			}
		}
	}
	for _, id := range uiPutTogether(t) {
		used[id] = true
	}
	return used
}

// uiPutTogether are the ids made of a table and a word of the program.
func uiPutTogether(t *testing.T) []string {
	t.Helper()
	out := []string{
		"source.seat", "source.desk", "source.paper", "feedback.none", "feedback.count", "feedback.hint", "feedback.all",
		"stand.fits", "stand.nearly", "stand.not_yet", "stand.unfinished",
	}
	for _, kind := range []string{"setup", "login", "recover", "unlock"} {
		out = append(out, kind+".title", kind+".intro", kind+".go")
		if kind != "setup" {
			out = append(out, kind+".wrong")
		}
	}
	for _, p := range task.Properties() {
		if p != task.Kind && p != task.Bands {
			out = append(out, "property."+strings.ReplaceAll(string(p), "-", "_"))
		}
	}
	for _, fault := range constants("NicknameFault", filepath.Join("..", "class", "nickname.go")) {
		out = append(out, "nicknames."+strings.ReplaceAll(fault, " ", "_"))
	}
	set, err := os.ReadFile(filepath.Join("..", "web", "desk", "quick.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`\{"([a-z_]+)", \[\]string`).FindAllStringSubmatch(string(set), -1) {
		out = append(out, "quick."+m[1])
	}
	return out
}

// TestScreensHaveTheirMessages holds the screens' files against the screens.
func TestScreensHaveTheirMessages(t *testing.T) {
	used := uiIDs(t)
	for _, language := range Languages() {
		written := messages(t, "ui."+language)
		for _, id := range slices.Sorted(maps.Keys(used)) {
			if _, ok := written[id]; !ok {
				t.Errorf("%s: the message %s is used and missing", language, id)
			}
		}
		for _, id := range slices.Sorted(maps.Keys(written)) {
			if !used[id] {
				t.Errorf("%s: the message %s is written and never used", language, id)
			}
		}
	}
}

func TestScreensFillTheSameBlanks(t *testing.T) {
	english := messages(t, "ui.en")
	for id, forms := range messages(t, "ui.es") {
		want := english[id]
		if len(forms) != len(want) {
			t.Errorf("%s has %d forms, the English %d", id, len(forms), len(want))
			continue
		}
		for i := range forms {
			if got, want := blanks(forms[i]), blanks(want[i]); !maps.Equal(got, want) {
				t.Errorf("%s fills %v, the English fills %v", id, got, want)
			}
		}
	}
}

func TestTextOfScreens(t *testing.T) {
	cases := []struct{ got, want string }{
		{In("en").Text("today.title"), "Today"},
		{In("es").Text("kept.ended", "When", "10:40"), "terminó: 10:40"},
		{In("en").Text("no.such"), "[no.such]"},
		{In("en").Counted("class.pupils", 1), "1 pupil"},
		{In("es").Counted("counts.in", 3, "Of", 28), "Han llegado 3 de 28 tableros"},
		{In("en").Sentence("sides cross"), "Sides cross."},
		{In("en").Sentence("Done!"), "Done!"},
		{In("en").Capital(""), ""},
	}
	for _, c := range cases {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
