package desk

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"

	"pegwright/class"
	"pegwright/store"
	"pegwright/web/page"
)

// keyPage is a page that asks for a passphrase: the first one, the known one,
// a new one for the recovery code, or the known one again after locking.
type keyPage struct {
	page.Frame
	Kind     string // "setup", "login", "recover" or "unlock"
	Back     string
	Fault    string // what was wrong with the last try, a sentence
	Wrong    string // what to type as the recovery code again
	FromHere bool
	Shortest int
	Longest  int
}

var keyTemplate = page.Parse(files, "key.html")

func (d *Desk) keyPage(w http.ResponseWriter, r *http.Request, kind, fault string) error {
	status := http.StatusOK
	if fault != "" {
		status = http.StatusUnprocessableEntity
	}
	return d.keyPageAs(w, r, status, kind, fault)
}

func (d *Desk) keyPageAs(w http.ResponseWriter, r *http.Request, status int, kind, fault string) error {
	f := d.plainFrame(r, page.Speaker(r).Text(kind+".title"))
	return keyTemplate.Write(w, status, keyPage{
		Frame: f, Kind: kind, Back: backOf(r.FormValue("back")), Fault: fault, FromHere: fromHere(r), Shortest: shortest, Longest: longest,
	})
}

// keys returns the stored keys and whether there are any.
func (d *Desk) keys(r *http.Request) (store.Keys, bool, error) {
	k, err := d.Store.Keys(r.Context())
	if errors.Is(err, class.ErrNotFound) {
		return k, false, nil
	}
	return k, err == nil, err
}

// SetupForm asks for the first passphrase.
func (d *Desk) SetupForm(w http.ResponseWriter, r *http.Request) error {
	_, set, err := d.keys(r)
	switch {
	case err != nil:
		return err
	case set:
		return see(w, r, "/desk/login")
	case !fromHere(r):
		return page.Refuse(http.StatusForbidden, "setup.only_here")
	}
	return d.keyPage(w, r, "setup", "")
}

// Setup sets the first passphrase, from this machine only.
func (d *Desk) Setup(w http.ResponseWriter, r *http.Request) error {
	d.first.Lock() // of two first visits at once, one is the first
	defer d.first.Unlock()
	_, set, err := d.keys(r)
	switch {
	case err != nil:
		return err
	case !fromHere(r):
		return page.Refuse(http.StatusForbidden, "setup.only_here")
	case set:
		return see(w, r, "/desk/login")
	}
	return d.setPassphrase(w, r, "setup")
}

// setPassphrase stores the passphrase of a form with a new recovery code,
// begins a session, and sends the browser to the page that shows the code.
func (d *Desk) setPassphrase(w http.ResponseWriter, r *http.Request, kind string) error {
	passphrase := r.FormValue("passphrase")
	if fault := faultOf(passphrase); fault != "" {
		return d.keyPage(w, r, kind, page.Speaker(r).Text(fault, "Shortest", shortest, "Longest", longest))
	}
	code, err := newRecovery(d.Random)
	if err != nil {
		return err
	}
	keys, err := d.hashKeys(passphrase, code)
	if err != nil {
		return err
	}
	if err := d.Store.SetKeys(r.Context(), keys); err != nil {
		return err
	}
	if err := d.begin(w, r); err != nil {
		return err
	}
	show, err := newToken(d.Random)
	if err != nil {
		return err
	}
	d.fresh.put(show, code, d.Now())
	return see(w, r, "/desk/code?show="+show)
}

func (d *Desk) hashKeys(passphrase, code string) (store.Keys, error) {
	d.hashing <- struct{}{}
	defer func() { <-d.hashing }()
	p, err := hashKey(d.Random, passphrase)
	if err != nil {
		return store.Keys{}, err
	}
	c, err := hashKey(d.Random, foldRecovery(code))
	return store.Keys{Passphrase: p, Recovery: c}, err
}

// LoginForm asks for the passphrase.
func (d *Desk) LoginForm(w http.ResponseWriter, r *http.Request) error {
	_, set, err := d.keys(r)
	if err != nil {
		return err
	}
	if !set {
		return see(w, r, "/desk/setup")
	}
	if s, err := d.sessionOf(r); err == nil && !s.Locked {
		return see(w, r, backOf(r.FormValue("back")))
	}
	return d.keyPage(w, r, "login", "")
}

// Login begins a session for someone who knows the passphrase.
func (d *Desk) Login(w http.ResponseWriter, r *http.Request) error {
	return d.guess(w, r, "login", r.FormValue("passphrase"), passphraseHash, func() error {
		if err := d.begin(w, r); err != nil {
			return err
		}
		return see(w, r, backOf(r.FormValue("back")))
	})
}

func passphraseHash(k store.Keys) string { return k.Passphrase }
func recoveryHash(k store.Keys) string   { return k.Recovery }

// guess holds a secret against a stored hash and goes on if it is right. Wrong
// ones are counted, and after a few the next must wait.
func (d *Desk) guess(w http.ResponseWriter, r *http.Request, kind, secret string, of func(store.Keys) string, then func() error) error {
	keys, set, err := d.keys(r)
	if err != nil {
		return err
	}
	if !set {
		return see(w, r, "/desk/setup")
	}
	address, here := addressOf(r), fromHere(r)
	if until := d.guesses.take(address, here, d.Now()); !until.IsZero() {
		return d.tooMany(w, r, kind, until)
	}
	d.hashing <- struct{}{}
	right, err := matches(of(keys), secret)
	<-d.hashing
	if err != nil {
		return err
	}
	if !right {
		d.Log.WarnContext(r.Context(), "wrong key", "form", kind, "here", here)
		return d.keyPage(w, r, kind, page.Speaker(r).Text(kind+".wrong"))
	}
	d.guesses.right(address)
	return then()
}

// tooMany says when the next guess may be made.
func (d *Desk) tooMany(w http.ResponseWriter, r *http.Request, kind string, until time.Time) error {
	s := page.Speaker(r)
	wait := max(time.Second, until.Sub(d.Now()))
	w.Header().Set("Retry-After", itoa(int(wait/time.Second)))
	minutes := int((wait + time.Minute - 1) / time.Minute)
	fault := s.Counted("login.wait_minutes", minutes, "Clock", until.Local().Format("15:04"))
	if wait < time.Minute {
		fault = s.Counted("login.wait_seconds", int((wait+time.Second-1)/time.Second))
	}
	return d.keyPageAs(w, r, http.StatusTooManyRequests, kind, fault)
}

// RecoverForm asks for the recovery code and a new passphrase.
func (d *Desk) RecoverForm(w http.ResponseWriter, r *http.Request) error {
	_, set, err := d.keys(r)
	if err != nil {
		return err
	}
	if !set {
		return see(w, r, "/desk/setup")
	}
	return d.keyPage(w, r, "recover", "")
}

// Recover sets a new passphrase for someone who has the recovery code; the
// code is used up, and there is a new one. Every other session ends.
func (d *Desk) Recover(w http.ResponseWriter, r *http.Request) error {
	if fault := faultOf(r.FormValue("passphrase")); fault != "" {
		return d.keyPage(w, r, "recover", page.Speaker(r).Text(fault, "Shortest", shortest, "Longest", longest))
	}
	return d.guess(w, r, "recover", foldRecovery(r.FormValue("code")), recoveryHash, func() error {
		if err := d.Store.EndDeskSessions(r.Context()); err != nil {
			return err
		}
		return d.setPassphrase(w, r, "recover")
	})
}

// UnlockForm asks for the passphrase of a locked desk.
func (d *Desk) UnlockForm(w http.ResponseWriter, r *http.Request) error {
	s, err := d.sessionOf(r)
	switch {
	case errors.Is(err, class.ErrNotFound):
		return see(w, r, "/desk/login")
	case err != nil:
		return err
	case !s.Locked:
		return see(w, r, backOf(r.FormValue("back")))
	}
	return d.keyPage(w, r, "unlock", "")
}

// Unlock opens a locked desk for someone who knows the passphrase.
func (d *Desk) Unlock(w http.ResponseWriter, r *http.Request) error {
	s, err := d.sessionOf(r)
	if errors.Is(err, class.ErrNotFound) {
		return see(w, r, "/desk/login")
	}
	if err != nil {
		return err
	}
	return d.guess(w, r, "unlock", r.FormValue("passphrase"), passphraseHash, func() error {
		if err := d.Store.UnlockDeskSession(r.Context(), s.Hash); err != nil {
			return err
		}
		return see(w, r, backOf(r.FormValue("back")))
	})
}

// Lock hides the desk on this device and ends nothing.
func (d *Desk) Lock(w http.ResponseWriter, r *http.Request) error {
	s := session(r)
	if err := d.Store.LockDeskSession(r.Context(), s.Hash); err != nil {
		return err
	}
	d.away(s.Hash)
	return see(w, r, "/desk/unlock?back="+escapeBack(backOf(r.FormValue("back"))))
}

// Logout ends the session of this device.
func (d *Desk) Logout(w http.ResponseWriter, r *http.Request) error {
	s, err := d.sessionOf(r)
	if err == nil {
		err = d.Store.EndDeskSession(r.Context(), s.Hash)
		d.away(s.Hash)
	}
	if err != nil && !errors.Is(err, class.ErrNotFound) {
		return err
	}
	d.setCookie(w, r, "", -1)
	w.Header().Set("Clear-Site-Data", `"cache"`)
	return see(w, r, "/desk/login")
}

// codePage shows the recovery code, once.
type codePage struct {
	page.Frame
	Code string
	Date string
}

var codeTemplate = page.Parse(files, "code.html")

// Code shows a recovery code that was just made; it is shown once.
func (d *Desk) Code(w http.ResponseWriter, r *http.Request) error {
	code, ok := d.fresh.take(r.FormValue("show"), d.Now())
	if !ok {
		return see(w, r, "/desk")
	}
	return codeTemplate.Write(w, http.StatusOK, codePage{
		Frame: d.plainFrame(r, page.Speaker(r).Text("code.title")), Code: code, Date: d.Now().Local().Format("2006-01-02"),
	})
}

// freshCodes are recovery codes that were made and not yet shown.
type freshCodes struct {
	mu sync.Mutex
	by map[string]freshCode
}

type freshCode struct {
	code string
	made time.Time
}

// freshFor is how long a code waits to be shown.
const freshFor = 5 * time.Minute

func newFreshCodes() *freshCodes { return &freshCodes{by: map[string]freshCode{}} }

func (f *freshCodes) put(show, code string, now time.Time) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for k, c := range f.by {
		if now.Sub(c.made) > freshFor {
			delete(f.by, k)
		}
	}
	f.by[show] = freshCode{code, now}
}

func (f *freshCodes) take(show string, now time.Time) (string, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	c, ok := f.by[show]
	delete(f.by, show)
	return c.code, ok && now.Sub(c.made) <= freshFor
}

// backOf returns an address of the desk to go back to; anything else becomes
// the first page, so that nobody is sent out of the house.
func backOf(back string) string {
	u, err := url.Parse(back)
	if err != nil || u.IsAbs() || u.Host != "" || !strings.HasPrefix(u.Path, "/desk") && !strings.HasPrefix(u.Path, "/front/") ||
		strings.Contains(back, "\\") || strings.HasPrefix(back, "//") {
		return "/desk"
	}
	for _, form := range []string{"/desk/login", "/desk/unlock", "/desk/lock", "/desk/setup", "/desk/recover", "/desk/code", "/desk/logout"} {
		if u.Path == form {
			return "/desk"
		}
	}
	return u.RequestURI()
}

func escapeBack(back string) string { return url.QueryEscape(backOf(back)) }
