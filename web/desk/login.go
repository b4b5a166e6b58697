package desk

import (
	"errors"
	"net/http"
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

func recoveryHash(k store.Keys) string { return k.Recovery }

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
