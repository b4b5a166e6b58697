package pegs

import (
	"path/filepath"
	"testing"

	"pegwright/web/asset/bundle"
)

func TestStateInNode(t *testing.T) {
	parts, err := bundle.Parts(".", "state", "hand")
	if err != nil {
		t.Fatal(err)
	}
	if out, err := bundle.Test(t.TempDir(), filepath.Join("testdata", "state.test.mjs"), parts); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
