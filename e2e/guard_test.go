package e2e

import (
	"fmt"
	"testing"

	"pegwright/internal/browser"
)

// TestAPupilTriesTheDesk: from a seat nothing of the desk is reached, by
// address or by script.
func TestAPupilTriesTheDesk(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	r := s.room(0, "en")
	task := r.set(nil)
	s.teacher(b)
	p := r.seat(b, 0)
	ready(p)
	run := "/desk/run/" + r.run.ID
	for _, path := range []string{
		"/desk", "/desk/class/" + r.class.ID, run, run + "/build", run + "/tap", run + "/kept", "/front/" + r.run.ID,
		run + "/pupil/" + r.pupils[1].ID, "/desk/code",
	} {
		p.Open(s.base + path)
		p.Until(`location.pathname === "/desk/login"`)
		if text := browser.Eval[string](p, "document.body.innerText"); contains(text, nicknames[0]...) || contains(text, r.class.Name) {
			t.Errorf("%s tells %s", path, text)
		}
	}
	for _, try := range []string{
		"POST " + run + "/task", "POST " + run + "/task/end", "POST " + run + "/end", "POST " + run + "/front", "POST " + run + "/seat/free",
		"POST " + run + "/room/open", "POST " + run + "/look", "POST " + run + "/tap", "POST /desk/class", "POST /desk/class/" + r.class.ID + "/delete-pupil",
		"GET " + run + "/stream", "GET " + run + "/pieces?name=tile-" + r.pupils[1].ID, "GET /front/" + r.run.ID + "/pieces?name=front", "GET /desk/answer?board=square:5x5",
	} {
		var method, path string
		_, _ = fmt.Sscan(try, &method, &path)
		body := "undefined"
		if method == "POST" {
			body = fmt.Sprintf("new URLSearchParams({sure: 'yes', pupil: %q, quick: 'triangle', id: %q})", r.pupils[1].ID, task.ID)
		}
		got := browser.Eval[string](p, fmt.Sprintf(`fetch(%q, {method: %q, body: %s}).then(async r => r.url + " " + r.status + " " + await r.text())`, path, method, body))
		if contains(got, nicknames[0]...) || !contains(got, "/desk/login", " 401 ") {
			t.Errorf("%s: %.200s", try, got)
		}
	}
	if now, err := s.store.CurrentTask(t.Context(), r.run.ID); err != nil || now.ID != task.ID {
		t.Errorf("the task is %+v, %v", now, err)
	}
}

// TestTwoRoomsNeverSeeEachOther: two classes at one server at one time.
func TestTwoRoomsNeverSeeEachOther(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	one, two := s.room(0, "en"), s.room(1, "es")
	one.set(nil)
	other := two.set(nil)
	desk := s.teacher(b)
	one.desk(desk)
	desk2 := desk.Another()
	two.desk(desk2)
	a, z := one.seat(b, 0), two.seat(b, 0)
	ready(a)
	ready(z)
	a.Tap("A1", "D1", "D3", "A1")
	z.Tap("B1", "E1", "E3", "B1")
	one.moved(0, "A1 D1 D3")
	two.moved(0, "B1 E1 E3")
	show(a)
	show(z)
	one.standing(desk, 0, "not-yet")
	two.standing(desk2, 0, "not-yet")
	for i, page := range []*browser.Tab{desk, a} {
		if text := browser.Eval[string](page, "document.documentElement.outerHTML"); contains(text, nicknames[1]...) || contains(text, two.run.ID, two.run.RoomWord) {
			t.Errorf("page %d of the first room knows of the second", i)
		}
	}
	for i, page := range []*browser.Tab{desk2, z} {
		if text := browser.Eval[string](page, "document.documentElement.outerHTML"); contains(text, nicknames[0]...) || contains(text, one.run.ID, one.run.RoomWord) {
			t.Errorf("page %d of the second room knows of the first", i)
		}
	}
	// A board for the other room's task is refused, and kept in neither.
	got := browser.Eval[string](a, fmt.Sprintf(`fetch("/seat/show", {method: "POST", headers: {"Content-Type": "application/json"},
		body: JSON.stringify({id: "abcdefghijklmnop", task: %q, figure: "A1 D1 D3", made: 1})}).then(async r => r.status + " " + await r.text())`, other.ID))
	if !contains(got, "422") {
		t.Errorf("a board for another room: %s", got)
	}
	// The other room's tiles are not to be had with this room's word.
	a.Open(s.base + "/room/" + two.run.ID)
	a.Until(`location.pathname === "/"`)
	if n, m := len(one.kept(1)), len(two.kept(1)); n != 1 || m != 1 {
		t.Errorf("kept %d and %d", n, m)
	}
}
