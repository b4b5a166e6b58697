package atlas

import (
	"math/bits"

	"pegwright/board"
)

// walk is a search over the simple polygons of a board by depth: it grows a
// path of sides from its lowest-numbered peg, and every polygon is met once,
// in the direction that reaches the lower of the first peg's two neighbours
// first (anticlockwise, when only convex ones are wanted).
//
// A path may go on to a peg that no side in place rules out; the polygons it
// closes to are the pegs that both the last peg and the first can reach.
type walk struct {
	*table
	least, most int  // corners
	convex      bool // only polygons that turn left all the way
	equilateral bool // only sides of one length

	path  []board.Peg
	rows  [][]set // the row of each side of the path
	used  set
	above set // pegs with higher numbers than the first
	// visit is called with the corners of each polygon; the slice is reused.
	// When it is nil, polygons are only counted. It returns false to stop.
	visit func(corners []board.Peg) bool
	count []int64 // polygons met, by number of corners
	stop  func() bool
	steps int // how many steps from two first pegs may take; 0 for any number
	nodes int
	long  int
	done  bool
}

func newWalk(t *table, least, most int) *walk {
	most = min(most, t.pegs)
	return &walk{
		table: t, least: max(least, 3), most: most,
		path: make([]board.Peg, 0, most+1), rows: make([][]set, 0, most), count: make([]int64, most+1),
	}
}

// from walks all polygons whose first side in walking order goes from first to
// second; first must be the lower. It returns false when stopped.
func (w *walk) from(first, second board.Peg) bool {
	w.above = w.all &^ (1<<(first+1) - 1)
	w.path = append(w.path[:0], first, second)
	w.rows = append(w.rows[:0], w.blocked[w.at(first, second)])
	w.used = 1<<first | 1<<second
	w.nodes, w.done = 0, false
	w.deepen(w.rows[0][first])
	return !w.done
}

// deepen closes the path in every way and then lengthens it in every way.
// closed has the pegs from which the way back to the first peg is ruled out.
func (w *walk) deepen(closed set) {
	n := len(w.path)
	w.long = max(w.long, n)
	last := w.path[n-1]
	open := w.above &^ w.used &^ w.onLine[w.at(w.path[n-2], last)]
	for _, row := range w.rows {
		open &^= row[last]
	}
	open = w.limited(open, last)
	if n+1 >= w.least {
		w.close(open&^closed, last)
	}
	if n+1 >= w.most || w.done {
		return
	}
	for ; open != 0 && !w.done; open &= open - 1 {
		next := board.Peg(bits.TrailingZeros64(open))
		row := w.blocked[w.at(last, next)]
		w.path, w.rows = append(w.path, next), append(w.rows, row)
		w.used |= 1 << next
		w.deepen(closed | row[w.path[0]])
		w.used &^= 1 << next
		w.path, w.rows = w.path[:n], w.rows[:n-1]
		w.rest()
	}
}

// limited keeps the pegs that suit a walk over convex or equilateral polygons.
func (w *walk) limited(open set, last board.Peg) set {
	if w.convex {
		// Left of the side before, and with the whole path to the left of the
		// new side: left of the first side, and the first peg left of it.
		first := w.path[0]
		open &= w.left[w.at(w.path[len(w.path)-2], last)] & w.left[w.at(first, w.path[1])] & w.left[w.at(first, last)]
	}
	if !w.equilateral {
		return open
	}
	want := w.length[w.at(w.path[0], w.path[1])]
	for rest := open; rest != 0; rest &= rest - 1 {
		if x := bits.TrailingZeros64(rest); w.length[w.at(last, board.Peg(x))] != want {
			open &^= 1 << x
		}
	}
	return open
}

// close meets the polygons that one more peg closes the path to.
func (w *walk) close(open set, last board.Peg) {
	first, second := w.path[0], w.path[1]
	open &^= w.onLine[w.at(last, first)] | w.onLine[w.at(first, second)]
	if !w.convex {
		open &^= 1<<second - 1 // one direction only
	}
	if w.visit == nil && !w.equilateral {
		w.count[len(w.path)+1] += int64(bits.OnesCount64(open))
		return
	}
	for ; open != 0 && !w.done; open &= open - 1 {
		x := board.Peg(bits.TrailingZeros64(open))
		if w.equilateral && w.length[w.at(x, first)] != w.length[w.at(first, second)] {
			continue
		}
		w.count[len(w.path)+1]++
		if w.visit != nil && !w.visit(append(w.path, x)) {
			w.done = true
		}
	}
}

// restEvery is how many steps a walk makes between looks at the clock.
const restEvery = 1 << 12

func (w *walk) rest() {
	w.nodes++
	if w.nodes%restEvery == 0 && w.stop != nil && w.stop() || w.nodes == w.steps {
		w.done = true
	}
}

func (w *walk) deepest() int { return w.long }
