package store

import (
	"context"
	"fmt"
	"time"

	"pegwright/class"
)

const seatColumns = "id, run_id, pupil_id, token_hash, joined, left_at"

func scanSeat(r row) (seat class.Seat, err error) {
	var joined, left int64
	err = r.Scan(&seat.ID, &seat.RunID, &seat.PupilID, &seat.TokenHash, &joined, &left)
	seat.Joined, seat.Left = timeAt(joined), timeAt(left)
	return seat, err
}

// TakeSeat lets a device in as a pupil of an open run's class. When another
// device sits there it is class.ErrSeatTaken, in a run that has ended
// class.ErrOver, and for a pupil of another class class.ErrNotFound.
func (s *Store) TakeSeat(ctx context.Context, seat class.Seat) error {
	return about("seat", seat.ID, s.change(ctx, func(st statements) error {
		if err := holdOpenRun(ctx, st, seat.RunID); err != nil {
			return err
		}
		if err := inClassOf(ctx, st, seat.RunID, seat.PupilID); err != nil {
			return err
		}
		n, err := st.exec(ctx, "INSERT INTO seat ("+seatColumns+") VALUES ($1, $2, $3, $4, $5, $6)"+
			" ON CONFLICT (run_id, pupil_id) WHERE left_at = 0 DO NOTHING",
			seat.ID, seat.RunID, seat.PupilID, seat.TokenHash, moment(seat.Joined), moment(seat.Left))
		if err == nil && n == 0 {
			return class.ErrSeatTaken
		}
		return err
	}))
}

// inClassOf returns class.ErrNotFound unless a pupil is of the class of a run.
func inClassOf(ctx context.Context, st statements, runID, pupilID string) error {
	_, err := one(ctx, st, value[string], `SELECT pupil.id FROM pupil JOIN run ON run.class_id = pupil.class_id
		WHERE run.id = $1 AND pupil.id = $2`, runID, pupilID)
	if err != nil {
		return fmt.Errorf("pupil %s in run %s: %w", pupilID, runID, err)
	}
	return nil
}

// SeatByToken returns the seat of a device that is in. A device that has left or
// was sent out has none. The run may have ended.
func (s *Store) SeatByToken(ctx context.Context, tokenHash string) (class.Seat, error) {
	seat, err := one(ctx, s.reader(), scanSeat, "SELECT "+seatColumns+" FROM seat WHERE token_hash = $1 AND left_at = 0", tokenHash)
	return seat, about("seat", "by token", err)
}

// Seats returns the seats of a run that are in, in the order they joined.
func (s *Store) Seats(ctx context.Context, runID string) ([]class.Seat, error) {
	return list(ctx, s.reader(), scanSeat, "SELECT "+seatColumns+" FROM seat WHERE run_id = $1 AND left_at = 0 ORDER BY joined, id", runID)
}

// LeaveSeat lets a device out. One that has left keeps its moment.
func (s *Store) LeaveSeat(ctx context.Context, id string, now time.Time) error {
	return about("seat", id, s.change(ctx, func(st statements) error {
		return st.must(ctx, "UPDATE seat SET left_at = CASE WHEN left_at = 0 THEN $2 ELSE left_at END WHERE id = $1", id, moment(now))
	}))
}

// MoveSeat lets the device at one pupil's place sit at another's, of the same
// class. What was handed in stays with the pupil it was handed in for. Without
// a device to move it is class.ErrNotFound, and when another device sits at the
// new place class.ErrSeatTaken.
func (s *Store) MoveSeat(ctx context.Context, runID, fromPupil, toPupil string) error {
	return about("pupil", fromPupil, s.change(ctx, func(st statements) error {
		if err := inClassOf(ctx, st, runID, toPupil); err != nil {
			return err
		}
		taken, err := one(ctx, st, value[int64], "SELECT count(*) FROM seat WHERE run_id = $1 AND pupil_id = $2 AND left_at = 0", runID, toPupil)
		if err != nil {
			return err
		}
		if taken > 0 {
			return class.ErrSeatTaken
		}
		return st.must(ctx, "UPDATE seat SET pupil_id = $3 WHERE run_id = $1 AND pupil_id = $2 AND left_at = 0", runID, fromPupil, toPupil)
	}))
}

// FreePupil sends out whatever device sits at a pupil's place, if one does.
func (s *Store) FreePupil(ctx context.Context, runID, pupilID string, now time.Time) error {
	return about("pupil", pupilID, s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, "UPDATE seat SET left_at = $3 WHERE run_id = $1 AND pupil_id = $2 AND left_at = 0", runID, pupilID, moment(now))
		return err
	}))
}
