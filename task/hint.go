package task

import (
	"cmp"
	"math"
	"slices"

	"pegwright/board"
	"pegwright/shape"
)

// Op is a change of one corner.
type Op string

// The changes.
const (
	Move Op = "move"
	Add  Op = "add"
	Drop Op = "drop"
)

// Change is a change of one corner of a polygon: the corner at From moves to
// To, a corner is added at To between the neighbours From and Beside, or the
// corner at From is dropped.
type Change struct {
	Op     Op
	From   board.Peg
	To     board.Peg
	Beside board.Peg // for Add, the other end of the side that bends
	After  board.Figure
}

// Hint is the smallest change that makes a figure fit, with the condition to
// nudge towards without giving the change away.
type Hint struct {
	Change Change
	Nudge  Condition // a condition that fails now; for an unfinished figure, zero
}

// hint searches the figures that one corner's change makes of a figure, the
// smallest change first, for one that fits. Crossing and touching loops of one
// band can be mended so too; for a figure without a loop there is no corner to
// change.
func (t Task) hint(r shape.Reading) *Hint {
	corners := loopOf(r)
	if corners == nil {
		return nil
	}
	holds := t.Conditions.Compile(t.Board, t.Definitions)
	p := shape.EmptyPolygon(t.Board)
	for _, c := range changesOf(t.Board, corners, r.Polygon != nil) {
		after := c.apply(corners)
		if r.Polygon == nil && !isPolygon(t.Board, after) {
			continue
		}
		p.Reset(after)
		if !holds(p) {
			continue
		}
		c.After = figureLike(r.Figure, after)
		if t.bandsHold(len(c.After.Bands)) {
			return &Hint{Change: c.Change, Nudge: t.firstFailing(r)}
		}
	}
	return nil
}

// loopOf returns the corners of a figure's closed loop: a polygon's, or those
// of a single band that crosses or touches itself.
func loopOf(r shape.Reading) []board.Peg {
	switch {
	case r.Polygon != nil:
		return r.Polygon.Corners()
	case len(r.Figure.Bands) == 1 && len(r.Figure.Bands[0]) > 2:
		return r.Figure.Bands[0]
	}
	return nil
}

func isPolygon(b *board.Board, corners []board.Peg) bool {
	_, ok := shape.NewPolygon(b, corners)
	return ok
}

func (t Task) bandsHold(n int) bool {
	return !slices.ContainsFunc(t.Conditions, func(c Condition) bool { return c.Property == Bands && !c.Allows(n) })
}

func (t Task) firstFailing(r shape.Reading) Condition {
	for _, result := range t.results(r) {
		if r.Polygon != nil && !result.Holds {
			return result.Condition
		}
	}
	return Condition{}
}

// figureLike returns a figure with new corners, of one band, or of one band a
// side when the figure it comes from was made of several.
func figureLike(f board.Figure, corners []board.Peg) board.Figure {
	if len(f.Bands) == 1 {
		return board.Figure{Board: f.Board, Bands: [][]board.Peg{corners}}
	}
	out := board.Figure{Board: f.Board}
	for i, p := range corners {
		out.Bands = append(out.Bands, []board.Peg{p, corners[(i+1)%len(corners)]})
	}
	return out
}

// change is a Change with the place in the list of corners where it happens,
// and how far a corner travels.
type change struct {
	Change
	at     int
	effort float64
}

// apply returns the corners after a change.
func (c change) apply(corners []board.Peg) []board.Peg {
	out := slices.Clone(corners)
	switch c.Op {
	case Move:
		out[c.at] = c.To
	case Add:
		out = slices.Insert(out, c.at+1, c.To)
	case Drop:
		out = slices.Delete(out, c.at, c.at+1)
	}
	return out
}

// changesOf lists the changes of one corner, the smallest first. When the
// corners make a polygon only those that leave one are listed.
func changesOf(b *board.Board, corners []board.Peg, polygon bool) []change {
	var out []change
	keep := func(c change) {
		if !polygon || staysSimple(b, corners, c) {
			out = append(out, c)
		}
	}
	used := make([]bool, b.Pegs())
	for _, p := range corners {
		used[p] = true
	}
	for i, p := range corners {
		next := corners[(i+1)%len(corners)]
		before := corners[(i+len(corners)-1)%len(corners)]
		if len(corners) > 3 {
			keep(change{Change{Op: Drop, From: p}, i, apart(b, p, before, next)})
		}
		for q := range board.Peg(b.Pegs()) {
			if !used[q] {
				keep(change{Change{Op: Move, From: p, To: q}, i, apart(b, q, p, p)})
				keep(change{Change{Op: Add, From: p, To: q, Beside: next}, i, apart(b, q, p, next)})
			}
		}
	}
	slices.SortStableFunc(out, func(c, d change) int {
		return cmp.Compare(math.Round(c.effort*1e6), math.Round(d.effort*1e6))
	})
	return out
}

// apart returns how far a peg is from the middle of two others.
func apart(b *board.Board, p, q, r board.Peg) float64 {
	x, y := b.At(p)
	x1, y1 := b.At(q)
	x2, y2 := b.At(r)
	return math.Hypot(x-(x1+x2)/2, y-(y1+y2)/2)
}

// staysSimple reports whether a change leaves a simple polygon simple: only
// the new sides need to be looked at, and the corners at their ends.
func staysSimple(b *board.Board, corners []board.Peg, c change) bool {
	after := c.apply(corners)
	k := len(after)
	// The changed place is corner c.at, the one after it, or the gap before it.
	first, last := c.at-1, c.at
	switch c.Op {
	case Add:
		first, last = c.at, c.at+1
	case Drop:
		first, last = c.at-1, c.at-1
	}
	for i := first; i <= last; i++ {
		if !sideClear(b, after, (i+k)%k) {
			return false
		}
	}
	for i := first; i <= last+1; i++ {
		if b.Turn(after[(i+k-1)%k], after[(i+k)%k], after[(i+k+1)%k]) == 0 {
			return false
		}
	}
	return true
}

// sideClear reports whether side i meets no other side but at its ends.
func sideClear(b *board.Board, corners []board.Peg, i int) bool {
	k := len(corners)
	s := board.Segment{From: corners[i], To: corners[(i+1)%k]}
	for n := 1; n < k; n++ {
		j := (i + n) % k
		want := board.Apart
		if n == 1 || n == k-1 {
			want = board.SharedEnd
		}
		if b.Meeting(s, board.Segment{From: corners[j], To: corners[(j+1)%k]}) != want {
			return false
		}
	}
	return true
}
