package cli

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"pegwright": func() { os.Exit(Main(os.Args[1:], System())) },
	})
}

// TestScripts runs testdata, which is the contract of each command.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			// A program built with the race detector sleeps for a second at
			// its end unless told otherwise.
			env.Setenv("GORACE", "atexit_sleep_ms=0")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "bytes": writeBytes,
		},
	})
}

// exits runs a command and checks its exit code: exits 2 pegwright read Z9.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND ARGS...")
	}
	err := ts.Exec(args[1], args[2:]...)
	code := "0"
	if err != nil {
		code = strings.TrimPrefix(err.Error(), "exit status ")
	}
	if code != args[0] {
		ts.Fatalf("exit code %s, want %s", code, args[0])
	}
}

// writeBytes writes a file that a script cannot hold: so many times a text, or
// text that is not UTF-8 with \xff for the bad byte.
func writeBytes(ts *testscript.TestScript, _ bool, args []string) {
	text := strings.ReplaceAll(strings.Join(args[1:], " "), `\xff`, "\xff")
	text = strings.ReplaceAll(text, `\n`, "\n")
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o644))
}

// run runs a command line in this process.
func run(in string, args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	env := Env{In: strings.NewReader(in), Out: &o, Err: &e, Now: time.Now}
	code = Main(args, env)
	return code, o.String(), e.String()
}

func TestLinesGoOnAfterEveryMistake(t *testing.T) {
	huge := strings.Repeat("A1 ", longestLine/3+10)
	in := "A1 D1 D3\r\nZZ\n\n" + huge + "\n\xff\nA1 B1 A1\n" + strings.Repeat("A1 ", 10_000) + "\nA1 E1 E3 A3"
	code, out, errs := run(in, "read", "-")
	if code != Done || errs != "" {
		t.Fatalf("code %d, stderr %q", code, errs)
	}
	want := []struct {
		status, err string
	}{
		{status: "polygon"}, {err: "no peg"}, {status: "empty"}, {err: "longer than"}, {err: "UTF-8"}, {err: "second time"}, {err: "10000 pegs"}, {status: "polygon"},
	}
	lines := bufio.NewScanner(strings.NewReader(out))
	lines.Buffer(nil, 1<<20)
	for i, w := range want {
		if !lines.Scan() {
			t.Fatalf("only %d lines", i)
		}
		var got struct {
			Status, Error string
			Line          int
		}
		if err := json.Unmarshal(lines.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		if got.Status != w.status || !strings.Contains(got.Error, w.err) || w.err != "" && got.Line != i+1 {
			t.Errorf("line %d = %+v, want %+v", i+1, got, w)
		}
	}
	if lines.Scan() {
		t.Errorf("one line too many: %s", lines.Text())
	}
}

// TestNothingPanics throws bad words at every command.
func TestNothingPanics(t *testing.T) {
	bad := []string{"", "-", "\x00", "\xff", "A", "A0", "A1", "A1 A1", "A1//B1", "/", "🟦", "A1 B1 / ", strings.Repeat("A1 ", 10_000), "--", "sides=", "=3", "sides=99999999999999999999", "ring:0"}
	for _, word := range bad {
		for _, line := range [][]string{
			{"read", word},
			{"read", "--json", word},
			{"read", "--board", word, "A1 B1"},
			{"check", word, "sides=3"},
			{"check", "A1 B1 B2", word},
			{"find", "--limit=10ms", "--board", word, "sides=3"},
			{"find", word},
			{"draw", "-o", t.TempDir() + "/x.svg", word},
			{"draw", "-o", word, "A1 B1"},
		} {
			if code, _, errs := run("", line...); code > No && !strings.HasPrefix(errs, "error: ") {
				t.Errorf("%.60q: exit code %d without a word: %q", line, code, errs)
			}
		}
	}
	os.Remove("-")
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		line string
		want []string
	}{
		{"", []string{""}},
		{"short", []string{"short"}},
		{"one two three", []string{"one two", "  three"}},
		{"unbreakablyverylong word", []string{"unbreakablyverylong", "  word"}},
		{"√2 √2 √", []string{"√2 √2 √"}},
	} {
		if got := wrap(c.line, 8); strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("wrap(%q) = %q, want %q", c.line, got, c.want)
		}
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		exact string
		value float64
		want  string
	}{
		{"3", 3, "3"},
		{"10", 10, "10"},
		{"√5", 2.2360679, "√5 ≈ 2.24"},
		{"7/2", 3.5, "7/2 ≈ 3.50"},
	} {
		if got := number(c.exact, c.value); got != c.want {
			t.Errorf("number(%q) = %q, want %q", c.exact, got, c.want)
		}
	}
}

func TestPaint(t *testing.T) {
	if got := paint(false).strong("x"); got != "x" {
		t.Errorf("without colour strong = %q", got)
	}
	if got := paint(true).yes("x"); got != "\x1b[32mx\x1b[0m" {
		t.Errorf("with colour yes = %q", got)
	}
}
