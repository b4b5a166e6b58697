package desk

import (
	"errors"
	"net/http"

	"pegwright/class"
)

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
