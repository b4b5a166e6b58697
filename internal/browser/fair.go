package browser

import (
	"os"
	"path/filepath"
	"testing"
)

// fairness are the rules that a page is held against: WCAG 2.2, levels A and
// AA.
const fairness = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]})
	.then(r => r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 160) + " " + (n.failureSummary || "").replace(/\s+/g, " ").slice(0, 200)).slice(0, 3).join(" | ")))`

// Fair fails the test for everything on the page that keeps people out.
func (p *Tab) Fair(name string) {
	p.t.Helper()
	for _, f := range p.Unfair() {
		p.t.Errorf("%s: %s", name, f)
	}
}

// Unfair runs axe-core on the page and returns what keeps people out.
func (p *Tab) Unfair() []string {
	p.t.Helper()
	Eval[bool](p, axe(p.t)+"; true")
	return Eval[[]string](p, fairness)
}

// axe returns the script of axe-core, which npm has put beside the module's
// sources.
func axe(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for ; dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if script, err := os.ReadFile(filepath.Join(dir, "node_modules", "axe-core", "axe.min.js")); err == nil {
			return string(script)
		}
	}
	missing(t, "axe-core is not here; make tools installs it")
	return ""
}
