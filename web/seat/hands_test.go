package seat

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/chromedp/chromedp"

	"pegwright/board"
)

func TestDragTapsAndKeysMakeTheSameTriangle(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-triangle-0001", nil)
	ctx := browser(t)

	drag := r.tab(ctx)
	drag.sit(0)
	drag.shot("seat-390-empty")
	drag.drag(drag.peg("A1"), drag.peg("D1"))
	drag.drag(drag.peg("D1"), drag.peg("D3"))
	drag.drag(drag.peg("D3"), drag.peg("A1"))
	drag.figure(0, "A1 D1 D3")

	tap := r.tab(ctx)
	tap.sit(1)
	tap.tap("A1", "D1", "D3")
	tap.shot("seat-390-open")
	tap.tap("A1")
	tap.figure(1, "A1 D1 D3")

	key := r.tab(ctx)
	key.sit(2)
	key.do(focusFirst)
	key.key("\r", right, right, right, "\r", up, up, "\r", down, down, left, left, left, "\r")
	key.figure(2, "A1 D1 D3")

	for _, p := range []*tab{drag, tap, key} {
		p.click("[data-show]")
		p.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	}
	tap.shot("seat-390-shown")
	tap.size(820, 1180)
	tap.shot("seat-820-shown")
	tap.size(1366, 768)
	tap.shot("seat-1366-shown")
}

// TestRandomHandsAgreeWithTheServer drives a board by random taps, drags, keys
// and buttons, and holds the server's figure against the one on the page.
func TestRandomHandsAgreeWithTheServer(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-anything-0001", nil)
	p := r.tab(browser(t))
	p.sit(0)
	random := rand.New(rand.NewPCG(3, 7))
	var pegs []point
	for _, row := range "12345" {
		for _, column := range "ABCDE" {
			pegs = append(pegs, p.peg(string(column)+string(row)))
		}
	}
	any := func() point { return pegs[random.IntN(len(pegs))] }
	for i := range 60 {
		switch random.IntN(8) {
		case 0, 1, 2:
			p.tapAt(any())
		case 3, 4:
			p.drag(any(), any())
		case 5:
			a, b := any(), any()
			p.drag(point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}, any())
		case 6:
			p.do(focusFirst)
			p.key([]string{left, up, right, down}[random.IntN(4)], "\r")
		default:
			do := []string{"undo", "fresh", "next", "off", "side", "drop"}[random.IntN(6)]
			eval[bool](p, `document.querySelector('[data-do=`+do+`]').click() ?? true`)
		}
		if i%10 == 9 {
			p.figure(0, p.shown())
		}
	}
	p.shot("seat-390-many")
	page := p.shown()
	if _, err := board.ParseFigure(board.MustParse("square:5x5"), page); err != nil {
		t.Error(err)
	}
	p.click("[data-show]")
	p.until(`document.querySelector("[data-answer][data-kind=kept]")`)
	all, err := r.store.Showings(context.Background(), r.run.ID)
	must(t, err)
	if len(all) != 1 || all[0].Figure != page {
		t.Errorf("kept %+v, want %q", all, page)
	}
	for range 80 {
		eval[bool](p, `document.querySelector('[data-do=undo]').click() ?? true`)
	}
	p.figure(0, "")
}

// TestFingersWorkToo drags and taps with touches instead of a mouse.
func TestFingersWorkToo(t *testing.T) {
	r := newRoom(t, "en")
	r.set("task-anything-0001", nil)
	p := r.tab(browser(t))
	p.do(chromedp.EmulateViewport(390, 844, chromedp.EmulateMobile, chromedp.EmulateTouch))
	p.sit(0)
	p.swipe(p.peg("A1"), p.peg("D1"))
	p.swipe(p.peg("D1"), p.peg("D3"))
	p.touch(p.peg("A1"))
	p.figure(0, "A1 D1 D3")
	// Bend the long side, move a corner, drop one over the edge.
	a, d := p.peg("A1"), p.peg("D3")
	p.swipe(point{a.X + (d.X-a.X)*0.6, a.Y + (d.Y-a.Y)*0.6}, p.peg("B4"))
	p.figure(0, "A1 D1 D3 B4")
	p.swipe(p.peg("D3"), p.peg("E4"))
	p.figure(0, "A1 D1 E4 B4")
	p.swipe(p.peg("D1"), point{195, 800})
	p.figure(0, "A1 E4 B4")
}
