package seat

import (
	"path/filepath"
	"testing"

	"pegwright/web/asset/bundle"
)

func TestQueueInNode(t *testing.T) {
	parts, err := bundle.Parts(".", "queue")
	must(t, err)
	if out, err := bundle.Test(t.TempDir(), filepath.Join("testdata", "queue.test.mjs"), parts); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
