package seat

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"pegwright/bus"
	"pegwright/class"
)

// unplug cuts every device off, or joins them again.
func (r *room) unplug(yes bool) {
	r.down.Store(yes)
	if yes {
		r.server.CloseClientConnections()
	}
}

func (p *tab) kept(n int) []class.Showing {
	p.Helper()
	for range 1500 {
		all, err := p.store.Showings(context.Background(), p.run.ID)
		must(p.T, err)
		if len(all) >= n {
			return all
		}
		time.Sleep(10 * time.Millisecond)
	}
	p.Fatalf("never kept %d showings", n)
	return nil
}

func TestNetworkThatDropsLosesNothing(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", nil)
	p := r.tab(browser(t))
	p.sit(0)
	p.tap("A1", "D1", "D3", "A1")
	p.figure(0, "A1 D1 D3")
	r.unplug(true)
	p.click("[data-show]")
	p.until(`document.querySelector("[data-answer]").textContent.includes("Saved here")`)
	p.until(`!document.querySelector("[data-lost]").hidden`)
	p.tap("D3", "E5")
	p.click("[data-show]")
	p.shot("seat-390-offline")
	r.unplug(false)
	p.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	all := p.kept(2)
	if all[0].Figure != "A1 D1 D3" || all[1].Figure != "A1 D1 E5" {
		t.Errorf("kept %+v", all)
	}
	p.figure(0, "A1 D1 E5")
	p.until(`document.querySelector("[data-lost]").hidden`)
}

func TestReloadBringsTheBoardBack(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", nil)
	p := r.tab(browser(t))
	p.sit(0)
	p.tap("A1", "D1", "D3", "A1")
	p.figure(0, "A1 D1 D3")
	p.open("/seat")
	p.until(`document.querySelector("[data-words]")?.textContent.includes("A1, D1, D3")`)
	p.click("[data-do=undo]")
	p.figure(0, "A1 D1")
	// A showing that was not sent before the page went is sent after it came back.
	p.tap("D3", "A1")
	p.figure(0, "A1 D1 D3")
	eval[bool](p, `(window.fetch = () => new Promise(() => {}), document.querySelector("[data-show]").click(), true)`)
	p.open("/seat")
	if all := p.kept(1); all[0].Figure != "A1 D1 D3" {
		t.Errorf("kept %+v", all)
	}
	p.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	// Another device of the same pupil begins where the first one was.
	p.open("/")
	for r.live.Connected(r.run.ID, r.pupils[0].ID) > 0 {
		time.Sleep(time.Millisecond)
	}
	q := r.tab(p.ctx)
	q.sit(0)
	q.until(`document.querySelector("[data-words]").textContent.includes("A1, D1, D3")`)
	q.until(`document.querySelector("[data-answer][data-kind=kept]")`)
}

func TestTwoTabsOfOneSeatConverge(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", nil)
	p := r.tab(browser(t))
	p.sit(0)
	q := p.another()
	q.open("/seat")
	q.until(`document.querySelector(".pegs")`)
	for r.live.Connected(r.run.ID, r.pupils[0].ID) < 2 {
		time.Sleep(time.Millisecond)
	}
	p.tap("A1", "D1", "D3", "A1")
	q.until(`document.querySelector("[data-words]").textContent.includes("A1, D1, D3")`)
	q.tap("D3", "E5")
	p.until(`document.querySelector("[data-words]").textContent.includes("A1, D1, E5")`)
	p.click("[data-show]")
	q.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	time.Sleep(500 * time.Millisecond)
	if a, b := p.shown(), q.shown(); a != b || a != "A1 D1 E5" {
		t.Errorf("one tab has %q, the other %q", a, b)
	}
}

func TestNewTaskDoesNotTakeAnUnshownBoard(t *testing.T) {
	r := newRoom(t, "en")
	first := r.set("task-triangle-0001", nil)
	p := r.tab(browser(t))
	p.sit(0)
	p.tap("A1", "D1", "D3", "A1")
	p.figure(0, "A1 D1 D3")
	r.ahead.Store(60)
	r.set("task-square-000001", func(t *class.Task) { t.Ordinal, t.Words = 2, "Make a square." })
	p.until(`!document.querySelector("[data-later]").hidden`)
	p.shot("seat-390-new-task")
	p.click("[data-show]")
	p.until(`document.querySelector("[data-answer]").textContent.includes("after the end")`)
	if all := p.kept(1); all[0].TaskID != first.ID {
		t.Errorf("kept %+v", all)
	}
	p.click("[data-go]")
	p.until(`document.querySelector("[data-task]")?.textContent.includes("Make a square.")`)
	p.until(`document.querySelector("[data-words]").textContent.includes("empty")`)
	// An empty board goes to the next task by itself.
	r.ahead.Store(120)
	r.set("task-kite-0000001", func(t *class.Task) { t.Ordinal, t.Words = 3, "Make a kite." })
	p.until(`document.querySelector("[data-task]")?.textContent.includes("Make a kite.")`)
	// The task ends: wait for the teacher.
	must(t, r.store.EndTask(context.Background(), "task-kite-0000001", r.now()))
	r.hub.Publish(bus.Event{Topic: "seats/" + r.run.ID, Piece: "task"})
	p.until(`document.body.textContent.includes("Wait for the teacher")`)
	r.set("task-last-0000001", func(t *class.Task) { t.Ordinal, t.Words = 4, "Make anything." })
	p.until(`document.querySelector("[data-task]")?.textContent.includes("Make anything.")`)
	// Sent out: the page says so.
	must(t, r.store.FreePupil(context.Background(), r.run.ID, r.pupils[0].ID, r.now()))
	r.hub.Publish(bus.Event{Topic: "seat/" + r.run.ID + "/" + r.pupils[0].ID, Piece: "seat-" + r.pupils[0].ID})
	p.until(`document.body.textContent.includes("You are not in a room")`)
	p.shot("seat-390-out")
}

func TestWithoutStorageThePageMustStayOpen(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", nil)
	p := r.tab(browser(t))
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{
			Source: `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError") } })`,
		})
		return err
	}))
	p.sit(0)
	p.tap("A1", "D1", "D3", "A1")
	p.figure(0, "A1 D1 D3")
	r.unplug(true)
	p.click("[data-show]")
	p.until(`document.querySelector("[data-answer]").textContent.includes("Keep this page open")`)
	r.unplug(false)
	p.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	p.kept(1)
}

func TestPageRunsUnderAStrictPolicy(t *testing.T) {
	r := newRoom(t, "es")
	r.set("task-ring-00000001", func(t *class.Task) {
		t.Board, t.Words, t.MaxBands, t.Minutes, t.Model, t.Feedback = "ring:12+centre", "Haz un hexágono.", 1, 5, "1 5 9", class.CountFeedback
		t.Conditions = []string{"sides=6"}
	})
	p := r.tab(browser(t))
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{
			Source: `window.faults = []; addEventListener("error", e => faults.push(e.message)); addEventListener("securitypolicyviolation", e => faults.push(e.violatedDirective + " " + e.blockedURI))`,
		})
		return err
	}))
	p.open("/")
	p.shot("join-390")
	p.open("/room/" + r.run.ID + "?word=amber-otter")
	p.shot("room-390")
	p.size(1366, 768)
	p.shot("room-1366")
	p.size(390, 844)
	p.sit(0)
	p.until(`document.querySelector(".pegs")`)
	time.Sleep(200 * time.Millisecond)
	p.shot("seat-390-ring-es")
	p.size(820, 1180)
	p.shot("seat-820-ring-es")
	if faults := eval[[]string](p, "faults"); len(faults) > 0 {
		t.Errorf("the page has faults: %s", strings.Join(faults, "; "))
	}
	if got := eval[string](p, `[...document.fonts].filter(f => f.status === "loaded").map(f => f.family + f.weight).sort().join(" ")`); got != "Go400 Go700" {
		t.Errorf("fonts loaded: %q", got)
	}
}
