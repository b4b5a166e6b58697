package web_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"

	"pegwright/bus"
	real "pegwright/internal/browser"
	"pegwright/store/storetest"
)

// windows are the sizes of the desks of teachers; the last is a telephone.
var windows = [][2]int{{1366, 768}, {1920, 1080}, {820, 1180}, {390, 844}}

// teacherTab opens a desk in a real browser, as on the first visit.
func (h *house) teacherTab(t *testing.T, b *real.Browser) *real.Tab {
	h.t.Helper()
	p := b.Device(t)
	p.Open(h.url + "/desk")
	p.Fill("#passphrase", words)
	p.Click("button.main")
	p.Until(`location.pathname === "/desk/code"`)
	p.Click("a.button.main")
	p.Until(`location.pathname === "/desk"`)
	return p
}

// move puts a figure on a pupil's board, as a seat does.
func (h *house) move(sc storetest.Scene, pupil int, figure string) {
	h.live.Move(sc.Run.ID, sc.Pupils[pupil].ID, figure)
	h.say(sc, "tile-"+sc.Pupils[pupil].ID)
}

// say tells the desk of changes.
func (h *house) say(sc storetest.Scene, pieces ...string) {
	for _, piece := range pieces {
		h.hub.Publish(bus.Event{Topic: "run/" + sc.Run.ID, Piece: piece})
	}
}

// tileOf is the selector of a pupil's tile.
func tileOf(sc storetest.Scene, pupil int) string { return "#tile-" + sc.Pupils[pupil].ID }

// fits checks that nothing of a page hangs over its sides.
func fits(p *real.Tab, t *testing.T, name string) {
	t.Helper()
	for _, w := range windows {
		p.Size(w[0], w[1])
		if over := real.Eval[float64](p, "document.documentElement.scrollWidth - innerWidth"); over > 0 {
			t.Errorf("%s hangs over by %v at %d", name, over, w[0])
		}
		p.Shot(fmt.Sprintf("%s-%d", name, w[0]))
	}
	p.Size(windows[0][0], windows[0][1])
}

// TestPagesOfTheDeskAreFairToAll looks at every page of the desk and the front
// with axe-core, in two languages and at four sizes.
func TestPagesOfTheDeskAreFairToAll(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	look := func(p *real.Tab, name string) {
		t.Helper()
		p.Until(`document.readyState === "complete"`)
		if !strings.HasSuffix(name, "-es") { // the same page in other words
			p.Fair(name)
		}
		fits(p, t, name)
		p.Calm(name, "/desk/nothing", "404")
	}
	p := b.Device(t)
	p.Open(h.url + "/desk")
	look(p, "setup")
	p = h.teacherTab(t, b)
	look(p, "today-empty")
	sc := h.scene("kite", 28)
	for i, figure := range []string{"A1 C1 C3", "A1 E5 E1 A5", "A1 C3", "A1 C1 C3 A3", "A1 B1 C2 D4"} {
		h.show(sc, fmt.Sprintf("showing-of-kite-%d", i), i, figure)
	}
	h.move(sc, 5, "A1 B1")
	run := "/desk/run/" + sc.Run.ID
	for _, language := range []string{"en", "es"} {
		p.Open(h.url + "/desk")
		if language == "es" {
			p.Click("[name=language][value=es]")
			p.Until(`document.documentElement.lang === "es"`)
		}
		for name, path := range map[string]string{
			"today": "/desk", "class": "/desk/class/" + sc.Class.ID, "run": run, "figures": run + "?view=figures", "build": run + "/build",
			"impossible": run + "/build?words=x&board=square:3x3&property=sides&comparison=%3D&value=8&property=regular&comparison=%3D&value=",
			"large":      run + "/build?words=x&board=square:12x12&property=sides&comparison=%3D&value=9",
			"tap":        run + "/tap", "tap-one": run + "/tap?pupil=" + sc.Pupils[6].ID, "kept": run + "/kept", "sorry": "/desk/nothing",
			"fits": run + "/pupil/" + sc.Pupils[0].ID, "crossing": run + "/pupil/" + sc.Pupils[1].ID, "open": run + "/pupil/" + sc.Pupils[2].ID,
			"not-yet": run + "/pupil/" + sc.Pupils[3].ID, "nothing": run + "/pupil/" + sc.Pupils[7].ID,
		} {
			p.Open(h.url + path)
			look(p, name+"-"+language)
		}
	}
	tb := h.teacher()
	for kind, boards := range map[string]int{"join": 0, "task": 0, "blank": 0, "one": 1, "four": 4} {
		tb.post(run+"/front", "kind", kind)
		for i := range boards {
			tb.post(run+"/front", "add", fmt.Sprintf("showing-of-kite-%d", i))
		}
		p.Open(h.url + "/front/" + sc.Run.ID)
		look(p, "front-"+kind)
		p.Size(1024, 768)
		p.Shot("front-" + kind + "-1024")
	}
}

// TestLockByButtonAndKey locks in one tab and finds the other hidden too.
func TestLockByButtonAndKey(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	p := h.teacherTab(t, b)
	sc := h.scene("kite", 4)
	p.Open(h.url + "/desk/run/" + sc.Run.ID)
	other := p.Another()
	other.Open(h.url + "/desk")
	lock := map[string]func(){
		"button": func() { p.Click(".lock button") },
		"key": func() {
			real.Eval[bool](p, `document.dispatchEvent(new KeyboardEvent("keydown", {key: "l", altKey: true, bubbles: true}))`)
		},
	}
	for name, do := range lock {
		p.Until(`document.readyState === "complete"`)
		other.Until(`document.readyState === "complete"`)
		do()
		for _, tab := range []*real.Tab{p, other} {
			tab.Until(`location.pathname === "/desk/unlock"`)
			if text := real.Eval[string](tab, "document.body.innerText"); strings.Contains(text, sc.Pupils[0].Nickname) {
				t.Errorf("%s: a locked desk names a pupil", name)
			}
		}
		p.Shot("unlock")
		p.Fair("unlock")
		p.Fill("#passphrase", words)
		p.Keys(kb.Enter)
		p.Until(`location.pathname.startsWith("/desk/run/")`)
		other.Open(h.url + "/desk")
	}
}

// TestQuickTaskInThreeTaps counts them.
func TestQuickTaskInThreeTaps(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	p := h.teacherTab(t, b)
	sc := h.scene("kite", 4)
	p.Open(h.url + "/desk/run/" + sc.Run.ID)
	for _, tap := range []string{"#quick summary", `label[for="quick-hexagon"]`, "#quick button.main"} {
		p.Click(tap)
	}
	p.Until(`document.querySelector("#task .taskwords").textContent === "Haz un hexágono."`)
	p.Until(`document.querySelector("#task .time strong").textContent === "5 minutes left"`)
}

// TestFiltersAndFigures follows boards through the filters and the view by
// figure, live.
func TestFiltersAndFigures(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	p := h.teacherTab(t, b)
	sc := h.scene("kite", 6)
	figures := []string{"A1 C1 C3", "A1 C1 C3 A3", "A1 E5 E1 A5"}
	for i, figure := range figures {
		h.show(sc, fmt.Sprintf("showing-of-kite-%d", i), i, figure)
	}
	p.Open(h.url + "/desk/run/" + sc.Run.ID)
	for filter, want := range map[string]int{"all": 6, "fits": 1, "nearly": 1, "not-yet": 0, "unfinished": 1, "none": 3, "unlooked": 3} {
		p.Click(`label[for="show-` + filter + `"]`)
		p.Until(fmt.Sprintf(`[...document.querySelectorAll(".tile")].filter(t => t.offsetParent).length === %d`, want))
		p.Until(fmt.Sprintf(`document.querySelector('label[for="show-%s"] b').textContent === "%d"`, filter, want))
	}
	p.Open(h.url + "/desk/run/" + sc.Run.ID + "?view=figures")
	p.Until(`document.querySelectorAll(".kind").length === 2`)
	h.show(sc, "showing-of-kite-7", 3, "B1 D1 D3")
	h.say(sc, "tile-"+sc.Pupils[3].ID, "counts")
	p.Until(fmt.Sprintf(`[...document.querySelectorAll(".kind")].some(k => k.innerText.includes("2 pupils") && k.innerText.includes(%q))`, sc.Pupils[3].Nickname))
}

// TestTilesStayPut adds a pupil and moves every board; the new tile comes by
// itself, and neither the order, the focus, nor the place on the page changes.
func TestTilesStayPut(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	p := h.teacherTab(t, b)
	sc := h.scene("kite", 34)
	p.Open(h.url + "/desk/run/" + sc.Run.ID)
	tb := h.teacher()
	tb.post("/desk/class/"+sc.Class.ID+"/pupils", "nicknames", "Newcomer").sends(t, "/desk/class")
	p.Until(`[...document.querySelectorAll(".tile")].some(t => t.innerText.includes("Newcomer"))`)
	order := `[...document.querySelectorAll(".tile")].map(t => t.id).join()`
	real.Eval[bool](p, `document.querySelector("`+tileOf(sc, 20)+` a").focus(), window.scrollTo(0, 150), true`)
	before := real.Eval[string](p, order)
	for round := range 6 {
		for i := range sc.Pupils {
			h.move(sc, i, []string{"A1 B1", "A1 B1 B2", "A1 C1 B2"}[(i+round)%3])
		}
		p.Until(fmt.Sprintf(`document.querySelector("%s").innerText.includes(%q)`, tileOf(sc, 33), []string{"not closed", "3 sides", "3 sides"}[(33+round)%3]))
	}
	if after := real.Eval[string](p, order); after != before {
		t.Errorf("the order changed:\n%s\n%s", before, after)
	}
	if at := real.Eval[string](p, `document.activeElement.closest(".tile")?.id ?? ""`); "#"+at != tileOf(sc, 20) {
		t.Errorf("the focus went to %q", at)
	}
	if y := real.Eval[float64](p, "scrollY"); y != 150 {
		t.Errorf("the page scrolled to %v", y)
	}
}

// TestBuilderAnswersLive changes a row and reads the atlas's answer beside it.
func TestBuilderAnswersLive(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	p := h.teacherTab(t, b)
	sc := h.scene("kite", 2)
	p.Open(h.url + "/desk/run/" + sc.Run.ID + "/build")
	p.Until(`document.querySelector("#answer .headline")?.innerText.includes("760 truly different") && document.querySelector("[data-look]").hidden`)
	p.Fill(`.condition [name="value"]`, "3")
	p.Until(`document.querySelector("#answer .headline")?.innerText.includes("79 truly different")`)
	p.Click(`[name="more"]`)
	p.Until(`document.querySelectorAll(".condition").length === 2 && document.querySelector("[data-look]").hidden`)
	choose := func(row int, name, value string) {
		real.Eval[bool](p, fmt.Sprintf(`(() => { const s = document.querySelectorAll(".condition")[%d].querySelector("[name=%s]"); s.value = %q; return s.dispatchEvent(new Event("input", {bubbles: true})); })()`, row, name, value))
	}
	choose(1, "property", "regular")
	p.Until(`document.querySelector("#answer")?.innerText.includes("Impossible on this board")`)
	p.Shot("build-impossible-live")
	p.Fair("builder, impossible")
	p.Calm("builder")
}

// TestTwentyFiveBoardsTappedIn counts the taps that a class needs: the pegs of
// each board and one for "done", with no tap for the next tile.
func TestTwentyFiveBoardsTappedIn(t *testing.T) {
	b, h := real.Start(t), newHouse(t)
	p := h.teacherTab(t, b)
	p.Size(390, 844)
	sc := h.scene("kite", 25)
	p.Open(h.url + "/desk/run/" + sc.Run.ID + "/tap")
	p.Click(".taptiles a")
	start, taps := time.Now(), 1
	for i := range 25 {
		p.Until(fmt.Sprintf(`document.querySelectorAll(".taptiles a.in").length === %d && document.querySelector(".pegs .peg")`, i))
		pegs := []string{"A1", "C1", "C3", "A1"}
		p.Tap(pegs...)
		p.Until(`document.querySelector("[data-verdict]").innerText.startsWith("It fits")`)
		if i == 0 {
			p.Fair("tapping in")
		}
		p.Click("[data-done]")
		taps += len(pegs) + 1
	}
	p.Until(`document.querySelector(".kept")`)
	if taps != 126 {
		t.Errorf("%d taps, want 126", taps)
	}
	t.Logf("25 triangles in %d taps; the machine took %v", taps, time.Since(start).Round(time.Millisecond))
	for i, pupil := range sc.Pupils {
		if !slices.ContainsFunc(h.showings(sc), func(s string) bool { return s == pupil.ID+" A1 C1 C3" }) {
			t.Errorf("the board of pupil %d is not there", i)
		}
	}
}

// showings lists the pupils and figures of a run.
func (h *house) showings(sc storetest.Scene) (out []string) {
	h.t.Helper()
	all, err := h.store.Showings(h.t.Context(), sc.Run.ID)
	if err != nil {
		h.t.Fatal(err)
	}
	for _, s := range all {
		out = append(out, s.PupilID+" "+s.Figure)
	}
	return out
}
