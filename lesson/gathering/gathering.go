// Package gathering chooses the boards worth talking about: from everything that
// a class shows for one task, three to five that together make a conversation,
// with why each, in which order, and a question to ask of it.
//
// What makes a good set is section 5.3 of job-and-standards.md: one name and
// nothing alike; a near miss; a right answer that most think wrong and a wrong
// one that most think right; the only one of its kind and the commonest. The
// order runs from the common to the rare and ends with what does not fit. The
// choice is a proposal; hearing why a child made a board is the teacher's work.
// Start reading at Choose.
package gathering

import (
	"cmp"
	"slices"

	"pegwright/board"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
)

// The number of boards chosen, where there are so many different ones.
const (
	Least = 3
	Most  = 5
)

// Board is a figure that somebody shows.
type Board struct {
	ID     string
	Figure board.Figure
	Shown  int // how often its pupil was at the front lately
}

// Why says what a board is chosen for. Each is a message of the room wording
// with "why." in front, and its question the one with "ask.".
type Why string

// The grounds, in the order in which boards are shown.
const (
	Trying    Why = "trying"    // a start that everybody can say something about, where little fits
	Common    Why = "common"    // what most have made
	Different Why = "different" // it fits too and looks unlike the common one
	Unusual   Why = "unusual"   // it fits: a dent, or nothing upright
	Rare      Why = "rare"      // it fits, and nobody else has it
	Surprise  Why = "surprise"  // it does not fit and looks as if it did
	Near      Why = "near"      // one corner away
)

var shownOrder = []Why{Trying, Common, Different, Unusual, Rare, Surprise, Near}

// Pick is a board chosen.
type Pick struct {
	Board    Board
	Why      Why
	Same     int // how many boards show the same, this one with them
	Standing task.Standing
}

// Reason returns why the board is chosen, for the teacher.
func (p Pick) Reason() wording.Message {
	m := wording.Message{ID: "why." + string(p.Why)}
	if p.Why == Common {
		m.Count = p.Same
	}
	return m
}

// Question returns what to ask the class about the board.
func (p Pick) Question() wording.Message { return wording.Message{ID: "ask." + string(p.Why)} }

// Choose picks three to five of the boards of one task, in the order in which
// to show them; fewer where fewer are different. Of equal boards it takes the
// one whose pupil was shown least, then the first. One list of boards gives one
// choice. Empty boards are never chosen, and no two picks show the same.
func Choose(t task.Task, boards []Board) []Pick {
	c := choice{kinds: kindsOf(t, boards)}
	c.take(Common, c.best(fits, func(k kind) float64 { return float64(len(k.boards)) }))
	c.take(Different, c.best(fits, c.unlike))
	c.take(Surprise, c.best(func(k kind) bool { return k.deceives }, closeness))
	c.take(Near, c.best(func(k kind) bool { return k.standing == task.Nearly }, closeness))
	c.take(Rare, c.best(func(k kind) bool { return fits(k) && len(k.boards) == 1 }, c.unlike))
	c.take(Unusual, c.best(func(k kind) bool { return fits(k) && (k.look.dent || !k.look.upright) }, c.unlike))
	for len(c.picks) < Least && c.fill() {
	}
	slices.SortStableFunc(c.picks, func(a, b Pick) int {
		return cmp.Compare(slices.Index(shownOrder, a.Why), slices.Index(shownOrder, b.Why))
	})
	return c.picks
}

func fits(k kind) bool { return k.standing == task.Fits }

// closeness prefers what lacks little, then what many have.
func closeness(k kind) float64 { return -float64(k.fails) + float64(len(k.boards))/100 }

// kind is all boards that show the same: congruent polygons that stand alike to
// the task, or figures of pieces with one description.
type kind struct {
	key      string
	polygon  *shape.Polygon
	boards   []Board
	standing task.Standing
	fails    int // conditions that do not hold
	look     look
	deceives bool // it does not fit and looks as if it did
	taken    bool
}

// look is what a child sees first.
type look struct {
	sides               int
	name                shape.Name
	dent, upright, fold bool
}

// unlike counts in how many ways two looks differ.
func (l look) unlike(m look) float64 {
	n := 0.0
	for _, differs := range []bool{l.sides != m.sides, l.name != m.name, l.dent != m.dent, l.upright != m.upright, l.fold != m.fold} {
		if differs {
			n++
		}
	}
	return n
}

type choice struct {
	kinds []kind
	picks []Pick
	looks []look
}

// unlike returns how much a kind differs from everything picked so far.
func (c *choice) unlike(k kind) float64 {
	least := 9.0
	for _, l := range c.looks {
		least = min(least, k.look.unlike(l))
	}
	return least
}

// best returns the index of the kind with the most of something among those not
// taken, or −1; the earliest of equals.
func (c *choice) best(among func(kind) bool, score func(kind) float64) int {
	best, most := -1, 0.0
	for i, k := range c.kinds {
		if k.taken || !among(k) {
			continue
		}
		if s := score(k); best < 0 || s > most {
			best, most = i, s
		}
	}
	return best
}

func (c *choice) take(why Why, i int) {
	if i < 0 || len(c.picks) == Most {
		return
	}
	k := &c.kinds[i]
	k.taken = true
	shown := slices.MinFunc(k.boards, func(a, b Board) int { return cmp.Compare(a.Shown, b.Shown) })
	c.picks = append(c.picks, Pick{Board: shown, Why: why, Same: len(k.boards), Standing: k.standing})
	c.looks = append(c.looks, k.look)
}

// fill takes one more board where too few were found, and reports whether there
// was one: another that fits, or else a try.
func (c *choice) fill() bool {
	if i := c.best(fits, c.unlike); i >= 0 {
		c.take(Different, i)
		return true
	}
	i := c.best(func(kind) bool { return true }, closeness)
	why := Trying
	if i >= 0 && c.kinds[i].standing == task.Nearly {
		why = Near
	}
	c.take(why, i)
	return i >= 0
}
