package seat

import (
	"context"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

func TestJoiningByWord(t *testing.T) {
	r := newRoom(t, "en")
	for _, typed := range []string{"amber-otter", " Amber  OTTER ", "amberotter"} {
		d := r.device()
		status, body := d.post("/join", url.Values{"word": {typed}})
		if status != http.StatusOK || !strings.Contains(body, "Who are you?") || !strings.Contains(body, "Clover") {
			t.Errorf("joining with %q: %d %s", typed, status, body)
		}
	}
}

func TestWrongWordIsSaidCalmlyAndKept(t *testing.T) {
	d := newRoom(t, "en").device()
	status, body := d.post("/join", url.Values{"word": {`amber"><b>`}})
	if status != http.StatusNotFound || !strings.Contains(body, "No room has that word now.") {
		t.Errorf("%d %s", status, body)
	}
	if strings.Contains(body, "<b>") {
		t.Error("what was typed is not escaped")
	}
}

func TestTooManyWrongWords(t *testing.T) {
	r := newRoom(t, "en")
	d := r.device()
	for range 10 {
		if status, _ := d.post("/join", url.Values{"word": {"wrong-word"}}); status != http.StatusNotFound {
			t.Fatalf("status %d, want 404", status)
		}
	}
	if status, body := d.post("/join", url.Values{"word": {"amber-otter"}}); status != http.StatusTooManyRequests || !strings.Contains(body, "Wait one minute") {
		t.Errorf("11th try: %d %s", status, body)
	}
	if status, _ := d.get("/room/" + r.run.ID + "?word=amber-otter"); status != http.StatusOK {
		t.Errorf("the join page should come, got %d", status)
	}
	r.ahead.Store(61)
	if status, body := d.post("/join", url.Values{"word": {"amber-otter"}}); status != http.StatusOK || !strings.Contains(body, "Alder") {
		t.Errorf("a minute later: %d", status)
	}
}

func TestTilesNeedTheWord(t *testing.T) {
	r := newRoom(t, "en")
	d := r.device()
	for _, path := range []string{"/room/" + r.run.ID, "/room/" + r.run.ID + "?word=nothing-such", "/room/other?word=amber-otter"} {
		if _, body := d.get(path); strings.Contains(body, "Alder") {
			t.Errorf("%s shows nicknames", path)
		}
	}
	if _, body := d.post("/room/"+r.run.ID+"/take", url.Values{"pupil": {r.pupils[0].ID}}); !strings.Contains(body, "Type the room word") {
		t.Error("a tile was taken without the word")
	}
}

func TestTakenTile(t *testing.T) {
	r := newRoom(t, "en")
	first := r.sitting(0)
	hangUp := first.listen(0)
	second := r.device()
	second.post("/join", url.Values{"word": {"amber-otter"}})
	if _, body := second.get("/room/" + r.run.ID); !strings.Contains(body, "<small>taken</small>") {
		t.Error("the tile is not shown as taken")
	}
	take := url.Values{"pupil": {r.pupils[0].ID}}
	if status, body := second.post("/room/"+r.run.ID+"/take", take); status != http.StatusConflict || !strings.Contains(body, "Ask your teacher to free it") {
		t.Errorf("taken by an open device: %d", status)
	}
	hangUp()
	if status, body := second.post("/room/"+r.run.ID+"/take", take); status != http.StatusOK || !strings.Contains(body, "Hello, Alder") {
		t.Errorf("taken from a silent device: %d %s", status, body)
	}
	if _, body := first.get("/seat"); !strings.Contains(body, "You are not in a room") {
		t.Error("the first device does not hear that it is out")
	}
	if status, a := first.send("/seat/show", sent{}); status != http.StatusUnauthorized || !strings.Contains(a.Words, "safe on this device") {
		t.Errorf("%d %+v", status, a)
	}
}

func TestForgedTiles(t *testing.T) {
	r := newRoom(t, "en")
	d := r.device()
	d.post("/join", url.Values{"word": {"amber-otter"}})
	for _, pupil := range []string{"", "pupil-nobody-0001", strings.Repeat("x", 3000)} {
		if status, body := d.post("/room/"+r.run.ID+"/take", url.Values{"pupil": {pupil}}); status != http.StatusNotFound || !strings.Contains(body, "not in this class") {
			t.Errorf("%.20q: %d", pupil, status)
		}
	}
}

func TestSwitchingTilesFreesTheFirst(t *testing.T) {
	r := newRoom(t, "en")
	d := r.sitting(0)
	d.post("/room/"+r.run.ID+"/take", url.Values{"pupil": {r.pupils[1].ID}})
	seats, err := r.store.Seats(context.Background(), r.run.ID)
	must(t, err)
	if len(seats) != 1 || seats[0].PupilID != r.pupils[1].ID {
		t.Errorf("seats: %+v", seats)
	}
	if _, body := d.post("/seat/leave", nil); !strings.Contains(body, "Who are you?") {
		t.Error("leaving does not lead back to the tiles")
	}
	if seats, _ := r.store.Seats(context.Background(), r.run.ID); len(seats) != 0 {
		t.Errorf("seats after leaving: %+v", seats)
	}
}

func TestPlainPages(t *testing.T) {
	r := newRoom(t, "es")
	d := r.device()
	if _, body := d.get("/seat"); !strings.Contains(body, "Type the room word") {
		t.Error("without a cookie the join page comes")
	}
	d = r.sitting(0)
	if _, body := d.get("/seat"); !strings.Contains(body, "Espera a tu profe") || !strings.Contains(body, `lang="es"`) {
		t.Error("no task: the waiting page in Spanish")
	}
	must(t, r.store.EndRun(context.Background(), r.run.ID, r.now()))
	if _, body := d.get("/seat"); !strings.Contains(body, "La clase ha terminado") {
		t.Error("the run is over and the page does not say so")
	}
}
