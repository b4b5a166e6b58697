package store_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pegwright/store"
	"pegwright/store/storetest"
)

func TestFullDiskKeepsWhatItHasAndSaysSo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pegwright.db")
	s := storetest.Open(t, path)
	room := storetest.NewScene(t, s, "kite", 1)
	write, _ := s.Databases()
	limit := func(pages int) {
		_, err := write.Exec(fmt.Sprintf("PRAGMA max_page_count = %d", pages))
		need(t, err)
	}
	limit(1) // SQLite takes no less than there is
	kept := 0
	var err error
	for ; err == nil && kept < 10_000; kept++ {
		_, err = s.AddShowing(t.Context(), room.Showing(kept, 0))
	}
	kept--
	wantDisk(t, err, store.DiskFull, "make room")
	got, err := s.Showings(t.Context(), room.Run.ID)
	if err != nil || len(got) != kept {
		t.Fatalf("%d showings were acknowledged, %d are there, %v", kept, len(got), err)
	}
	limit(1_000_000)
	if added, err := s.AddShowing(t.Context(), room.Showing(kept, 0)); !added || err != nil {
		t.Errorf("with room on the disk again: AddShowing = %t, %v", added, err)
	}
	if got, err := s.Showings(t.Context(), room.Run.ID); err != nil || len(got) != kept+1 {
		t.Errorf("%d showings, want %d, %v", len(got), kept+1, err)
	}
}

func TestReadOnlyFileSaysSo(t *testing.T) {
	s := storetest.New(t)
	room := storetest.NewScene(t, s, "kite", 1)
	write, _ := s.Databases()
	_, err := write.Exec("PRAGMA query_only = ON")
	need(t, err)
	_, err = s.AddShowing(t.Context(), room.Showing(1, 0))
	wantDisk(t, err, store.DiskReadOnly, "may not be written")
	if got, err := s.Showings(t.Context(), room.Run.ID); err != nil || len(got) != 0 {
		t.Errorf("showings = %v, %v", got, err)
	}
}

func TestReadOnlyServerSaysSo(t *testing.T) {
	storetest.Each(t, func(t *testing.T, address string) {
		if !strings.HasPrefix(address, "postgres") {
			t.Skip("there is no server")
		}
		storetest.NewScene(t, storetest.Open(t, address), "kite", 1)
		s := storetest.Open(t, address+"&default_transaction_read_only=on")
		wantDisk(t, s.SetKeys(t.Context(), store.Keys{}), store.DiskReadOnly, "may not be written")
	})
}

func TestWhatIsNoDatabaseIsRefused(t *testing.T) {
	folder := t.TempDir()
	junk := filepath.Join(folder, "junk.db")
	need(t, os.WriteFile(junk, []byte(strings.Repeat("this is a letter to the parents. ", 200)), 0o600))
	_, err := store.Open(t.Context(), junk)
	wantDisk(t, err, store.DiskFailing, "nothing was kept")
	if content, _ := os.ReadFile(junk); !strings.HasPrefix(string(content), "this is a letter") {
		t.Error("the letter was written over")
	}
	if _, err := store.Open(t.Context(), folder); err == nil {
		t.Error("a folder was opened as a file")
	}
	if _, err := store.Open(t.Context(), filepath.Join(junk, "inside.db")); err == nil {
		t.Error("a file was opened as a folder")
	}
}

func TestServerThatIsAwaySaysSo(t *testing.T) {
	_, err := store.Open(t.Context(), "postgres://nobody@127.0.0.1:1/none?connect_timeout=2")
	wantDisk(t, err, store.DiskAway, "does not answer")
	_, err = store.Open(t.Context(), "postgres://[")
	if err == nil {
		t.Error("a broken address was opened")
	}
}

func TestClosedStoreFailsWithoutPanic(t *testing.T) {
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "x.db"))
	need(t, err)
	room := storetest.NewScene(t, s, "kite", 1)
	need(t, s.Close())
	if added, err := s.AddShowing(t.Context(), room.Showing(1, 0)); err == nil || added {
		t.Errorf("AddShowing = %t, %v", added, err)
	}
	if _, err := s.Showings(t.Context(), room.Run.ID); err == nil {
		t.Error("a closed store was read")
	}
}

func wantDisk(t *testing.T, err error, fault store.DiskFault, words string) {
	t.Helper()
	var disk *store.DiskError
	if !errors.As(err, &disk) || !errors.Is(err, store.ErrDisk) {
		t.Fatalf("got error %v, want a DiskError", err)
	}
	if disk.Fault != fault || !strings.Contains(disk.Error(), words) || !strings.Contains(disk.Error(), "nothing was kept") {
		t.Errorf("got %s: %q, want %s with %q", disk.Fault, disk, fault, words)
	}
	if disk.Unwrap() == nil {
		t.Error("the log gets no cause")
	}
}
