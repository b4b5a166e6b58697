// Package store keeps the records of a class at work in a database: SQLite in
// one file, or PostgreSQL. All SQL of the program is here and in store/schema;
// rules about the records are in package class.
//
// What a method has written is on the disk when it returns. Moments are kept to
// the millisecond. A record that is not there is class.ErrNotFound, wrapped;
// a disk that takes nothing is a *DiskError.
//
// Start at Open, then AddShowing.
package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"time"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver "pgx"
	_ "modernc.org/sqlite"             // the driver "sqlite"

	"pegwright/class"
	"pegwright/store/schema"
)

// Store is an open database. Its methods may be called from many goroutines.
type Store struct {
	engine schema.Engine
	write  *sql.DB // on SQLite a single connection, so that writers queue in it
	read   *sql.DB
}

// Open opens the database at an address and brings its tables up to date. The
// address is the path of a file, which is made if it is not there, or a
// postgres:// URL. A database that a newer program has written is refused with
// a *schema.NewerError.
func Open(ctx context.Context, address string) (*Store, error) {
	s, err := connect(address)
	if err != nil {
		return nil, err
	}
	if err := schema.Migrate(ctx, s.write, s.engine); err != nil {
		s.Close()
		return nil, fmt.Errorf("opening the store: %w", diskError(err))
	}
	return s, nil
}

func connect(address string) (*Store, error) {
	if strings.HasPrefix(address, "postgres://") || strings.HasPrefix(address, "postgresql://") {
		db, err := sql.Open("pgx", address)
		if err != nil {
			return nil, fmt.Errorf("opening the store: %w", err)
		}
		db.SetMaxOpenConns(20)
		db.SetMaxIdleConns(20)
		return &Store{schema.Postgres, db, db}, nil
	}
	return connectFile(address)
}

func connectFile(name string) (*Store, error) {
	if err := makeFile(name); err != nil {
		return nil, fmt.Errorf("opening the store: %w", diskError(err))
	}
	write, err := sql.Open("sqlite", fileAddress(name, "_txlock=immediate",
		"_pragma=journal_mode(WAL)", "_pragma=synchronous(FULL)", "_pragma=secure_delete(ON)"))
	if err != nil {
		return nil, fmt.Errorf("opening the store: %w", err)
	}
	write.SetMaxOpenConns(1)
	read, err := sql.Open("sqlite", fileAddress(name, "_pragma=query_only(ON)"))
	if err != nil {
		write.Close()
		return nil, fmt.Errorf("opening the store: %w", err)
	}
	read.SetMaxOpenConns(max(4, runtime.GOMAXPROCS(0)))
	read.SetMaxIdleConns(4)
	return &Store{schema.SQLite, write, read}, nil
}

// makeFile makes the file for its owner's eyes only; the files that SQLite puts
// beside it take over its permissions.
func makeFile(name string) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	return f.Close()
}

func fileAddress(name string, settings ...string) string {
	if abs, err := filepath.Abs(name); err == nil {
		name = abs
	}
	name = filepath.ToSlash(name)
	if !strings.HasPrefix(name, "/") { // a drive letter
		name = "/" + name
	}
	settings = append(settings, "_pragma=busy_timeout(5000)", "_pragma=foreign_keys(ON)")
	return (&url.URL{Scheme: "file", Path: name, RawQuery: strings.Join(settings, "&")}).String()
}

// Close closes the database.
func (s *Store) Close() error {
	if s.read == s.write {
		return s.write.Close()
	}
	return errors.Join(s.read.Close(), s.write.Close())
}

// change runs do in one transaction, which is on the disk when change returns
// nil and has left nothing behind when it returns an error.
func (s *Store) change(ctx context.Context, do func(statements) error) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return diskError(err)
	}
	defer tx.Rollback() //nolint:errcheck // after Commit it has nothing to do
	if err := do(statements{tx, s.engine}); err != nil {
		return diskError(err)
	}
	return diskError(tx.Commit())
}

// reader returns the statements for reading outside of a transaction.
func (s *Store) reader() statements { return statements{s.read, s.engine} }

// statements runs SQL written with $1, $2 on either engine.
type statements struct {
	on interface {
		ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
		QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	}
	engine schema.Engine
}

var parameter = regexp.MustCompile(`\$(\d+)`)

func (st statements) text(query string) string {
	if st.engine == schema.SQLite {
		return parameter.ReplaceAllString(query, "?$1")
	}
	return query
}

// exec runs a statement and returns how many rows it changed.
func (st statements) exec(ctx context.Context, query string, args ...any) (int64, error) {
	result, err := st.on.ExecContext(ctx, st.text(query), args...)
	if err != nil {
		return 0, err
	}
	return result.RowsAffected()
}

// must runs a statement that has to change a row, or else what it is about is
// not there.
func (st statements) must(ctx context.Context, query string, args ...any) error {
	n, err := st.exec(ctx, query, args...)
	if err == nil && n == 0 {
		return class.ErrNotFound
	}
	return err
}

// row is what a scan function reads from.
type row interface{ Scan(into ...any) error }

// list returns what scan makes of every row of a query.
func list[T any](ctx context.Context, st statements, scan func(row) (T, error), query string, args ...any) ([]T, error) {
	rows, err := st.on.QueryContext(ctx, st.text(query), args...)
	if err != nil {
		return nil, diskError(err)
	}
	defer rows.Close()
	var all []T
	for rows.Next() {
		one, err := scan(rows)
		if err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, diskError(rows.Err())
}

// one returns what scan makes of the first row of a query, or class.ErrNotFound.
func one[T any](ctx context.Context, st statements, scan func(row) (T, error), query string, args ...any) (T, error) {
	all, err := list(ctx, st, scan, query, args...)
	if err == nil && len(all) == 0 {
		err = class.ErrNotFound
	}
	if err != nil {
		var none T
		return none, err
	}
	return all[0], nil
}

// value scans a row of one column.
func value[T any](r row) (v T, err error) { return v, r.Scan(&v) }

// about says what an error is about.
func about(what, id string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s %s: %w", what, id, err)
}

// moment is a time as it is kept: milliseconds, 0 for the zero time.
func moment(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

// timeAt is the inverse of moment, to the millisecond.
func timeAt(moment int64) time.Time {
	if moment == 0 {
		return time.Time{}
	}
	return time.UnixMilli(moment).UTC()
}

// text is a list or a choice as it is kept.
func text(v any) string {
	bytes, err := json.Marshal(v)
	if err != nil {
		panic(err) // only lists of strings and structs of booleans come here
	}
	return string(bytes)
}

// fromText is the inverse of text.
func fromText(kept string, into any) error { return json.Unmarshal([]byte(kept), into) }
