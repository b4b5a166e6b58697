package board

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"testing"
)

func itoa(n int) string { return strconv.Itoa(n) }

func eachTriple(b *Board, visit func(p, q, r Peg)) {
	for p := range b.Pegs() {
		for q := range b.Pegs() {
			for r := range b.Pegs() {
				visit(Peg(p), Peg(q), Peg(r))
			}
		}
	}
}

func segments(b *Board) []Segment {
	var out []Segment
	for p := range b.Pegs() {
		for q := range b.Pegs() {
			if p != q {
				out = append(out, Segment{Peg(p), Peg(q)})
			}
		}
	}
	return out
}

func TestTurnAndBetweenOfAllTriples(t *testing.T) {
	for _, text := range append([]string{"square:6x6", "staggered:6x6", "triangle:8", "ring:24+centre", "ring:35+centre", "ring:36+centre"}, smallBoards...) {
		b := MustParse(text)
		plain := layOut(t, b)
		eachTriple(b, func(p, q, r Peg) {
			want := 0
			if p != q && q != r && p != r {
				want = plain.turn(p, q, r)
			}
			if got := b.Turn(p, q, r); got != want {
				t.Fatalf("%s: Turn(%s, %s, %s) = %d, want %d", b, b.Name(p), b.Name(q), b.Name(r), got, want)
			}
			if got, want := b.Between(p, q, r), p != r && plain.between(p, q, r); got != want {
				t.Fatalf("%s: Between(%s, %s, %s) = %v, want %v", b, b.Name(p), b.Name(q), b.Name(r), got, want)
			}
		})
	}
}

func TestOverAndStepsOfAllPairs(t *testing.T) {
	for _, text := range append([]string{"square:12x12", "staggered:7x7", "triangle:12", "ring:36+centre"}, smallBoards...) {
		b := MustParse(text)
		plain := layOut(t, b)
		for _, s := range segments(b) {
			var want []Peg
			for k := range b.Pegs() {
				if plain.between(s.From, Peg(k), s.To) {
					want = append(want, Peg(k))
				}
			}
			slices.SortFunc(want, func(p, q Peg) int { return plain.sign(plain.squared(s.From, p) - plain.squared(s.From, q)) })
			if got := b.Over(s.From, s.To); !slices.Equal(got, want) {
				t.Fatalf("%s: Over(%s, %s) = %v, want %v", b, b.Name(s.From), b.Name(s.To), b.Names(got), b.Names(want))
			}
			if got := b.Steps(b.Along(s)); got != len(want)+1 {
				t.Fatalf("%s: Steps(%s to %s) = %d, want %d", b, b.Name(s.From), b.Name(s.To), got, len(want)+1)
			}
		}
	}
}

func TestMeetingOfAllPairs(t *testing.T) {
	for _, text := range smallBoards {
		b := MustParse(text)
		plain := layOut(t, b)
		all := segments(b)
		for _, s := range all {
			for _, u := range all {
				want := plain.meeting(s, u)
				if got := b.Meeting(s, u); got != want {
					t.Fatalf("%s: Meeting(%v, %v) = %d, want %d", b, b.Names([]Peg{s.From, s.To}), b.Names([]Peg{u.From, u.To}), got, want)
				}
				if want == Crossing {
					checkCrossing(t, b, plain, s, u)
				}
			}
		}
	}
}

// checkCrossing checks that the crossing point lies on both segments: exactly
// on lattices, whose spots are fractions, and within rounding on rings.
func checkCrossing(t *testing.T, b *Board, plain *plain, s, u Segment) {
	t.Helper()
	at := b.CrossingPoint(s, u)
	off := func(s Segment) float64 {
		x1, y1 := b.At(s.From)
		x2, y2 := b.At(s.To)
		return (x2-x1)*(at.Y-y1) - (y2-y1)*(at.X-x1)
	}
	if math.Abs(off(s)) > 1e-12 || math.Abs(off(u)) > 1e-12 {
		t.Fatalf("%s: CrossingPoint(%v, %v) = %v, %v, which is not on both", b, s, u, at.X, at.Y)
	}
	onPeg := -1
	for k := range b.Pegs() {
		if plain.between(s.From, Peg(k), s.To) && plain.between(u.From, Peg(k), u.To) {
			onPeg = k
		}
	}
	if at.OnPeg != (onPeg >= 0) || at.OnPeg && at.Peg != Peg(onPeg) {
		t.Fatalf("%s: CrossingPoint(%v, %v) is on peg %d, %v, want %d", b, s, u, at.Peg, at.OnPeg, onPeg)
	}
	if b.Kind() == Ring {
		return
	}
	exactlyOn := func(s Segment) bool {
		// (at − from) × (to − from) = 0, in spacings across and rows up.
		p, q := b.SpotOf(s.From), b.SpotOf(s.To)
		sub := func(a, c *big.Rat) *big.Rat { return new(big.Rat).Sub(a, c) }
		left := new(big.Rat).Mul(sub(at.Across, p.Across), sub(q.Up, p.Up))
		right := new(big.Rat).Mul(sub(at.Up, p.Up), sub(q.Across, p.Across))
		return left.Cmp(right) == 0
	}
	if !exactlyOn(s) || !exactlyOn(u) {
		t.Fatalf("%s: CrossingPoint(%v, %v) = %s, which is not on both", b, s, u, b.SpotText(at))
	}
}

func TestSpotsOfPegs(t *testing.T) {
	for _, text := range everyBoard() {
		b := MustParse(text)
		plain := layOut(t, b)
		for k := range b.Pegs() {
			s := b.SpotOf(Peg(k))
			x, y := b.At(Peg(k))
			if !s.OnPeg || s.Peg != Peg(k) || math.Hypot(s.X-x, s.Y-y) > 1e-12 {
				t.Fatalf("%s: SpotOf(%s) = %+v", b, b.Name(Peg(k)), s)
			}
			if b.Kind() == Ring {
				continue
			}
			across, up := new(big.Rat).SetFloat64(plain.x[k]), new(big.Rat).SetFloat64(plain.y[k])
			if b.Triangular() {
				across.Quo(across, big.NewRat(2, 1))
			}
			if s.Across.Cmp(across) != 0 || s.Up.Cmp(up) != 0 {
				t.Fatalf("%s: SpotOf(%s) is %s right, %s up, want %s, %s", b, b.Name(Peg(k)), s.Across, s.Up, across, up)
			}
		}
	}
}

func TestMiddleOfAllSegments(t *testing.T) {
	for _, text := range smallBoards {
		b := MustParse(text)
		plain := layOut(t, b)
		for _, s := range segments(b) {
			m := b.MiddleOf(s)
			x1, y1 := b.At(s.From)
			x2, y2 := b.At(s.To)
			if math.Hypot(m.X-(x1+x2)/2, m.Y-(y1+y2)/2) > 1e-12 {
				t.Fatalf("%s: MiddleOf(%v) = %v, %v", b, s, m.X, m.Y)
			}
			on := -1
			for k := range b.Pegs() {
				if plain.between(s.From, Peg(k), s.To) && plain.sign(plain.squared(s.From, Peg(k))-plain.squared(s.To, Peg(k))) == 0 {
					on = k
				}
			}
			if m.OnPeg != (on >= 0) || m.OnPeg && int(m.Peg) != on {
				t.Fatalf("%s: MiddleOf(%v) is on peg %d, %v, want %d", b, s, m.Peg, m.OnPeg, on)
			}
		}
	}
}

// A mirror image is right when both places on the line are as far from it as
// from the peg, and it is not the peg itself unless the peg is on the line.
// Squared distances are fractions: x² + y², or x² + 3/4·y² in rows of √3/2.
func TestMirrorOfAllPegsInAllLines(t *testing.T) {
	for _, text := range []string{"square:4x4", "square:3x5", "staggered:4x4", "staggered:3x5", "triangle:5"} {
		b := MustParse(text)
		plain := layOut(t, b)
		weight := big.NewRat(1, 1)
		if b.Triangular() {
			weight = big.NewRat(3, 4)
		}
		squared := func(p, q Spot) *big.Rat {
			dx, dy := new(big.Rat).Sub(p.Across, q.Across), new(big.Rat).Sub(p.Up, q.Up)
			dy.Mul(dy, dy)
			return dx.Mul(dx, dx).Add(dx, dy.Mul(dy, weight))
		}
		spots := make([]Spot, b.Pegs())
		for k := range spots {
			spots[k] = b.SpotOf(Peg(k))
		}
		for _, line := range segments(b) {
			ends := [][2]Spot{{b.SpotOf(line.From), b.SpotOf(line.To)}}
			if middle := b.MiddleOf(line); int(line.From) < b.Pegs()-1 {
				// a line through a place between pegs
				ends = append(ends, [2]Spot{middle, b.SpotOf((line.To + 1) % Peg(b.Pegs()))})
			}
			for n, e := range ends {
				if squared(e[0], e[1]).Sign() == 0 {
					continue
				}
				for k := range b.Pegs() {
					p := spots[k]
					image := b.Mirror(Peg(k), e[0], e[1])
					if squared(e[0], p).Cmp(squared(e[0], image)) != 0 || squared(e[1], p).Cmp(squared(e[1], image)) != 0 {
						t.Fatalf("%s: Mirror(%s) in %v = %s, which is not as far from the line's ends", b, b.Name(Peg(k)), line, b.SpotText(image))
					}
					if n == 0 {
						if same, on := squared(p, image).Sign() == 0, plain.turn(line.From, line.To, Peg(k)) == 0; same != on {
							t.Fatalf("%s: Mirror(%s) in %v stays = %v, want %v", b, b.Name(Peg(k)), line, same, on)
						}
					}
					for q, spot := range spots {
						if there := image.Up.Cmp(spot.Up) == 0 && image.Across.Cmp(spot.Across) == 0; there != (image.OnPeg && int(image.Peg) == q) {
							t.Fatalf("%s: Mirror(%s) in %v on %s: OnPeg = %v, %d", b, b.Name(Peg(k)), line, b.Name(Peg(q)), image.OnPeg, image.Peg)
						}
					}
				}
			}
		}
	}
}

func TestSpotText(t *testing.T) {
	tests := []struct {
		name, board, first, second, want string
	}{
		{"at a peg", "square:5x5", "A1 E5", "E1 A5", "C3"},
		{"between pegs", "square:4x4", "A1 D4", "D1 A4", "1.5 right, 1.5 up"},
		{"at thirds", "square:3x3", "A1 C2", "A2 B1", "2/3 right, 1/3 up"},
		{"past one", "square:4x4", "A1 D2", "B2 C1", "1.5 right, 0.5 up"},
		{"in rows", "triangle:3", "A1 B2", "C1 A2", "1 right, 2/3 up"},
		{"on a ring at its centre", "ring:12+centre", "1 7", "4 10", "O"},
		{"on a ring between pegs", "ring:12", "1 7", "4 10", "0 right, 0 up"},
		{"on a ring left of the middle", "ring:12", "8 11", "9 12", "-0.73 right, 0 up"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := MustParse(tt.board)
			at := b.CrossingPoint(segmentOf(b, tt.first), segmentOf(b, tt.second))
			if got := b.SpotText(at); got != tt.want {
				t.Errorf("SpotText = %q, want %q", got, tt.want)
			}
		})
	}
}

func segmentOf(b *Board, text string) Segment {
	return MustParseFigure(b, text).Segments()[0]
}

func TestRatText(t *testing.T) {
	tests := []struct {
		num, den int64
		want     string
	}{
		{0, 1, "0"}, {12, 5, "2.4"}, {4, 3, "1 1/3"}, {-4, 3, "-1 1/3"}, {1, 3, "1/3"}, {-1, 3, "-1/3"}, {1, 8, "0.125"}, {1, 16, "1/16"}, {17, 16, "1 1/16"}, {-5, 2, "-2.5"},
	}
	for _, tt := range tests {
		if got := RatText(big.NewRat(tt.num, tt.den)); got != tt.want {
			t.Errorf("RatText(%d/%d) = %q, want %q", tt.num, tt.den, got, tt.want)
		}
	}
}

// OEIS A047800 less the zero distance, and A018808, read in the reference
// tables, section 1.8.
func TestDistancesAndLinesOfSquareBoards(t *testing.T) {
	distances := []int{2, 5, 9, 14, 19, 26}
	lines := []int{6, 20, 62, 140, 306, 536}
	for i := range distances {
		b := MustParse("square:" + itoa(i+2) + "x" + itoa(i+2))
		lengths, distinct, floats := map[Length]bool{}, 0, map[float64]bool{}
		for _, s := range segments(b) {
			lengths[b.Length(b.Along(s))] = true
			x1, y1 := b.At(s.From)
			x2, y2 := b.At(s.To)
			floats[(x1-x2)*(x1-x2)+(y1-y2)*(y1-y2)] = true
			if firstOnItsLine(b, s) {
				distinct++
			}
		}
		if len(lengths) != distances[i] || len(floats) != distances[i] {
			t.Errorf("%s: %d distances, %d by coordinates, want %d", b, len(lengths), len(floats), distances[i])
		}
		if distinct != lines[i] {
			t.Errorf("%s: %d lines, want %d", b, distinct, lines[i])
		}
	}
}

// firstOnItsLine reports whether a segment joins the two lowest pegs of its line.
func firstOnItsLine(b *Board, s Segment) bool {
	for k := range Peg(b.Pegs()) {
		if k != s.From && k < s.To && b.Turn(s.From, s.To, k) == 0 {
			return false
		}
	}
	return s.From < s.To
}
