// Package browser drives a real browser for tests: devices with cookies of
// their own, fingers and keys, a network that can be cut, what the page
// complains of, and whether it is fair to all.
//
// Start at Start and Browser.Device.
package browser

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Browser is a headless Chromium.
type Browser struct{ ctx context.Context }

// names are the programs that will do, the first found is taken.
var names = []string{"chromium", "chromium-browser", "google-chrome", "chrome"}

// Path returns where Chromium is, "" for nowhere.
func Path() string {
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path
		}
	}
	return ""
}

// Start starts Chromium with a profile of its own for one test. Where there is
// none the test is skipped, but with CI=true it fails.
func Start(t *testing.T) *Browser {
	t.Helper()
	path := Path()
	if path == "" {
		missing(t, "Chromium is not on this machine; make tools installs it")
	}
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]),
		chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		// A page in the back would be slowed down; here every page is looked at.
		chromedp.Flag("disable-background-timer-throttling", true), chromedp.Flag("disable-renderer-backgrounding", true))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("starting Chromium: %v", err)
	}
	return &Browser{ctx}
}

// missing skips a test that needs what is not here, or fails it where
// everything has to be.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// Tab is a page in the browser.
type Tab struct {
	t   *testing.T
	ctx context.Context

	mu     sync.Mutex
	faults []string
}

// lifetime bounds what a test may do with one tab.
const lifetime = 4 * time.Minute

// Device opens a page with cookies and storage of its own.
func (b *Browser) Device(t *testing.T) *Tab {
	t.Helper()
	return open(t, b.ctx, chromedp.WithNewBrowserContext())
}

// Another opens a second page on the same device.
func (p *Tab) Another() *Tab {
	p.t.Helper()
	return open(p.t, p.ctx)
}

func open(t *testing.T, parent context.Context, options ...chromedp.ContextOption) *Tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(parent, options...)
	t.Cleanup(cancel)
	ctx, stop := context.WithTimeout(ctx, lifetime)
	t.Cleanup(stop)
	p := &Tab{t: t, ctx: ctx}
	if err := chromedp.Listen(ctx, p.heard); err != nil {
		t.Fatalf("opening a page: %v", err)
	}
	p.Size(1366, 768)
	return p
}

// heard notes what the page complains of.
func (p *Tab) heard(event any) {
	fault := ""
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		fault = "exception: " + e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			fault += " " + e.ExceptionDetails.Exception.Description
		}
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeAssert {
			fault = fmt.Sprintf("console: %v", values(e.Args))
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError {
			fault = fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL)
		}
	}
	if fault != "" {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.faults = append(p.faults, fault)
	}
}

func values(args []*runtime.RemoteObject) (out []string) {
	for _, a := range args {
		out = append(out, string(a.Value)+a.Description)
	}
	return out
}

// Faults returns what the page complained of since it was asked last: errors
// on the console, exceptions, files that did not come, and what the content
// security policy kept out.
func (p *Tab) Faults() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	out := p.faults
	p.faults = nil
	return out
}

// Calm fails the test if the page complained of anything, of these words
// excepted.
func (p *Tab) Calm(name string, except ...string) {
	p.t.Helper()
	for _, f := range p.Faults() {
		if !slices.ContainsFunc(except, func(e string) bool { return strings.Contains(f, e) }) {
			p.t.Errorf("%s: %s", name, f)
		}
	}
}

// Size sets the size of the window in CSS pixels.
func (p *Tab) Size(width, height int) {
	p.t.Helper()
	p.Do(chromedp.EmulateViewport(int64(width), int64(height)))
}

// Open opens an address and waits until the page is there.
func (p *Tab) Open(address string) { p.t.Helper(); p.Do(chromedp.Navigate(address)) }

// Do runs actions that must succeed.
func (p *Tab) Do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.t.Fatalf("%v; the page: %s", err, p.text())
	}
}

// Until waits until an expression is true on the page.
func (p *Tab) Until(js string) {
	p.t.Helper()
	for deadline := time.Now().Add(30 * time.Second); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		// While one page makes way for the next an expression may fail.
		if ok, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool]("!!("+js+")")); err == nil && ok {
			return
		}
	}
	p.Shot("failed-" + p.t.Name())
	p.t.Fatalf("never came true: %s; the page: %s", js, p.text())
}

// text returns what the page says, for a failure.
func (p *Tab) text() string {
	text, _ := chromedp.Run(p.ctx, chromedp.Evaluate[string]("location.pathname + ': ' + document.body.innerText.slice(0, 800)"))
	return text
}

// Eval returns the value of an expression on the page.
func Eval[T any](p *Tab, js string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%.200s: %v", js, err)
	}
	return v
}

// call sends a command of the protocol.
func call[P, R any](p *Tab, command cdp.Command[P, R], params P) {
	p.t.Helper()
	p.Do(func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, t, command, params)
		return chromedp.Void{}, err
	})
}

// Cut takes the page's network away, or gives it back.
func (p *Tab) Cut(yes bool) {
	p.t.Helper()
	call(p, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{{Offline: yes, DownloadThroughput: -1, UploadThroughput: -1}},
	})
	call(p, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: yes, DownloadThroughput: -1, UploadThroughput: -1})
}

// Slow makes the device so many times slower.
func (p *Tab) Slow(times float64) {
	p.t.Helper()
	call(p, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: times})
}

// Shot keeps a picture of the page, when PEGWRIGHT_SHOTS names a folder.
func (p *Tab) Shot(name string) {
	p.t.Helper()
	folder := os.Getenv("PEGWRIGHT_SHOTS")
	if folder == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.t.Logf("no picture of %s: %v", name, err)
		return
	}
	if err := os.WriteFile(folder+"/"+strings.ReplaceAll(name, "/", "-")+".png", png, 0o644); err != nil {
		p.t.Error(err)
	}
}
