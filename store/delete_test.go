package store_test

import (
	"bytes"
	"database/sql"
	"fmt"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pegwright/class"
	"pegwright/store"
	"pegwright/store/storetest"
)

// TestDeletedPupilLeavesNoTrace looks through every column of every table, and
// on SQLite through the bytes of the files, after any history of a class.
func TestDeletedPupilLeavesNoTrace(t *testing.T) {
	storetest.Each(t, func(t *testing.T, address string) {
		s := storetest.Open(t, address)
		db, _ := s.Databases()
		round := 0
		rapid.Check(t, func(r *rapid.T) {
			round++
			room := storetest.NewScene(t, s, fmt.Sprintf("zanzibar%dq", round), 3)
			if err := s.AddPeriod(t.Context(), room.Period()); err != nil {
				r.Fatal(err)
			}
			traces := live(r, t, s, room)
			if err := s.DeletePupil(t.Context(), room.Pupils[0].ID); err != nil {
				r.Fatal(err)
			}
			kept := dump(t, db)
			for _, trace := range append(traces, room.Pupils[0].ID, room.Pupils[0].Nickname, room.Seats[0].ID, room.Seats[0].TokenHash) {
				if strings.Contains(kept, "|"+trace+"|") || strings.Contains(kept, `"`+trace+`"`) {
					r.Fatalf("%s is still there:\n%s", trace, kept)
				}
				if where := inFiles(t, address, trace); where != "" {
					r.Fatalf("%s is still in the bytes of %s", trace, where)
				}
			}
			if !strings.Contains(kept, "|"+room.Pupils[1].Nickname+"|") {
				r.Fatal("the neighbour is gone too")
			}
			if err := s.DeleteClass(t.Context(), room.Class.ID); err != nil {
				r.Fatal(err)
			}
			if kept := dump(t, db); strings.Contains(kept, room.Class.ID) {
				r.Fatalf("something of the class is still there:\n%s", kept)
			}
		})
	})
}

// live lets a class do things and returns the IDs of what the first pupil did.
func live(r *rapid.T, t *testing.T, s *store.Store, room storetest.Scene) (traces []string) {
	ctx := t.Context()
	step := func(err error) {
		if err != nil {
			r.Fatal(err)
		}
	}
	for n := range rapid.IntRange(0, 12).Draw(r, "steps") {
		pupil := rapid.IntRange(0, 2).Draw(r, "pupil")
		switch rapid.IntRange(0, 5).Draw(r, "what") {
		case 0, 1:
			showing := room.Showing(n, pupil)
			showing.ID += "-made-by-device"
			_, err := s.AddShowing(ctx, showing)
			step(err)
			step(s.SetFront(ctx, room.Run.ID, class.FrontView{Kind: class.FrontBoards, Showings: []string{showing.ID, "other"}}))
			if pupil == 0 {
				traces = append(traces, showing.ID)
			}
		case 2:
			step(s.FreePupil(ctx, room.Run.ID, room.Pupils[pupil].ID, storetest.Noon))
			seat := room.Seats[pupil]
			seat.ID, seat.TokenHash = fmt.Sprintf("%s-again-%d.", seat.ID, n), fmt.Sprintf("%s-again-%d.", seat.TokenHash, n)
			step(s.TakeSeat(ctx, seat))
			if pupil == 0 {
				traces = append(traces, seat.ID, seat.TokenHash)
			}
		case 3:
			p := room.Pupils[pupil]
			p.Group = fmt.Sprint("Group ", n)
			step(s.UpdatePupil(ctx, p))
		case 4:
			answer := room.Answer(n, pupil)
			answer.ID += "-made-by-device"
			answer.Body = fmt.Sprintf(`{"why":"because-%s"}`, answer.ID)
			partner := rapid.IntRange(0, 2).Draw(r, "partner")
			if answer.AboutID = room.Pupils[partner].ID; partner == pupil {
				answer.AboutID = ""
			}
			_, err := s.AddAnswer(ctx, answer)
			step(err)
			if pupil == 0 || partner == 0 {
				traces = append(traces, answer.ID, "because-"+answer.ID)
			}
		case 5:
			p, err := s.Period(ctx, room.Run.ID)
			step(err)
			p.State = fmt.Sprintf(`{"steps":[{"close":{"forms":{"%s":"b","%s":"a"}}},{"gather":{"picks":[{"showing":"%s-made-by-device"}]}}]}`,
				room.Pupils[pupil].ID, room.Pupils[(pupil+1)%3].ID, room.Showing(n-1, 0).ID)
			_, err = s.SetPeriod(ctx, p)
			step(err)
		}
	}
	return traces
}

// dump returns every value of every table, between bars.
func dump(t *testing.T, db *sql.DB) string {
	var out strings.Builder
	for _, table := range tableNames(t, db) {
		rows, err := db.Query("SELECT * FROM " + table)
		need(t, err)
		columns, err := rows.Columns()
		need(t, err)
		values, into := make([]any, len(columns)), make([]any, len(columns))
		for i := range values {
			into[i] = &values[i]
		}
		for rows.Next() {
			need(t, rows.Scan(into...))
			fmt.Fprintf(&out, "%s|", table)
			for _, v := range values {
				fmt.Fprintf(&out, "%v|", v)
			}
			out.WriteByte('\n')
		}
		need(t, rows.Err())
	}
	return out.String()
}

func tableNames(t *testing.T, db *sql.DB) (names []string) {
	rows, err := db.Query("SELECT tablename FROM pg_tables WHERE schemaname = current_schema()")
	if err != nil {
		rows, err = db.Query("SELECT name FROM sqlite_master WHERE type = 'table'")
	}
	need(t, err)
	defer rows.Close()
	for rows.Next() {
		var name string
		need(t, rows.Scan(&name))
		names = append(names, name)
	}
	if len(names) < 9 {
		t.Fatalf("only these tables were found: %v", names)
	}
	return names
}

// inFiles returns the file of a SQLite database that holds a text as a whole
// word, if one does. "kite 1" within "kite 12" does not count.
func inFiles(t *testing.T, address, text string) string {
	if strings.HasPrefix(address, "postgres") {
		return ""
	}
	for _, name := range []string{address, address + "-wal"} {
		content, err := os.ReadFile(name)
		need(t, err)
		for {
			i := bytes.Index(content, []byte(text))
			if i < 0 {
				break
			}
			content = content[i+len(text):]
			if len(content) == 0 || content[0] < '0' || content[0] > '9' {
				return name
			}
		}
	}
	return ""
}
