// Package sorting builds the figures that a class sorts by one word, and those
// that it matches with all the words that are true of them.
//
// A set to sort is what section 5.2 of job-and-standards.md asks for: two usual
// figures, two turned, two near misses that each differ from the word in exactly
// one property, and one that belongs to another word too. The class's own
// boards come first; the atlas fills up. Every card is held against the word by
// the kernel. Start reading at Build.
package sorting

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// Role says what a card is in a set for.
type Role string

// The roles.
const (
	Usual    Role = "usual"
	Turned   Role = "turned"
	NearMiss Role = "near miss"
	Overlap  Role = "overlap"
)

// Card is a figure to sort.
type Card struct {
	Polygon   *shape.Polygon
	Role      Role
	Lacks     *task.Condition // near misses: the one mark that it lacks
	Also      string          // overlaps: the other word that it has
	FromClass bool
}

// Figure returns the card's figure, of one band.
func (c Card) Figure() board.Figure {
	return board.Figure{Board: c.Polygon.Board(), Bands: [][]board.Peg{c.Polygon.Corners()}}
}

// Belongs reports whether the figure has the word of its set.
func (c Card) Belongs() bool { return c.Role != NearMiss }

// Question is what a set is built for.
type Question struct {
	Word        word.Word
	Board       *board.Board // for figures from the atlas
	Class       []board.Figure
	Definitions shape.Definitions
	Seed        uint64
}

// WordError says why no set can be built.
type WordError struct{ Word, Why string }

// Error returns one sentence.
func (e *WordError) Error() string {
	return fmt.Sprintf("no figures to sort by %s: %s", e.Word, e.Why)
}

// Set is the cards in the order in which they lie on the table. A role is short
// of cards only where the board has no more.
type Set struct {
	Word  word.Word
	Cards []Card
}

// Build makes a set. No two cards are congruent and stand alike. One question has
// one answer. The error is a *WordError, or atlas.ErrStopped.
func Build(ctx context.Context, q Question) (Set, error) {
	if !q.Word.OfPolygons() {
		return Set{}, &WordError{q.Word.ID, "it is no word for polygons"}
	}
	members, err := q.members(ctx)
	if err != nil {
		return Set{}, err
	}
	if len(members) == 0 {
		return Set{}, &WordError{q.Word.ID, "this board has no such figure"}
	}
	b := builder{Question: q, members: members}
	// The rarest role chooses first.
	b.overlap()
	b.turned()
	b.usual()
	if err := b.nearMisses(ctx); err != nil {
		return Set{}, err
	}
	random := rand.New(rand.NewPCG(q.Seed, 2))
	random.Shuffle(len(b.cards), func(i, j int) { b.cards[i], b.cards[j] = b.cards[j], b.cards[i] })
	return Set{q.Word, b.cards}, nil
}

// found is a polygon that may become a card.
type found struct {
	polygon   *shape.Polygon
	fromClass bool
}

// mostSides keeps searches for words that fix no number of sides short.
var mostSides = task.Condition{Property: task.Sides, Comparison: task.AtMost, Count: 5}

const samples = 60

// members lists figures that have the word: the class's, in a mixed order, then
// those of the atlas.
func (q Question) members(ctx context.Context) ([]found, error) {
	var out []found
	for _, f := range q.classPolygons() {
		if len(q.Word.Lacks(f.polygon, q.Definitions)) == 0 {
			out = append(out, f)
		}
	}
	cs := q.Word.Conditions()
	if !fixesSides(cs) {
		cs = append(cs, mostSides)
	}
	a, err := atlas.Find(ctx, atlas.Question{Board: q.Board, Conditions: cs, Definitions: q.Definitions, Examples: samples})
	if err != nil {
		return nil, err
	}
	for _, e := range a.Examples {
		out = append(out, found{polygon: e.Polygon})
	}
	return out, nil
}

func fixesSides(cs task.Conditions) bool {
	return slices.ContainsFunc(cs.Consequences(), func(c task.Condition) bool { return c.Property == task.Sides && c.Comparison == task.Equal })
}

// classPolygons lists the polygons on the class's boards in a mixed order.
func (q Question) classPolygons() []found {
	var out []found
	for _, f := range q.Class {
		if p := shape.Read(f, q.Definitions).Polygon; p != nil {
			out = append(out, found{p, true})
		}
	}
	random := rand.New(rand.NewPCG(q.Seed, 1))
	random.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

type builder struct {
	Question
	members []found
	cards   []Card
}

// has reports whether a card shows the same: a congruent figure, as upright.
func (b *builder) has(p *shape.Polygon) bool {
	return slices.ContainsFunc(b.cards, func(c Card) bool {
		return shape.Congruent(c.Polygon, p) && c.Polygon.UprightSides() == p.UprightSides()
	})
}

// take adds as many cards of a role as wanted, those with the highest score
// first, the earlier of equals: so the class's own.
func (b *builder) take(role Role, wanted int, score func(p *shape.Polygon) int) {
	for range wanted {
		best, most := -1, 0
		for i, f := range b.members {
			if s := score(f.polygon); s > 0 && (best < 0 || s > most) && !b.has(f.polygon) {
				best, most = i, s
			}
		}
		if best < 0 {
			return
		}
		f := b.members[best]
		b.cards = append(b.cards, Card{Polygon: f.polygon, Role: role, FromClass: f.fromClass})
	}
}

// usual prefers what stands in every book: upright sides, no dent, fold lines.
func (b *builder) usual() {
	b.take(Usual, 2, func(p *shape.Polygon) int {
		s := 1 + 2*min(2, p.UprightSides()) + min(1, p.FoldLines())
		if p.Convex() {
			s += 4
		}
		return s
	})
}

// turned prefers figures with nothing upright, then few upright sides, and a
// dent where the word allows it.
func (b *builder) turned() {
	b.take(Turned, 2, func(p *shape.Polygon) int {
		s := 40 - 4*p.UprightSides()
		if !p.Convex() {
			s++
		}
		return max(1, s)
	})
}

// overlap takes a member that has another word too, one that not every member
// has: a word that children mix up with this one, or else one with a name.
func (b *builder) overlap() {
	for _, other := range b.others() {
		without := slices.ContainsFunc(b.members, func(f found) bool { return len(other.Lacks(f.polygon, b.Definitions)) > 0 })
		if !without {
			continue
		}
		b.take(Overlap, 1, func(p *shape.Polygon) int {
			if len(other.Lacks(p, b.Definitions)) > 0 {
				return 0
			}
			return 1 + p.UprightSides() // turned cards come from elsewhere
		})
		if len(b.cards) == 1 {
			b.cards[0].Also = other.ID
			return
		}
	}
}

// others lists the other words of polygons, the likeliest overlap first.
func (b *builder) others() []word.Word {
	var confused, named, rest []word.Word
	for _, w := range word.All() {
		switch {
		case w.ID == b.Word.ID || !w.OfPolygons():
		case slices.Contains(b.Word.Confused, w.ID):
			confused = append(confused, w)
		case w.Kind != "":
			named = append(named, w)
		default:
			rest = append(rest, w)
		}
	}
	slices.Reverse(named) // the telling before the general
	return slices.Concat(confused, named, rest)
}

// nearMisses takes two figures that lack exactly one mark, of different marks
// where the word has them: the class's own first, then a member with one corner
// changed, then whatever the atlas has.
func (b *builder) nearMisses(ctx context.Context) error {
	candidates := slices.Concat(b.missing(b.classPolygons()), b.missing(b.changedCorners()))
	b.takeMisses(candidates)
	if b.count(NearMiss) == 2 && b.bothMarks() {
		return nil
	}
	more, err := b.Misses(ctx)
	if err != nil {
		return err
	}
	b.cards = slices.DeleteFunc(b.cards, func(c Card) bool { return c.Role == NearMiss })
	b.takeMisses(slices.Concat(candidates, more))
	return nil
}

func (b *builder) takeMisses(candidates []Card) {
	for _, differs := range []bool{true, false} {
		for _, c := range candidates {
			if b.count(NearMiss) < 2 && !b.has(c.Polygon) && (!differs || !b.missesAlready(*c.Lacks)) {
				b.cards = append(b.cards, c)
			}
		}
	}
}

// bothMarks reports whether the near misses lack different marks, or the word
// has but one besides its number of sides.
func (b *builder) bothMarks() bool {
	lacks := map[string]bool{}
	for _, c := range b.cards {
		if c.Lacks != nil {
			lacks[c.Lacks.String()] = true
		}
	}
	return len(lacks) > 1 || len(b.Word.Conditions().Without(task.Sides)) < 2
}

// missSamples is how many near misses of each mark are taken from the atlas.
const missSamples = 6

// Misses lists figures of the board with all marks of the word but one, mark by
// mark. A word of one mark has near misses without the atlas: see Changed.
func (q Question) Misses(ctx context.Context) ([]Card, error) {
	var out []Card
	marks := q.Word.Conditions()
	for i, m := range marks {
		cs := slices.Delete(slices.Clone(marks), i, i+1)
		if m.Property == task.Sides {
			continue
		}
		cs = append(cs, opposite(m))
		if !fixesSides(cs) {
			cs = append(cs, mostSides)
		}
		a, err := atlas.Find(ctx, atlas.Question{Board: q.Board, Conditions: cs, Definitions: q.Definitions, Examples: missSamples})
		if err != nil {
			return nil, err
		}
		for _, e := range a.Examples {
			out = append(out, q.missing([]found{{polygon: e.Polygon}})...)
		}
	}
	return out, nil
}

// opposite returns the condition that holds exactly when one does not.
func opposite(c task.Condition) task.Condition {
	turned := map[task.Comparison]task.Comparison{
		task.Equal: task.NotEqual, task.NotEqual: task.Equal, task.AtLeast: task.LessThan,
		task.LessThan: task.AtLeast, task.AtMost: task.MoreThan, task.MoreThan: task.AtMost,
	}
	switch c.Property {
	case task.Convex, task.Equilateral, task.Equiangular, task.Regular:
		c.Yes = !c.Yes
	default:
		c.Comparison = turned[c.Comparison]
	}
	return c
}

func (b *builder) count(role Role) int {
	n := 0
	for _, c := range b.cards {
		if c.Role == role {
			n++
		}
	}
	return n
}

func (b *builder) missesAlready(mark task.Condition) bool {
	return slices.ContainsFunc(b.cards, func(c Card) bool { return c.Lacks != nil && c.Lacks.String() == mark.String() })
}

// missing makes near misses of those figures that lack exactly one mark.
func (q Question) missing(figures []found) []Card {
	var out []Card
	for _, f := range figures {
		if lacks := q.Word.Lacks(f.polygon, q.Definitions); len(lacks) == 1 {
			out = append(out, Card{Polygon: f.polygon, Role: NearMiss, Lacks: &lacks[0], FromClass: f.fromClass})
		}
	}
	return out
}

// changedCorners lists the figures that members become when one corner moves, is
// added or is dropped, members in their order.
func (b *builder) changedCorners() []found {
	const most = 12 // members
	var out []found
	for _, f := range b.members[:min(most, len(b.members))] {
		for _, p := range Changed(f.polygon) {
			out = append(out, found{polygon: p})
		}
	}
	return out
}

// Changed lists the polygons that one becomes when one corner moves to a free
// peg, then when one is dropped, then when one is added.
func Changed(p *shape.Polygon) []*shape.Polygon {
	var out []*shape.Polygon
	keep := func(corners []board.Peg) {
		if q, ok := shape.NewPolygon(p.Board(), corners); ok {
			out = append(out, q)
		}
	}
	Moves(p, func(corners []board.Peg, _ int) { keep(corners) })
	for i := range p.Sides() {
		keep(slices.Delete(p.Corners(), i, i+1))
	}
	for i := range p.Sides() {
		for peg := range board.Peg(p.Board().Pegs()) {
			if corners := p.Corners(); !slices.Contains(corners, peg) {
				keep(slices.Insert(corners, i+1, peg))
			}
		}
	}
	return out
}

// Moves visits the corners of a polygon with one of them, at, moved to a free
// peg. Not all of them make a polygon.
func Moves(p *shape.Polygon, visit func(corners []board.Peg, at int)) {
	for i := range p.Sides() {
		for peg := range board.Peg(p.Board().Pegs()) {
			if corners := p.Corners(); !slices.Contains(corners, peg) {
				corners[i] = peg
				visit(corners, i)
			}
		}
	}
}
