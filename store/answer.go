package store

import (
	"context"
	"errors"

	"pegwright/class"
)

const answerColumns = "id, run_id, step, item, pupil_id, about_id, body, source, correct, idea, rules, made, received"

func scanAnswer(r row) (a class.Answer, err error) {
	var made, received int64
	var aboutID *string
	err = r.Scan(&a.ID, &a.RunID, &a.Step, &a.Item, &a.PupilID, &aboutID, &a.Body, &a.Source, &a.Right, &a.Idea, &a.Rules, &made, &received)
	if aboutID != nil {
		a.AboutID = *aboutID
	}
	a.Made, a.Received = timeAt(made), timeAt(received)
	return a, err
}

// AddAnswer adds an answer and returns when it is on the disk, true the first
// time. The same answer sent again changes nothing and is no error; another one
// with its ID is class.ErrDifferent. A pupil or a partner who is not of the run's
// class is class.ErrNotFound. Whether the run is over does not matter.
func (s *Store) AddAnswer(ctx context.Context, a class.Answer) (added bool, err error) {
	err = s.change(ctx, func(st statements) error { return addAnswer(ctx, st, a) })
	if errors.Is(err, errAgain) {
		return false, nil
	}
	return err == nil, about("answer", a.ID, err)
}

func addAnswer(ctx context.Context, st statements, a class.Answer) error {
	ordinal, err := one(ctx, st, value[int64], "UPDATE run SET received = received + 1 WHERE id = $1 RETURNING received", a.RunID)
	if err != nil {
		return about("run", a.RunID, err)
	}
	if err := answeredBefore(ctx, st, a); err != nil {
		return err
	}
	if err := inClassOf(ctx, st, a.RunID, a.PupilID); err != nil {
		return err
	}
	var partner any // NULL for none
	if a.AboutID != "" {
		if err := inClassOf(ctx, st, a.RunID, a.AboutID); err != nil {
			return err
		}
		partner = a.AboutID
	}
	n, err := st.exec(ctx, "INSERT INTO answer ("+answerColumns+", ordinal) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)"+
		" ON CONFLICT (id) DO NOTHING",
		a.ID, a.RunID, a.Step, a.Item, a.PupilID, partner, a.Body, string(a.Source), a.Right, a.Idea, a.Rules,
		moment(a.Made), moment(a.Received), ordinal)
	if err == nil && n == 0 {
		return class.ErrDifferent // in another run at the same moment
	}
	return err
}

// answeredBefore returns errAgain for an answer that is there already, and
// class.ErrDifferent for another one with its ID. Only what the device says
// counts: how it was judged and the moments may differ.
func answeredBefore(ctx context.Context, st statements, a class.Answer) error {
	kept, err := one(ctx, st, scanAnswer, "SELECT "+answerColumns+" FROM answer WHERE id = $1", a.ID)
	if errors.Is(err, class.ErrNotFound) {
		return nil
	}
	if err != nil {
		return err
	}
	kept.Right, kept.Idea, kept.Rules, kept.Made, kept.Received = a.Right, a.Idea, a.Rules, a.Made, a.Received
	if kept == a {
		return errAgain
	}
	return class.ErrDifferent
}

// Answer returns an answer.
func (s *Store) Answer(ctx context.Context, id string) (class.Answer, error) {
	a, err := one(ctx, s.reader(), scanAnswer, "SELECT "+answerColumns+" FROM answer WHERE id = $1", id)
	return a, about("answer", id, err)
}

// Answers returns the answers of a run in the order received.
func (s *Store) Answers(ctx context.Context, runID string) ([]class.Answer, error) {
	return list(ctx, s.reader(), scanAnswer, "SELECT "+answerColumns+" FROM answer WHERE run_id = $1 ORDER BY ordinal", runID)
}

// StepAnswers returns the answers in one step of a run in the order received.
func (s *Store) StepAnswers(ctx context.Context, runID string, step int) ([]class.Answer, error) {
	return list(ctx, s.reader(), scanAnswer, "SELECT "+answerColumns+" FROM answer WHERE run_id = $1 AND step = $2 ORDER BY ordinal", runID, step)
}

// PupilAnswers returns all answers of a pupil, the earliest received first.
func (s *Store) PupilAnswers(ctx context.Context, pupilID string) ([]class.Answer, error) {
	return list(ctx, s.reader(), scanAnswer, "SELECT "+answerColumns+" FROM answer WHERE pupil_id = $1 ORDER BY received, run_id, ordinal", pupilID)
}

// takeAnswersAbout deletes the answers of others about a pupil's showings.
// Those of the pupil, and those that name the pupil as a partner, go by cascade.
func takeAnswersAbout(ctx context.Context, st statements, gone []string) error {
	for _, showing := range gone {
		if _, err := st.exec(ctx, "DELETE FROM answer WHERE item = $1", showing); err != nil {
			return err
		}
	}
	return nil
}
