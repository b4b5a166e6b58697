package web

import (
	"fmt"
	"net/http"
	"runtime/debug"
	"strings"

	"pegwright/web/asset"
)

// mostBody is the most that a form may send: a class list has room many times
// over.
const mostBody = 256 << 10

// policy lets a page bring its own scripts, styles, fonts and pictures and
// nothing else. Nothing is inline: what a picture needs stands in attributes
// that are no styles.
const policy = "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"

// guarded puts the guards of every request in front of a handler.
func (s *Server) guarded(h http.Handler) http.Handler {
	origin := http.NewCrossOriginProtection()
	origin.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.sorry(w, r, http.StatusForbidden, "sorry.other_site")
	}))
	return headers(s.recovered(limited(origin.Handler(h))))
}

// headers sets what every answer has. Pages keep pupils' names out of caches;
// files that never change say so themselves.
func headers(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		out := w.Header()
		out.Set("Content-Security-Policy", policy)
		out.Set("X-Content-Type-Options", "nosniff")
		out.Set("X-Frame-Options", "DENY")
		out.Set("Referrer-Policy", "same-origin")
		out.Set("Cross-Origin-Opener-Policy", "same-origin")
		out.Set("Cross-Origin-Resource-Policy", "same-origin")
		out.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
		if !strings.HasPrefix(r.URL.Path, asset.Root) {
			out.Set("Cache-Control", "no-store")
		}
		h.ServeHTTP(w, r)
	})
}

// limited bounds what a request may send.
func limited(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		if r.Method == http.MethodPost && strings.HasPrefix(r.Header.Get("Content-Type"), "application/x-www-form-urlencoded") {
			// Read here once, so that a form too large is told so and no
			// handler takes half of one for the whole.
			if err := r.ParseForm(); err != nil {
				http.Error(w, http.StatusText(http.StatusRequestEntityTooLarge), http.StatusRequestEntityTooLarge)
				return
			}
		}
		h.ServeHTTP(w, r)
	})
}

// recovered makes a panic a page; the stack goes to the log, which holds no
// values but the panic's own type.
func (s *Server) recovered(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			v := recover()
			if v == nil {
				return
			}
			if v == http.ErrAbortHandler {
				panic(v)
			}
			s.Log.ErrorContext(r.Context(), "handler panicked", "route", r.Pattern, "type", fmt.Sprintf("%T", v), "stack", string(debug.Stack()))
			s.sorry(w, r, http.StatusInternalServerError, "sorry.ours")
		}()
		h.ServeHTTP(w, r)
	})
}
