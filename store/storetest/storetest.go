// Package storetest holds what every store must do, as one suite that runs on
// each engine, and opens stores for the tests of other rooms.
//
// PostgreSQL is tested when PEGWRIGHT_TEST_POSTGRES holds the URL of a server,
// as postgres.sh in this folder prints it.
package storetest

import (
	"context"
	"crypto/rand"
	"database/sql"
	"net/url"
	"os"
	"path/filepath"
	"testing"

	"pegwright/class"
	"pegwright/store"
)

// Variable names the environment variable with the URL of a PostgreSQL server.
const Variable = "PEGWRIGHT_TEST_POSTGRES"

// New returns an empty store on SQLite in a folder of its own, which is closed
// at the end of the test.
func New(t testing.TB) *store.Store {
	t.Helper()
	return Open(t, filepath.Join(t.TempDir(), "pegwright.db"))
}

// Open opens the store at an address until the end of the test.
func Open(t testing.TB, address string) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// Each runs a test on every engine, with the address of a database that is
// empty and the test's own.
func Each(t *testing.T, run func(t *testing.T, address string)) {
	t.Run("sqlite", func(t *testing.T) {
		t.Parallel()
		run(t, filepath.Join(t.TempDir(), "pegwright.db"))
	})
	t.Run("postgres", func(t *testing.T) {
		t.Parallel()
		run(t, postgres(t))
	})
}

// postgres returns the address of a schema of the test's own, or skips the
// test when there is no server.
func postgres(t *testing.T) string {
	server := os.Getenv(Variable)
	if server == "" {
		t.Skip(Variable + " is not set: store/storetest/postgres.sh starts a server")
	}
	db, err := sql.Open("pgx", server)
	if err != nil {
		t.Fatal(err)
	}
	name := "test_" + class.NewID(rand.Reader)
	if _, err := db.Exec("CREATE SCHEMA " + name); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if _, err := db.Exec("DROP SCHEMA " + name + " CASCADE"); err != nil {
			t.Error(err)
		}
		db.Close()
	})
	address, err := url.Parse(server)
	if err != nil {
		t.Fatal(err)
	}
	query := address.Query()
	query.Set("search_path", name)
	address.RawQuery = query.Encode()
	return address.String()
}
