package e2e

import (
	"regexp"
	"testing"

	"pegwright/internal/browser"
)

// TestTheDemoIsAClassAtWork: what the first command of the README shows is
// alive, and a real seat works beside the simulated ones.
func TestTheDemoIsAClassAtWork(t *testing.T) {
	b := browser.Start(t)
	s := serve(t, "demo", freePort(t), t.TempDir())
	said := func(pattern string) string {
		m := regexp.MustCompile(pattern).FindStringSubmatch(s.said)
		if m == nil {
			t.Fatalf("the demo does not say %s: %s", pattern, s.said)
		}
		return m[1]
	}
	desk := b.Device(t)
	desk.Open(said(`Class now +(\S+)`))
	desk.Until(`location.pathname === "/desk/login"`)
	desk.Fill("#passphrase", said(`Passphrase +(.+)`))
	desk.Click(`form[action="/desk/login"] button.main`)
	desk.Until(`document.querySelectorAll(".tile").length === 28`)
	desk.Until(`document.querySelectorAll(".tile.moving").length > 0`)
	front := desk.Another()
	front.Size(1920, 1080)
	front.Open(said(`Front +(\S+)`))

	seat := b.Device(t)
	seat.Open(s.base + "/")
	seat.Fill("#word", said(`Room word +(\S+)`))
	seat.Click("form button.show")
	seat.Until(`location.pathname.startsWith("/room/")`)
	seat.Shot("demo-room")
	browser.Eval[bool](seat, `([...document.querySelectorAll("button[name=pupil]")].find(e => e.textContent.startsWith("Yarrow")).click(), true)`)
	ready(seat)
	seat.Tap("A1", "C1", "D2", "C3", "A3", "B2", "A1")
	show(seat)
	desk.Until(`[...document.querySelectorAll('.tile[data-standing="fits"]')].some(e => e.innerText.includes("Yarrow"))`)
	desk.Until(`document.querySelectorAll('.tile:not([data-standing="none"])').length > 8`)
	desk.Shot("demo-run")
	front.Shot("demo-front")
	desk.Click("nav.views a:not([aria-current])")
	desk.Until(`location.search.includes("figures")`)
	desk.Shot("demo-figures")
	desk.Calm("desk")
	seat.Calm("seat")
	front.Calm("front")
}
