package store

import (
	"context"

	"pegwright/class"
)

func scanMark(r row) (m class.WordMark, err error) {
	var made int64
	err = r.Scan(&m.RunID, &m.ClassID, &m.Step, &m.Call, &m.Word, &m.Mark, &made)
	m.Made = timeAt(made)
	return m, err
}

// MarkWord keeps the mark of a word that was called. The same call marked again
// has the later mark. ClassID is the run's, whatever m.ClassID says.
func (s *Store) MarkWord(ctx context.Context, m class.WordMark) error {
	return about("mark in run", m.RunID, s.change(ctx, func(st statements) error { return setMark(ctx, st, m) }))
}

func setMark(ctx context.Context, st statements, m class.WordMark) error {
	if _, err := one(ctx, st, value[string], "SELECT id FROM run WHERE id = $1", m.RunID); err != nil {
		return err
	}
	_, err := st.exec(ctx, `INSERT INTO word_mark (run_id, step, call, word, mark, made) VALUES ($1, $2, $3, $4, $5, $6)
		ON CONFLICT (run_id, step, call) DO UPDATE SET word = excluded.word, mark = excluded.mark, made = excluded.made`,
		m.RunID, m.Step, m.Call, m.Word, m.Mark, moment(m.Made))
	return err
}

// WordMarks returns the marks of a class, the earliest first.
func (s *Store) WordMarks(ctx context.Context, classID string) ([]class.WordMark, error) {
	return list(ctx, s.reader(), scanMark, `SELECT word_mark.run_id, run.class_id, word_mark.step, word_mark.call,
		word_mark.word, word_mark.mark, word_mark.made
		FROM word_mark JOIN run ON run.id = word_mark.run_id WHERE run.class_id = $1
		ORDER BY word_mark.made, run.started, run.id, word_mark.step, word_mark.call`, classID)
}
