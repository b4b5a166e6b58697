package closing

import (
	"context"
	"math/rand/v2"
	"slices"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/lesson/sorting"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// builder makes items; the first error stays.
type builder struct {
	Question
	ctx    context.Context
	random *rand.Rand
	stocks map[string]*stock
	err    error
}

// stock is the figures for items on one word: members, and near misses that lack
// exactly one mark, each in a mixed order. Pictures of words that are not about
// single polygons come from the word itself.
type stock struct {
	members, misses []word.Picture
	missed          []*shape.Polygon // the misses that came from the atlas
}

// stockOf returns the figures for a word, made once.
func (b *builder) stockOf(w word.Word) *stock {
	if s, ok := b.stocks[w.ID]; ok {
		return s
	}
	s := &stock{}
	if w.OfPolygons() {
		b.fromAtlas(w, s)
	}
	// The word's own pictures serve where the board has too few figures.
	if len(s.members) < 4 {
		s.members = append(s.members, twice(w.Show)...)
	}
	if len(s.misses) < 4 {
		for _, n := range w.Not {
			s.misses = append(s.misses, twice([]word.Picture{n.Picture})...)
		}
	}
	b.random.Shuffle(len(s.members), func(i, j int) { s.members[i], s.members[j] = s.members[j], s.members[i] })
	b.random.Shuffle(len(s.misses), func(i, j int) { s.misses[i], s.misses[j] = s.misses[j], s.misses[i] })
	b.stocks[w.ID] = s
	return s
}

// twice returns pictures, each with its mirror image where that differs.
func twice(pictures []word.Picture) []word.Picture {
	var out []word.Picture
	for _, p := range pictures {
		out = append(out, p)
		if m, ok := Mirrored(p); ok {
			out = append(out, m)
		}
	}
	return out
}

const samples = 24

var mostSides = task.Condition{Property: task.Sides, Comparison: task.AtMost, Count: 5}

func (b *builder) fromAtlas(w word.Word, s *stock) {
	cs := w.Conditions()
	if !slices.ContainsFunc(cs.Consequences(), func(c task.Condition) bool { return c.Property == task.Sides && c.Comparison == task.Equal }) {
		cs = append(cs, mostSides)
	}
	a, err := atlas.Find(b.ctx, atlas.Question{Board: b.Board, Conditions: cs, Definitions: b.Definitions, Examples: samples})
	if err != nil {
		b.err = err
		return
	}
	for _, e := range a.Examples {
		s.members = append(s.members, word.Picture{Figure: e.Figure})
		b.addMisses(w, e.Polygon, s)
	}
	// What no single move reaches: a rhombus, for squares.
	more, err := sorting.Question{Word: w, Board: b.Board, Definitions: b.Definitions}.Misses(b.ctx)
	if err != nil {
		b.err = err
		return
	}
	for _, c := range more {
		s.addMiss(c.Polygon)
	}
}

// addMiss adds a near miss unless a congruent one is there, and reports whether
// it did.
func (s *stock) addMiss(p *shape.Polygon) bool {
	known := slices.ContainsFunc(s.missed, func(q *shape.Polygon) bool { return shape.Congruent(p, q) })
	if !known {
		s.missed = append(s.missed, p)
		s.misses = append(s.misses, word.Picture{Figure: board.Figure{Board: p.Board(), Bands: [][]board.Peg{p.Corners()}}})
	}
	return !known
}

// addMisses adds one near miss a member: a corner moved so that exactly one mark
// is lost, or for words of one mark any change of a corner.
func (b *builder) addMisses(w word.Word, p *shape.Polygon, s *stock) {
	changed := sorting.Changed(p)
	b.random.Shuffle(len(changed), func(i, j int) { changed[i], changed[j] = changed[j], changed[i] })
	for _, q := range changed {
		if len(w.Lacks(q, b.Definitions)) == 1 && s.addMiss(q) {
			return
		}
	}
}

// Mirrored returns a picture seen in a mirror that stands upright beside it. It
// reports whether the board has pegs where they land and the picture changes.
func Mirrored(p word.Picture) (word.Picture, bool) {
	b := p.Figure.Board
	right := 0.0
	for peg := range board.Peg(b.Pegs()) {
		x, _ := b.At(peg)
		right = max(right, x)
	}
	left := right
	for peg := range board.Peg(b.Pegs()) {
		x, _ := b.At(peg)
		left = min(left, x)
	}
	ok := true
	move := func(peg board.Peg) board.Peg {
		x, y := b.At(peg)
		for q := range board.Peg(b.Pegs()) {
			if qx, qy := b.At(q); near(qx, left+right-x) && near(qy, y) {
				return q
			}
		}
		ok = false
		return peg
	}
	moveAll := func(pegs []board.Peg) []board.Peg {
		var out []board.Peg
		for _, peg := range pegs {
			out = append(out, move(peg))
		}
		return out
	}
	out := word.Picture{Figure: board.Figure{Board: b}, Pegs: moveAll(p.Pegs), On: moveAll(p.On)}
	for _, band := range p.Figure.Bands {
		out.Figure.Bands = append(out.Figure.Bands, moveAll(band))
	}
	if p.Line != nil {
		out.Line = &board.Segment{From: move(p.Line.From), To: move(p.Line.To)}
	}
	return out, ok && !samePlaces(p, out)
}

// near compares drawing coordinates of pegs, which lie far apart.
func near(a, b float64) bool { return a-b < 1e-6 && b-a < 1e-6 }

// samePlaces reports whether two pictures mean the same pegs.
func samePlaces(p, q word.Picture) bool {
	sorted := func(pegs []board.Peg) []board.Peg {
		out := slices.Clone(pegs)
		slices.Sort(out)
		return out
	}
	flat := func(p word.Picture) []board.Peg { return sorted(slices.Concat(p.Figure.Bands...)) }
	line := func(p word.Picture) []board.Peg {
		if p.Line == nil {
			return nil
		}
		return sorted([]board.Peg{p.Line.From, p.Line.To})
	}
	return slices.Equal(flat(p), flat(q)) && slices.Equal(sorted(p.Pegs), sorted(q.Pegs)) && slices.Equal(sorted(p.On), sorted(q.On)) && slices.Equal(line(p), line(q))
}

// lacks returns what a picture lacks of a word, as conditions where it can be
// said so, and whether it lacks anything.
func (b *builder) lacks(w word.Word, p word.Picture) (task.Conditions, bool) {
	var out task.Conditions
	marks := w.Fails(p, b.Definitions)
	for _, m := range marks {
		if c, ok := m.Condition(); ok {
			out = append(out, c)
		}
	}
	return out, len(marks) > 0
}

// behindPicking names the idea behind taking a picture for a word that it does
// not have: by the kernel's ideas, else by the mark that is left out.
func (b *builder) behindPicking(w word.Word, p word.Picture) wording.Message {
	cs := w.Conditions()
	if w.Kind != "" && w.OfPolygons() {
		// By its name the kernel knows what a kind brings with it.
		cs = task.Conditions{{Property: task.Kind, Comparison: task.Equal, Kind: w.Kind}}
	}
	if len(cs) > 0 {
		v := task.Task{Board: p.Figure.Board, Conditions: cs, Definitions: b.Definitions}.Judge(p.Figure)
		if len(v.Ideas) > 0 {
			return wording.Message{ID: "idea." + ideaKeys[v.Ideas[0].Rule]}
		}
	}
	marks := w.Fails(p, b.Definitions)
	if len(marks) == 0 {
		return wording.Message{ID: "idea.looks_alike"}
	}
	return wording.Message{ID: "idea.leaves_out_a_mark", Fill: map[string]string{"Mark": marks[0].String()}}
}

// ideaKeys are the messages of the kernel's rules.
var ideaKeys = map[task.Rule]string{
	task.CountedPegs: "counted_pegs", task.NeighbouringName: "neighbouring_name", task.UprightOnly: "upright_only",
	task.ConvexOnly: "convex_only", task.LooksAlike: "looks_alike", task.EqualSidesOnly: "equal_sides_are_enough",
	task.EqualAnglesOnly: "equal_angles_are_enough", task.CrossesItself: "looks_alike", task.NotClosed: "looks_alike",
}

// behindLeaving names the idea behind refusing a picture that has the word: it
// has a dent, it has a more telling name, nothing in it is upright, or it is
// just not the picture in every book.
func (b *builder) behindLeaving(w word.Word, p word.Picture) wording.Message {
	q := shape.Read(p.Figure, b.Definitions).Polygon
	id := "picture_only"
	switch {
	case q == nil:
	case !q.Convex():
		id = "convex_only"
	case w.Kind != "" && q.BestName(b.Definitions) != w.Kind:
		id = "special_is_not_general"
	case q.UprightSides() == 0:
		id = "upright_only"
	}
	return wording.Message{ID: "idea." + id}
}
