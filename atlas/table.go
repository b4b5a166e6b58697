package atlas

import (
	"pegwright/board"
)

// maxTablePegs is the largest number of pegs whose sets fit in one machine
// word; boards with more are walked without a table.
const maxTablePegs = 64

// set is a set of pegs, one bit each.
type set = uint64

// table answers, by one look-up each, the questions that a walk over polygons
// asks: which moves a side in place rules out, and which pegs lie on a line or
// to its left.
type table struct {
	board *board.Board
	pegs  int
	all   set
	// blocked[p*pegs+q] has, for each peg v, the pegs x for which a side v–x
	// would meet a side p–q anywhere but at a shared end. A row is made when
	// it is first needed.
	blocked []([]set)
	onLine  []set // onLine[p*pegs+q]: pegs in line with p and q, these included
	left    []set // left[p*pegs+q]: pegs to the left of the way from p to q
	length  []board.Length
}

func newTable(b *board.Board) *table {
	n := b.Pegs()
	t := &table{
		board: b, pegs: n, all: 1<<n - 1,
		blocked: make([][]set, n*n), onLine: make([]set, n*n), left: make([]set, n*n), length: make([]board.Length, n*n),
	}
	if n == maxTablePegs {
		t.all = ^set(0)
	}
	for p := range n {
		for q := range n {
			if p != q {
				t.addPair(board.Peg(p), board.Peg(q))
			}
		}
	}
	for p := range n {
		for q := range p {
			t.block(board.Segment{From: board.Peg(p), To: board.Peg(q)})
		}
	}
	return t
}

func (t *table) at(p, q board.Peg) int { return int(p)*t.pegs + int(q) }

func (t *table) addPair(p, q board.Peg) {
	at := t.at(p, q)
	t.length[at] = t.board.Length(t.board.Arrow(p, q))
	for r := range t.pegs {
		switch t.board.Turn(p, q, board.Peg(r)) {
		case 0:
			t.onLine[at] |= 1 << r
		case 1:
			t.left[at] |= 1 << r
		}
	}
}

// block fills the row of a side. Most questions are settled by which side of
// the line the pegs lie on: a move from v can only meet the side when it goes
// from one side of the line to the other, or along it.
func (t *table) block(s board.Segment) {
	row := make([]set, t.pegs)
	line, left := t.onLine[t.at(s.From, s.To)], t.left[t.at(s.From, s.To)]
	right := t.all &^ (line | left)
	for v := range t.pegs {
		others := right | line
		switch {
		case line>>v&1 == 1:
			others = t.all
		case right>>v&1 == 1:
			others = left | line
		}
		for x := range t.pegs {
			if v == x || others>>x&1 == 0 {
				continue
			}
			m := t.board.Meeting(s, board.Segment{From: board.Peg(v), To: board.Peg(x)})
			if m != board.Apart && m != board.SharedEnd {
				row[v] |= 1 << x
			}
		}
	}
	t.blocked[t.at(s.From, s.To)], t.blocked[t.at(s.To, s.From)] = row, row
}
