package store

import (
	"context"
	"time"

	"pegwright/class"
)

const taskColumns = "id, run_id, ordinal, words, board, conditions, definitions, max_bands, minutes, feedback, model, started, ended"

func scanTask(r row) (t class.Task, err error) {
	var conditions, definitions string
	var started, ended int64
	err = r.Scan(&t.ID, &t.RunID, &t.Ordinal, &t.Words, &t.Board, &conditions, &definitions,
		&t.MaxBands, &t.Minutes, &t.Feedback, &t.Model, &started, &ended)
	if err != nil {
		return t, err
	}
	t.Started, t.Ended = timeAt(started), timeAt(ended)
	if err := fromText(conditions, &t.Conditions); err != nil {
		return t, err
	}
	return t, fromText(definitions, &t.Definitions)
}

// AddTask adds a task to an open run and makes it the current one: the one
// before ends when it starts. Its ordinal is the next of the run, whatever
// t.Ordinal says. In a run that has ended it is class.ErrOver.
func (s *Store) AddTask(ctx context.Context, t class.Task) error {
	return about("task", t.ID, s.change(ctx, func(st statements) error {
		if err := holdOpenRun(ctx, st, t.RunID); err != nil {
			return err
		}
		if _, err := st.exec(ctx, "UPDATE task SET ended = $2 WHERE run_id = $1 AND ended = 0", t.RunID, moment(t.Started)); err != nil {
			return err
		}
		last, err := one(ctx, st, value[int], "SELECT coalesce(max(ordinal), 0) FROM task WHERE run_id = $1", t.RunID)
		if err != nil {
			return err
		}
		_, err = st.exec(ctx, "INSERT INTO task ("+taskColumns+") VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)",
			t.ID, t.RunID, last+1, t.Words, t.Board, text(t.Conditions), text(t.Definitions),
			t.MaxBands, t.Minutes, string(t.Feedback), t.Model, moment(t.Started), moment(t.Ended))
		return err
	}))
}

// Task returns a task.
func (s *Store) Task(ctx context.Context, id string) (class.Task, error) {
	t, err := one(ctx, s.reader(), scanTask, "SELECT "+taskColumns+" FROM task WHERE id = $1", id)
	return t, about("task", id, err)
}

// Tasks returns the tasks of a run in order.
func (s *Store) Tasks(ctx context.Context, runID string) ([]class.Task, error) {
	return list(ctx, s.reader(), scanTask, "SELECT "+taskColumns+" FROM task WHERE run_id = $1 ORDER BY ordinal", runID)
}

// CurrentTask returns the task of a run that is being made.
func (s *Store) CurrentTask(ctx context.Context, runID string) (class.Task, error) {
	t, err := one(ctx, s.reader(), scanTask, "SELECT "+taskColumns+" FROM task WHERE run_id = $1 AND ended = 0", runID)
	return t, about("current task of run", runID, err)
}

// EndTask ends a task. One that has ended keeps its end.
func (s *Store) EndTask(ctx context.Context, id string, now time.Time) error {
	return about("task", id, s.change(ctx, func(st statements) error {
		return st.must(ctx, "UPDATE task SET ended = CASE WHEN ended = 0 THEN $2 ELSE ended END WHERE id = $1", id, moment(now))
	}))
}

// ExtendTask adds minutes to the time of a task. A task without a limit stays
// without one.
func (s *Store) ExtendTask(ctx context.Context, id string, minutes int) error {
	return about("task", id, s.change(ctx, func(st statements) error {
		return st.must(ctx, "UPDATE task SET minutes = CASE WHEN minutes = 0 THEN 0 ELSE minutes + $2 END WHERE id = $1", id, minutes)
	}))
}
