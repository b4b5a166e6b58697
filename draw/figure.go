package draw

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"pegwright/board"
	"pegwright/shape"
)

// Options choose what a picture shows besides pegs and bands. The zero value
// shows nothing more; see AllMarks.
type Options struct {
	Marks     bool // equal sides, parallel sides, square corners, crossings, loose ends
	FoldLines bool
	Letters   bool // letters and numbers along the edges
	// Title and Description are the words for someone who cannot see the
	// picture. Where they are empty, draw writes short English ones.
	Title, Description string
}

// AllMarks are the options that show everything.
func AllMarks() Options { return Options{Marks: true, FoldLines: true, Letters: true} }

// Board draws a board without bands.
func Board(b *board.Board, o Options) Picture {
	return Figure(shape.Read(board.Figure{Board: b}, shape.Definitions{}), o)
}

// Figure draws a reading: the board, its bands, and the marks of a textbook
// for what is true of it.
func Figure(r shape.Reading, o Options) Picture {
	s := &sketch{board: r.Figure.Board, step: stepOf(r.Figure.Board)}
	s.bounds(o.Letters)
	s.ground(r)
	if o.FoldLines && r.Polygon != nil {
		s.folds(r.Polygon)
	}
	s.bands(r.Figure)
	s.pegs(r.Outline)
	if o.Marks {
		s.marks(r, o.FoldLines)
		s.problems(r.Outline)
	}
	if o.Letters {
		s.letters()
	}
	s.picture.Step = s.step
	s.picture.Title = cmp.Or(o.Title, title(r))
	s.picture.Description = cmp.Or(o.Description, describe(r))
	return s.picture
}

// sketch is a picture being made.
type sketch struct {
	board   *board.Board
	step    float64
	picture Picture
}

// largestRingStep keeps the pegs of a ring of few pegs from growing clumsy.
const largestRingStep = 0.5

// stepOf returns the gap between neighbouring pegs in board units.
func stepOf(b *board.Board) float64 {
	if b.Kind() != board.Ring {
		return 1
	}
	return min(largestRingStep, 2*math.Sin(math.Pi/float64(b.Columns())))
}

func (s *sketch) add(shapes ...Shape) { s.picture.Shapes = append(s.picture.Shapes, shapes...) }

func (s *sketch) at(p board.Peg) Point {
	x, y := s.board.At(p)
	return Point{x, y}
}

func (s *sketch) points(pegs []board.Peg) []Point {
	out := make([]Point, len(pegs))
	for i, p := range pegs {
		out[i] = s.at(p)
	}
	return out
}

// Margins round the pegs, in steps: enough for a fold line to run out, and for
// the letters.
const (
	plainMargin  = 0.5
	letterMargin = 0.95
)

// bounds makes room for every peg and the margin.
func (s *sketch) bounds(letters bool) {
	low, high := s.at(0), s.at(0)
	for p := range s.board.Pegs() {
		at := s.at(board.Peg(p))
		low.X, low.Y = min(low.X, at.X), min(low.Y, at.Y)
		high.X, high.Y = max(high.X, at.X), max(high.Y, at.Y)
	}
	ring := s.board.Kind() == board.Ring
	if ring { // the rim reaches further than the pegs of a ring of three
		low, high = Point{-1, -1}, Point{1, 1}
	}
	near, far := plainMargin*s.step, plainMargin*s.step
	if letters {
		near = letterMargin * s.step
		if ring {
			far = near
		}
	}
	s.picture.Min = low.minus(Point{near, near})
	s.picture.Max = high.plus(Point{far, far})
}

// ground lays down what everything else lies on.
func (s *sketch) ground(r shape.Reading) {
	if s.board.Kind() == board.Ring {
		s.add(Circle{Disc, Point{}, 1, stroke(rim, 0.03, s.step)})
	}
	if r.Polygon != nil {
		s.add(Line{Role: Wash, Points: s.points(r.Outline.Corners), Closed: true, Style: Style{Fill: wash}})
	}
}

func (s *sketch) bands(f board.Figure) {
	for i, band := range f.Bands {
		s.add(Line{
			Role: Thread, Series: i + 1, Points: s.points(band),
			Closed: len(band) > 2, Style: threadStyle(i, s.step),
		})
	}
}

// pegs draws every peg above the bands: corners filled, so that a peg passed
// straight over is seen to be no corner.
func (s *sketch) pegs(o shape.Outline) {
	plain := stroke(pegInk, 0.036, s.step)
	plain.Fill = Paper
	passed := stroke(Ink, 0.036, s.step)
	passed.Fill = Paper
	for p := range s.board.Pegs() {
		peg, at := board.Peg(p), s.at(board.Peg(p))
		switch {
		case slices.Contains(o.Corners, peg):
			s.add(Circle{Corner, at, cornerRadius * s.step, Style{Fill: Ink}})
		case slices.Contains(o.Ends, peg):
			s.add(Circle{End, at, cornerRadius * s.step, Style{Fill: Ink}})
		case slices.Contains(o.PassedOver, peg) || s.underBand(o, peg):
			s.add(Circle{Passed, at, pegRadius * s.step, passed})
		default:
			s.add(Circle{Peg, at, pegRadius * s.step, plain})
		}
	}
}

// underBand reports whether a straight piece runs over a peg, as two do where
// they cross on it.
func (s *sketch) underBand(o shape.Outline, p board.Peg) bool {
	return slices.ContainsFunc(o.Segments, func(t board.Segment) bool { return s.board.Between(t.From, p, t.To) })
}

// problems marks what keeps the figure from being a polygon: a ring where
// bands meet that should not, a diamond round a loose end.
func (s *sketch) problems(o shape.Outline) {
	for _, p := range distinct(o.Problems) {
		at := Point{p.At.X, p.At.Y}
		switch p.Status {
		case shape.Crossing, shape.Branching, shape.Touching:
			s.add(Circle{Meet, at, meetRadius * s.step, stroke(warning, 0.05, s.step)})
		case shape.OpenPath:
			d := meetRadius * s.step
			diamond := []Point{{at.X - d, at.Y}, {at.X, at.Y - d}, {at.X + d, at.Y}, {at.X, at.Y + d}}
			s.add(Line{Role: End, Points: diamond, Closed: true, Style: stroke(warning, 0.05, s.step)})
		}
	}
}

// distinct leaves out problems at a place that has one already: where three
// pieces cross, each pair of them is a problem.
func distinct(problems []shape.Problem) []shape.Problem {
	var out []shape.Problem
	for _, p := range problems {
		if !slices.ContainsFunc(out, func(q shape.Problem) bool { return q.Status == p.Status && samePlace(p.At, q.At) }) {
			out = append(out, p)
		}
	}
	return out
}

// samePlace reports whether two spots are drawn at one place. Crossings of
// different chords of a ring are known by their coordinates only, so they are
// told apart to the width of a hair.
func samePlace(s, t board.Spot) bool {
	const hair = 1e-6
	return math.Abs(s.X-t.X) < hair && math.Abs(s.Y-t.Y) < hair
}

// capHeight is the height of a capital as a share of the size of type.
const capHeight = 0.72

// letter writes a text centred on a point.
func (s *sketch) letter(at Point, text string) {
	size := letterSize * s.step
	at.Y -= size * capHeight / 2
	s.add(Label{Letter, at, size, text, Ink})
}

// edgeGap is the distance of letters from the pegs they name, in steps.
const edgeGap = 0.62

func (s *sketch) letters() {
	if s.board.Kind() == board.Ring {
		s.ringNumbers()
		return
	}
	for p := range s.board.Pegs() {
		row, column := s.board.Row(board.Peg(p))
		at := s.at(board.Peg(p))
		if row == 0 {
			s.letter(Point{at.X, at.Y - edgeGap}, string(rune('A'+column)))
		}
		if column == 0 {
			x := s.at(0).X
			if s.board.Kind() == board.Triangle {
				x = at.X // along the slanting edge
			}
			s.letter(Point{x - edgeGap, at.Y}, strconv.Itoa(row+1))
		}
	}
}

func (s *sketch) ringNumbers() {
	for p := range s.board.Columns() {
		s.letter(s.at(board.Peg(p)).times(1+edgeGap*s.step), s.board.Name(board.Peg(p)))
	}
	if s.board.HasCentre() {
		centre := board.Peg(s.board.Columns())
		d := 0.34 * s.step
		s.letter(Point{d, d}, s.board.Name(centre))
	}
}
