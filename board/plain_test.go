package board

import (
	"math"
	"strconv"
	"testing"
)

// plain is a board laid out a second time in the plainest way, to check the
// kernel against: a peg is at (x·u, y·v), where u² : v² is 1 : weight. On
// lattices x, y are whole numbers (half spacings and rows on the triangular
// one, which makes the weight 3), so float64 arithmetic on them is exact; on a
// ring they are sines, and every sign that is not clear by far fails the test.
type plain struct {
	t      testing.TB
	x, y   []float64
	weight float64
	scale  float64 // of squared lengths
	margin float64
}

func layOut(t testing.TB, b *Board) *plain {
	t.Helper()
	p := &plain{t: t, weight: 1, scale: 1}
	put := func(x, y float64) { p.x, p.y = append(p.x, x), append(p.y, y) }
	switch b.Kind() {
	case Square:
		for k := range b.Columns() * b.Rows() {
			put(float64(k%b.Columns()), float64(k/b.Columns()))
		}
	case Staggered, Triangle:
		p.weight, p.scale = 3, 0.25
		for row := range b.Rows() {
			if b.Kind() == Staggered {
				for column := range b.Columns() {
					put(float64(2*column+row%2), float64(row))
				}
				continue
			}
			for column := range b.Columns() - row {
				put(float64(2*column+row), float64(row))
			}
		}
	case Ring:
		p.margin = 1e-6
		for k := range b.Columns() {
			turn := 2 * math.Pi * float64(k) / float64(b.Columns())
			put(math.Sin(turn), math.Cos(turn))
		}
		if b.HasCentre() {
			put(0, 0)
		}
	}
	if len(p.x) != b.Pegs() {
		t.Fatalf("%s has %d pegs, want %d", b, b.Pegs(), len(p.x))
	}
	return p
}

// sign returns the sign of v and fails the test if rounding could decide it.
func (p *plain) sign(v float64) int {
	switch {
	case v > p.margin:
		return 1
	case v < -p.margin:
		return -1
	case math.Abs(v) > p.margin*p.margin:
		p.t.Fatalf("the margin does not hold: %v", v)
	}
	return 0
}

// turn is the sign of the cross product of q−p and r−p.
func (p *plain) turn(a, b, c Peg) int {
	return p.sign((p.x[b]-p.x[a])*(p.y[c]-p.y[a]) - (p.y[b]-p.y[a])*(p.x[c]-p.x[a]))
}

func (p *plain) between(a, b, c Peg) bool {
	dot := (p.x[a]-p.x[b])*(p.x[c]-p.x[b]) + p.weight*(p.y[a]-p.y[b])*(p.y[c]-p.y[b])
	return a != b && b != c && p.turn(a, b, c) == 0 && p.sign(dot) < 0
}

// squared is the squared distance of two pegs in spacings or radii.
func (p *plain) squared(a, b Peg) float64 {
	dx, dy := p.x[a]-p.x[b], p.y[a]-p.y[b]
	return p.scale * (dx*dx + p.weight*dy*dy)
}

// degrees is the angle from the arm q→r anticlockwise to the arm q→p.
func (p *plain) degrees(a, b, c Peg) float64 {
	at := func(e Peg) float64 {
		return math.Atan2((p.y[e]-p.y[b])*math.Sqrt(p.weight), p.x[e]-p.x[b]) * 180 / math.Pi
	}
	d := at(a) - at(c)
	for d <= 1e-9 {
		d += 360
	}
	return d
}

// meeting sorts two segments by solving for the two places along them, s and
// t, as Cramer's rule gives them, in whole numbers on lattices.
func (p *plain) meeting(s, t Segment) Meeting {
	dx, dy := p.x[s.To]-p.x[s.From], p.y[s.To]-p.y[s.From]
	ex, ey := p.x[t.To]-p.x[t.From], p.y[t.To]-p.y[t.From]
	gx, gy := p.x[t.From]-p.x[s.From], p.y[t.From]-p.y[s.From]
	below := dx*ey - dy*ex
	if p.sign(below) == 0 {
		return p.meetingAlong(s, t)
	}
	// s.From + along·d = t.From + across·e
	along, across := gx*ey-gy*ex, gx*dy-gy*dx
	if below < 0 {
		along, across, below = -along, -across, -below
	}
	at := func(v float64) int { // −1 before, 0 at an end, 1 inside, 2 beyond
		switch {
		case p.sign(v) < 0 || p.sign(v-below) > 0:
			return -1
		case p.sign(v) == 0 || p.sign(v-below) == 0:
			return 0
		}
		return 1
	}
	switch u, v := at(along), at(across); {
	case u < 0 || v < 0:
		return Apart
	case u == 0 && v == 0:
		return SharedEnd
	case u == 1 && v == 1:
		return Crossing
	}
	return Resting
}

// meetingAlong is meeting for parallel segments: on one line they are spans.
func (p *plain) meetingAlong(s, t Segment) Meeting {
	if p.turn(s.From, s.To, t.From) != 0 {
		return Apart
	}
	dx, dy := p.x[s.To]-p.x[s.From], p.y[s.To]-p.y[s.From]
	place := func(e Peg) float64 { return dx*(p.x[e]-p.x[s.From]) + p.weight*dy*(p.y[e]-p.y[s.From]) }
	end := place(s.To)
	low, high := min(place(t.From), place(t.To)), max(place(t.From), place(t.To))
	switch shared := min(end, high) - max(0, low); p.sign(shared) {
	case 1:
		return Overlapping
	case 0:
		return SharedEnd
	}
	return Apart
}

// smallBoards are one or more of each of the five kinds, small enough to try
// every pair of segments.
var smallBoards = []string{
	"square:2x2", "square:4x4", "square:3x5", "staggered:4x4", "staggered:3x5", "triangle:2", "triangle:5",
	"ring:3", "ring:5", "ring:9", "ring:12", "ring:3+centre", "ring:7+centre", "ring:8+centre", "ring:12+centre",
}

// everyBoard lists the descriptions of all boards.
func everyBoard() []string {
	var out []string
	for w := MinSide; w <= MaxSide; w++ {
		for h := MinSide; h <= MaxSide; h++ {
			size := strconv.Itoa(w) + "x" + strconv.Itoa(h)
			out = append(out, "square:"+size, "staggered:"+size)
		}
		out = append(out, "triangle:"+strconv.Itoa(w))
	}
	for n := MinRing; n <= MaxRing; n++ {
		out = append(out, "ring:"+strconv.Itoa(n), "ring:"+strconv.Itoa(n)+"+centre")
	}
	return out
}
