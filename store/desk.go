package store

import (
	"context"
	"time"
)

// Keys are what opens the desk, as encoded argon2id hashes.
type Keys struct{ Passphrase, Recovery string }

// DeskSession is a browser that has given the passphrase.
type DeskSession struct {
	Locked  bool // it hides everything until the passphrase is given again
	Created time.Time
}

// SetKeys sets the keys, in the place of earlier ones.
func (s *Store) SetKeys(ctx context.Context, k Keys) error {
	return about("desk", "keys", s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, `INSERT INTO desk_keys (id, passphrase, recovery) VALUES (1, $1, $2)
			ON CONFLICT (id) DO UPDATE SET passphrase = excluded.passphrase, recovery = excluded.recovery`,
			k.Passphrase, k.Recovery)
		return err
	}))
}

// Keys returns the keys.
func (s *Store) Keys(ctx context.Context) (Keys, error) {
	k, err := one(ctx, s.reader(), func(r row) (k Keys, err error) {
		return k, r.Scan(&k.Passphrase, &k.Recovery)
	}, "SELECT passphrase, recovery FROM desk_keys WHERE id = 1")
	return k, about("desk", "keys", err)
}

// AddDeskSession adds an unlocked session by the hash of its token.
func (s *Store) AddDeskSession(ctx context.Context, tokenHash string, now time.Time) error {
	return about("desk", "session", s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, "INSERT INTO desk_session (token_hash, locked, created) VALUES ($1, $2, $3)",
			tokenHash, false, moment(now))
		return err
	}))
}

// DeskSession returns the session of a token.
func (s *Store) DeskSession(ctx context.Context, tokenHash string) (DeskSession, error) {
	d, err := one(ctx, s.reader(), func(r row) (d DeskSession, err error) {
		var created int64
		err = r.Scan(&d.Locked, &created)
		d.Created = timeAt(created)
		return d, err
	}, "SELECT locked, created FROM desk_session WHERE token_hash = $1", tokenHash)
	return d, about("desk", "session", err)
}

// LockDeskSession locks a session.
func (s *Store) LockDeskSession(ctx context.Context, tokenHash string) error {
	return s.setLocked(ctx, tokenHash, true)
}

// UnlockDeskSession unlocks a session.
func (s *Store) UnlockDeskSession(ctx context.Context, tokenHash string) error {
	return s.setLocked(ctx, tokenHash, false)
}

func (s *Store) setLocked(ctx context.Context, tokenHash string, locked bool) error {
	return about("desk", "session", s.change(ctx, func(st statements) error {
		return st.must(ctx, "UPDATE desk_session SET locked = $2 WHERE token_hash = $1", tokenHash, locked)
	}))
}

// EndDeskSession ends a session; one that is not there has ended already.
func (s *Store) EndDeskSession(ctx context.Context, tokenHash string) error {
	return about("desk", "session", s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, "DELETE FROM desk_session WHERE token_hash = $1", tokenHash)
		return err
	}))
}

// EndDeskSessions ends all sessions, as after a change of the passphrase.
func (s *Store) EndDeskSessions(ctx context.Context) error {
	return about("desk", "sessions", s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, "DELETE FROM desk_session")
		return err
	}))
}
