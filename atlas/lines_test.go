package atlas

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// Segments between two different pegs: C(n², 2), and as many lengths as there
// are distances (A047800 less the zero distance).
func TestSegments(t *testing.T) {
	for n, want := range map[int][2]int64{2: {6, 2}, 3: {36, 5}, 4: {120, 9}, 5: {300, 14}, 6: {630, 19}} {
		a := ask(t, fmt.Sprintf("square:%dx%d", n, n), "segments=1")
		if a.Count != want[0] || int64(a.Different) != want[1] || !a.Complete {
			t.Errorf("%d×%d: Find(segments=1) = %d of %d lengths, want %d of %d", n, n, a.Count, a.Different, want[0], want[1])
		}
	}
}

// relation says how two segments lie, from plain's numbers.
type relation struct{ parallel, perpendicular, crossing, meeting bool }

func (p *plain) relation(a, b, c, d int) relation {
	dx, dy, ex, ey := p.x[b]-p.x[a], p.y[b]-p.y[a], p.x[d]-p.x[c], p.y[d]-p.y[c]
	r := relation{
		parallel:      p.sign(dx*ey-dy*ex) == 0 && p.turn(a, b, c) != 0,
		perpendicular: p.sign(dx*ex+p.weight*dy*ey) == 0,
		meeting:       a == c || a == d || b == c || b == d,
	}
	r.crossing = p.turn(a, b, c)*p.turn(a, b, d) < 0 && p.turn(c, d, a)*p.turn(c, d, b) < 0
	return r
}

// joined reports whether two segments on one line have a point in common, so
// that they run into one piece.
func (p *plain) joined(a, b, c, d int) bool {
	return p.turn(a, b, c) == 0 && p.turn(a, b, d) == 0 && p.meet[p.segment(a, b)][p.segment(c, d)]
}

// Two segments, against a list of all pairs of segments.
func TestTwoSegmentsAgainstAList(t *testing.T) {
	tests := []struct {
		conditions string
		holds      func(r relation) bool
	}{
		{"segments=2", func(relation) bool { return true }},
		{"segments=2,parallel-pairs=1", func(r relation) bool { return r.parallel }},
		{"segments=2,parallel-pairs=0", func(r relation) bool { return !r.parallel }},
		{"segments=2,perpendicular-pairs=1", func(r relation) bool { return r.perpendicular }},
		{"segments=2,crossing-pairs=1", func(r relation) bool { return r.crossing }},
		{"segments=2,meeting-pairs=1", func(r relation) bool { return r.meeting }},
		{"segments=2,crossing-pairs=1,perpendicular-pairs=1", func(r relation) bool { return r.crossing && r.perpendicular }},
		{"segments=2,right-angles=1", func(r relation) bool { return r.meeting && r.perpendicular }},
	}
	for _, on := range []string{"square:3x3", "square:4x4", "staggered:3x3", "triangle:4", "ring:8", "ring:6+centre"} {
		b := board.MustParse(on)
		p := newPlain(t, b)
		for _, tt := range tests {
			want := int64(0)
			n := b.Pegs()
			for s := range n * n {
				for u := range s {
					a, b, c, d := s/n, s%n, u/n, u%n
					if a < b && c < d && !p.joined(a, b, c, d) && tt.holds(p.relation(a, b, c, d)) {
						want++
					}
				}
			}
			a := ask(t, on, strings.Split(tt.conditions, ",")...)
			if a.Count != want || !a.Complete || a.Possible != (want > 0) {
				t.Errorf("Find(%s, %s) = %d, complete %v, want %d", on, tt.conditions, a.Count, a.Complete, want)
			}
		}
	}
}

// A figure of lines is its pieces, however many bands make it.
func TestBandsOfLines(t *testing.T) {
	tests := []struct {
		name, conditions   string
		count              int64 // 0 where only whether there is any matters
		possible, complete bool
		bands              int
	}{
		{"one band a piece", "segments=2,bands=2", 606, true, true, 2},
		{"one band cannot make two pieces", "segments=2,bands=1", 0, false, true, 0},
		{"a third band lies over a piece", "segments=2,bands=3", 606, true, true, 3},
		{"as many as it takes", "segments=1,bands>=4", 36, true, true, 4},
		{"one band round a triangle", "segments=3,bands=1", 76, true, false, 1},
		{"two bands make a triangle", "segments=3,bands=2,meeting-pairs=3", 76, true, false, 2},
		{"one band cannot make three parallels", "segments=3,bands=1,parallel-pairs=3", 0, false, true, 0},
		{"four pieces are not looked at", "segments=4", 0, false, false, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			q := question("square:3x3", 3, tt.conditions)
			q.Limit = time.Minute
			a := askAs(t, q)
			if a.Possible != tt.possible || a.Complete != tt.complete || tt.count > 0 && a.Count != tt.count {
				t.Errorf("Find = %d, complete %v, want %d, complete %v", a.Count, a.Complete, tt.count, tt.complete)
			}
			for _, e := range a.Examples {
				if len(e.Figure.Bands) != tt.bands {
					t.Errorf("example %s has %d bands, want %d", e.Figure, len(e.Figure.Bands), tt.bands)
				}
				if v := (task.Task{Board: q.Board, Conditions: q.Conditions}).Judge(e.Figure); v.Standing != task.Fits {
					t.Errorf("example %s %s, want fits", e.Figure, v.Standing)
				}
			}
		})
	}
}

// Three pieces on a small board are all looked at, and counted as a list of
// all sets of three segments counts them.
func TestThreeSegmentsAgainstAList(t *testing.T) {
	b := board.MustParse("square:2x3")
	p := newPlain(t, b)
	var segments [][2]int
	for q := range b.Pegs() {
		for r := range q {
			segments = append(segments, [2]int{r, q})
		}
	}
	apart := func(s, u [2]int) bool { return !p.joined(s[0], s[1], u[0], u[1]) }
	parallel := func(s, u [2]int) bool { return p.relation(s[0], s[1], u[0], u[1]).parallel }
	all, parallels := int64(0), int64(0)
	for i, s := range segments {
		for j, u := range segments[:i] {
			for _, v := range segments[:j] {
				if apart(s, u) && apart(s, v) && apart(u, v) {
					all++
					if parallel(s, u) && parallel(s, v) && parallel(u, v) {
						parallels++
					}
				}
			}
		}
	}
	for conditions, want := range map[string]int64{"segments=3": all, "segments=3,parallel-pairs=3": parallels} {
		if a := ask(t, "square:2x3", strings.Split(conditions, ",")...); a.Count != want || !a.Complete {
			t.Errorf("Find(%s) = %d, complete %v, want %d", conditions, a.Count, a.Complete, want)
		}
	}
}

// Examples of lines answer and none of them is another one moved.
func TestExamplesOfLines(t *testing.T) {
	for _, conditions := range []string{"segments=2,parallel-pairs=1", "segments=2,crossing-pairs=1,perpendicular-pairs=0", "segments=2,meeting-pairs=1,acute-angles=1"} {
		q := question("square:4x4", 6, conditions)
		a := askAs(t, q)
		if len(a.Examples) != 6 {
			t.Errorf("Find(%s) gives %d examples, want 6", conditions, len(a.Examples))
		}
		words := map[string]bool{}
		for _, e := range a.Examples {
			if v := (task.Task{Board: q.Board, Conditions: q.Conditions}).Judge(e.Figure); v.Standing != task.Fits {
				t.Errorf("Find(%s): example %s %s, want fits", conditions, e.Figure, v.Standing)
			}
			s := lineSearch{question: q}
			word := s.spell(shape.Trace(e.Figure).Segments)
			if words[word] {
				t.Errorf("Find(%s): example %s is another one moved", conditions, e.Figure)
			}
			words[word] = true
		}
	}
}

func TestImpossibleLines(t *testing.T) {
	a := ask(t, "square:3x3", "segments=2", "parallel-pairs=1", "crossing-pairs=1")
	if a.Possible || !a.Complete || len(a.Why) != 1 || a.Why[0].Seen != 606 {
		t.Errorf("Find = %d, complete %v, why %v, want none of 606", a.Count, a.Complete, a.Why)
	}
}
