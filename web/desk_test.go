package web_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"pegwright/bus"
	"pegwright/class"
)

// unspoken finds ids of messages that are missing.
var unspoken = regexp.MustCompile(`\[[a-z_]+\.[a-z0-9_]+\]`)

const words = "four quite ordinary words"

var codeOnPage = regexp.MustCompile(`class="recovery">([A-Z0-9-]+)<`)

func TestSetupOnlyFromThisMachine(t *testing.T) {
	h := newHouse(t)
	cases := []struct {
		peer, forwarded string
		want            int
	}{
		{"192.0.2.9:5000", "", http.StatusForbidden},
		{"127.0.0.1:5000", "192.0.2.9", http.StatusForbidden},
		{"[2001:db8::1]:5000", "", http.StatusForbidden},
		{"[::1]:5000", "", http.StatusOK},
		{"127.0.0.1:5000", "", http.StatusOK},
	}
	for _, c := range cases {
		for _, method := range []string{"GET", "POST"} {
			if method == "POST" && c.want == http.StatusOK {
				continue
			}
			r := httptest.NewRequest(method, "/desk/setup", strings.NewReader("passphrase="+url.QueryEscape(words)))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.RemoteAddr = c.peer
			if c.forwarded != "" {
				r.Header.Set("X-Forwarded-For", c.forwarded)
			}
			w := httptest.NewRecorder()
			h.srv.Handler().ServeHTTP(w, r)
			if w.Code != c.want {
				t.Errorf("%s from %s (%s): status %d, want %d", method, c.peer, c.forwarded, w.Code, c.want)
			}
		}
	}
	if _, err := h.store.Keys(context.Background()); err == nil {
		t.Error("someone from elsewhere set the passphrase")
	}
}

func TestSetupLoginRecoverAndBack(t *testing.T) {
	h := newHouse(t)
	b := h.browser()
	b.get("/desk").sends(t, "/desk/login")
	b.get("/desk/login").sends(t, "/desk/setup")
	for fault, try := range map[string]string{
		"too short": "fourteen chars", "first that anyone": "aaaaaaaaaaaaaaaa", "longer than": strings.Repeat("long word ", 30),
		"first that": "correct horse battery staple",
	} {
		b.post("/desk/setup", "passphrase", try).want(t, 422, fault)
	}
	a := b.post("/desk/setup", "passphrase", words)
	a.sends(t, "/desk/code?show=")
	page := b.get(a.to)
	page.want(t, 200, "Your recovery code")
	code := codeOnPage.FindStringSubmatch(page.body)[1]
	b.get(a.to).sends(t, "/desk")
	b.get("/desk").want(t, 200, "Today")
	b.post("/desk/setup", "passphrase", "someone else wants in").sends(t, "/desk/login")

	other := h.browser()
	other.post("/desk/login", "passphrase", "not the passphrase at all").want(t, 422, "not the passphrase")
	other.post("/desk/login", "passphrase", words, "back", "https://evil.example/").sends(t, "/desk")

	third := h.browser()
	a = third.post("/desk/recover", "code", strings.ToLower(strings.ReplaceAll(code, "-", " ")), "passphrase", "another four good words")
	a.sends(t, "/desk/code?show=")
	b.get("/desk").sends(t, "/desk/login")
	next := codeOnPage.FindStringSubmatch(third.get(a.to).body)[1]
	if next == code {
		t.Error("the recovery code stayed the same")
	}
	fourth := h.browser()
	fourth.post("/desk/recover", "code", code, "passphrase", "yet another set of words").want(t, 422, "not the recovery code")
	fourth.post("/desk/login", "passphrase", words).want(t, 422, "not the passphrase")
	fourth.post("/desk/login", "passphrase", "another four good words").sends(t, "/desk")
	keys, err := h.store.Keys(context.Background())
	if err != nil || strings.Contains(keys.Recovery, next) || !strings.HasPrefix(keys.Passphrase, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("keys = %v, %v", keys, err)
	}
}

func TestGuessesAreLimited(t *testing.T) {
	h := newHouse(t)
	h.browser().post("/desk/setup", "passphrase", words)
	b := h.browser()
	for range 5 {
		b.post("/desk/login", "passphrase", "wrong wrong wrong wrong").want(t, 422)
	}
	b.post("/desk/login", "passphrase", words).want(t, 429, "Try again in 30 seconds")
	h.wait(31 * time.Second)
	b.post("/desk/login", "passphrase", "wrong wrong wrong wrong").want(t, 422)
	b.post("/desk/login", "passphrase", words).want(t, 429, "Try again in 1 minute")
	h.wait(61 * time.Second)
	b.post("/desk/login", "passphrase", words).sends(t, "/desk")
	h.browser().post("/desk/login", "passphrase", "wrong wrong wrong wrong").want(t, 422)
}

func TestLockHidesEverythingAndEndsNothing(t *testing.T) {
	h := newHouse(t)
	h.browser().post("/desk/setup", "passphrase", words)
	sc := h.scene("kite", 3)
	b := h.browser()
	b.post("/desk/login", "passphrase", words).sends(t, "/desk")
	run := "/desk/run/" + sc.Run.ID
	b.post(run+"/front", "kind", "task").sends(t, run)
	s, front := b.stream(run+"/stream"), b.stream("/front/"+sc.Run.ID+"/stream")
	b.post("/desk/lock", "back", run).sends(t, "/desk/unlock?back=")
	if got := s.next(t); got != `changed ["away"]` {
		t.Errorf("the locked stream says %q", got)
	}
	if got := s.next(t); got != "closed" {
		t.Errorf("the locked stream goes on: %q", got)
	}
	b.get(run).sends(t, "/desk/unlock")
	b.get(run+"/pieces?name=away").want(t, 401)
	b.get(run+"/stream").want(t, 401)
	b.get("/desk/unlock").want(t, 200, "The desk is locked")

	h.hub.Publish(bus.Event{Topic: "front/" + sc.Run.ID, Piece: "counts"})
	if got := front.next(t); got != `changed ["counts"]` {
		t.Errorf("the front says %q", got)
	}
	b.get("/front/"+sc.Run.ID).want(t, 200, sc.Task.Words)
	if seats, err := h.store.Seats(context.Background(), sc.Run.ID); err != nil || len(seats) != 3 {
		t.Errorf("seats = %d, %v; want all in", len(seats), err)
	}
	b.post("/desk/unlock", "passphrase", "wrong wrong wrong wrong").want(t, 422)
	b.post("/desk/unlock", "passphrase", words, "back", run).sends(t, run)
	b.get(run).want(t, 200)
	b.post("/desk/logout").sends(t, "/desk/login")
	b.get(run).sends(t, "/desk/login")
}

func TestSessionsEnd(t *testing.T) {
	h := newHouse(t)
	b := h.teacher()
	b.get("/desk").want(t, 200)
	h.wait(17 * time.Hour)
	b.get("/desk").sends(t, "/desk/login")
}

func TestALesson(t *testing.T) {
	h := newHouse(t)
	b := h.teacher()
	b.post("/desk/class", "name", "", "nicknames", "Alder").want(t, 422, "Give the class a name")
	b.post("/desk/class", "name", "Kestrels", "nicknames", "Alder\nalder").want(t, 422, "is on line 1 too")
	a := b.post("/desk/class", "name", "Kestrels", "nicknames", "Alder\nBryony\nClover <b>", "language", "en")
	a.sends(t, "/desk/class/")
	kestrels := a.to
	b.get(kestrels).want(t, 200, "3 pupils", "Bryony", "Clover &lt;b&gt;")
	a = b.post(kestrels + "/run")
	a.sends(t, "/desk/run/")
	run := a.to
	b.post(kestrels+"/run").sends(t, run)
	b.get(run).want(t, 200, "No task is set", "Quick task", `id="tile-`)
	b.post(run+"/task", "quick", "hexagon", "board", "square:5x5", "minutes", "5").sends(t, run)
	b.get(run).want(t, 200, "Make a hexagon.", "6 sides.", "0 of 3 boards are in", "toward a face", "until 12:05")

	pupils, err := h.store.Pupils(context.Background(), strings.TrimPrefix(kestrels, "/desk/class/"))
	if err != nil {
		t.Fatal(err)
	}
	tap := run + "/tap"
	b.get(tap).want(t, 200, "Choose a pupil")
	b.get(tap+"?pupil="+pupils[0].ID).want(t, 200, "Alder", `data-tap`)
	b.post(tap, "id", "tap-0000000000000001", "pupil", pupils[0].ID, "figure", "A1 Z9").want(t, 422, "do not make bands")
	b.post(tap, "id", "tap-0000000000000001", "pupil", pupils[0].ID, "figure", "b1 d1 e3 d5 b5 a3").sends(t, tap+"?pupil="+pupils[1].ID)
	b.post(tap, "id", "tap-0000000000000001", "pupil", pupils[0].ID, "figure", "b1 d1 e3 d5 b5 a3").sends(t, tap)
	b.post(tap, "id", "tap-0000000000000001", "pupil", pupils[0].ID, "figure", "A1 B1 B2").want(t, 422)
	r := b.request(route{"POST", tap, nil, 0})
	r.Header.Set("Content-Type", "application/json")
	body := fmt.Sprintf(`{"id":"tap-0000000000000002","pupil":%q,"figure":"A1 C1 C3","made":1}`, pupils[1].ID)
	r, err = http.NewRequest("POST", h.url+tap, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	b.send(r).want(t, 200, `"kept":true`, `"next":"`+tap+`?pupil=`+pupils[2].ID)

	b.get(run).want(t, 200, "2 of 3 boards are in", "not looked at", `data-standing="fits"`, `data-standing="not-yet"`)
	b.get(run+"?view=figures").want(t, 200, "2 different figures", "the only one")
	b.get(run+"/pupil/"+pupils[1].ID).want(t, 200, "Not yet", "Asked for 6 sides", "Seen once", "runs straight over")
	b.get(run+"/pieces?name=tile-"+pupils[1].ID).want(t, 200, `id="tile-`+pupils[1].ID)
	if got := b.get(run + "/pieces?name=tile-" + pupils[1].ID).body; strings.Contains(got, "not looked at") {
		t.Error("an opened tile is still marked as not looked at")
	}
	b.post(run+"/front", "add", "tap-0000000000000001").sends(t, run)
	front := "/front/" + strings.TrimPrefix(run, "/desk/run/")
	page := b.get(front)
	page.want(t, 200, `class="boards n1"`)
	if strings.Contains(page.body, "Alder") || strings.Contains(page.body, "Fits") || strings.Contains(page.body, "It fits") {
		t.Error("the front tells a name or who is right")
	}
	b.post(run+"/front", "standing", "yes").sends(t, run)
	b.get(front).want(t, 200, "It fits")
	b.post(run+"/front", "remove", "tap-0000000000000001").sends(t, run)
	b.get(front).want(t, 200, "Make a hexagon.", "2 of 3 boards are in")
	b.post(run+"/room/open").sends(t, run)
	b.post(run+"/front", "kind", "join").sends(t, run)
	b.get(front).want(t, 200, "http://192.0.2.7:8080", `class="code"`)

	b.post(run+"/task/end").sends(t, run)
	b.post(run+"/end").sends(t, run+"/kept")
	b.get(run).sends(t, run+"/kept")
	b.get(run+"/kept").want(t, 200, "Make a hexagon.", "Alder", "tapped in", "Task 1 was set", "The lesson ended.")
	b.post(run+"/task", "quick", "triangle", "board", "square:5x5").want(t, 409, "lesson is over")
	b.post(kestrels+"/delete-pupil", "pupil", pupils[0].ID).sends(t, kestrels+"?delete=")
	b.post(kestrels+"/delete-pupil", "pupil", pupils[0].ID, "sure", "yes").sends(t, kestrels)
	if strings.Contains(b.get(run+"/kept").body, "Alder") {
		t.Error("a deleted pupil is still in what was kept")
	}
}

func TestBuilder(t *testing.T) {
	h := newHouse(t)
	b := h.teacher()
	sc := h.scene("kite", 2)
	run := "/desk/run/" + sc.Run.ID
	q := "board=square:3x3&property=sides&comparison=%3D&value=4&property=convex&comparison=%21%3D&value=&bands=1"
	b.get(run+"/build?words=x&"+q+"&more=1").want(t, 200, "Condition 3: property", "Possible", "A small slip away")
	b.get("/desk/answer?"+q).want(t, 200, `id="answer"`, "Possible")
	b.get("/desk/answer?board=square:5x5&property=sides&comparison=%3D&value=5&property=regular&comparison=%3D&value=").want(t, 200, "Impossible", "What comes nearest", "ring")
	b.get("/desk/answer?board=square:5x5&condition=sides%3D3").want(t, 200, "Possible")
	b.get("/desk/answer?board=square:5x5&property=sides&comparison=%3D&value=many").want(t, 200, "cannot be asked")
	b.get("/desk/answer?board=nonsense").want(t, 200, "no such board")
	b.post(run+"/task", "words", "", "board", "square:5x5").want(t, 422, "Write what the pupils are to do")
	b.post(run+"/task", "words", "Make it.", "board", "square:5x5", "model", "A1 Z1").want(t, 422, "not a figure on this board")
	b.post(run+"/task", "words", "Make a dart.", "board", "ring:8", "property", "kind:square", "comparison", "=", "value", "",
		"property", "fold-lines", "comparison", ">=", "value", "1", "minutes", "3", "bands", "1", "feedback", "hint", "model", "1 3 5 7").sends(t, run)
	tasks, err := h.store.Tasks(context.Background(), sc.Run.ID)
	if err != nil {
		t.Fatal(err)
	}
	got := tasks[len(tasks)-1]
	if got.Words != "Make a dart." || got.Board != "ring:8" || len(got.Conditions) != 2 || got.Minutes != 3 || got.MaxBands != 1 ||
		got.Feedback != class.HintFeedback || got.Model != "1 3 5 7" {
		t.Errorf("the task is %+v", got)
	}
}

func TestTwoRoomsNeverMix(t *testing.T) {
	h := newHouse(t)
	b := h.teacher()
	one, two := h.scene("kite", 2), h.scene("rook", 2)
	foreign := h.show(two, "showing-of-rook-1", 0, "A1 C1 C3")
	run := "/desk/run/" + one.Run.ID
	for _, path := range []string{run, run + "?view=figures", run + "/kept", run + "/tap", "/front/" + one.Run.ID} {
		if body := b.get(path).body; strings.Contains(body, "rook") {
			t.Errorf("%s shows the other room", path)
		}
	}
	b.get(run+"/pupil/"+two.Pupils[0].ID).want(t, 404)
	b.get(run+"/tap?pupil="+two.Pupils[0].ID).want(t, 404)
	b.post(run+"/front", "add", foreign.ID).want(t, 404)
	b.post(run+"/look", "showing", foreign.ID).want(t, 404)
	b.post(run+"/seat/free", "pupil", two.Pupils[0].ID).want(t, 404)
	b.post(run+"/tap", "id", "tap-0000000000000009", "pupil", two.Pupils[0].ID, "figure", "A1 B1 B2").want(t, 404)
	b.post("/desk/class/"+one.Class.ID+"/delete-pupil", "pupil", two.Pupils[0].ID, "sure", "yes").want(t, 404)
	if body := b.get(run + "/pieces?name=tile-" + two.Pupils[0].ID).body; body != "" {
		t.Errorf("pieces of another room: %s", body)
	}
	s := b.stream(run + "/stream")
	b.post("/desk/run/"+two.Run.ID+"/task", "quick", "triangle", "board", "square:5x5")
	b.post(run+"/front", "kind", "blank")
	if got := s.next(t); got != `changed ["front"]` {
		t.Errorf("the stream says %q", got)
	}
}

func TestStreamTellsManyChangesTogether(t *testing.T) {
	h := newHouse(t)
	b := h.teacher()
	sc := h.scene("kite", 2)
	path := "/desk/run/" + sc.Run.ID + "/stream"
	s := b.stream(path)
	for range 500 {
		h.hub.Publish(bus.Event{Topic: "run/" + sc.Run.ID, Piece: "tile-a"})
		h.hub.Publish(bus.Event{Topic: "run/" + sc.Run.ID, Piece: "tile-b"})
	}
	seen := map[string]bool{}
	events := 0
	for len(seen) < 2 {
		got := s.next(t)
		events++
		for _, piece := range []string{"tile-a", "tile-b"} {
			if strings.Contains(got, `"`+piece+`"`) {
				seen[piece] = true
			}
		}
		if events > 10 {
			t.Fatalf("%d events and not both pieces", events)
		}
	}
	s.end()
	again := b.stream(path) // says hello, so the page fetches everything
	h.hub.Publish(bus.Event{Topic: "run/" + sc.Run.ID, Piece: "counts"})
	if got := again.next(t); got != `changed ["counts"]` {
		t.Errorf("after coming back the stream says %q", got)
	}
	h.srv.Stop()
	if got := again.next(t); got != "closed" {
		t.Errorf("the stream outlives the server: %q", got)
	}
}

// TestLogHoldsNothingOfAChild runs a lesson with mistakes in it and looks for
// nicknames and figures in the log, which is written in full.
func TestLogHoldsNothingOfAChild(t *testing.T) {
	h := newHouse(t)
	b := h.teacher()
	sc := h.scene("kite", 4)
	shown := h.show(sc, "showing-of-kite-1", 0, "A1 C1 C3")
	for _, r := range routesOf(sc, shown.ID) {
		b.send(b.request(r))
	}
	h.browser().post("/desk/login", "passphrase", "a guess that is wrong")
	if err := h.store.Close(); err != nil {
		t.Fatal(err)
	}
	b.get("/desk/run/"+sc.Run.ID+"/pupil/"+sc.Pupils[0].ID).want(t, 500, "Nothing that was handed in is lost")
	b.get("/healthz").want(t, 503)
	log := h.log.String()
	if !strings.Contains(log, "page failed") {
		t.Error("the log does not say that a page failed")
	}
	for _, secret := range []string{sc.Pupils[0].Nickname, "Newcomer", "Beech", "A1 C1", "A1 B1", "a guess that"} {
		if strings.Contains(log, secret) {
			t.Errorf("the log holds %q:\n%s", secret, log)
		}
	}
}
