package browser

import (
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Point is a place in the window.
type Point struct{ X, Y float64 }

// Click clicks the first element of a selector. A live page may replace an
// element between the look and the click; then it is looked for again.
func (p *Tab) Click(css string) {
	p.t.Helper()
	for range 5 {
		err := chromedp.Do(p.ctx, chromedp.Click(chromedp.CSS(css)))
		if err == nil {
			return
		}
		if !strings.Contains(err.Error(), "node") {
			p.t.Fatalf("click %s: %v; the page: %s", css, err, p.text())
		}
	}
	p.t.Fatalf("%s never holds still; the page: %s", css, p.text())
}

// Fill types into a field.
func (p *Tab) Fill(css, text string) {
	p.t.Helper()
	Eval[string](p, fmt.Sprintf(`document.querySelector(%q).value = ""`, css))
	p.Do(chromedp.SendKeys(chromedp.CSS(css), text))
}

// Keys presses keys one after another: letters, or those of package kb.
func (p *Tab) Keys(keys ...string) {
	p.t.Helper()
	for _, k := range keys {
		p.Do(chromedp.KeyEvent(k))
	}
}

// mouse sends one event of the left button.
func (p *Tab) mouse(kind input.DispatchMouseEventType, at Point) {
	p.t.Helper()
	call(p, input.DispatchMouseEvent, input.DispatchMouseEventParams{
		Type: kind, X: at.X, Y: at.Y, Button: input.MouseButtonLeft, ClickCount: 1,
	})
}

// TapAt taps a place.
func (p *Tab) TapAt(at Point) {
	p.t.Helper()
	p.mouse(chromedp.MousePressed, at)
	p.mouse(chromedp.MouseReleased, at)
}

// Drag pulls from one place to another.
func (p *Tab) Drag(from, to Point) {
	p.t.Helper()
	p.mouse(chromedp.MousePressed, from)
	for i := range 4 {
		k := float64(i+1) / 4
		p.mouse(chromedp.MouseMoved, Point{from.X + (to.X-from.X)*k, from.Y + (to.Y-from.Y)*k})
	}
	p.mouse(chromedp.MouseReleased, to)
}

// Peg returns where a peg of the page's board lies, in whatever language the
// page calls it.
func (p *Tab) Peg(name string) Point {
	p.t.Helper()
	return Eval[Point](p, fmt.Sprintf(`(() => {
		const peg = [...document.querySelectorAll(".pegs g.peg")].find(g => new RegExp("\\s" + %q + "(,|$)").test(g.getAttribute("aria-label")));
		const r = peg.querySelector(".ring").getBoundingClientRect();
		return {X: r.x + r.width / 2, Y: r.y + r.height / 2};
	})()`, name))
}

// Tap taps pegs one after another.
func (p *Tab) Tap(pegs ...string) {
	p.t.Helper()
	for _, name := range pegs {
		p.TapAt(p.Peg(name))
	}
}
