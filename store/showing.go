package store

import (
	"context"
	"errors"
	"time"

	"pegwright/class"
)

const showingColumns = "id, run_id, task_id, pupil_id, figure, source, standing, rules, made, received, looked"

func scanShowing(r row) (s class.Showing, err error) {
	var made, received, looked int64
	err = r.Scan(&s.ID, &s.RunID, &s.TaskID, &s.PupilID, &s.Figure, &s.Source, &s.Standing, &s.Rules, &made, &received, &looked)
	s.Made, s.Received, s.Looked = timeAt(made), timeAt(received), timeAt(looked)
	return s, err
}

// AddShowing adds a showing and returns when it is on the disk, true the first
// time. The same showing sent again changes nothing and is no error; another
// one with its ID is class.ErrDifferent. A task that is not of the run, or a pupil
// who is not of its class, is class.ErrNotFound. Whether the task or the run is
// over does not matter: what a device kept while it was off the network still
// counts.
func (s *Store) AddShowing(ctx context.Context, showing class.Showing) (added bool, err error) {
	err = s.change(ctx, func(st statements) error {
		err := addShowing(ctx, st, showing)
		added = err == nil
		return err
	})
	if errors.Is(err, errAgain) {
		return false, nil
	}
	return added && err == nil, about("showing", showing.ID, err)
}

// errAgain ends the transaction of a showing that is there already.
var errAgain = errors.New("kept already")

func addShowing(ctx context.Context, st statements, s class.Showing) error {
	// The count of the run gives showings their order, whatever the clock does,
	// and lets others wait who add to the same run.
	ordinal, err := one(ctx, st, value[int64], "UPDATE run SET received = received + 1 WHERE id = $1 RETURNING received", s.RunID)
	if err != nil {
		return about("run", s.RunID, err)
	}
	if err := isAgain(ctx, st, s); err != nil {
		return err
	}
	if _, err := one(ctx, st, value[string], "SELECT id FROM task WHERE id = $1 AND run_id = $2", s.TaskID, s.RunID); err != nil {
		return about("task", s.TaskID, err)
	}
	if err := inClassOf(ctx, st, s.RunID, s.PupilID); err != nil {
		return err
	}
	n, err := st.exec(ctx, "INSERT INTO showing ("+showingColumns+", ordinal) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)"+
		" ON CONFLICT (id) DO NOTHING",
		s.ID, s.RunID, s.TaskID, s.PupilID, s.Figure, string(s.Source), string(s.Standing), s.Rules,
		moment(s.Made), moment(s.Received), moment(s.Looked), ordinal)
	if err == nil && n == 0 {
		return class.ErrDifferent // in another run at the same moment
	}
	return err
}

// isAgain returns errAgain for a showing that is there already, and
// class.ErrDifferent for another one with its ID. Only what the device says
// counts: the verdict and the moments may differ.
func isAgain(ctx context.Context, st statements, s class.Showing) error {
	kept, err := one(ctx, st, scanShowing, "SELECT "+showingColumns+" FROM showing WHERE id = $1", s.ID)
	switch {
	case errors.Is(err, class.ErrNotFound):
		return nil
	case err != nil:
		return err
	case kept.RunID == s.RunID && kept.TaskID == s.TaskID && kept.PupilID == s.PupilID && kept.Figure == s.Figure && kept.Source == s.Source:
		return errAgain
	}
	return class.ErrDifferent
}

// Showing returns a showing.
func (s *Store) Showing(ctx context.Context, id string) (class.Showing, error) {
	showing, err := one(ctx, s.reader(), scanShowing, "SELECT "+showingColumns+" FROM showing WHERE id = $1", id)
	return showing, about("showing", id, err)
}

// Showings returns the showings of a run in the order received.
func (s *Store) Showings(ctx context.Context, runID string) ([]class.Showing, error) {
	return list(ctx, s.reader(), scanShowing, "SELECT "+showingColumns+" FROM showing WHERE run_id = $1 ORDER BY ordinal", runID)
}

// TaskShowings returns the showings of a task in the order received.
func (s *Store) TaskShowings(ctx context.Context, taskID string) ([]class.Showing, error) {
	return list(ctx, s.reader(), scanShowing, "SELECT "+showingColumns+" FROM showing WHERE task_id = $1 ORDER BY ordinal", taskID)
}

// MarkLooked says that the teacher has opened a showing; the first moment stays.
func (s *Store) MarkLooked(ctx context.Context, id string, now time.Time) error {
	return about("showing", id, s.change(ctx, func(st statements) error {
		return st.must(ctx, "UPDATE showing SET looked = CASE WHEN looked = 0 THEN $2 ELSE looked END WHERE id = $1", id, moment(now))
	}))
}
