package web_test

import (
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// TestCookiesAreKeptFromScriptsAndOtherSites looks at every cookie that is set.
func TestCookiesAreKeptFromScriptsAndOtherSites(t *testing.T) {
	h := newHouse(t)
	sc := h.scene("kite", 4)
	b, seat := h.browser(), h.browser()
	answers := map[string]answer{
		"setup":    b.post("/desk/setup", "passphrase", words),
		"login":    b.post("/desk/login", "passphrase", words),
		"language": b.post("/desk/language", "language", "es", "back", "/desk"),
		"join":     seat.post("/join", "word", sc.Run.RoomWord),
	}
	if err := h.store.FreePupil(t.Context(), sc.Run.ID, sc.Pupils[0].ID, h.clock()); err != nil {
		t.Fatal(err)
	}
	answers["take"] = seat.post("/room/"+sc.Run.ID+"/take", "pupil", sc.Pupils[0].ID)
	for name, a := range answers {
		set := a.header.Values("Set-Cookie")
		if len(set) == 0 {
			t.Errorf("%s: no cookie (status %d, to %s)", name, a.status, a.to)
		}
		for _, c := range set {
			if !strings.Contains(c, "HttpOnly") || !strings.Contains(c, "SameSite=Strict") {
				t.Errorf("%s: %s", name, c)
			}
		}
	}
}

// addresses finds where a page leads.
var addresses = regexp.MustCompile(`(?:href|action|src)="([^"]*)"`)

// TestAddressesNameNoChild reads every page for addresses with a nickname or a
// figure in them, which would stay in histories and logs.
func TestAddressesNameNoChild(t *testing.T) {
	h := newHouse(t)
	sc := h.scene("kite", 4)
	shown := h.show(sc, "showing-of-kite-1", 0, "A1 C1 C3")
	b := h.teacher()
	for _, r := range routesOf(sc, shown.ID) {
		a := b.send(b.request(r))
		found := addresses.FindAllStringSubmatch(a.body, -1)
		for _, m := range append(found, []string{"", a.to}) {
			plain := strings.NewReplacer("%20", " ", "+", " ").Replace(m[1])
			for _, secret := range []string{sc.Pupils[0].Nickname, "Newcomer", "A1 C1 C3"} {
				if strings.Contains(plain, secret) {
					t.Errorf("%s %s leads to %s", r.method, r.path, m[1])
				}
			}
		}
	}
}

// TestOneRunDoesNotReachAnother tries ids of one run at the addresses of
// another.
func TestOneRunDoesNotReachAnother(t *testing.T) {
	h := newHouse(t)
	kite, rook := h.scene("kite", 3), h.scene("rook", 3)
	shown := h.show(kite, "showing-of-kite-1", 0, "A1 C1 C3")
	b := h.teacher()
	other := "/desk/run/" + rook.Run.ID
	for _, r := range []route{
		{"GET", other + "/pupil/" + kite.Pupils[0].ID, nil, 404},
		{"GET", other + "/tap?pupil=" + kite.Pupils[0].ID, nil, 404},
		{"POST", other + "/front", []string{"add", shown.ID}, 404},
		{"POST", other + "/look", []string{"showing", shown.ID}, 404},
		{"POST", other + "/seat/free", []string{"pupil", kite.Pupils[0].ID}, 404},
		{"POST", other + "/seat/move", []string{"pupil", rook.Pupils[0].ID, "to", kite.Pupils[0].ID}, 404},
		{"POST", "/desk/class/" + rook.Class.ID + "/delete-pupil", []string{"pupil", kite.Pupils[0].ID, "sure", "yes"}, 404},
	} {
		b.send(b.request(r)).want(t, r.status)
	}
	if body := b.get(other + "/pieces?name=tile-" + kite.Pupils[0].ID + "&name=figures&name=tiles").body; strings.Contains(body, kite.Pupils[0].Nickname) {
		t.Error("a piece of one run names a pupil of another")
	}
}

// TestWhoeverLooksFromOutsideSeesNoDesk: an address of the desk that is not
// there looks the same as one that is, as far as its headers go.
func TestWhoeverLooksFromOutsideSeesNoDesk(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"/desk/nothing", "/front/nothing/at/all"} {
		a := h.browser().get(path)
		a.want(t, http.StatusNotFound)
		if a.header.Get("Content-Security-Policy") == "" || a.header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %v", path, a.header)
		}
	}
}
