package store

import (
	"context"
	"slices"
	"strings"

	"pegwright/class"
)

const classColumns = "id, name, language, definitions, created"

func scanClass(r row) (c class.Class, err error) {
	var definitions string
	var created int64
	if err := r.Scan(&c.ID, &c.Name, &c.Language, &definitions, &created); err != nil {
		return c, err
	}
	c.Created = timeAt(created)
	return c, fromText(definitions, &c.Definitions)
}

// AddClass adds a class with no pupils.
func (s *Store) AddClass(ctx context.Context, c class.Class) error {
	return about("class", c.ID, s.change(ctx, func(st statements) error {
		_, err := st.exec(ctx, "INSERT INTO class ("+classColumns+") VALUES ($1, $2, $3, $4, $5)",
			c.ID, c.Name, c.Language, text(c.Definitions), moment(c.Created))
		return err
	}))
}

// Classes returns all classes, by name.
func (s *Store) Classes(ctx context.Context) ([]class.Class, error) {
	all, err := list(ctx, s.reader(), scanClass, "SELECT "+classColumns+" FROM class ORDER BY id")
	slices.SortStableFunc(all, func(a, b class.Class) int {
		return strings.Compare(class.NicknameKey(a.Name), class.NicknameKey(b.Name))
	})
	return all, err
}

// Class returns a class.
func (s *Store) Class(ctx context.Context, id string) (class.Class, error) {
	c, err := one(ctx, s.reader(), scanClass, "SELECT "+classColumns+" FROM class WHERE id = $1", id)
	return c, about("class", id, err)
}

// UpdateClass sets the name, language and definitions of a class.
func (s *Store) UpdateClass(ctx context.Context, c class.Class) error {
	return about("class", c.ID, s.change(ctx, func(st statements) error {
		return st.must(ctx, "UPDATE class SET name = $2, language = $3, definitions = $4 WHERE id = $1",
			c.ID, c.Name, c.Language, text(c.Definitions))
	}))
}

// DeleteClass deletes a class, its pupils, and everything about them.
func (s *Store) DeleteClass(ctx context.Context, id string) error {
	err := s.change(ctx, func(st statements) error {
		return st.must(ctx, "DELETE FROM class WHERE id = $1", id)
	})
	if err == nil {
		err = s.sweep(ctx)
	}
	return about("class", id, err)
}
