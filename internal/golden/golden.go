// Package golden compares what a test made with a file kept beside it.
package golden

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "write the files under testdata anew")

// Check compares got with testdata/name and fails at the first line that
// differs. With -update it writes the file instead.
func Check(t testing.TB, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		write(t, path, got)
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run the test with -update to make it", err)
	}
	if line, g, w := firstDifference(got, want); line > 0 {
		t.Errorf("%s differs at line %d:\n got %s\nwant %s\nrun the test with -update if the new one is right", path, line, g, w)
	}
}

func write(t testing.TB, path string, got []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, got, 0o644); err != nil {
		t.Fatal(err)
	}
}

// firstDifference returns the first line, from 1, that differs, and 0 when all
// are the same.
func firstDifference(got, want []byte) (line int, g, w []byte) {
	if bytes.Equal(got, want) {
		return 0, nil, nil
	}
	gots, wants := bytes.Split(got, []byte("\n")), bytes.Split(want, []byte("\n"))
	for line < len(gots) && line < len(wants) && bytes.Equal(gots[line], wants[line]) {
		line++
	}
	return line + 1, at(gots, line), at(wants, line)
}

func at(lines [][]byte, i int) []byte {
	if i < len(lines) {
		return lines[i]
	}
	return []byte("(the end)")
}
