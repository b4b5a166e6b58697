// Package schema holds the tables of the store as numbered steps, and brings a
// database up to date with them. Steps only go forward, and one text serves
// both engines.
package schema

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"

	"github.com/pressly/goose/v3"
)

// Engine is a kind of database.
type Engine string

// The engines.
const (
	SQLite   Engine = "sqlite"
	Postgres Engine = "postgres"
)

//go:embed sql/*.sql
var files embed.FS

// NewerError says that a database was written by a newer program.
type NewerError struct{ Has, Knows int64 }

// Error returns one sentence.
func (e *NewerError) Error() string {
	return fmt.Sprintf("this data was kept by a newer Pegwright (its tables are at step %d, this program knows %d): start the newer program, or choose another data folder", e.Has, e.Knows)
}

// Migrate brings a database up to date. Running it again changes nothing, and
// programs that start together wait for each other. A database from a newer
// program is left alone with a *NewerError.
func Migrate(ctx context.Context, db *sql.DB, engine Engine) error {
	return MigrateTo(ctx, db, engine, Latest())
}

// MigrateTo brings a database up to one step, for the tests of later steps.
func MigrateTo(ctx context.Context, db *sql.DB, engine Engine, step int64) error {
	unlock, err := lock(ctx, db, engine)
	if err != nil {
		return err
	}
	defer unlock()
	steps, err := provider(db, engine)
	if err != nil {
		return err
	}
	has, err := steps.GetDBVersion(ctx)
	if err != nil {
		return fmt.Errorf("reading the step of the tables: %w", err)
	}
	if has > Latest() {
		return &NewerError{Has: has, Knows: Latest()}
	}
	_, err = steps.UpTo(ctx, step)
	return err
}

// Latest returns the number of the last step.
func Latest() int64 {
	names, err := fs.Glob(files, "sql/*.sql")
	if err != nil || len(names) == 0 {
		panic("schema: no steps are embedded")
	}
	last, err := goose.NumericComponent(names[len(names)-1])
	if err != nil {
		panic(err)
	}
	return last
}

func provider(db *sql.DB, engine Engine) (*goose.Provider, error) {
	steps, err := fs.Sub(files, "sql")
	if err != nil {
		return nil, err
	}
	dialect := goose.DialectPostgres
	if engine == SQLite {
		dialect = goose.DialectSQLite3
	}
	return goose.NewProvider(dialect, db, steps, goose.WithLogger(goose.NopLogger()), goose.WithDisableGlobalRegistry(true))
}

// lock keeps two programs from making the same tables at once. SQLite needs
// none: a step there is one immediate transaction, and a second program waits
// for it and then finds it done or fails without a change.
func lock(ctx context.Context, db *sql.DB, engine Engine) (unlock func(), err error) {
	if engine == SQLite {
		return func() {}, nil
	}
	conn, err := db.Conn(ctx)
	if err != nil {
		return nil, err
	}
	const key = "hashtextextended('pegwright ' || current_schema(), 0)"
	if _, err := conn.ExecContext(ctx, "SELECT pg_advisory_lock("+key+")"); err != nil {
		conn.Close()
		return nil, err
	}
	return func() {
		// The lock falls with the connection if this fails.
		_, _ = conn.ExecContext(context.WithoutCancel(ctx), "SELECT pg_advisory_unlock("+key+")")
		conn.Close()
	}, nil
}
