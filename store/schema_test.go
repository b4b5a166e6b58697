package store_test

import (
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"pegwright/class"
	"pegwright/store"
	"pegwright/store/schema"
	"pegwright/store/storetest"
)

func TestOldSchemaIsBroughtUpToDate(t *testing.T) {
	storetest.Each(t, func(t *testing.T, address string) {
		db, engine := raw(t, address)
		need(t, schema.MigrateTo(t.Context(), db, engine, 1))
		_, err := db.Exec("INSERT INTO class (id, name, language, definitions, created) VALUES ('old', 'Old', 'en', '{}', 1)")
		need(t, err)
		need(t, db.Close())

		s := storetest.Open(t, address)
		got, err := s.Class(t.Context(), "old")
		if err != nil || got.Name != "Old" {
			t.Errorf("the class from before: %v, %v", got, err)
		}
		need(t, s.SetKeys(t.Context(), store.Keys{Passphrase: "p"})) // a table of step 2
	})
}

func TestNewerDatabaseIsRefused(t *testing.T) {
	storetest.Each(t, func(t *testing.T, address string) {
		storetest.Open(t, address)
		db, _ := raw(t, address)
		_, err := db.Exec("INSERT INTO goose_db_version (version_id, is_applied) VALUES (99, true)")
		need(t, err)
		_, err = store.Open(t.Context(), address)
		var newer *schema.NewerError
		if !errors.As(err, &newer) {
			t.Fatalf("Open = %v, want a NewerError", err)
		}
	})
}

func TestReopeningKeepsEverything(t *testing.T) {
	storetest.Each(t, func(t *testing.T, address string) {
		first, err := store.Open(t.Context(), address)
		need(t, err)
		room := storetest.NewScene(t, first, "kite", 2)
		_, err = first.AddShowing(t.Context(), room.Showing(1, 0))
		need(t, err)
		need(t, first.Close())
		s := storetest.Open(t, address)
		got, err := s.Showings(t.Context(), room.Run.ID)
		if err != nil || len(got) != 1 || got[0] != room.Showing(1, 0) {
			t.Errorf("after reopening: %v, %v", got, err)
		}
	})
}

func TestStoresOpenedTogetherMigrateOnce(t *testing.T) {
	storetest.Each(t, func(t *testing.T, address string) {
		if !strings.HasPrefix(address, "postgres") {
			t.Skip("one program has the file")
		}
		var work sync.WaitGroup
		for range 6 {
			work.Go(func() {
				s, err := store.Open(t.Context(), address)
				if err != nil {
					t.Error(err)
					return
				}
				if err := s.Close(); err != nil {
					t.Error(err)
				}
			})
		}
		work.Wait()
	})
}

func TestFileIsForItsOwnerAndMayHaveAnyName(t *testing.T) {
	for _, name := range []string{"plain.db", "with space & ?question#hash%41.db", "ñandú/deep/er.db"} {
		path := filepath.Join(t.TempDir(), name)
		s := storetest.Open(t, path)
		storetest.NewScene(t, s, "kite", 1)
		if runtime.GOOS == "windows" {
			continue
		}
		for _, file := range []string{path, path + "-wal", path + "-shm"} {
			info, err := os.Stat(file)
			if err != nil {
				t.Error(err)
			} else if info.Mode().Perm() != 0o600 {
				t.Errorf("%s may be read by others: %v", file, info.Mode())
			}
		}
	}
}

func TestSettingsOfTheFile(t *testing.T) {
	write, read := storetest.New(t).Databases()
	for _, c := range []struct {
		db   *sql.DB
		name string
		want string
	}{
		{write, "journal_mode", "wal"},
		{write, "synchronous", "2"},
		{write, "foreign_keys", "1"},
		{write, "busy_timeout", "5000"},
		{write, "secure_delete", "1"},
		{read, "foreign_keys", "1"},
		{read, "busy_timeout", "5000"},
		{read, "query_only", "1"},
	} {
		var got string
		need(t, c.db.QueryRow("PRAGMA "+c.name).Scan(&got))
		if got != c.want {
			t.Errorf("%s = %s, want %s", c.name, got, c.want)
		}
	}
	if n := write.Stats().MaxOpenConnections; n != 1 {
		t.Errorf("%d connections write, want 1", n)
	}
}

func TestParametersAreNumbered(t *testing.T) {
	s := storetest.New(t)
	if got := s.Text("SELECT $2, $1, $12"); got != "SELECT ?2, ?1, ?12" {
		t.Errorf("got %q", got)
	}
	_, err := s.Class(t.Context(), "$1")
	if !errors.Is(err, class.ErrNotFound) {
		t.Error(err)
	}
}

func raw(t *testing.T, address string) (*sql.DB, schema.Engine) {
	driver, engine := "sqlite", schema.SQLite
	if strings.HasPrefix(address, "postgres") {
		driver, engine = "pgx", schema.Postgres
	}
	db, err := sql.Open(driver, address)
	need(t, err)
	t.Cleanup(func() { db.Close() })
	return db, engine
}

func need(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
