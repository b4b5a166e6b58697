package e2e

import (
	"fmt"
	"testing"

	"pegwright/internal/browser"
)

// TestAMakeStep goes through one with six seats, a desk and a front: quick
// task in three taps, boards as they move, verdicts, one board at the front,
// the end.
func TestAMakeStep(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	r := s.room(0, "en")
	desk := s.teacher(b)
	desk.Click(`a.main[href="/desk"]`)
	desk.Until(`location.pathname === "/desk"`)
	r.desk(desk)
	front := r.front(desk)
	seats := make([]*browser.Tab, 6)
	for i := range seats {
		seats[i] = r.seat(b, i)
	}
	desk.Until(`document.querySelector("#room")?.innerText.includes("6")`)

	// The quick task: three taps.
	desk.Click("#quick summary")
	desk.Click(`label[for="quick-triangle"]`)
	desk.Click("#quick form button.main")
	desk.Until(`document.querySelector("#task .taskwords")`)
	for _, p := range seats {
		ready(p)
	}
	desk.Click(`#front button[value="task"]`)
	front.Until(`document.querySelector("#front.task")`)

	// Boards are at the desk as they move, before anything is shown.
	seats[0].Tap("A1", "D1", "D3")
	desk.Until(fmt.Sprintf(`document.querySelector(%q).classList.contains("moving")`, r.tile(0)))
	seats[0].Tap("A1")
	show(seats[0])
	r.standing(desk, 0, "fits")
	front.Until(`document.querySelector("#counts").innerText.includes("1")`)
	for i, p := range seats[1:5] {
		p.Tap("A1", "E1", []string{"A5", "B4", "C3", "D2"}[i], "A1")
		show(p)
		r.standing(desk, i+1, "fits")
	}
	// The sixth makes a square first, and a triangle on the second go.
	seats[5].Tap("A1", "B1", "B2", "A2", "A1")
	show(seats[5])
	r.standing(desk, 5, "nearly")
	seats[5].Click("[data-do=undo]")
	r.moved(5, "A1 B1 B2")
	show(seats[5])
	r.standing(desk, 5, "fits")
	if all := r.kept(7); len(all) != 7 {
		t.Errorf("%d showings, want 7 with both goes of the sixth", len(all))
	}
	front.Until(`document.querySelector("#counts").innerText.includes("6")`)

	// One board goes to the front, without a name.
	desk.Shot("desk-run")
	desk.Click(r.tile(0) + " a")
	desk.Until(`document.querySelector(".opened .reasons, .opened #reasons")`)
	desk.Click(`.opened button[name="add"]`)
	front.Until(`document.querySelector("#front.boards")`)
	front.Shot("front-boards")
	if text := browser.Eval[string](front, "document.body.innerText"); contains(text, nicknames[0]...) {
		t.Errorf("the front names a pupil: %s", text)
	}

	// The end of the step, and of the run.
	r.desk(desk)
	desk.Click(`#task form[action$="/task/end"] button`)
	for _, p := range seats {
		p.Until(`!document.querySelector(".pegs") || document.querySelector("[data-later]:not([hidden])")`)
	}
	for i, p := range append(seats, desk, front) {
		p.Calm(fmt.Sprintf("page %d", i))
	}
}
