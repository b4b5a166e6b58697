package board

import (
	"math"
	"math/big"
	"testing"

	"pegwright/exact"
)

// bigBoards have every arrow that any board of their kind has, or nearly.
var bigBoards = []string{"square:12x12", "staggered:12x12", "triangle:12", "ring:3+centre", "ring:4+centre", "ring:35+centre", "ring:36+centre"}

func TestLengthsOfAllArrows(t *testing.T) {
	for _, text := range append(bigBoards, smallBoards...) {
		b := MustParse(text)
		plain := layOut(t, b)
		exactly := map[Length]bool{}
		for _, s := range segments(b) {
			a := b.Along(s)
			l, want := b.Length(a), math.Sqrt(plain.squared(s.From, s.To))
			if got := b.LengthFloat(l); math.Abs(got-want) > 1e-12 {
				t.Fatalf("%s: LengthFloat(%v) = %v, want %v", b, s, got, want)
			}
			if back := b.Along(Segment{s.To, s.From}); b.Reverse(a) != back || b.Length(back) != l {
				t.Fatalf("%s: Reverse(%v) = %v, want %v", b, a, b.Reverse(a), back)
			}
			if exactly[l] {
				continue
			}
			exactly[l] = true
			number := b.LengthNumber(l)
			if got := number.Float(); math.Abs(got-want) > 1e-12 {
				t.Fatalf("%s: LengthNumber(%d).Float() = %v, want %v", b, l, got, want)
			}
			if b.Kind() != Ring && number.Cmp(exact.Root(int64(l))) != 0 {
				t.Fatalf("%s: LengthNumber(%d) = %s, want √%d", b, l, number, l)
			}
		}
		// different lengths differ by far more than rounding, and keep order
		for l := range exactly {
			for m := range exactly {
				if l < m && b.LengthFloat(m)-b.LengthFloat(l) < 1e-4 {
					t.Errorf("%s: lengths %d and %d are %v and %v", b, l, m, b.LengthFloat(l), b.LengthFloat(m))
				}
			}
		}
	}
}

func TestCrossAndDotOfAllArrows(t *testing.T) {
	for _, text := range append([]string{"ring:24+centre"}, smallBoards...) {
		b := MustParse(text)
		p := layOut(t, b)
		all := segments(b)
		for _, s := range all {
			for _, u := range all {
				dx, dy := p.x[s.To]-p.x[s.From], p.y[s.To]-p.y[s.From]
				ex, ey := p.x[u.To]-p.x[u.From], p.y[u.To]-p.y[u.From]
				if got, want := b.Cross(b.Along(s), b.Along(u)), p.sign(dx*ey-dy*ex); got != want {
					t.Fatalf("%s: Cross(%v, %v) = %d, want %d", b, s, u, got, want)
				}
				if got, want := b.Dot(b.Along(s), b.Along(u)), p.sign(dx*ex+p.weight*dy*ey); got != want {
					t.Fatalf("%s: Dot(%v, %v) = %d, want %d", b, s, u, got, want)
				}
			}
		}
	}
}

func TestUprightOfAllArrows(t *testing.T) {
	for _, text := range append(bigBoards, smallBoards...) {
		b := MustParse(text)
		p := layOut(t, b)
		for _, s := range segments(b) {
			want := p.sign(p.x[s.To]-p.x[s.From]) == 0 || p.sign(p.y[s.To]-p.y[s.From]) == 0
			if got := b.Upright(b.Along(s)); got != want {
				t.Fatalf("%s: Upright(%v) = %v, want %v", b, b.Names([]Peg{s.From, s.To}), got, want)
			}
		}
	}
}

func TestAnglesOfAllCorners(t *testing.T) {
	for _, text := range append([]string{"square:6x6", "staggered:5x5", "triangle:7", "ring:24+centre"}, smallBoards...) {
		b := MustParse(text)
		plain := layOut(t, b)
		reduced := map[Angle]float64{}
		eachTriple(b, func(p, q, r Peg) {
			if p == q || q == r || p == r || plain.turn(p, q, r) == 0 && !plain.between(p, q, r) {
				return // a path that goes back on itself has no corner there
			}
			angle := b.Angle(b.Arrow(p, q), b.Arrow(q, r))
			want := plain.degrees(p, q, r)
			if got := b.Degrees(angle); math.Abs(got-want) > 1e-9 {
				t.Fatalf("%s: Degrees at %s between %s and %s = %v, want %v", b, b.Name(q), b.Name(p), b.Name(r), got, want)
			}
			if got, want := b.AngleKind(angle), kindOf(want); got != want {
				t.Fatalf("%s: AngleKind at %s between %s and %s = %s, want %s", b, b.Name(q), b.Name(p), b.Name(r), got, want)
			}
			checkWhole(t, b, angle, want)
			key := b.Reduced(angle)
			if !b.SameAngle(angle, key) {
				t.Fatalf("%s: Reduced(%v) = %v, which is another angle", b, angle, key)
			}
			if before, found := reduced[key]; found && math.Abs(before-want) > 1e-9 {
				t.Fatalf("%s: Reduced gives %v for %v° and %v°", b, key, before, want)
			}
			reduced[key] = want
		})
		for a, x := range reduced {
			for c, y := range reduced {
				if same := b.SameAngle(a, c); same != (a == c) || same != (math.Abs(x-y) < 1e-9) {
					t.Fatalf("%s: SameAngle(%v°, %v°) = %v", b, x, y, same)
				}
			}
		}
	}
}

func kindOf(degrees float64) AngleKind {
	const close = 1e-9
	switch {
	case degrees < 90-close:
		return Acute
	case degrees < 90+close:
		return Right
	case degrees < 180-close:
		return Obtuse
	case degrees < 180+close:
		return Straight
	}
	return Reflex
}

// checkWhole checks WholeDegrees against the float64 value: where it is given
// it is that value, and where it is not, no multiple of 15° is near.
func checkWhole(t *testing.T, b *Board, a Angle, want float64) {
	t.Helper()
	q, ok := b.WholeDegrees(a)
	if !ok {
		if b.Kind() == Ring || math.Abs(math.Remainder(want, 15)) < 1e-6 {
			t.Fatalf("%s: WholeDegrees(%v°) gives none", b, want)
		}
		return
	}
	if f, _ := q.Float64(); math.Abs(f-want) > 1e-9 {
		t.Fatalf("%s: WholeDegrees = %s, want %v", b, q, want)
	}
}

func TestAngleKindsHaveNames(t *testing.T) {
	for i, want := range []string{"acute", "right", "obtuse", "straight", "reflex"} {
		if got := AngleKind(i).String(); got != want {
			t.Errorf("AngleKind(%d) = %q, want %q", i, got, want)
		}
	}
}

// Inscribed angles, Euclid III.20, read in the reference tables, section 3
// (MathWorld, "Inscribed Angle"): arcs between the corners, and the angles
// opposite those arcs (of a quadrilateral: at the corner between arcs 1 and 2
// first).
func TestInscribedAngles(t *testing.T) {
	rat := func(num, den int64) *big.Rat { return big.NewRat(num, den) }
	tests := []struct {
		name  string
		board string
		arcs  []int
		want  []*big.Rat
	}{
		{"nine pegs, 1 1 7", "ring:9", []int{1, 1, 7}, []*big.Rat{rat(20, 1), rat(20, 1), rat(140, 1)}},
		{"nine pegs, 3 3 3", "ring:9", []int{3, 3, 3}, []*big.Rat{rat(60, 1), rat(60, 1), rat(60, 1)}},
		{"ten pegs, 2 4 4", "ring:10", []int{2, 4, 4}, []*big.Rat{rat(36, 1), rat(72, 1), rat(72, 1)}},
		{"twelve pegs, 3 4 5", "ring:12", []int{3, 4, 5}, []*big.Rat{rat(45, 1), rat(60, 1), rat(75, 1)}},
		{"twelve pegs, 1 5 6", "ring:12", []int{1, 5, 6}, []*big.Rat{rat(15, 1), rat(75, 1), rat(90, 1)}},
		{"twenty-four pegs, 1 6 17", "ring:24", []int{1, 6, 17}, []*big.Rat{rat(15, 2), rat(45, 1), rat(255, 2)}},
		{"seven pegs, 1 2 4", "ring:7", []int{1, 2, 4}, []*big.Rat{rat(180, 7), rat(360, 7), rat(720, 7)}},
		{"eight pegs, 1 1 1 5", "ring:8", []int{1, 1, 1, 5}, []*big.Rat{rat(135, 1), rat(135, 1), rat(45, 1), rat(45, 1)}},
		{"eight pegs, 1 1 3 3", "ring:8", []int{1, 1, 3, 3}, []*big.Rat{rat(135, 1), rat(90, 1), rat(45, 1), rat(90, 1)}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := MustParse(tt.board)
			for start := range b.Columns() {
				corners := make([]Peg, len(tt.arcs))
				at := start
				for i, arc := range tt.arcs {
					at += arc
					corners[i] = Peg(at % b.Columns()) // between arcs i and i+1
				}
				k := len(corners)
				for i := range corners {
					// pegs run clockwise, so the way back is anticlockwise
					before, after := corners[(i+1)%k], corners[(i+k-1)%k]
					got, ok := b.WholeDegrees(b.Angle(b.Arrow(before, corners[i]), b.Arrow(corners[i], after)))
					want := tt.want[i]
					if k == 3 { // between arcs i and i+1 is opposite arc i+2
						want = tt.want[(i+2)%3]
					}
					if !ok || got.Cmp(want) != 0 {
						t.Errorf("the angle at %s = %v, %v, want %s", b.Name(corners[i]), got, ok, want)
					}
				}
			}
		})
	}
}

// Opposite corners of a quadrilateral in a circle add up to 180° (Euclid
// III.22; from memory).
func TestOppositeAnglesOnARing(t *testing.T) {
	b := MustParse("ring:12")
	for p := range Peg(12) {
		for q := p + 1; q < 12; q++ {
			for r := q + 1; r < 12; r++ {
				for s := r + 1; s < 12; s++ {
					one, _ := b.WholeDegrees(b.Angle(b.Arrow(r, q), b.Arrow(q, p)))
					two, _ := b.WholeDegrees(b.Angle(b.Arrow(p, s), b.Arrow(s, r)))
					if sum := new(big.Rat).Add(one, two); sum.Cmp(big.NewRat(180, 1)) != 0 {
						t.Fatalf("pegs %d %d %d %d: opposite angles add up to %s", p, q, r, s, sum)
					}
				}
			}
		}
	}
}

func TestWholeDegreesOnLattices(t *testing.T) {
	tests := []struct {
		name, board, path, want string
	}{
		{"45° on a square board", "square:5x5", "C1 A1 C3", "45"},
		{"90° across slanted arms", "square:5x5", "D2 A1 C4", ""},
		{"a slanted square corner", "square:5x5", "D2 B1 A3", "90"},
		{"a slanted 45°", "square:5x5", "B3 A1 D2", "45"},
		{"135°", "square:5x5", "A1 C1 D2", "135"},
		{"an angle near 60°", "square:5x5", "B5 A1 E2", ""},
		{"60° on a triangular board", "triangle:5", "B1 A1 A2", "60"},
		{"30° on a triangular board", "triangle:5", "B1 A1 B2", "30"},
		{"a slanted 60° on a triangular board", "triangle:5", "B2 A1 A3", "30"},
		{"a square corner in a triangle", "triangle:5", "D1 C1 B3", "90"},
		{"a square corner on a triangular board", "staggered:5x5", "B1 A1 A3", "90"},
		{"an angle near 45°", "triangle:5", "C1 A1 B3", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := MustParse(tt.board)
			path := MustParseFigure(b, tt.path).Bands[0]
			angle := b.Angle(b.Arrow(path[0], path[1]), b.Arrow(path[1], path[2]))
			got := ""
			if b.AngleKind(angle) == Reflex {
				angle = b.Angle(b.Arrow(path[2], path[1]), b.Arrow(path[1], path[0]))
			}
			if q, ok := b.WholeDegrees(angle); ok {
				got = q.RatString()
			}
			if got != tt.want {
				t.Errorf("WholeDegrees = %q, want %q (%v°)", got, tt.want, b.Degrees(angle))
			}
		})
	}
}

// Number places pegs among the roots of unity; the differences must have the
// lengths and directions of the arrows.
func TestNumbersOfPegs(t *testing.T) {
	for _, text := range smallBoards {
		b := MustParse(text)
		order := len(b.Number(0))
		x0, y0 := value(b.Number(0), order)
		ax, ay := b.At(0)
		for k := range b.Pegs() {
			x, y := value(b.Number(Peg(k)), order)
			bx, by := b.At(Peg(k))
			if math.Hypot(x-x0-bx+ax, y-y0-by+ay) > 1e-12 {
				t.Errorf("%s: Number(%s) is at %v, %v, want %v, %v", b, b.Name(Peg(k)), x-x0, y-y0, bx-ax, by-ay)
			}
		}
	}
}

func value(c exact.Cyclotomic, order int) (x, y float64) {
	for k, m := range c {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(order))
		x += float64(m) * cos
		y += float64(m) * sin
	}
	return x, y
}

func TestLengthSum(t *testing.T) {
	tests := []struct {
		name, board, band, want string
	}{
		{"whole numbers", "square:5x5", "A1 E1 E3 A3", "12"},
		{"roots", "square:5x5", "A1 C1 A2", "3 + √5"},
		{"steps on a triangular board", "triangle:5", "A1 C1 A3", "6"},
		{"a hexagon on a ring", "ring:12", "1 3 5 7 9 11", "6"},
		{"a square on a ring", "ring:12", "1 4 7 10", "4√2"},
		{"a triangle on a ring", "ring:9", "1 4 7", "3√3"},
		{"a half ring", "ring:8+centre", "1 5", "2"},
		{"sines", "ring:9", "1 2 3", "4 sin 20° + 2 sin 40°"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := MustParse(tt.board)
			var lengths []Length
			for _, s := range MustParseFigure(b, tt.band).Segments() {
				lengths = append(lengths, b.Length(b.Along(s)))
			}
			if got := b.LengthSum(lengths).String(); got != tt.want {
				t.Errorf("LengthSum = %q, want %q", got, tt.want)
			}
		})
	}
}
