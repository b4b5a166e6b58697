package draw

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"pegwright/internal/golden"
)

func TestDescriptions(t *testing.T) {
	var out bytes.Buffer
	for _, k := range slices.Concat(knownFigures, notPolygons) {
		r := read(k)
		fmt.Fprintf(&out, "%s: %s\n%s: %s\n%s\n\n", k.board, k.bands, k.name, title(r), describe(r))
	}
	golden.Check(t, "descriptions.txt", out.Bytes())
}

func TestList(t *testing.T) {
	tests := []struct {
		words []string
		want  string
	}{
		{nil, ""}, {[]string{"A1"}, "A1"}, {[]string{"A1", "B2"}, "A1 and B2"}, {[]string{"A1", "B2", "C3"}, "A1, B2 and C3"},
	}
	for _, tt := range tests {
		if got := list(tt.words); got != tt.want {
			t.Errorf("list(%v) = %q, want %q", tt.words, got, tt.want)
		}
	}
}

func TestArticle(t *testing.T) {
	for text, want := range map[string]string{"octagon": "an octagon", "13-gon": "a 13-gon", "18-gon": "an 18-gon", "square": "a square"} {
		if got := article(text); got != want {
			t.Errorf("article(%q) = %q, want %q", text, got, want)
		}
	}
}
