package store

import (
	"context"

	"pegwright/class"
)

const periodColumns = "run_id, plan_id, plan, state, version, updated"

func scanPeriod(r row) (p class.Period, err error) {
	var updated int64
	err = r.Scan(&p.RunID, &p.PlanID, &p.Plan, &p.State, &p.Version, &updated)
	p.Updated = timeAt(updated)
	return p, err
}

const periodVersion = "SELECT version FROM taught WHERE run_id = $1"

// AddPeriod begins a period in an open run, as version 1. A run has one period:
// when another desk was first the error is a *class.StaleError. In a run that
// has ended it is class.ErrOver.
func (s *Store) AddPeriod(ctx context.Context, p class.Period) error {
	return about("period of run", p.RunID, s.change(ctx, func(st statements) error {
		if err := holdOpenRun(ctx, st, p.RunID); err != nil {
			return err
		}
		n, err := st.exec(ctx, "INSERT INTO taught ("+periodColumns+") VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (run_id) DO NOTHING",
			p.RunID, p.PlanID, p.Plan, p.State, 1, moment(p.Updated))
		if err == nil && n == 0 {
			return staleOr(ctx, st, class.ErrNotFound, "period", periodVersion, p.RunID, 0)
		}
		return err
	}))
}

// Period returns the period of a run.
func (s *Store) Period(ctx context.Context, runID string) (class.Period, error) {
	p, err := one(ctx, s.reader(), scanPeriod, "SELECT "+periodColumns+" FROM taught WHERE run_id = $1", runID)
	return p, about("period of run", runID, err)
}

// Periods returns the periods of a class, the latest run first.
func (s *Store) Periods(ctx context.Context, classID string) ([]class.Period, error) {
	return list(ctx, s.reader(), scanPeriod, `SELECT taught.run_id, taught.plan_id, taught.plan, taught.state, taught.version, taught.updated
		FROM taught JOIN run ON run.id = taught.run_id WHERE run.class_id = $1 ORDER BY run.started DESC, run.id`, classID)
}

// SetPeriod sets the state of a period, keeps marks of words with it, both or
// neither, and returns the new version. p.Version is the one that the state was
// made from; when another desk has set it since, nothing is kept and the error
// is a *class.StaleError. Plan and PlanID stay as they are. The run may have
// ended.
func (s *Store) SetPeriod(ctx context.Context, p class.Period, marks ...class.WordMark) (version int, err error) {
	err = s.change(ctx, func(st statements) error {
		err := st.must(ctx, "UPDATE taught SET state = $3, updated = $4, version = version + 1 WHERE run_id = $1 AND version = $2",
			p.RunID, p.Version, p.State, moment(p.Updated))
		if err := staleOr(ctx, st, err, "period", periodVersion, p.RunID, p.Version); err != nil {
			return err
		}
		for _, m := range marks {
			m.RunID = p.RunID
			if err := setMark(ctx, st, m); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return 0, about("period of run", p.RunID, err)
	}
	return p.Version + 1, nil
}

// TickPeriod keeps the time that a period has used, and the version stays, so
// that a page which is open goes on being up to date. It is SetPeriod otherwise.
func (s *Store) TickPeriod(ctx context.Context, p class.Period) error {
	return about("period of run", p.RunID, s.change(ctx, func(st statements) error {
		err := st.must(ctx, "UPDATE taught SET state = $3, updated = $4 WHERE run_id = $1 AND version = $2",
			p.RunID, p.Version, p.State, moment(p.Updated))
		return staleOr(ctx, st, err, "period", periodVersion, p.RunID, p.Version)
	}))
}

// takeFromPeriods takes everything about a pupil out of the states of periods.
// Their versions go up, so that no desk writes back what it still holds.
func takeFromPeriods(ctx context.Context, st statements, pupilID string, gone []string) error {
	// Locking the rows keeps a desk from writing between the look and the change.
	if _, err := st.exec(ctx, `UPDATE taught SET version = version WHERE run_id IN
		(SELECT run.id FROM run JOIN pupil ON pupil.class_id = run.class_id WHERE pupil.id = $1)`, pupilID); err != nil {
		return err
	}
	periods, err := list(ctx, st, scanPeriod, `SELECT taught.run_id, taught.plan_id, taught.plan, taught.state, taught.version, taught.updated
		FROM taught JOIN run ON run.id = taught.run_id JOIN pupil ON pupil.class_id = run.class_id WHERE pupil.id = $1`, pupilID)
	if err != nil {
		return err
	}
	for _, p := range periods {
		state, changed, err := class.Forget(p.State, gone)
		if err != nil {
			state, changed = "{}", true // nobody can read it, and it may name the pupil
		}
		if !changed {
			continue
		}
		if err := st.must(ctx, "UPDATE taught SET state = $2, version = version + 1 WHERE run_id = $1", p.RunID, state); err != nil {
			return err
		}
	}
	return nil
}
