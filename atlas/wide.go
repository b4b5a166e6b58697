package atlas

import (
	"slices"

	"pegwright/board"
)

// wideWalk is walk for boards with too many pegs for a table: it looks at
// every pair of sides with the board's own exact arithmetic, and is slower.
type wideWalk struct {
	board       *board.Board
	least, most int
	convex      bool
	equilateral bool
	visit       func(corners []board.Peg) bool
	stop        func() bool

	path  []board.Peg
	nodes int
	long  int
	done  bool
}

func (w *wideWalk) deepest() int { return w.long }

func (w *wideWalk) from(first, second board.Peg) bool {
	w.path = append(w.path[:0], first, second)
	w.nodes, w.done = 0, false
	w.deepen()
	return !w.done
}

func (w *wideWalk) deepen() {
	n := len(w.path)
	w.long = max(w.long, n)
	for x := w.path[0] + 1; int(x) < w.board.Pegs() && !w.done; x++ {
		if !w.reaches(x) {
			continue
		}
		if n+1 >= w.least && w.closes(x) && !w.visit(append(w.path, x)) {
			w.done = true
		}
		if n+1 < w.most {
			w.path = append(w.path, x)
			w.deepen()
			w.path = w.path[:n]
		}
		if w.nodes++; w.nodes > unitSteps || w.nodes%64 == 0 && w.stop() {
			w.done = true
		}
	}
}

// reaches reports whether the path can go on to x.
func (w *wideWalk) reaches(x board.Peg) bool {
	n := len(w.path)
	last := w.path[n-1]
	turn := w.board.Turn(w.path[n-2], last, x)
	switch {
	case turn == 0 || slices.Contains(w.path, x):
		return false
	case w.convex && (turn < 0 || w.board.Turn(w.path[0], w.path[1], x) <= 0 || n > 2 && w.board.Turn(w.path[0], last, x) <= 0):
		return false
	case w.equilateral && !w.sameLength(last, x):
		return false
	}
	return w.clear(board.Segment{From: last, To: x}, 0)
}

// closes reports whether a path that goes on to x can close from there.
func (w *wideWalk) closes(x board.Peg) bool {
	first, second, last := w.path[0], w.path[1], w.path[len(w.path)-1]
	switch {
	case !w.convex && x < second:
		return false // one direction only
	case w.equilateral && !w.sameLength(x, first):
		return false
	case w.board.Turn(last, x, first) == 0 || w.board.Turn(x, first, second) == 0:
		return false
	}
	return w.clear(board.Segment{From: x, To: first}, 1)
}

func (w *wideWalk) sameLength(p, q board.Peg) bool {
	b := w.board
	return b.Length(b.Arrow(p, q)) == b.Length(b.Arrow(w.path[0], w.path[1]))
}

// clear reports whether a side meets none of the path's sides from one on,
// except at ends.
func (w *wideWalk) clear(s board.Segment, from int) bool {
	for i := from; i+1 < len(w.path); i++ {
		m := w.board.Meeting(s, board.Segment{From: w.path[i], To: w.path[i+1]})
		if m != board.Apart && m != board.SharedEnd {
			return false
		}
	}
	return true
}
