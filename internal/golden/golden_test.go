package golden

import "testing"

func TestFirstDifference(t *testing.T) {
	tests := []struct {
		name, got, want string
		line            int
		g, w            string
	}{
		{"both empty", "", "", 0, "", ""},
		{"the same", "a\nb\n", "a\nb\n", 0, "", ""},
		{"first line", "a\nb", "c\nb", 1, "a", "c"},
		{"last line", "a\nb", "a\nc", 2, "b", "c"},
		{"got is shorter", "a", "a\nb", 2, "(the end)", "b"},
		{"only a line end more", "a\n", "a", 2, "", "(the end)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			line, g, w := firstDifference([]byte(tt.got), []byte(tt.want))
			if line != tt.line || string(g) != tt.g || string(w) != tt.w {
				t.Errorf("firstDifference = %d, %q, %q, want %d, %q, %q", line, g, w, tt.line, tt.g, tt.w)
			}
		})
	}
}

// recorder takes a failure down instead of failing.
type recorder struct {
	testing.TB
	failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Errorf(string, ...any) { r.failed = true }

func TestCheck(t *testing.T) {
	if *update {
		t.Skip("-update writes what this test compares")
	}
	Check(t, "kept.txt", []byte("one\ntwo\n"))
	var r recorder
	Check(&r, "kept.txt", []byte("one\n2\n"))
	if !r.failed {
		t.Error("Check took a file that differs")
	}
}
