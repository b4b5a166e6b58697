package schema_test

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	_ "modernc.org/sqlite"

	"pegwright/store/schema"
)

func TestStepsAreNumberedWithoutGapsAndGoForward(t *testing.T) {
	names, err := fs.Glob(os.DirFS("sql"), "*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range names {
		if want := regexp.MustCompile(`^0*` + string(rune('1'+i)) + `_[a-z_]+\.sql$`); !want.MatchString(name) {
			t.Errorf("step %d is called %s", i+1, name)
		}
		text, err := os.ReadFile(filepath.Join("sql", name))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Count(string(text), "-- +goose Up") != 1 || strings.Contains(string(text), "-- +goose Down") {
			t.Errorf("%s must have one way up and none down", name)
		}
	}
	if got := schema.Latest(); got != int64(len(names)) {
		t.Errorf("Latest() = %d, want %d", got, len(names))
	}
}

func TestMigrateStepByStepIsMigrate(t *testing.T) {
	ctx := context.Background()
	atOnce, stepwise := open(t), open(t)
	if err := schema.Migrate(ctx, atOnce, schema.SQLite); err != nil {
		t.Fatal(err)
	}
	for step := int64(1); step <= schema.Latest(); step++ {
		for range 2 { // the second time changes nothing
			if err := schema.MigrateTo(ctx, stepwise, schema.SQLite, step); err != nil {
				t.Fatalf("step %d: %v", step, err)
			}
		}
	}
	if a, b := tables(t, atOnce), tables(t, stepwise); a != b {
		t.Errorf("at once:\n%s\nstep by step:\n%s", a, b)
	}
}

func TestNewerDatabaseIsLeftAlone(t *testing.T) {
	ctx := context.Background()
	db := open(t)
	if err := schema.Migrate(ctx, db, schema.SQLite); err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec("INSERT INTO goose_db_version (version_id, is_applied) VALUES (99, true)"); err != nil {
		t.Fatal(err)
	}
	err := schema.Migrate(ctx, db, schema.SQLite)
	var newer *schema.NewerError
	if !errors.As(err, &newer) || newer.Has != 99 || newer.Knows != schema.Latest() {
		t.Fatalf("Migrate = %v, want a NewerError about step 99", err)
	}
	if !strings.Contains(err.Error(), "start the newer program") {
		t.Errorf("the sentence does not say what to do: %s", err)
	}
}

func open(t *testing.T) *sql.DB {
	db, err := sql.Open("sqlite", filepath.Join(t.TempDir(), "x.db"))
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { db.Close() })
	return db
}

func tables(t *testing.T, db *sql.DB) string {
	var all string
	err := db.QueryRow("SELECT group_concat(name || ' ' || coalesce(sql, ''), char(10)) FROM (SELECT name, sql FROM sqlite_master ORDER BY name)").Scan(&all)
	if err != nil {
		t.Fatal(err)
	}
	return all
}
