package store

import (
	"context"
	"time"

	"pegwright/class"
)

const runColumns = "id, class_id, room_word, started, ended"

func scanRun(r row) (run class.Run, err error) {
	var started, ended int64
	err = r.Scan(&run.ID, &run.ClassID, &run.RoomWord, &started, &ended)
	run.Started, run.Ended = timeAt(started), timeAt(ended)
	return run, err
}

// AddRun adds a run of a class. A room word that another open run has is
// class.ErrWordTaken.
func (s *Store) AddRun(ctx context.Context, run class.Run) error {
	return about("run", run.ID, s.change(ctx, func(st statements) error {
		if _, err := one(ctx, st, value[string], "SELECT id FROM class WHERE id = $1", run.ClassID); err != nil {
			return about("class", run.ClassID, err)
		}
		n, err := st.exec(ctx, "INSERT INTO run ("+runColumns+") VALUES ($1, $2, $3, $4, $5)"+
			" ON CONFLICT (room_word) WHERE ended = 0 DO NOTHING",
			run.ID, run.ClassID, run.RoomWord, moment(run.Started), moment(run.Ended))
		if err == nil && n == 0 {
			return class.ErrWordTaken
		}
		return err
	}))
}

// Run returns a run.
func (s *Store) Run(ctx context.Context, id string) (class.Run, error) {
	run, err := one(ctx, s.reader(), scanRun, "SELECT "+runColumns+" FROM run WHERE id = $1", id)
	return run, about("run", id, err)
}

// OpenRuns returns the runs that have not ended, the latest first.
func (s *Store) OpenRuns(ctx context.Context) ([]class.Run, error) {
	return list(ctx, s.reader(), scanRun, "SELECT "+runColumns+" FROM run WHERE ended = 0 ORDER BY started DESC, id")
}

// Runs returns the runs of a class, the latest first.
func (s *Store) Runs(ctx context.Context, classID string) ([]class.Run, error) {
	return list(ctx, s.reader(), scanRun, "SELECT "+runColumns+" FROM run WHERE class_id = $1 ORDER BY started DESC, id", classID)
}

// RunByWord returns the open run with a room word.
func (s *Store) RunByWord(ctx context.Context, word string) (class.Run, error) {
	run, err := one(ctx, s.reader(), scanRun, "SELECT "+runColumns+" FROM run WHERE room_word = $1 AND ended = 0", word)
	return run, about("room word", word, err)
}

// EndRun ends a run and its current task. A run that has ended keeps its end.
// Seats stay as they are, so that a device that was off the network can still
// hand in.
func (s *Store) EndRun(ctx context.Context, id string, now time.Time) error {
	return about("run", id, s.change(ctx, func(st statements) error {
		err := st.must(ctx, "UPDATE run SET ended = CASE WHEN ended = 0 THEN $2 ELSE ended END WHERE id = $1", id, moment(now))
		if err != nil {
			return err
		}
		_, err = st.exec(ctx, "UPDATE task SET ended = $2 WHERE run_id = $1 AND ended = 0", id, moment(now))
		return err
	}))
}

// holdOpenRun makes others wait who change a run too, until the transaction
// ends. It returns class.ErrOver for a run that has ended.
func holdOpenRun(ctx context.Context, st statements, id string) error {
	ended, err := one(ctx, st, value[int64], "UPDATE run SET ended = ended WHERE id = $1 RETURNING ended", id)
	if err == nil && ended != 0 {
		err = class.ErrOver
	}
	return about("run", id, err)
}
