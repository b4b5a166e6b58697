package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
	"time"
)

func TestExitCodes(t *testing.T) {
	out := filepath.Join(t.TempDir(), "x.svg")
	for _, c := range []struct {
		name string
		line []string
		want int
	}{
		{"a reading", []string{"read", "A1", "D1", "D3"}, Done},
		{"a reading of no polygon is a reading", []string{"read", "A1", "D1"}, Done},
		{"help", []string{"--help"}, Done},
		{"help of a command", []string{"find", "--help"}, Done},
		{"it fits", []string{"check", "A1 D1 D3", "sides=3"}, Done},
		{"it does not fit", []string{"check", "A1 D1 D3", "sides=4"}, No},
		{"possible", []string{"find", "kind=square"}, Done},
		{"impossible", []string{"find", "sides=3", "regular=yes"}, No},
		{"a drawing", []string{"draw", "-o", out, "A1 D1 D3"}, Done},
		{"no command", nil, Misuse},
		{"no such peg", []string{"read", "A1", "Q7"}, Misuse},
		{"no such board", []string{"read", "--board", "oval:3", "A1 B1"}, Misuse},
		{"no such condition", []string{"find", "wobbly=yes"}, Misuse},
		{"no such flag", []string{"read", "--loud", "A1 B1"}, Misuse},
		{"no such folder", []string{"draw", "-o", "no/such/folder/x.svg", "A1 B1"}, Failure},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, _, errs := run("", c.line...); got != c.want {
				t.Errorf("exit code %d, want %d; %s", got, c.want, errs)
			}
		})
	}
}

// TestMistakesHaveAMend: every misuse is one error line and one hint line.
func TestMistakesHaveAMend(t *testing.T) {
	for _, line := range [][]string{
		{},
		{"read"},
		{"read", "A1"},
		{"read", "A1 B1 A1"},
		{"read", "A1 B9"},
		{"read", "A1 B1 /"},
		{"read", "--board", "square:1x1", "A1"},
		{"read", "--board", "ring:99", "1"},
		{"read", "--board", "ring:12+center", "1 2"},
		{"check", "A1 B1 B2"},
		{"check", "A1 B1 B2", "sides"},
		{"check", "A1 B1 B2", "sides=many"},
		{"check", "A1 B1 B2", "kind=wobbly"},
		{"find", "sides=3", "sides=4"},
		{"find", "--examples=5000", "sides=3"},
		{"find", "--limit=-1s", "sides=3"},
		{"find", "--draw=x.jpg", "sides=3"},
		{"draw", "-o", "x", "A1 B1"},
		{"tour", "-o", "x.doc"},
	} {
		code, out, errs := run("", line...)
		lines := strings.Split(strings.TrimSuffix(errs, "\n"), "\n")
		if code != Misuse || out != "" || len(lines) != 2 || !strings.HasPrefix(lines[0], "error: ") || !strings.HasPrefix(lines[1], "hint: ") {
			t.Errorf("%q: code %d, stdout %q, stderr %q", line, code, out, errs)
		}
	}
}

func TestJSONIsJSON(t *testing.T) {
	for _, line := range [][]string{
		{"read", "--json", "A1 D1 D3"},
		{"read", "--json", ""},
		{"read", "--json", "--language=es", "--board=ring:7", "1 2 3"},
		{"check", "--json", "A1 D1 D3", "sides=6"},
		{"find", "--json", "kind=square"},
		{"find", "--json", "sides=5", "regular=yes"},
	} {
		_, out, errs := run("", line...)
		var object map[string]any
		if err := json.Unmarshal([]byte(out), &object); err != nil || errs != "" {
			t.Errorf("%q: %v, stderr %q", line, err, errs)
		}
	}
}

// TestLanguagesAgree: the language changes sentences and nothing else.
func TestLanguagesAgree(t *testing.T) {
	facts := func(language string) map[string]any {
		_, out, _ := run("", "read", "--json", "--language", language, "A1 E1 C4 A4")
		var object map[string]any
		if err := json.Unmarshal([]byte(out), &object); err != nil {
			t.Fatal(err)
		}
		for _, r := range object["reasons"].([]any) {
			delete(r.(map[string]any), "text")
		}
		return object
	}
	english, _ := json.Marshal(facts("en"))
	spanish, _ := json.Marshal(facts("es"))
	if !bytes.Equal(english, spanish) {
		t.Errorf("the facts differ:\n%s\n%s", english, spanish)
	}
}

func TestColourMarksTheVerdict(t *testing.T) {
	var out bytes.Buffer
	env := Env{In: strings.NewReader(""), Out: &out, Err: io.Discard, Now: time.Now, paint: true}
	Main([]string{"check", "A1 D1 D3", "sides=3", "convex=no"}, env)
	for _, want := range []string{"\x1b[32m✓ ", "\x1b[33m✗ "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in the coloured verdict", want)
		}
	}
}

func TestProgressIsForWatchersOnly(t *testing.T) {
	if e := (Env{}); e.progress() != nil {
		t.Error("progress is shown though nobody looks")
	}
	var errs bytes.Buffer
	now := time.Unix(0, 0)
	e := Env{Err: &errs, Watched: true, Now: func() time.Time { now = now.Add(150 * time.Millisecond); return now }}
	show := e.progress()
	for i := range 4 {
		show(float64(i)/4, int64(i))
	}
	if got := strings.Count(errs.String(), "%"); got != 2 {
		t.Errorf("four calls in 0.6 s are shown %d times: %q", got, errs.String())
	}
	e.wipe()
	if !strings.HasSuffix(errs.String(), " \r") {
		t.Errorf("the line is not wiped: %q", errs.String())
	}
}

// brokenPipe fails as a closed pipe does.
type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestBrokenStreamsAreFailures(t *testing.T) {
	var errs bytes.Buffer
	for _, line := range [][]string{{"read", "A1 D1"}, {"read", "--json", "A1 D1"}, {"read", "-"}, {"check", "A1 D1 D3", "sides=3"}, {"find", "kind=square"}, {"tour", "-o", filepath.Join(t.TempDir(), "x.svg")}} {
		errs.Reset()
		code := Main(line, Env{In: strings.NewReader("A1 B1\n"), Out: brokenPipe{}, Err: &errs, Now: time.Now})
		if code != Failure || !strings.Contains(errs.String(), "error: broken pipe") {
			t.Errorf("%q: code %d, stderr %q", line, code, errs.String())
		}
	}
	errs.Reset()
	in := io.MultiReader(strings.NewReader("A1 B1\n"), iotest.ErrReader(errors.New("the disk is gone")))
	if code := Main([]string{"read", "-"}, Env{In: in, Out: io.Discard, Err: &errs, Now: time.Now}); code != Failure {
		t.Errorf("a broken input: code %d, stderr %q", code, errs.String())
	}
}

func TestSaveWritesEachKind(t *testing.T) {
	dir := t.TempDir()
	for name, start := range map[string]string{"a.svg": "<svg", "a.PDF": "%PDF-", "a.png": "\x89PNG"} {
		file := filepath.Join(dir, name)
		if code, out, errs := run("", "draw", "-o", file, "A1 D1 D3", "A1 E1 E3 A3"); code != Done || out != file+"\n" {
			t.Errorf("%s: code %d, stdout %q, stderr %q", name, code, out, errs)
		}
		data, err := os.ReadFile(file)
		if err != nil || !bytes.HasPrefix(data, []byte(start)) {
			t.Errorf("%s begins %.12q, want %q (%v)", name, data, start, err)
		}
	}
}

func TestSinglePegsAreOneFigure(t *testing.T) {
	b, err := boardFlag{"square:5x5"}.board()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		figures []string
		want    int
	}{
		{[]string{"A1", "D1", "D3"}, 1},
		{[]string{"A1", "D1", "/", "D1", "D3"}, 1},
		{[]string{"A1 D1", "D3 A5"}, 2},
		{[]string{"A1,D1", "D3,A5"}, 2},
		{[]string{""}, 1},
	} {
		got, err := drawCommand{Figures: c.figures}.readings(b)
		if err != nil || len(got) != c.want {
			t.Errorf("%q are %d figures, want %d (%v)", c.figures, len(got), c.want, err)
		}
	}
}

// TestReadmePictureIsFresh: the picture on the front page is what the program
// draws today. The last line of the failure makes it anew.
func TestReadmePictureIsFresh(t *testing.T) {
	line := []string{"draw", "-o", "docs/figures.svg", "A2 B4 D3 C1", "A1 C5 E1 C2", "A1 E1 C4 A4", "A1 E1 E3 C5 A3", "B1 D1 E2 E4 D5 B5 A4 A2", "A1 E5 E1 A5"}
	kept, err := os.ReadFile("../docs/figures.svg")
	if err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(t.TempDir(), "figures.svg")
	if code, _, errs := run("", append([]string{"draw", "-o", fresh}, line[3:]...)...); code != Done {
		t.Fatal(errs)
	}
	drawn, err := os.ReadFile(fresh)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(kept, drawn) {
		t.Errorf("docs/figures.svg is not what the program draws; go run . %s", `"`+strings.Join(line, `" "`)+`"`)
	}
}
