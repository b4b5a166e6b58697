package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// rooms is the plan of the program: each room and the rooms it may import.
// ARCHITECTURE.md says what each is for; no arrow points up.
var rooms = map[string]string{
	".":                "cli",
	"internal/golden":  "",
	"internal/browser": "",
	"exact":            "",
	"board":            "exact",
	"shape":            "exact board",
	"task":             "exact board shape",
	"atlas":            "exact board shape task",
	"draw":             "board shape exact",
	"draw/svg":         "draw",
	"draw/pdf":         "draw",
	"draw/png":         "draw",
	"draw/text":        "board shape",
	"say":              "exact board shape task atlas",
	"report":           "exact board shape task atlas",
	"class":            "exact board shape task",
	"word":             "board shape task draw",
	"word/level":       "",
	"word/recall":      "word",
	"lesson/wording":   "",
	"lesson":           "board shape task atlas word lesson/wording",
	"lesson/gathering": "board shape task lesson/wording",
	"lesson/sorting":   "board shape task atlas word",
	"lesson/closing":   "board shape task atlas word lesson/sorting lesson/wording",
	"bus":              "",
	"period":           "board shape task class word word/recall lesson lesson/gathering lesson/sorting lesson/closing lesson/wording",
	"store":            "board shape task class",
	"store/storetest":  "store class shape task board",
	"web/asset":        "",
	"web/asset/build":  "web/asset",
	"web/page":         "board shape task atlas class draw draw/svg say web/asset",
	"web/pegs":         "board draw say",
	"web/live":         "bus class",
	"web/desk":         "board shape task atlas draw draw/svg say report class bus store web/page web/live web/asset web/pegs",
	"web/front":        "board shape task draw draw/svg say class bus store web/page web/live web/asset",
	"web/seat":         "board shape task draw draw/svg say report class bus store web/page web/live web/asset web/pegs",
	"web":              "board class bus store say web/page web/asset web/live web/desk web/front web/seat",
	"demo":             "board shape task atlas class store",
	"cli":              "*",
}

const module = "pegwright"

// TestRoomsImportDownward reads the sources itself: a test that asks another
// program is answered from the test cache when only the sources change.
func TestRoomsImportDownward(t *testing.T) {
	seen := map[string]bool{}
	err := filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata" || d.Name() == "node_modules") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		seen[checkFile(t, name)] = true
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for room := range rooms {
		if !seen[room] && !strings.HasPrefix(room, "internal/") {
			t.Errorf("the plan has a room %s without a file", room)
		}
	}
}

// checkFile checks the imports of a file and returns its room.
func checkFile(t *testing.T, name string) string {
	t.Helper()
	from := roomOf(path.Dir(filepath.ToSlash(name)))
	allowed, ok := rooms[from]
	if !ok {
		t.Errorf("%s: no room holds this file; add one to the plan", name)
		return from
	}
	file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	for _, spec := range file.Imports {
		imported, _ := strconv.Unquote(spec.Path.Value)
		rest, ours := strings.CutPrefix(imported, module+"/")
		if !ours {
			continue
		}
		if to := roomOf(rest); to != from && allowed != "*" && !slices.Contains(strings.Fields(allowed), to) {
			t.Errorf("%s: room %s may not import %s", name, from, to)
		}
	}
	return from
}

// roomOf returns the innermost room that holds a folder, or the folder itself
// if none does.
func roomOf(dir string) string {
	for r := dir; ; r = path.Dir(r) {
		if _, ok := rooms[r]; ok && (r != "." || dir == ".") {
			return r
		}
		if r == "." {
			return dir
		}
	}
}

// TestThePlanHasNoCircles: following the arrows always ends.
func TestThePlanHasNoCircles(t *testing.T) {
	var visit func(room string, above []string)
	visit = func(room string, above []string) {
		if slices.Contains(above, room) {
			t.Fatalf("a circle: %v", append(above, room))
		}
		for _, next := range strings.Fields(rooms[room]) {
			if next != "*" {
				visit(next, append(above, room))
			}
		}
	}
	for room := range rooms {
		visit(room, nil)
	}
}
