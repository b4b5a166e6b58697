package say

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// messages reads a message file as ids with their forms.
func messages(t *testing.T, language string) map[string][]string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("messages", language+".toml"))
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

var looksLikeID = regexp.MustCompile(`^[a-z]+(\.[a-z0-9_]*[a-z0-9])+$`)

// usedIDs collects the message ids written in the code and those that the code
// puts together from words of the kernel.
func usedIDs(t *testing.T) map[string]bool {
	t.Helper()
	used := map[string]bool{}
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, err := strconv.Unquote(lit.Value); err == nil && looksLikeID.MatchString(text) {
					used[text] = true
				}
			}
			return true
		})
	}
	for _, id := range puttogether() {
		used[id] = true
	}
	return used
}

func puttogether() []string {
	out := []string{"name.gon", "name.regular_gon", "a.gon", "a.regular_gon"}
	for _, n := range shape.AllNames() {
		out = append(out, "name."+key(string(n)), "a."+key(string(n)))
	}
	statuses := []shape.Status{
		shape.Empty, shape.Crossing, shape.Branching, shape.Touching, shape.SeveralPieces, shape.OpenPath, shape.ClosedPolygon,
	}
	for _, s := range statuses {
		out = append(out, "status."+key(string(s)))
		if s != shape.ClosedPolygon {
			out = append(out, "problem."+key(string(s)))
		}
	}
	for k := board.Acute; k <= board.Reflex; k++ {
		out = append(out, "angle."+k.String())
	}
	for _, f := range []shape.Fact{shape.FactSides, shape.FactRightAngles, shape.FactParallel, shape.FactPerpendicular, shape.FactFoldLines} {
		out = append(out, "claim."+string(f), "claim.no_"+string(f))
	}
	for _, f := range []shape.Fact{shape.FactConvex, shape.FactEquilateral, shape.FactEquiangular, shape.FactRegular} {
		out = append(out, "claim."+string(f), "claim.not_"+string(f))
	}
	for _, b := range []shape.Because{
		shape.NoCornerTurnsIn, shape.NoSquareCorner, shape.NoParallelSides, shape.NoPerpendicular, shape.AreaMeasured,
	} {
		out = append(out, "reason."+key(string(b)))
	}
	return append(out, puttogetherForTasks()...)
}

func puttogetherForTasks() []string {
	var out []string
	for _, v := range []task.Standing{task.Fits, task.Nearly, task.NotYet, task.Unfinished} {
		out = append(out, "standing."+key(string(v)))
	}
	for _, c := range comparisons {
		out = append(out, "condition."+c)
	}
	for _, p := range task.Properties() {
		if _, yes := yesNo[p]; !yes && p != task.Kind {
			out = append(out, "amount."+strings.ReplaceAll(string(p), "-", "_"))
		}
	}
	for _, op := range []task.Op{task.Move, task.Add, task.Drop} {
		out = append(out, "hint."+string(op))
	}
	for _, r := range task.Rules() {
		out = append(out, "idea."+key(string(r)))
	}
	for _, theorem := range constants("Theorem", filepath.Join("..", "atlas", "theorem.go")) {
		out = append(out, "why."+key(theorem))
	}
	return out
}

// TestMessagesAreComplete holds the files against the code: no id that is used
// is missing in a language, and none is left over.
func TestMessagesAreComplete(t *testing.T) {
	used := usedIDs(t)
	for _, language := range Languages() {
		written := messages(t, language)
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

var blank = regexp.MustCompile(`\{\{\.([A-Za-z0-9]+)\}\}`)

// TestLanguagesFillTheSameBlanks: a translation that drops a peg or a number
// says less than the original.
func TestLanguagesFillTheSameBlanks(t *testing.T) {
	english := messages(t, "en")
	for _, language := range Languages()[1:] {
		for id, forms := range messages(t, language) {
			if len(forms) != len(english[id]) {
				t.Errorf("%s: %s has %d forms, the English %d", language, id, len(forms), len(english[id]))
				continue
			}
			for i := range forms {
				if got, want := blanks(forms[i]), blanks(english[id][i]); !maps.Equal(got, want) {
					t.Errorf("%s: %s fills %v, the English fills %v", language, id, got, want)
				}
			}
		}
	}
}

func blanks(text string) map[string]bool {
	out := map[string]bool{}
	for _, m := range blank.FindAllStringSubmatch(text, -1) {
		out[m[1]] = true
	}
	return out
}

func TestPluralForms(t *testing.T) {
	cases := []struct {
		language string
		n        int
		want     string
	}{
		{"en", 1, "1 fold line"},
		{"en", 2, "2 fold lines"},
		{"en", 0, "no fold line"},
		{"es", 1, "1 eje de simetría"},
		{"es", 4, "4 ejes de simetría"},
		{"es", 0, "ningún eje de simetría"},
	}
	for _, c := range cases {
		got := In(c.language).Claim(shape.Reason{Fact: shape.FactFoldLines, Count: c.n})
		if got != c.want {
			t.Errorf("In(%q).Claim(%d fold lines) = %q, want %q", c.language, c.n, got, c.want)
		}
	}
}

func TestInFallsBackToEnglish(t *testing.T) {
	for tag, want := range map[string]string{"": "en", "xx": "en", "ES": "es", "es-MX": "es", "en-GB": "en"} {
		if got := In(tag).Language(); got != want {
			t.Errorf("In(%q).Language() = %q, want %q", tag, got, want)
		}
	}
}

func TestSpanishAndBeforeI(t *testing.T) {
	if got := In("es").list([]string{"A1", "B2", "I3"}); got != "A1, B2 e I3" {
		t.Errorf("list = %q", got)
	}
	if got := In("es").list([]string{"A1", "B2"}); got != "A1 y B2" {
		t.Errorf("list = %q", got)
	}
}
