package desk

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"path"
	"slices"
	"strings"
	"time"

	"pegwright/bus"
	"pegwright/class"
	"pegwright/web/live"
	"pegwright/web/page"
)

// cookie is the name of the desk's cookie.
const cookie = "pegwright_desk"

// longestSession is how long a session lasts: longer than a school day, so
// that none ends in a lesson, and shorter than the way to the next one.
const longestSession = 16 * time.Hour

// Session is a device at which someone knew the passphrase.
type Session struct {
	Hash   string // of its token
	Locked bool
}

// sessionOf returns the session of a request, or class.ErrNotFound.
func (d *Desk) sessionOf(r *http.Request) (Session, error) {
	c, err := r.Cookie(cookie)
	if err != nil || c.Value == "" {
		return Session{}, fmt.Errorf("desk session: %w", class.ErrNotFound)
	}
	hash := tokenHash(c.Value)
	found, err := d.Store.DeskSession(r.Context(), hash)
	if err != nil {
		return Session{}, err
	}
	if d.Now().Sub(found.Created) > longestSession {
		return Session{}, fmt.Errorf("desk session is old: %w", class.ErrNotFound)
	}
	return Session{Hash: hash, Locked: found.Locked}, nil
}

// sessionKey is where a request's session lies in its context.
type sessionKey struct{}

// session returns the session that Behind let in.
func session(r *http.Request) Session {
	s, _ := r.Context().Value(sessionKey{}).(Session)
	return s
}

// Behind lets a request through to a page behind the passphrase. Others are
// sent to the page where the passphrase is asked for; a locked desk shows that
// page and nothing else.
func (d *Desk) Behind(h page.Handler) page.Handler {
	return d.BehindOrLocked(func(w http.ResponseWriter, r *http.Request) error {
		if session(r).Locked {
			return d.turnAway(w, r, "/desk/unlock")
		}
		return h(w, r)
	})
}

// BehindOrLocked is Behind for what goes on while the desk is locked: the
// front, which shows nothing that the class may not see.
func (d *Desk) BehindOrLocked(h page.Handler) page.Handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		s, err := d.sessionOf(r)
		if errors.Is(err, class.ErrNotFound) {
			return d.turnAway(w, r, "/desk/login")
		}
		if err != nil {
			return err
		}
		return h(w, r.WithContext(context.WithValue(r.Context(), sessionKey{}, s)))
	}
}

// turnAway sends a page to the form that lets it in, and refuses what is no
// page of its own.
func (d *Desk) turnAway(w http.ResponseWriter, r *http.Request, form string) error {
	if r.Method == http.MethodGet && !slices.Contains(parts, path.Base(r.URL.Path)) {
		return see(w, r, form+"?back="+escapeBack(r.URL.RequestURI()))
	}
	if r.Method == http.MethodPost && strings.HasPrefix(r.Header.Get("Content-Type"), "application/x-www-form-urlencoded") {
		return see(w, r, form)
	}
	return page.Refuse(http.StatusUnauthorized, "sorry.desk_only")
}

// parts are the last words of addresses that a page asks for by itself.
var parts = []string{"stream", "pieces", "answer"}

// begin starts a session on this device.
func (d *Desk) begin(w http.ResponseWriter, r *http.Request) error {
	token, err := newToken(d.Random)
	if err != nil {
		return err
	}
	if old, err := d.sessionOf(r); err == nil {
		if err := d.Store.EndDeskSession(r.Context(), old.Hash); err != nil {
			return err
		}
	}
	if err := d.Store.AddDeskSession(r.Context(), tokenHash(token), d.Now()); err != nil {
		return err
	}
	d.setCookie(w, r, token, 0)
	return nil
}

// setCookie sets the desk's cookie, which lasts as long as the browser does.
func (d *Desk) setCookie(w http.ResponseWriter, r *http.Request, token string, age int) {
	http.SetCookie(w, &http.Cookie{
		Name: cookie, Value: token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode,
		Secure: r.TLS != nil, MaxAge: age,
	})
}

// away says to all open pages of a session that they must go.
func (d *Desk) away(hash string) { d.Bus.Publish(bus.Event{Topic: "desk/" + hash, Piece: live.Away}) }

// open returns a function that reports whether a session may still see.
func (d *Desk) open(r *http.Request) func() bool {
	s, ctx := session(r), context.WithoutCancel(r.Context())
	return func() bool {
		now, err := d.Store.DeskSession(ctx, s.Hash)
		return err == nil && !now.Locked
	}
}

// Known returns a function that reports whether the session of a request goes
// on, locked or not.
func (d *Desk) Known(r *http.Request) func() bool {
	s, ctx := session(r), context.WithoutCancel(r.Context())
	return func() bool {
		_, err := d.Store.DeskSession(ctx, s.Hash)
		return err == nil
	}
}
