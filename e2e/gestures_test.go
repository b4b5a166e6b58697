package e2e

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"pegwright/board"
	"pegwright/internal/browser"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/web/page"
)

// gesture is one thing that a hand does to a board, and its name for a report.
type gesture struct {
	name string
	do   func()
}

// gestures returns what a hand may do next, at random.
func gestures(p *browser.Tab, pegs []string, random *rand.Rand) gesture {
	a, b := pegs[random.IntN(len(pegs))], pegs[random.IntN(len(pegs))]
	tool := func(name string) gesture {
		return gesture{name, func() {
			browser.Eval[bool](p, fmt.Sprintf(`(document.querySelector("[data-do=%s]").click(), true)`, name))
		}}
	}
	switch n := random.IntN(20); {
	case n < 9:
		return gesture{"tap " + a, func() { p.Tap(a) }}
	case n < 13:
		return gesture{"drag " + a + " " + b, func() { p.Drag(p.Peg(a), p.Peg(b)) }}
	case n < 16:
		return tool("undo")
	case n < 17:
		return tool("side")
	case n < 18:
		return tool("drop")
	case n < 19:
		return tool("fresh")
	}
	return tool("off")
}

// TestGesturesGiveOneFigureEverywhere: after any gestures and undos the board
// that the seat describes is the one that the server has and the desk shows.
func TestGesturesGiveOneFigureEverywhere(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	r := s.room(0, "en")
	r.set(nil)
	desk := s.teacher(b)
	r.desk(desk)
	rounds, each := 8, 12
	if testing.Short() {
		rounds = 2
	}
	for round := range rounds {
		pupil := round % len(r.pupils)
		random := rand.New(rand.NewPCG(20261125, uint64(round)))
		p := r.seat(b, pupil)
		ready5(p)
		var done []string
		for range each {
			g := gestures(p, pegNames(), random)
			done = append(done, g.name)
			g.do()
		}
		oneFigure(t, r, desk, p, pupil, done)
		p.Calm(fmt.Sprint("round ", round))
		browser.Eval[bool](p, `(document.querySelector("form[action='/seat/leave'] button").click(), true)`)
		p.Until(`location.pathname !== "/seat"`)
	}
}

func ready5(p *browser.Tab) {
	ready(p)
	p.Until(`document.querySelectorAll(".pegs g.peg").length === 25`)
}

func pegNames() []string {
	b := board.MustParse("square:5x5")
	all := make([]board.Peg, b.Pegs())
	for i := range all {
		all[i] = board.Peg(i)
	}
	return b.Names(all)
}

// seatFigure reads the board of a seat from where the page keeps it on the
// device.
const seatFigure = `(() => {
	const key = Object.keys(localStorage).find(k => k.startsWith("pegwright.board."));
	return key ? JSON.parse(localStorage.getItem(key)).board.figure : "";
})()`

// sameTile reports whether a tile shows a picture, element by element.
const sameTile = `(() => {
	const t = document.createElement("template");
	t.innerHTML = %q;
	return !!document.querySelector(%q + " .board svg")?.isEqualNode(t.content.firstElementChild);
})()`

// oneFigure waits until seat, server and desk agree.
func oneFigure(t *testing.T, r *room, desk, p *browser.Tab, pupil int, done []string) {
	t.Helper()
	var seat, server string
	var same bool
	for deadline := time.Now().Add(15 * time.Second); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
		seat, server = browser.Eval[string](p, seatFigure), r.live.Figure(r.run.ID, r.pupils[pupil].ID)
		same = browser.Eval[bool](desk, fmt.Sprintf(sameTile, tilePicture(r, pupil, server), r.tile(pupil)))
		if seat == server && same {
			return
		}
	}
	t.Errorf("after %s\nseat   %q\nserver %q\ndesk the same: %v", strings.Join(done, ", "), seat, server, same)
}

// tilePicture draws what the desk is to show of a figure.
func tilePicture(r *room, pupil int, figure string) string {
	f := board.MustParseFigure(board.MustParse("square:5x5"), figure)
	id := strings.TrimPrefix(r.tile(pupil), "#") + "-picture"
	return string(page.Figure(say.In("en"), id, shape.Read(f, r.class.Definitions), page.Small))
}
