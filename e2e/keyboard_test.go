package e2e

import (
	"testing"

	"github.com/chromedp/chromedp/kb"

	"pegwright/internal/browser"
)

// reach presses the tabulator until what has the focus matches a selector.
func reach(t *testing.T, p *browser.Tab, css string) {
	t.Helper()
	for range 120 {
		if browser.Eval[bool](p, "document.activeElement.matches('"+css+"')") {
			if !browser.Eval[bool](p, "(() => { const s = getComputedStyle(document.activeElement); return s.outlineStyle !== 'none' || s.boxShadow !== 'none' || document.activeElement.matches('svg *, :has(+ label)') })()") {
				t.Errorf("%s does not show that it has the focus", css)
			}
			return
		}
		p.Keys(kb.Tab)
	}
	t.Fatalf("the keyboard does not reach %s", css)
}

// TestAMakeStepByKeyboardAlone: from the first visit to a board that is seen
// at the desk no mouse is touched.
func TestAMakeStepByKeyboardAlone(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	r := s.room(0, "en")

	desk := b.Device(t)
	desk.Open(s.base + "/desk")
	desk.Until(`location.pathname === "/desk/setup"`)
	reach(t, desk, "#passphrase")
	desk.Keys(passphrase, kb.Enter)
	desk.Until(`location.pathname === "/desk/code"`)
	reach(t, desk, `a[href="/desk"]`)
	desk.Keys(kb.Enter)
	desk.Until(`location.pathname === "/desk"`)
	reach(t, desk, `a[href="/desk/run/`+r.run.ID+`"]`)
	desk.Keys(kb.Enter)
	desk.Until(`location.pathname === "/desk/run/` + r.run.ID + `"`)
	reach(t, desk, "#quick summary")
	desk.Keys(kb.Enter)
	reach(t, desk, `#quick input[name="quick"]`)
	desk.Keys(" ")
	reach(t, desk, "#quick form button.main")
	desk.Keys(kb.Enter)
	desk.Until(`document.querySelector("#task form")`)

	p := b.Device(t)
	p.Open(s.base + "/")
	reach(t, p, "#word")
	p.Keys("amber otter", kb.Enter)
	p.Until(`location.pathname.startsWith("/room/")`)
	reach(t, p, `button[value="`+r.pupils[0].ID+`"]`)
	p.Keys(kb.Enter)
	p.Until(`location.pathname === "/seat"`)
	ready(p)
	reach(t, p, ".pegs g.peg")
	p.Keys(kb.Enter, kb.ArrowRight, kb.ArrowRight, kb.ArrowRight, kb.Enter, kb.ArrowUp, kb.ArrowUp, kb.Enter,
		kb.ArrowDown, kb.ArrowDown, kb.ArrowLeft, kb.ArrowLeft, kb.ArrowLeft, kb.Enter)
	r.moved(0, "A1 D1 D3")
	if words := browser.Eval[string](p, `document.querySelector("[data-words]").textContent`); !contains(words, "D3") {
		t.Errorf("the board is not described: %q", words)
	}
	reach(t, p, "[data-show]")
	p.Keys(kb.Enter)
	p.Until(`document.querySelector("[data-answer][data-kind=kept]")`)

	r.standing(desk, 0, "fits")
	reach(t, desk, r.tile(0)+" a")
	desk.Keys(kb.Enter)
	desk.Until(`document.querySelector(".opened #reasons")`)
	reach(t, desk, `.opened button[name="add"]`)
	desk.Keys(kb.Enter)
	desk.Calm("desk")
	p.Calm("seat")
}
