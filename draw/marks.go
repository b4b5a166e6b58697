package draw

import (
	"cmp"
	"math"
	"slices"

	"pegwright/board"
	"pegwright/shape"
)

// marks draws what is exactly true of a polygon. A mark stands on its side
// wherever it is free of pegs, of square corners and of other marks, as near
// the middle as can be.
func (s *sketch) marks(r shape.Reading, folds bool) {
	p := r.Polygon
	if p == nil {
		return
	}
	rails := make([]*rail, p.Sides())
	for i := range rails {
		rails[i] = s.railOf(p, i)
		if folds {
			rails[i].keepOffFolds(p, i, s.step)
		}
	}
	for i := range p.Sides() {
		if p.AngleKind(i) == board.Right {
			s.rightBox(p, i)
		}
	}
	for n, class := range few(equalSides(p), mostTicks) {
		for _, i := range class {
			s.ticks(rails[i], n+1)
		}
	}
	for n, class := range few(parallelSides(p), 2*openHeads) {
		for _, i := range class {
			s.heads(rails[i], n+1)
		}
	}
}

// rail is a side as a stretch of free and taken places, measured from its
// start. All rails of one direction run the same way, to the right or straight
// up, so that their marks stand in one order and point one way.
type rail struct {
	start, along Point // along has length 1
	length       float64
	taken        []stretch
	folds        []stretch // taken too, but given up where a side is short
}

type stretch struct{ from, to float64 }

// railOf returns side i with its pegs and the squares at its ends taken.
func (s *sketch) railOf(p *shape.Polygon, i int) *rail {
	first, last := i, (i+1)%p.Sides()
	if pointsBack(s.board, s.board.Along(p.Side(i))) {
		first, last = last, first
	}
	from, to := s.at(p.Corner(first)), s.at(p.Corner(last))
	d := to.minus(from)
	length := math.Hypot(d.X, d.Y)
	r := &rail{start: from, along: d.times(1 / length), length: length}
	r.take(0, s.cornerRoom(p, first))
	r.take(length, s.cornerRoom(p, last))
	for _, over := range s.board.Over(p.Corner(first), p.Corner(last)) {
		v := s.at(over).minus(from)
		r.take(math.Hypot(v.X, v.Y), pegRadius*s.step)
	}
	return r
}

// cornerRoom returns how far along its sides the peg or square at corner i
// reaches.
func (s *sketch) cornerRoom(p *shape.Polygon, i int) float64 {
	if p.AngleKind(i) == board.Right {
		return max(s.boxSide(p, i), cornerRadius*s.step)
	}
	return cornerRadius * s.step
}

// pointsBack reports whether a move goes to the left, or straight down.
func pointsBack(b *board.Board, a board.Arrow) bool {
	right := a.X
	switch {
	case b.Kind() == board.Ring:
		quarter := int32(b.Columns()) // directions are counted from the right, anticlockwise
		return quarter < a.X && a.X <= 3*quarter
	case b.Triangular():
		right = 2*a.X + a.Y
	}
	return right < 0 || right == 0 && a.Y < 0
}

// keepOffFolds takes the middle of side i when a fold line runs through it,
// where a tick would read as a part of the line.
func (r *rail) keepOffFolds(p *shape.Polygon, i int, step float64) {
	side := p.Side(i)
	for _, f := range p.FoldAxes() {
		if f.FromEdge == side || f.ToEdge == side {
			r.folds = append(r.folds, stretch{r.length/2 - foldWidth*step, r.length/2 + foldWidth*step})
		}
	}
}

func (r *rail) take(at, half float64) { r.taken = append(r.taken, stretch{at - half, at + half}) }

func (r *rail) at(along, across float64) Point {
	return r.start.plus(r.along.times(along)).plus(r.along.left().times(across))
}

// find returns the place nearest the middle where a mark of some width is
// clear of everything taken by a gap, and whether there is one.
func (r *rail) find(width, gap float64, taken []stretch) (at float64, ok bool) {
	const rounding = 1e-9 // of two places equally near, the first wins
	middle := r.length / 2
	for _, f := range r.free(taken) {
		low, high := f.from+gap+width/2, f.to-gap-width/2
		if low > high {
			continue
		}
		c := max(low, min(high, middle))
		if !ok || math.Abs(c-middle) < math.Abs(at-middle)-rounding {
			at, ok = c, true
		}
	}
	return at, ok
}

// widest returns the longest free stretch, or the middle when nothing is free.
func (r *rail) widest() stretch {
	best := stretch{r.length / 2, r.length / 2}
	for _, f := range r.free(r.taken) {
		if f.to-f.from > best.to-best.from {
			best = f
		}
	}
	return best
}

// free returns the stretches of the side that are not taken, in order.
func (r *rail) free(taken []stretch) []stretch {
	taken = slices.SortedFunc(slices.Values(taken), func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	var out []stretch
	reached := 0.0
	for _, t := range taken {
		if t.from > reached {
			out = append(out, stretch{reached, min(t.from, r.length)})
		}
		reached = max(reached, t.to)
	}
	if reached < r.length {
		out = append(out, stretch{reached, r.length})
	}
	return out
}

// mostTicks is how many strokes side by side can still be counted; further
// classes are left to the description. Heads are counted up to openHeads, and
// the directions after those start again with filled heads.
const (
	mostTicks = 5
	openHeads = 3
)

// few returns the first classes, as many as can be marked.
func few(classes [][]int, most int) [][]int { return classes[:min(len(classes), most)] }

// equalSides returns the classes of two equal sides and more, shortest first.
func equalSides(p *shape.Polygon) [][]int {
	return slices.DeleteFunc(p.SideClasses(), func(c []int) bool { return len(c) < 2 })
}

// parallelSides returns the sides that have a parallel partner, by direction
// in the order of their first sides.
func parallelSides(p *shape.Polygon) [][]int {
	var classes [][]int
	for _, pair := range p.Why(shape.FactParallel).Pairs {
		i, j := sideIndex(p, pair.First), sideIndex(p, pair.Second)
		n := slices.IndexFunc(classes, func(c []int) bool { return sameDirection(p, c[0], i) })
		if n < 0 {
			n = len(classes)
			classes = append(classes, nil)
		}
		for _, side := range []int{i, j} {
			if !slices.Contains(classes[n], side) {
				classes[n] = append(classes[n], side)
			}
		}
	}
	return classes
}

func sameDirection(p *shape.Polygon, i, j int) bool {
	b := p.Board()
	return b.Cross(b.Along(p.Side(i)), b.Along(p.Side(j))) == 0
}

func sideIndex(p *shape.Polygon, s board.Segment) int {
	for i := range p.Sides() {
		if p.Side(i) == s {
			return i
		}
	}
	return 0
}

// ticks draws n strokes across a side.
func (s *sketch) ticks(r *rail, n int) {
	half := tickHalf * s.step
	s.series(r, n, tickApart, markWidth, func(at float64) {
		s.add(Line{
			Role: Tick, Series: n, Points: []Point{r.at(at, -half), r.at(at, half)},
			Style: stroke(Ink, markWidth, s.step),
		})
	})
}

// heads draws the arrowheads of direction n on a side.
func (s *sketch) heads(r *rail, n int) {
	half, wide := headLong*s.step/2, headHalf*s.step
	style, count := stroke(Ink, markWidth, s.step), n
	if n > openHeads {
		style.Fill, count = Ink, n-openHeads
	}
	s.series(r, count, headApart, headLong, func(at float64) {
		s.add(Line{
			Role: Arrow, Series: n, Closed: n > openHeads, Style: style,
			Points: []Point{r.at(at-half, wide), r.at(at+half, 0), r.at(at-half, -wide)},
		})
	})
}

// series places n marks side by side on a side and draws each; closer
// together, and across a fold line, where there is little room.
func (s *sketch) series(r *rail, n int, apart, each float64, draw func(at float64)) {
	for _, taken := range [][]stretch{slices.Concat(r.taken, r.folds), r.taken} {
		for _, tight := range []float64{1, 0.8, 0.65} {
			between := apart * tight * s.step
			width := float64(n-1)*between + each*s.step
			if at, ok := r.find(width, markGap*tight*s.step, taken); ok {
				r.take(at, width/2)
				drawSeries(n, at, between, draw)
				return
			}
		}
	}
	room := r.widest()
	r.take((room.from+room.to)/2, (room.to-room.from)/2)
	drawSeries(n, (room.from+room.to)/2, (room.to-room.from)/float64(n+1), draw)
}

func drawSeries(n int, middle, between float64, draw func(at float64)) {
	for k := range n {
		draw(middle + between*(float64(k)-float64(n-1)/2))
	}
}

// boxSide returns the side of the square in corner i, smaller where the arms
// are short.
func (s *sketch) boxSide(p *shape.Polygon, i int) float64 {
	b := s.board
	before := (i + p.Sides() - 1) % p.Sides()
	short := min(b.LengthFloat(p.Length(i)), b.LengthFloat(p.Length(before)))
	return min(boxSide*s.step, short/5)
}

// rightBox draws the square in the right-angled corner i, along its arms.
func (s *sketch) rightBox(p *shape.Polygon, i int) {
	at := s.at(p.Corner(i))
	side := s.boxSide(p, i)
	arm := func(to board.Peg) Point {
		d := s.at(to).minus(at)
		return d.times(side / math.Hypot(d.X, d.Y))
	}
	u, v := arm(p.Corner(i+1)), arm(p.Corner(i+p.Sides()-1))
	s.add(Line{
		Role: RightBox, Points: []Point{at.plus(u), at.plus(u).plus(v), at.plus(v)},
		Style: stroke(Ink, markWidth, s.step),
	})
}

// folds draws the fold lines, run out beyond the figure.
func (s *sketch) folds(p *shape.Polygon) {
	style := Style{Stroke: foldInk, Width: foldWidth, Dash: foldDash}.scaled(s.step)
	for _, f := range p.FoldAxes() {
		from, to := Point{f.From.X, f.From.Y}, Point{f.To.X, f.To.Y}
		d := to.minus(from)
		beyond := d.times(foldBeyond * s.step / math.Hypot(d.X, d.Y))
		s.add(Line{Role: Fold, Points: []Point{from.minus(beyond), to.plus(beyond)}, Style: style})
	}
}
