package seat

import (
	"context"
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/task"
)

const anID = "0123456789abcdef"

func TestShowingIsKeptBeforeItIsAnswered(t *testing.T) {
	r := newRoom(t, "en")
	task1 := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	status, a := d.send("/seat/show", sent{anID, task1.ID, "a1 d1, d3", start.UnixMilli()})
	if status != http.StatusOK || !a.Kept || a.Title != "Handed in." || len(a.Lines) != 2 || a.Spoken == "" {
		t.Fatalf("%d %+v", status, a)
	}
	s, err := r.store.Showing(context.Background(), anID)
	must(t, err)
	if s.Figure != "A1 D1 D3" || s.PupilID != r.pupils[0].ID || s.Standing != task.Fits || s.Source != class.FromSeat || s.Rules != class.RulesVersion {
		t.Errorf("%+v", s)
	}
}

func TestFeedbackSaysAsMuchAsTheTaskAllows(t *testing.T) {
	for _, tt := range []struct {
		feedback class.Feedback
		figure   string
		want     []line
	}{
		{class.NoFeedback, "A1 D1 D3", nil},
		{class.CountFeedback, "A1 D1 D3", []line{{"", "Your figure has 3 corners."}}},
		{class.CountFeedback, "A1 D1", []line{{"", "A1 is a loose end."}}},
		{class.HintFeedback, "A1 D1 D3", []line{{"yes", "It fits the task."}}},
	} {
		r := newRoom(t, "en")
		set := r.set("task-triangle-0001", func(t *class.Task) { t.Feedback = tt.feedback })
		_, a := r.sitting(0).send("/seat/show", sent{anID, set.ID, tt.figure, 0})
		if !a.Kept || len(a.Lines) != len(tt.want) || len(tt.want) > 0 && a.Lines[0] != tt.want[0] || a.Spoken != "" {
			t.Errorf("%s for %s: %+v, want %+v", tt.feedback, tt.figure, a, tt.want)
		}
	}
}

func TestHintGivesNothingAway(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", func(t *class.Task) { t.Feedback = class.HintFeedback })
	_, a := r.sitting(0).send("/seat/show", sent{anID, set.ID, "A1 D1 C3", 0})
	if len(a.Lines) != 1 || a.Lines[0].Mark != "no" || strings.Contains(a.Lines[0].Text, "D3") {
		t.Errorf("%+v", a)
	}
	t.Log(a.Lines)
}

func TestReplayIsHarmlessAndForgeryIsRefused(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	for range 3 {
		if status, a := d.send("/seat/show", sent{anID, set.ID, "A1 D1 D3", 5}); status != http.StatusOK || !a.Kept {
			t.Fatalf("%d %+v", status, a)
		}
	}
	if all, _ := r.store.Showings(context.Background(), r.run.ID); len(all) != 1 {
		t.Errorf("%d showings, want 1", len(all))
	}
	status, a := d.send("/seat/show", sent{anID, set.ID, "A1 D1 D2", 5})
	if status != http.StatusConflict || a.Kept || a.Words == "" {
		t.Errorf("another figure with the same id: %d %+v", status, a)
	}
	if status, a := r.sitting(1).send("/seat/show", sent{anID, set.ID, "A1 D1 D3", 5}); status != http.StatusConflict || a.Kept {
		t.Errorf("another pupil with the same id: %d %+v", status, a)
	}
}

func TestBadShowings(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	ctx := context.Background()
	other := class.Run{ID: "run-0002-0002-0002", ClassID: r.run.ClassID, RoomWord: "brave-finch", Started: start}
	must(t, r.store.AddRun(ctx, other))
	must(t, r.store.AddTask(ctx, class.Task{ID: "task-elsewhere-0001", RunID: other.ID, Board: "square:5x5", Conditions: []string{"sides=3"}, Started: start}))
	d := r.sitting(0)
	show := func(id, task, figure string) string {
		b, err := json.Marshal(sent{id, task, figure, 1})
		must(t, err)
		return string(b)
	}
	for name, tt := range map[string]struct {
		body   string
		status int
	}{
		"another board":      {show(anID, set.ID, "A1 L12 B2"), 422},
		"a peg twice":        {show(anID, set.ID, "A1 B2 A1"), 422},
		"not text":           {show(anID, set.ID, "A1 \x00\u202e"), 422},
		"a forged task":      {show(anID, "task-forged-00001", "A1 D1 D3"), 422},
		"no task":            {show(anID, "", "A1 D1 D3"), 422},
		"another run's task": {show(anID, "task-elsewhere-0001", "A1 D1 D3"), 422},
		"an id too short":    {show("a", set.ID, "A1 D1 D3"), 422},
		"an id with signs":   {show("../../../../etc/passwd", set.ID, "A1 D1 D3"), 422},
		"10,000 pegs":        {show(anID, set.ID, strings.Repeat("A1 ", 10_000)), 413},
		"no JSON":            {`id=1`, 400},
		"cut JSON":           {`{"id":"` + anID, 400},
		"wrong types":        {`{"id":7,"made":"soon"}`, 400},
		"two values":         {show(anID, set.ID, "A1 D1 D3") + "{}", 400},
		"nothing":            {``, 400},
	} {
		status, a := d.send("/seat/show", tt.body)
		if status != tt.status || a.Kept || len(a.Words) < 20 || strings.Contains(a.Words, "[") {
			t.Errorf("%s: %d %+v, want %d with words", name, status, a, tt.status)
		}
		if status, _ := d.send("/seat/move", tt.body); status == http.StatusOK || status >= 500 {
			t.Errorf("%s as a move: %d", name, status)
		}
	}
	if all, _ := r.store.Showings(ctx, r.run.ID); len(all) != 0 {
		t.Errorf("%d bad showings were kept", len(all))
	}
	if status, _ := d.post("/seat/show", map[string][]string{"id": {anID}}); status != http.StatusUnsupportedMediaType {
		t.Errorf("a form: %d", status)
	}
}

func TestLateShowingIsKept(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	r.ahead.Store(60)
	r.set("task-square-000001", func(t *class.Task) { t.Ordinal = 2 })
	r.ahead.Store(90)
	if _, a := d.send("/seat/show", sent{anID, set.ID, "A1 D1 D3", 1}); !a.Kept || !a.Late || !strings.Contains(a.Title, "after the end") {
		t.Errorf("%+v", a)
	}
	if figure := r.live.Figure(r.run.ID, r.pupils[0].ID); figure != "" {
		t.Errorf("a late board moves the new one: %q", figure)
	}
}

func TestClockThatJumps(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	for i, made := range []int64{-1 << 62, -1, 0, 1, 1 << 62, start.AddDate(-30, 0, 0).UnixMilli()} {
		id := anID + string(rune('a'+i))
		if status, a := d.send("/seat/show", sent{id, set.ID, "A1 D1 D3", made}); status != http.StatusOK || !a.Kept {
			t.Errorf("made %d: %d %+v", made, status, a)
		}
		s, err := r.store.Showing(context.Background(), id)
		must(t, err)
		if !s.Received.Equal(r.now()) || s.Made.Year() < 1900 || s.Made.Year() > 2100 {
			t.Errorf("made %d: kept as made %v, received %v", made, s.Made, s.Received)
		}
	}
}

func TestDiskThatTakesNothing(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	must(t, r.store.Close())
	status, a := d.send("/seat/show", sent{anID, set.ID, "A1 D1 D3", 1})
	if status != http.StatusServiceUnavailable || a.Kept || a.Words != "Not kept yet. It is safe on this device. It will be sent again." {
		t.Errorf("%d %+v", status, a)
	}
}

func TestMovesAreLiveOnly(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	sub := r.hub.Subscribe("run/" + r.run.ID)
	defer sub.Close()
	if status, _ := d.send("/seat/move", move{set.ID, "A1 D1", "aa"}); status != http.StatusNoContent {
		t.Fatalf("status %d", status)
	}
	if got := r.live.Figure(r.run.ID, r.pupils[0].ID); got != "A1 D1" {
		t.Errorf("live figure %q", got)
	}
	if got := strings.Join(sub.Take(), " "); got != "tile-"+r.pupils[0].ID {
		t.Errorf("told %q", got)
	}
	if status, _ := d.send("/seat/move", move{"task-over-000001", "A1 D1", "aa"}); status != http.StatusConflict {
		t.Errorf("a move for another task: %d", status)
	}
}

func TestStateBringsBackWhereOneWas(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", func(t *class.Task) { t.Minutes = 5 })
	d := r.sitting(0)
	d.send("/seat/show", sent{anID, set.ID, "A1 D1 D3", 1})
	d.send("/seat/move", move{set.ID, "A1 D1 D4", "aa"})
	_, body := d.get("/seat/state")
	var k known
	must(t, json.Unmarshal([]byte(body), &k))
	if k.Task != set.ID || k.Live == nil || *k.Live != "A1 D1 D4" || k.Shown == nil || k.Shown.Figure != "A1 D1 D3" || !k.Shown.Answer.Kept {
		t.Errorf("%s", body)
	}
	if _, page := d.get("/seat"); !strings.Contains(page, "A1 D1 D4") {
		t.Error("the page does not begin with the live figure")
	}
}

func TestSeatReachesSeatPagesOnly(t *testing.T) {
	d := newRoom(t, "en").sitting(0)
	for _, path := range []string{"/desk", "/front/run-0001-0001-0001", "/desk/run/run-0001-0001-0001", "/seat/../desk"} {
		if status, _ := d.get(path); status != http.StatusNotFound {
			t.Errorf("%s: %d", path, status)
		}
	}
}

func TestStreamSaysWhatIsNew(t *testing.T) {
	r := newRoom(t, "en")
	d := r.sitting(0)
	req, err := http.NewRequest(http.MethodGet, r.server.URL+"/seat/stream", nil)
	must(t, err)
	res, err := d.http.Do(req)
	must(t, err)
	defer func() { _ = res.Body.Close() }()
	heard := make(chan string, 20)
	go func() {
		buf := make([]byte, 4096)
		for {
			n, err := res.Body.Read(buf)
			if err != nil {
				close(heard)
				return
			}
			heard <- string(buf[:n])
		}
	}()
	want := func(text string) {
		t.Helper()
		for {
			select {
			case got := <-heard:
				if strings.Contains(got, text) {
					return
				}
			case <-time.After(3 * time.Second):
				t.Fatalf("never heard %q", text)
			}
		}
	}
	want("event: hello")
	set := r.set("task-triangle-0001", nil)
	want(`"task"`)
	d.send("/seat/show", sent{anID, set.ID, "A1 D1 D3", 1})
	want(`"shown"`)
	if n := r.live.Connected(r.run.ID, r.pupils[0].ID); n != 1 {
		t.Errorf("%d connected", n)
	}
}

func TestMovesOfADeviceThatWasSentOutEndWithinAMoment(t *testing.T) {
	r := newRoom(t, "en")
	set := r.set("task-triangle-0001", nil)
	d := r.sitting(0)
	d.send("/seat/move", move{set.ID, "A1 D1", "aa"})
	must(t, r.store.FreePupil(context.Background(), r.run.ID, r.pupils[0].ID, r.now()))
	r.ahead.Store(1)
	if status, _ := d.send("/seat/move", move{set.ID, "A1 D1 D3", "aa"}); status != http.StatusUnauthorized {
		t.Errorf("status %d", status)
	}
	if got := r.live.Figure(r.run.ID, r.pupils[0].ID); got != "A1 D1" {
		t.Errorf("live figure %q", got)
	}
}
