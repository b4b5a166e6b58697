package store

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"pegwright/class"
	"pegwright/store/schema"
)

const pupilColumns = "id, class_id, number, nickname, table_group"

func scanPupil(r row) (p class.Pupil, err error) {
	return p, r.Scan(&p.ID, &p.ClassID, &p.Number, &p.Nickname, &p.Group)
}

// AddPupils adds pupils to a class, all or none. Those with number 0 are
// numbered on from the last of the class. A nickname that the class has already
// is class.ErrNameTaken.
func (s *Store) AddPupils(ctx context.Context, classID string, pupils []class.Pupil) error {
	return about("class", classID, s.change(ctx, func(st statements) error {
		// Writing to the row of the class makes others wait who add to it too.
		if err := st.must(ctx, "UPDATE class SET id = id WHERE id = $1", classID); err != nil {
			return err
		}
		last, err := one(ctx, st, value[int], "SELECT coalesce(max(number), 0) FROM pupil WHERE class_id = $1", classID)
		if err != nil {
			return err
		}
		for _, p := range pupils {
			p.ClassID = classID
			if p.Number == 0 {
				p.Number = last + 1
			}
			last = max(last, p.Number)
			if err := addPupil(ctx, st, p); err != nil {
				return err
			}
		}
		return nil
	}))
}

func addPupil(ctx context.Context, st statements, p class.Pupil) error {
	n, err := st.exec(ctx, "INSERT INTO pupil ("+pupilColumns+", nickname_key) VALUES ($1, $2, $3, $4, $5, $6)"+
		" ON CONFLICT (class_id, nickname_key) DO NOTHING",
		p.ID, p.ClassID, p.Number, p.Nickname, p.Group, class.NicknameKey(p.Nickname))
	if err == nil && n == 0 {
		return fmt.Errorf("%q: %w", p.Nickname, class.ErrNameTaken)
	}
	return err
}

// Pupils returns the pupils of a class by number.
func (s *Store) Pupils(ctx context.Context, classID string) ([]class.Pupil, error) {
	return list(ctx, s.reader(), scanPupil, "SELECT "+pupilColumns+" FROM pupil WHERE class_id = $1 ORDER BY number, id", classID)
}

// Pupil returns a pupil.
func (s *Store) Pupil(ctx context.Context, id string) (class.Pupil, error) {
	p, err := one(ctx, s.reader(), scanPupil, "SELECT "+pupilColumns+" FROM pupil WHERE id = $1", id)
	return p, about("pupil", id, err)
}

// UpdatePupil sets the number, nickname and group of a pupil. A nickname that
// another pupil of the class has is class.ErrNameTaken.
func (s *Store) UpdatePupil(ctx context.Context, p class.Pupil) error {
	return about("pupil", p.ID, s.change(ctx, func(st statements) error {
		key := class.NicknameKey(p.Nickname)
		others, err := one(ctx, st, value[int], `SELECT count(*) FROM pupil AS other JOIN pupil AS mine
			ON mine.class_id = other.class_id AND mine.id <> other.id
			WHERE mine.id = $1 AND other.nickname_key = $2`, p.ID, key)
		if err != nil {
			return err
		}
		if others > 0 {
			return fmt.Errorf("%q: %w", p.Nickname, class.ErrNameTaken)
		}
		return st.must(ctx, "UPDATE pupil SET number = $2, nickname = $3, nickname_key = $4, table_group = $5 WHERE id = $1",
			p.ID, p.Number, p.Nickname, key, p.Group)
	}))
}

// DeletePupil deletes a pupil and everything about them: seats, showings,
// answers by them and about their boards, their boards at the front, and their
// part in the states of periods. On SQLite no trace stays in the file either, as
// soon as nobody reads it.
func (s *Store) DeletePupil(ctx context.Context, id string) error {
	err := s.change(ctx, func(st statements) error {
		gone, err := list(ctx, st, value[string], "SELECT id FROM showing WHERE pupil_id = $1", id)
		if err != nil {
			return err
		}
		err = errors.Join(takeFromFronts(ctx, st, id, gone), takeFromPeriods(ctx, st, id, append(gone, id)), takeAnswersAbout(ctx, st, gone))
		if err != nil {
			return err
		}
		return st.must(ctx, "DELETE FROM pupil WHERE id = $1", id) // and by cascade seats, showings and answers
	})
	if err == nil {
		err = s.sweep(ctx)
	}
	return about("pupil", id, err)
}

// takeFromFronts takes a pupil's boards off every front.
func takeFromFronts(ctx context.Context, st statements, pupilID string, gone []string) error {
	fronts, err := list(ctx, st, scanKeptFront, `SELECT front.run_id, front.kind, front.showings, front.standing
		FROM front JOIN run ON run.id = front.run_id JOIN pupil ON pupil.class_id = run.class_id
		WHERE pupil.id = $1`, pupilID)
	if err != nil {
		return err
	}
	for _, f := range fronts {
		f.view.Showings = slices.DeleteFunc(f.view.Showings, func(id string) bool { return slices.Contains(gone, id) })
		if err := setFront(ctx, st, f.runID, f.view); err != nil {
			return err
		}
	}
	return nil
}

// sweep empties SQLite's log, where the text of deleted rows would stay for a
// while; in the file itself secure_delete has written over it.
func (s *Store) sweep(ctx context.Context) error {
	if s.engine != schema.SQLite {
		return nil
	}
	_, err := s.write.ExecContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)")
	return diskError(err)
}
