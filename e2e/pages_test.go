package e2e

import (
	"fmt"
	"testing"

	"pegwright/class"
	"pegwright/internal/browser"
)

// sizes are the windows that pages must be good in.
var sizes = [][2]int{{1366, 768}, {1920, 1080}, {820, 1180}, {390, 844}}

// inspect holds a page against the rules at a narrow and a wide window and
// takes its picture at every size.
func inspect(p *browser.Tab, name string) {
	for _, s := range sizes {
		p.Size(s[0], s[1])
		p.Shot(fmt.Sprintf("%s-%d", name, s[0]))
	}
	p.Fair(name + " at 390")
	p.Size(sizes[0][0], sizes[0][1])
	p.Fair(name + " at 1366")
	p.Calm(name)
}

// TestEveryPageIsFairToAll goes to every page in both languages: no rule of
// WCAG 2.2 AA that axe-core knows is broken, nothing is on the console, and
// the content security policy has nothing to keep out.
func TestEveryPageIsFairToAll(t *testing.T) {
	b := browser.Start(t)
	for _, language := range []string{"en", "es"} {
		t.Run(language, func(t *testing.T) { everyPage(t, b, language) })
	}
}

func everyPage(t *testing.T, b *browser.Browser, language string) {
	s := newSchool(t)
	r := s.room(0, language)
	desk, seat := b.Device(t), b.Device(t)
	speak := func(p *browser.Tab, path string) {
		p.Open(s.base + path)
		p.Click(fmt.Sprintf(`form[action="/desk/language"] button[value=%q]`, language))
		p.Until(fmt.Sprintf(`document.documentElement.lang === %q`, language))
	}
	speak(desk, "/desk/setup")
	inspect(desk, language+"-setup")
	desk.Fill("#passphrase", "too short")
	desk.Click(`form[action="/desk/setup"] button.main`)
	desk.Until(`document.querySelector("#fault")`)
	desk.Faults() // the passphrase was refused on purpose
	inspect(desk, language+"-setup-fault")
	desk.Fill("#passphrase", passphrase)
	desk.Click(`form[action="/desk/setup"] button.main`)
	desk.Until(`location.pathname === "/desk/code"`)
	inspect(desk, language+"-code")

	seatPages(r, seat, language)

	run := "/desk/run/" + r.run.ID
	front := r.front(desk)
	for _, kind := range []string{"join", "task", "blank"} {
		desk.Open(s.base + run)
		desk.Click(fmt.Sprintf(`#front button[value=%q]`, kind))
		front.Until(fmt.Sprintf(`document.querySelector("#front.%s")`, kind))
		inspect(front, language+"-front-"+kind)
	}
	for name, path := range map[string]string{
		"today": "/desk", "class": "/desk/class/" + r.class.ID, "run": run, "figures": run + "?view=figures",
		"build": run + "/build", "tap": run + "/tap", "tap-pupil": run + "/tap?pupil=" + r.pupils[2].ID,
		"pupil": run + "/pupil/" + r.pupils[0].ID, "pupil-nothing": run + "/pupil/" + r.pupils[5].ID, "kept": run + "/kept", "not-there": "/desk/run/none",
	} {
		desk.Open(s.base + path)
		if name == "not-there" {
			desk.Faults() // that a page is not there is what it says
		}
		inspect(desk, language+"-"+name)
	}
	desk.Open(s.base + run + "/pupil/" + r.pupils[0].ID)
	desk.Click(`.opened button[name="add"]`)
	front.Until(`document.querySelector("#front.boards")`)
	inspect(front, language+"-front-boards")
	desk.Open(s.base + run)
	desk.Click("form.lock button")
	desk.Until(`location.pathname === "/desk/unlock"`)
	inspect(desk, language+"-unlock")
	desk.Click(`form[action="/desk/logout"] button`)
	desk.Until(`location.pathname === "/desk/login"`)
	inspect(desk, language+"-login")
	desk.Open(s.base + "/desk/recover")
	inspect(desk, language+"-recover")
}

// seatPages goes through the pages of a seat and leaves a showing behind.
func seatPages(r *room, p *browser.Tab, language string) {
	p.Open(r.base + "/?language=" + language)
	inspect(p, language+"-join")
	p.Fill("#word", "wrong words")
	p.Click("form button.show")
	p.Until(`document.querySelector("#wrong")`)
	p.Faults() // the word was refused on purpose
	inspect(p, language+"-join-wrong")
	p.Fill("#word", r.run.RoomWord)
	p.Click("form button.show")
	p.Until(`location.pathname.startsWith("/room/")`)
	inspect(p, language+"-room")
	p.Click(fmt.Sprintf(`button[value=%q]`, r.pupils[0].ID))
	p.Until(`location.pathname === "/seat"`)
	inspect(p, language+"-wait")
	r.set(func(t *class.Task) { t.Minutes, t.Model, t.MaxBands = 5, "A1 B3 C1", 1 })
	ready(p)
	inspect(p, language+"-seat")
	p.Tap("A1", "C1", "D2", "C3", "A3", "A1")
	show(p)
	inspect(p, language+"-seat-shown")
}
