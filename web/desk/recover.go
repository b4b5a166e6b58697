package desk

import (
	"net/http"

	"pegwright/web/page"
)

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
