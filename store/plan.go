package store

import (
	"context"
	"errors"
	"slices"
	"strings"

	"pegwright/class"
)

const planColumns = "id, title, body, version, updated"

func scanPlan(r row) (p class.Plan, err error) {
	var updated int64
	err = r.Scan(&p.ID, &p.Title, &p.Text, &p.Version, &updated)
	p.Updated = timeAt(updated)
	return p, err
}

// AddPlan adds a plan, as version 1.
func (s *Store) AddPlan(ctx context.Context, p class.Plan) error {
	return about("plan", p.ID, s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, "INSERT INTO plan ("+planColumns+") VALUES ($1, $2, $3, $4, $5)",
			p.ID, p.Title, p.Text, 1, moment(p.Updated))
		return err
	}))
}

// Plans returns all plans, by title.
func (s *Store) Plans(ctx context.Context) ([]class.Plan, error) {
	all, err := list(ctx, s.reader(), scanPlan, "SELECT "+planColumns+" FROM plan ORDER BY id")
	slices.SortStableFunc(all, func(a, b class.Plan) int {
		return strings.Compare(class.NicknameKey(a.Title), class.NicknameKey(b.Title))
	})
	return all, err
}

// Plan returns a plan.
func (s *Store) Plan(ctx context.Context, id string) (class.Plan, error) {
	p, err := one(ctx, s.reader(), scanPlan, "SELECT "+planColumns+" FROM plan WHERE id = $1", id)
	return p, about("plan", id, err)
}

// UpdatePlan sets the title and text of a plan and returns its new version.
// p.Version is the one that the change was made on; when another desk has saved
// since, nothing is kept and the error is a *class.StaleError.
func (s *Store) UpdatePlan(ctx context.Context, p class.Plan) (version int, err error) {
	err = s.change(ctx, func(st statements) error {
		err := st.must(ctx, "UPDATE plan SET title = $3, body = $4, updated = $5, version = version + 1 WHERE id = $1 AND version = $2",
			p.ID, p.Version, p.Title, p.Text, moment(p.Updated))
		return staleOr(ctx, st, err, "plan", "SELECT version FROM plan WHERE id = $1", p.ID, p.Version)
	})
	if err != nil {
		return 0, about("plan", p.ID, err)
	}
	return p.Version + 1, nil
}

// staleOr returns a *class.StaleError in place of class.ErrNotFound when the
// record is there, with another version.
func staleOr(ctx context.Context, st statements, err error, what, query, id string, given int) error {
	if !errors.Is(err, class.ErrNotFound) {
		return err
	}
	kept, err := one(ctx, st, value[int], query, id)
	if err != nil {
		return err
	}
	return &class.StaleError{What: what, ID: id, Given: given, Kept: kept}
}

// DeletePlan deletes a plan. Periods that teach it go on with the text they
// began with.
func (s *Store) DeletePlan(ctx context.Context, id string) error {
	return about("plan", id, s.change(ctx, func(st statements) error {
		return st.must(ctx, "DELETE FROM plan WHERE id = $1", id)
	}))
}
