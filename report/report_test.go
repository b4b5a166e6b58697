package report_test

import (
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/report"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
)

func reading(boardText, figure string) report.Reading {
	b := board.MustParse(boardText)
	return report.Of(shape.Read(board.MustParseFigure(b, figure), shape.Definitions{}), say.In("en"))
}

// fields turns a report into what a reader of the JSON sees.
func fields(t *testing.T, v any) map[string]any {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestPolygon(t *testing.T) {
	got := fields(t, reading("square:5x5", "A1 E1 C4 A4"))
	want := map[string]any{
		"board": "square:5x5", "figure": "A1 E1 C4 A4", "status": "polygon", "side_count": 4.0,
		"best_name": "right trapezoid", "convex": true, "regular": false, "right_angles": 2.0,
		"parallel_pairs": 1.0, "perpendicular_pairs": 2.0, "fold_lines": 0.0, "turn_order": 1.0,
		"area": "9", "area_value": 9.0, "perimeter": "9 + √13", "pegs_inside": 5.0, "pegs_on_edge": 10.0,
		"segments": nil, "pairs": nil,
	}
	for name, value := range want {
		if !reflect.DeepEqual(got[name], value) {
			t.Errorf("%s = %v, want %v", name, got[name], value)
		}
	}
	angles := got["angles"].([]any)
	if a := angles[1].(map[string]any); a["at"] != "E1" || a["kind"] != "acute" || a["degrees"] != 56.3 {
		t.Errorf("angles[1] = %v", a)
	}
	side := got["sides"].([]any)[1].(map[string]any)
	if side["from"] != "E1" || side["to"] != "C4" || side["length"] != "√13" {
		t.Errorf("sides[1] = %v", side)
	}
	if len(got["problems"].([]any)) != 0 || len(got["reasons"].([]any)) == 0 {
		t.Errorf("problems = %v, reasons = %v", got["problems"], got["reasons"])
	}
}

// polygonOnly are the fields of the documented list that are null for any
// other figure.
var polygonOnly = []string{
	"sides", "side_count", "names", "best_name", "convex", "equilateral", "equiangular", "regular", "likeness",
	"right_angles", "parallel_pairs", "perpendicular_pairs", "fold_lines", "turn_order", "area", "area_value",
	"perimeter", "perimeter_value", "pegs_inside", "pegs_on_edge", "side_spread", "angle_spread", "equal_sides",
	"parallels", "perpendiculars", "folds", "reasons",
}

func TestOtherFiguresHaveNull(t *testing.T) {
	for figure, status := range map[string]string{
		"": "empty", "A1 D1 / D1 D3": "open path", "A1 E5 E1 A5": "crossing", "A1 B1 B2 / B2 C2 C3": "touching",
		"A1 B1 B2 / D4 E4 E5": "several pieces", "A1 E1 / C1 C3": "branching",
	} {
		got := fields(t, reading("square:5x5", figure))
		if got["status"] != status {
			t.Errorf("%q: status = %v, want %s", figure, got["status"], status)
		}
		for _, name := range polygonOnly {
			if value, there := got[name]; !there || value != nil {
				t.Errorf("%q: %s = %v, want null", figure, name, value)
			}
		}
		for _, name := range []string{"problems", "corners", "passed_over", "angles", "segments", "pairs"} {
			if _, list := got[name].([]any); !list {
				t.Errorf("%q: %s = %v, want a list", figure, name, got[name])
			}
		}
	}
}

func TestPolygonHasNoNullBesides(t *testing.T) {
	for _, f := range [][2]string{{"square:5x5", "A1 D1 D3"}, {"ring:12+centre", "1 4 O"}, {"triangle:5", "A1 E1 A5"}} {
		for name, value := range fields(t, reading(f[0], f[1])) {
			if value == nil && name != "segments" && name != "pairs" {
				t.Errorf("%v: %s is null", f, name)
			}
		}
	}
}

func TestLikenessOneIsRegular(t *testing.T) {
	if got := *reading("ring:36", "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36").Likeness; got != 1 {
		t.Errorf("likeness of the regular 36-gon = %v", got)
	}
	if got := *reading("square:12x12", "A1 L1 L12 A12").Likeness; got != 1 {
		t.Errorf("likeness of a square = %v", got)
	}
	if got := *reading("square:12x12", "A1 L1 L12 A11").Likeness; got >= 1 {
		t.Errorf("likeness of a near square = %v", got)
	}
}

func TestVerdictAndAnswer(t *testing.T) {
	b := board.MustParse("square:5x5")
	j := task.Task{Board: b, Conditions: task.MustParse("sides=6")}
	v := report.OfVerdict(j.Judge(board.MustParseFigure(b, "A1 C1 C3")), say.In("en"))
	if v.Standing != "not yet" || len(v.Results) != 1 || v.Results[0].Actual != "3 sides" || v.Ideas[0].Rule != "counted pegs" {
		t.Errorf("verdict = %+v", v)
	}
	near := task.Task{Board: b, Conditions: task.MustParse("kind=square")}
	if h := report.OfVerdict(near.Judge(board.MustParseFigure(b, "A1 C1 C3 A4")), say.In("en")).Hint; h == nil || h.Op != "move" || h.Beside != "" || h.After == "" {
		t.Errorf("hint = %+v", h)
	}
	q := atlas.Question{Board: b, Conditions: task.MustParse("kind=square"), Examples: 2}
	a, err := atlas.Find(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	if got := report.OfAnswer(q, a, say.In("en")); got.Count != 50 || got.Why != nil || *got.Examples[0].BestName != "square" {
		t.Errorf("answer = %+v", got)
	}
}

// TestEveryFieldIsDocumented holds docs/json.md against the structs.
func TestEveryFieldIsDocumented(t *testing.T) {
	page, err := os.ReadFile("../docs/json.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]bool{}
	section := ""
	for _, line := range strings.Split(string(page), "\n") {
		if name, ok := strings.CutPrefix(line, "## "); ok {
			section = name
		}
		if cells := strings.Split(line, "|"); len(cells) > 3 && strings.Contains(cells[1], "`") {
			rows[section+" "+strings.Trim(strings.TrimSpace(cells[1]), "`")] = true
		}
	}
	structs := []any{
		report.Reading{},
		report.Side{},
		report.Angle{},
		report.Problem{},
		report.Place{},
		report.Pair{},
		report.Fold{},
		report.Reason{},
		report.Mistake{},
		report.Verdict{},
		report.Result{},
		report.Hint{},
		report.Idea{},
		report.Answer{},
		report.Found{},
		report.Missed{},
		report.Ground{},
	}
	for _, s := range structs {
		typ := reflect.TypeOf(s)
		for i := range typ.NumField() {
			row := typ.Name() + " " + typ.Field(i).Tag.Get("json")
			if !rows[row] {
				t.Errorf("docs/json.md does not have %s", row)
			}
			delete(rows, row)
		}
	}
	for row := range rows {
		t.Errorf("docs/json.md has %s, which is not there", row)
	}
}
