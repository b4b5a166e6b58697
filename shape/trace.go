package shape

import (
	"cmp"
	"slices"

	"pegwright/board"
)

// Status says what the bands on a board come to.
type Status string

// The statuses, in the order in which one hides another: a figure that crosses
// and branches is called crossing.
const (
	Empty         Status = "empty"
	Crossing      Status = "crossing"
	Branching     Status = "branching"
	Touching      Status = "touching"
	SeveralPieces Status = "several pieces"
	OpenPath      Status = "open path"
	ClosedPolygon Status = "polygon"
)

var statusOrder = []Status{Empty, Crossing, Branching, Touching, SeveralPieces, OpenPath, ClosedPolygon}

// Problem is one reason why a figure is not a polygon, and where.
type Problem struct {
	Status   Status
	At       board.Spot
	Segments []board.Segment // those that cross or meet there
}

// Outline is what is left of a figure when every stretch of band that lies on
// another counts once and pieces that run on straight are one piece.
type Outline struct {
	Board      *board.Board
	Status     Status
	Problems   []Problem       // none for a polygon
	Segments   []board.Segment // straight pieces, as long as they go
	Corners    []board.Peg     // where a piece ends on another; for a polygon in order round it
	PassedOver []board.Peg     // pegs that pieces run straight over
	Ends       []board.Peg     // loose ends
}

// Trace merges the bands of a figure and says what they come to.
//
// At a peg where several pieces meet, the drawn picture decides: two pieces
// that run straight over it, or one with others on both its sides, cross
// there; pieces that stay on one side of a straight one, or four and more
// bends of closed loops, touch; the rest branch.
func Trace(f board.Figure) Outline {
	w := newWeb(f)
	o := Outline{Board: f.Board, Segments: w.straightPieces()}
	if len(o.Segments) == 0 {
		o.Status = Empty
		o.Problems = []Problem{{Status: Empty}}
		return o
	}
	o.addMeetings()
	o.addLooseParts(w)
	o.PassedOver = w.passed()
	o.Status = ClosedPolygon
	for _, p := range o.Problems {
		if slices.Index(statusOrder, p.Status) < slices.Index(statusOrder, o.Status) {
			o.Status = p.Status
		}
	}
	if o.Status == ClosedPolygon {
		o.Corners = w.round()
	} else {
		o.Corners = o.bends(w)
	}
	return o
}

// web is a figure cut into hops: straight moves from a peg to the next peg on
// the line, each once.
type web struct {
	board *board.Board
	next  [][]board.Peg // next[p] are the pegs one hop from p, in order
}

func newWeb(f board.Figure) *web {
	w := &web{board: f.Board, next: make([][]board.Peg, f.Board.Pegs())}
	for _, s := range f.Segments() {
		from := s.From
		for _, over := range f.Board.Over(s.From, s.To) {
			w.join(from, over)
			from = over
		}
		w.join(from, s.To)
	}
	for _, pegs := range w.next {
		slices.Sort(pegs)
	}
	return w
}

func (w *web) join(p, q board.Peg) {
	if !slices.Contains(w.next[p], q) {
		w.next[p] = append(w.next[p], q)
		w.next[q] = append(w.next[q], p)
	}
}

// ahead returns the hop that carries on straight from p over q.
func (w *web) ahead(p, q board.Peg) (board.Peg, bool) {
	for _, r := range w.next[q] {
		if w.board.Between(p, q, r) {
			return r, true
		}
	}
	return 0, false
}

// straightPieces joins hops that carry straight on into the longest pieces.
func (w *web) straightPieces() []board.Segment {
	var out []board.Segment
	for p := range w.next {
		from := board.Peg(p)
		for _, q := range w.next[p] {
			if _, goesOn := w.ahead(q, from); goesOn {
				continue // not the start of a piece
			}
			end, at := q, from
			for {
				r, goesOn := w.ahead(at, end)
				if !goesOn {
					break
				}
				at, end = end, r
			}
			if from < end {
				out = append(out, board.Segment{From: from, To: end})
			}
		}
	}
	return out
}

// passed returns the pegs that exactly one straight piece runs over and where
// nothing else happens.
func (w *web) passed() []board.Peg {
	var out []board.Peg
	for p, next := range w.next {
		if len(next) == 2 && w.board.Between(next[0], board.Peg(p), next[1]) {
			out = append(out, board.Peg(p))
		}
	}
	return out
}

// bends returns the pegs where a piece ends on another piece.
func (o *Outline) bends(w *web) []board.Peg {
	var out []board.Peg
	for p, next := range w.next {
		peg := board.Peg(p)
		ends := slices.ContainsFunc(o.Segments, func(s board.Segment) bool { return s.From == peg || s.To == peg })
		if len(next) > 1 && ends {
			out = append(out, peg)
		}
	}
	return out
}

// round returns the corners of a web that is one simple loop, in order.
func (w *web) round() []board.Peg {
	start := slices.IndexFunc(w.next, func(next []board.Peg) bool { return len(next) > 0 })
	var out []board.Peg
	before, at := w.next[start][0], board.Peg(start)
	for {
		after := w.next[at][0]
		if after == before {
			after = w.next[at][1]
		}
		if !w.board.Between(before, at, after) {
			out = append(out, at)
		}
		before, at = at, after
		if at == board.Peg(start) {
			return out
		}
	}
}

// pieces numbers the connected pieces: the piece of each used peg from 1, and
// for each piece whether it has a loose end.
func (w *web) pieces() (of []int, loose []bool) {
	of, loose = make([]int, len(w.next)), []bool{false}
	for p := range w.next {
		if len(w.next[p]) == 0 || of[p] > 0 {
			continue
		}
		loose = append(loose, false)
		number := len(loose) - 1
		of[p] = number
		for queue := []board.Peg{board.Peg(p)}; len(queue) > 0; queue = queue[1:] {
			next := w.next[queue[0]]
			if len(next) == 1 {
				loose[number] = true
			}
			for _, q := range next {
				if of[q] == 0 {
					of[q] = number
					queue = append(queue, q)
				}
			}
		}
	}
	return of, loose
}

// addMeetings records where pieces cross between pegs.
func (o *Outline) addMeetings() {
	for i, s := range o.Segments {
		for _, t := range o.Segments[i+1:] {
			if o.Board.Meeting(s, t) == board.Crossing {
				at := o.Board.CrossingPoint(s, t)
				o.Problems = append(o.Problems, Problem{Crossing, at, []board.Segment{s, t}})
			}
		}
	}
}

// addLooseParts records branching and touching pegs, loose ends and separate
// pieces.
func (o *Outline) addLooseParts(w *web) {
	of, loose := w.pieces()
	for p, next := range w.next {
		peg := board.Peg(p)
		if len(next) == 1 {
			o.Ends = append(o.Ends, peg)
			o.Problems = append(o.Problems, Problem{Status: OpenPath, At: o.Board.SpotOf(peg)})
		}
		if len(next) < 3 {
			continue
		}
		if status := w.statusAt(peg, loose[of[p]]); status != Crossing || !o.crossesAt(peg) {
			o.Problems = append(o.Problems, Problem{status, o.Board.SpotOf(peg), o.piecesAt(peg)})
		}
	}
	if o.piecesLeft(of, len(loose)-1) > 1 {
		o.Problems = append(o.Problems, Problem{Status: SeveralPieces, Segments: o.Segments})
	}
}

// piecesLeft returns how many of the numbered pieces are left when those that
// cross between pegs count as one.
func (o *Outline) piecesLeft(of []int, pieces int) int {
	of = slices.Clone(of)
	for _, p := range o.Problems {
		for _, s := range p.Segments {
			one, other := of[p.Segments[0].From], of[s.From]
			if one == other {
				continue
			}
			pieces--
			for peg := range of {
				if of[peg] == other {
					of[peg] = one
				}
			}
		}
	}
	return pieces
}

// crossesAt reports whether a crossing of straight pieces at a peg is recorded.
func (o *Outline) crossesAt(p board.Peg) bool {
	return slices.ContainsFunc(o.Problems, func(q Problem) bool {
		return q.Status == Crossing && q.At.OnPeg && q.At.Peg == p
	})
}

func (o *Outline) piecesAt(p board.Peg) []board.Segment {
	var out []board.Segment
	for _, s := range o.Segments {
		if s.From == p || s.To == p || o.Board.Between(s.From, p, s.To) {
			out = append(out, s)
		}
	}
	return out
}

// statusAt names what happens at a peg with three hops or more.
func (w *web) statusAt(p board.Peg, loose bool) Status {
	var straight []board.Peg // one end of each hop pair that runs straight over p
	var ends []board.Peg
	for _, q := range w.next[p] {
		if r, ok := w.ahead(q, p); !ok {
			ends = append(ends, q)
		} else if q < r {
			straight = append(straight, q)
		}
	}
	switch {
	case len(straight) >= 2:
		return Crossing
	case len(straight) == 1:
		return w.statusBeside(straight[0], p, ends)
	case len(ends)%2 == 0 && !loose:
		return Touching
	}
	return Branching
}

// statusBeside names what the ends at p do to the straight piece from q over p.
func (w *web) statusBeside(q, p board.Peg, ends []board.Peg) Status {
	left, right := 0, 0
	for _, e := range ends {
		if w.board.Turn(q, p, e) > 0 {
			left++
		} else {
			right++
		}
	}
	switch {
	case len(ends) == 1:
		return Branching
	case left > 0 && right > 0:
		return Crossing
	case len(ends)%2 == 0:
		return Touching
	}
	return Branching
}

// Pair is two straight pieces and how they lie to each other.
type Pair struct {
	First, Second board.Segment
	Meeting       board.Meeting
	Parallel      bool // one direction, on different lines
	Perpendicular bool // directions at right angles, whether or not they meet
	OneLine       bool
}

// PairOf says how two different segments lie to each other.
func PairOf(b *board.Board, s, t board.Segment) Pair {
	pair := Pair{First: s, Second: t, Meeting: b.Meeting(s, t)}
	d, e := b.Along(s), b.Along(t)
	if b.Cross(d, e) == 0 {
		pair.OneLine = onLine(b, s, t.From) && onLine(b, s, t.To)
		pair.Parallel = !pair.OneLine
	}
	pair.Perpendicular = b.Dot(d, e) == 0
	return pair
}

func onLine(b *board.Board, s board.Segment, p board.Peg) bool {
	return b.Turn(s.From, s.To, p) == 0
}

// maxPairs bounds the list of pairs of a figure of very many bands.
const maxPairs = 2000

// Pairs lists every pair of the outline's straight pieces, in order; of a
// figure with more than 2,000 pairs the first 2,000.
func (o Outline) Pairs() []Pair {
	var out []Pair
	for i, s := range o.Segments {
		for _, t := range o.Segments[i+1:] {
			if len(out) == maxPairs {
				return out
			}
			out = append(out, PairOf(o.Board, s, t))
		}
	}
	return out
}

// PathAngle is the angle that an open outline makes at a bend.
type PathAngle struct {
	At       board.Peg
	From, To board.Peg // the far ends of the two pieces
	Angle    board.Angle
}

// PathAngles lists the angles where exactly two pieces of the outline meet at
// their ends, the smaller way round.
func (o Outline) PathAngles() []PathAngle {
	var out []PathAngle
	for _, p := range o.Corners {
		var far []board.Peg
		for _, s := range o.Segments {
			switch p {
			case s.From:
				far = append(far, s.To)
			case s.To:
				far = append(far, s.From)
			}
		}
		if len(far) != 2 || len(o.piecesAt(p)) != 2 {
			continue
		}
		slices.SortFunc(far, func(a, c board.Peg) int { return cmp.Compare(a, c) })
		from, to := far[0], far[1]
		if o.Board.Turn(from, p, to) < 0 {
			from, to = to, from
		}
		angle := o.Board.Angle(o.Board.Arrow(from, p), o.Board.Arrow(p, to))
		out = append(out, PathAngle{p, from, to, angle})
	}
	return out
}
