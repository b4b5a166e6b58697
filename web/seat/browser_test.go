package seat

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// chromium is one browser for all tests; every device has cookies of its own.
var chromium struct {
	once sync.Once
	ctx  context.Context
	err  error
	stop []func()
}

func TestMain(m *testing.M) {
	code := m.Run()
	for i := len(chromium.stop) - 1; i >= 0; i-- {
		chromium.stop[i]()
	}
	os.Exit(code)
}

// browser returns the browser, or skips the test where there is none and none
// is demanded.
func browser(t *testing.T) context.Context {
	t.Helper()
	if _, err := exec.LookPath("chromium"); err != nil {
		if os.Getenv("PEGWRIGHT_TEST_BROWSER") != "" {
			t.Fatal("chromium is not on this machine")
		}
		t.Skip("chromium is not on this machine")
	}
	chromium.once.Do(startChromium)
	must(t, chromium.err)
	return chromium.ctx
}

func startChromium() {
	c := &chromium
	dir, err := os.MkdirTemp("", "pegwright-chromium")
	if err != nil {
		c.err = err
		return
	}
	c.stop = append(c.stop, func() { _ = os.RemoveAll(dir) })
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath("chromium"), chromedp.UserDataDir(dir),
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.Flag("disable-quic", true), chromedp.NoFirstRun,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	c.stop = append(c.stop, cancel)
	c.ctx, cancel = chromedp.NewContext(ctx)
	c.stop = append(c.stop, cancel)
	c.err = chromedp.Do(c.ctx)
}

// tab is a page of a device in a browser.
type tab struct {
	*room
	ctx context.Context
}

// tab opens a page with cookies of its own.
func (r *room) tab(ctx context.Context) *tab {
	r.Helper()
	own, cancel := chromedp.NewContext(ctx, chromedp.WithNewBrowserContext())
	r.Cleanup(cancel)
	own, stop := context.WithTimeout(own, 60*time.Second)
	r.Cleanup(stop)
	p := &tab{r, own}
	p.size(390, 844)
	return p
}

// another opens a second tab on the same device.
func (p *tab) another() *tab {
	p.Helper()
	ctx, cancel := chromedp.NewContext(p.ctx)
	p.Cleanup(cancel)
	q := &tab{p.room, ctx}
	q.size(390, 844)
	return q
}

func (p *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.Fatal(err)
	}
}

func (p *tab) size(w, h int) {
	p.Helper()
	p.do(chromedp.EmulateViewport(int64(w), int64(h)))
}

func (p *tab) open(path string) { p.Helper(); p.do(chromedp.Navigate(p.server.URL + path)) }

// sit joins and takes a pupil's place.
func (p *tab) sit(pupil int) {
	p.Helper()
	p.open("/room/" + p.run.ID + "?word=amber-otter")
	p.click(`button[value="` + p.pupils[pupil].ID + `"]`)
	p.until(`location.pathname === "/seat" && document.readyState === "complete"`)
}

func (p *tab) click(css string) { p.Helper(); p.do(chromedp.Click(chromedp.CSS(css))) }

// until waits until an expression is true on the page.
func (p *tab) until(js string) {
	p.Helper()
	deadline := time.Now().Add(10 * time.Second)
	for time.Now().Before(deadline) {
		if ok, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool]("!!("+js+")")); err == nil && ok {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	p.shot("failed")
	p.Fatalf("never came true: %s; the page says: %s", js, eval[string](p, "document.body.innerText"))
}

func eval[T any](p *tab, js string) T {
	p.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](js))
	if err != nil {
		p.Fatalf("%s: %v", js, err)
	}
	return v
}

type point struct{ X, Y float64 }

// peg returns where a peg lies on the screen.
func (p *tab) peg(name string) point {
	p.Helper()
	return eval[point](p, `(() => { const g = [...document.querySelectorAll(".pegs g.peg")].find(g => (g.getAttribute("aria-label")+",").startsWith("peg `+name+`,"));
		const r = g.querySelector(".ring").getBoundingClientRect(); return {X: r.x + r.width/2, Y: r.y + r.height/2} })()`)
}

func (p *tab) mouse(kind input.DispatchMouseEventType, at point) {
	p.Helper()
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, input.DispatchMouseEvent, input.DispatchMouseEventParams{
			Type: kind, X: at.X, Y: at.Y, Button: input.MouseButtonLeft, ClickCount: 1,
		})
		return err
	}))
}

// tap taps a place on the screen.
func (p *tab) tapAt(at point) {
	p.Helper()
	p.mouse(chromedp.MousePressed, at)
	p.mouse(chromedp.MouseReleased, at)
}

func (p *tab) tap(pegs ...string) {
	p.Helper()
	for _, name := range pegs {
		p.tapAt(p.peg(name))
	}
}

// drag pulls from one place to another.
func (p *tab) drag(from, to point) {
	p.Helper()
	p.mouse(chromedp.MousePressed, from)
	for i := 1; i <= 4; i++ {
		k := float64(i) / 4
		p.mouse(chromedp.MouseMoved, point{from.X + (to.X-from.X)*k, from.Y + (to.Y-from.Y)*k})
	}
	p.mouse(chromedp.MouseReleased, to)
}

func (p *tab) key(keys ...string) {
	p.Helper()
	for _, k := range keys {
		p.do(chromedp.KeyEvent(k))
	}
}

// figure waits until the server knows of a figure.
func (p *tab) figure(pupil int, want string) {
	p.Helper()
	var got string
	for range 300 {
		if got = p.live.Figure(p.run.ID, p.pupils[pupil].ID); got == want {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	p.Fatalf("the server has %q, want %q", got, want)
}

// slow makes the device so many times slower.
func (p *tab) slow(times float64) {
	p.Helper()
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: times})
		return err
	}))
}

// shot keeps a picture of the page, when the folder of PEGWRIGHT_SHOTS is set.
func (p *tab) shot(name string) {
	p.Helper()
	dir := os.Getenv("PEGWRIGHT_SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.Fatal(err)
	}
	must(p.T, os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644))
}

var focusFirst = chromedp.Focus(chromedp.CSS(`.pegs g.peg[tabindex="0"]`))

// The arrow keys, as chromedp sends them.
const (
	left, up, right, down = kb.ArrowLeft, kb.ArrowUp, kb.ArrowRight, kb.ArrowDown
)

// shown returns the figure on the page, as its words tell it.
func (p *tab) shown() string {
	p.Helper()
	return eval[string](p, `[...document.querySelector("[data-words]").textContent.matchAll(/: ([A-Z0-9, ]+)\./g)].map(m => m[1].replaceAll(",", "")).join(" / ")`)
}

func (p *tab) finger(kind input.DispatchTouchEventType, at ...point) {
	p.Helper()
	points := []*input.TouchPoint{}
	for _, a := range at {
		points = append(points, &input.TouchPoint{X: a.X, Y: a.Y})
	}
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
		return err
	}))
}

// touch taps with a finger.
func (p *tab) touch(at point) {
	p.Helper()
	p.finger(input.DispatchTouchEventTypeTouchStart, at)
	p.finger(input.DispatchTouchEventTypeTouchEnd)
}

// swipe drags with a finger.
func (p *tab) swipe(from, to point) {
	p.Helper()
	p.finger(input.DispatchTouchEventTypeTouchStart, from)
	for i := 1; i <= 4; i++ {
		k := float64(i) / 4
		p.finger(input.DispatchTouchEventTypeTouchMove, point{from.X + (to.X-from.X)*k, from.Y + (to.Y-from.Y)*k})
	}
	p.finger(input.DispatchTouchEventTypeTouchEnd)
}
