package seat

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"pegwright/class"
)

// fair runs axe-core on the page and reports what is wrong for WCAG 2.2 AA.
func (p *tab) fair(name string) {
	p.Helper()
	script, err := os.ReadFile(filepath.Join("..", "..", "node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		if os.Getenv("PEGWRIGHT_TEST_NODE") != "" {
			p.Fatal("axe-core is not here; run npm ci")
		}
		p.Skip("axe-core is not here; run npm ci")
	}
	eval[bool](p, string(script)+";true")
	found := waitFor[[]string](p, `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
		.then(r => r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 120)).slice(0, 3).join(" | ")))`)
	for _, f := range found {
		p.Errorf("%s: %s", name, f)
	}
}

func waitFor[T any](p *tab, js string) T {
	p.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](js, func(e *runtime.EvaluateParams) { e.AwaitPromise = new(true) }))
	if err != nil {
		p.Fatal(err)
	}
	return v
}

func TestPagesAreFairToAll(t *testing.T) {
	r := newRoom(t, "en")
	p := r.tab(browser(t))
	p.open("/")
	p.fair("join")
	p.do(chromedp.SendKeys(chromedp.CSS("#word"), "wrong word\r"))
	p.until(`document.querySelector("#wrong")`)
	p.fair("wrong word")
	p.shot("join-390-wrong")
	hangUp := r.sitting(3).listen(3)
	defer hangUp()
	p.open("/room/" + r.run.ID + "?word=amber-otter")
	p.fair("tiles")
	p.shot("room-390-taken")
	p.sit(0)
	p.fair("wait")
	p.shot("wait-390")
	r.set("task-triangle-0001", func(t *class.Task) { t.Minutes, t.Model = 5, "A1 B2 C1" })
	p.until(`document.querySelector(".pegs")`)
	p.fair("empty board")
	p.tap("A1", "D1", "D3")
	p.fair("open band")
	p.tap("A1")
	p.click("[data-show]")
	p.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	p.fair("shown")
	p.tap("D3", "E4")
	p.click("details.keys summary")
	p.fair("help")
	p.do(chromedp.ScrollIntoView(chromedp.CSS("details.keys li:last-child")))
	p.shot("seat-390-help")
	if small := eval[[]string](p, `[...document.querySelectorAll("button, a, summary, input")].filter(e => { const r = e.getBoundingClientRect(); return r.width && (r.height < 44 || r.width < 44) }).map(e => e.textContent)`); len(small) > 0 {
		t.Errorf("smaller than 44 px: %q", small)
	}
	p.size(320, 640)
	if wide := eval[int](p, "document.documentElement.scrollWidth"); wide > 320 {
		t.Errorf("at 320 px the page is %d px wide", wide)
	}
}

// TestUsableOnASlowDevice opens the board six times slower than this machine
// and says how long it takes from the request to the first peg that can be
// tapped: the best of a few, since other tests may want the processor too.
func TestUsableOnASlowDevice(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", nil)
	p := r.tab(browser(t))
	p.sit(0)
	p.slow(6)
	best := time.Hour
	for range 3 {
		p.open("/seat")
		p.until(`performance.getEntriesByName("board").length`)
		best = min(best, time.Duration(eval[float64](p, `performance.getEntriesByName("board")[0].startTime`)*1e6))
	}
	t.Logf("usable after %v", best)
}
