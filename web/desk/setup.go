package desk

import (
	"net/http"

	"pegwright/store"
	"pegwright/web/page"
)

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
