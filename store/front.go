package store

import (
	"context"

	"pegwright/class"
)

// keptFront is a row of the table of fronts.
type keptFront struct {
	runID string
	view  class.FrontView
}

func scanKeptFront(r row) (f keptFront, err error) {
	var showings string
	if err := r.Scan(&f.runID, &f.view.Kind, &showings, &f.view.Standing); err != nil {
		return f, err
	}
	return f, fromText(showings, &f.view.Showings)
}

// SetFront sets what the front of a run shows.
func (s *Store) SetFront(ctx context.Context, runID string, view class.FrontView) error {
	return about("front of run", runID, s.change(ctx, func(st statements) error {
		if _, err := one(ctx, st, value[string], "SELECT id FROM run WHERE id = $1", runID); err != nil {
			return err
		}
		return setFront(ctx, st, runID, view)
	}))
}

func setFront(ctx context.Context, st statements, runID string, view class.FrontView) error {
	_, err := st.exec(ctx, `INSERT INTO front (run_id, kind, showings, standing) VALUES ($1, $2, $3, $4)
		ON CONFLICT (run_id) DO UPDATE SET kind = excluded.kind, showings = excluded.showings, standing = excluded.standing`,
		runID, string(view.Kind), text(view.Showings), view.Standing)
	return err
}

// Front returns what the front of a run shows; before the first SetFront it is
// blank.
func (s *Store) Front(ctx context.Context, runID string) (class.FrontView, error) {
	f, err := one(ctx, s.reader(), scanKeptFront, `SELECT run.id, coalesce(front.kind, 'blank'), coalesce(front.showings, 'null'),
		coalesce(front.standing, false) FROM run LEFT JOIN front ON front.run_id = run.id WHERE run.id = $1`, runID)
	return f.view, about("front of run", runID, err)
}
