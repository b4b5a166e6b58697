package atlas

import (
	"slices"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// sorted brings corners to the form that plain lists them in.
func sorted(corners []board.Peg) []board.Peg {
	out := slices.Clone(corners)
	for i, c := range corners {
		if c == slices.Min(corners) {
			out = append(slices.Clone(corners[i:]), corners[:i]...)
		}
	}
	if out[1] > out[len(out)-1] {
		slices.Reverse(out[1:])
	}
	return out
}

// The walk and the wide walk meet exactly the polygons that plain lists, each
// once, and the polygons of their convex and equilateral modes are the convex
// and the equilateral ones.
func TestWalksMeetEveryPolygonOnce(t *testing.T) {
	for _, text := range tiny {
		t.Run(text, func(t *testing.T) {
			b := board.MustParse(text)
			listed := newPlain(t, b).figures()
			for _, convex := range []bool{false, true} {
				for _, equilateral := range []bool{false, true} {
					want := map[string]bool{}
					for _, f := range listed {
						p, ok := shape.NewPolygon(b, f.corners)
						if !ok {
							t.Fatalf("NewPolygon(%v) = false, want true", b.Names(f.corners))
						}
						if (p.Convex() || !convex) && (p.Equilateral() || !equilateral) {
							want[string(bytesOf(f.corners))] = true
						}
					}
					checkWalks(t, b, convex, equilateral, want)
				}
			}
		})
	}
}

func bytesOf(corners []board.Peg) []byte {
	out := make([]byte, len(corners))
	for i, c := range corners {
		out[i] = byte(c)
	}
	return out
}

func checkWalks(t *testing.T, b *board.Board, convex, equilateral bool, want map[string]bool) {
	t.Helper()
	n := b.Pegs()
	for _, wide := range []bool{false, true} {
		met := map[string]bool{}
		visit := func(corners []board.Peg) bool {
			key := string(bytesOf(sorted(corners)))
			if met[key] || !want[key] {
				t.Errorf("walk(wide %v, convex %v, equilateral %v) meets %v: met before %v, wanted %v",
					wide, convex, equilateral, b.Names(corners), met[key], want[key])
			}
			met[key] = true
			return true
		}
		if wide {
			walkAll(&wideWalk{board: b, least: 3, most: n, convex: convex, equilateral: equilateral, visit: visit, stop: never}, b)
		} else {
			w := newWalk(newTable(b), 3, n)
			w.convex, w.equilateral, w.visit = convex, equilateral, visit
			walkAll(w, b)
		}
		if len(met) != len(want) {
			t.Errorf("walk(wide %v, convex %v, equilateral %v) meets %d polygons, want %d", wide, convex, equilateral, len(met), len(want))
		}
	}
}

func never() bool { return false }

// Counting alone gives the numbers that visiting gives, in every mode and for
// every range of sides.
func TestWalkCountsWhatItVisits(t *testing.T) {
	for _, text := range []string{"square:3x4", "staggered:3x3", "triangle:4", "ring:9", "ring:6+centre"} {
		b := board.MustParse(text)
		table := newTable(b)
		for mode := range 4 {
			for least := 3; least <= b.Pegs(); least++ {
				count := func(visit func([]board.Peg) bool, most int) []int64 {
					w := newWalk(table, least, most)
					w.convex, w.equilateral, w.visit = mode&1 == 1, mode&2 == 2, visit
					walkAll(w, b)
					return w.count
				}
				most := min(least+2, b.Pegs())
				got, want := count(nil, most), count(func([]board.Peg) bool { return true }, most)
				if !slices.Equal(got, want) {
					t.Errorf("%s: count of mode %d from %d to %d corners = %v, want %v", text, mode, least, most, got, want)
				}
			}
		}
	}
}

// A visitor that says stop is not called again, and from says so.
func TestWalkStopsWhenTold(t *testing.T) {
	b := board.MustParse("square:3x3")
	w := newWalk(newTable(b), 3, 9)
	calls := 0
	w.visit = func([]board.Peg) bool { calls++; return calls < 5 }
	if w.from(0, 1) || calls != 5 {
		t.Errorf("from() after %d calls goes on, want a stop after 5", calls)
	}
	v := &wideWalk{board: b, least: 3, most: 9, stop: never, visit: func([]board.Peg) bool { calls++; return calls < 9 }}
	if v.from(0, 1) || calls != 9 {
		t.Errorf("wide from() after %d calls goes on, want a stop after 9", calls)
	}
}

// The clock and the limit on steps both end a walk early.
func TestWalkRestsAndStops(t *testing.T) {
	b := board.MustParse("square:4x4")
	w := newWalk(newTable(b), 3, 16)
	w.stop = func() bool { return true }
	if w.from(0, 1) {
		t.Error("from() with the clock run out = true, want false")
	}
	w = newWalk(newTable(b), 3, 16)
	w.steps = 100
	if w.from(0, 1) || w.nodes < 100 || w.nodes > 116 {
		t.Errorf("from() ends after %d steps, want 100 and the way back", w.nodes)
	}
	v := &wideWalk{board: b, least: 3, most: 16, stop: func() bool { return true }, visit: func([]board.Peg) bool { return true }}
	if v.from(0, 1) {
		t.Error("wide from() with the clock run out = true, want false")
	}
}

// The table on the largest board it takes agrees with the board.
func TestTableAgreesWithTheBoard(t *testing.T) {
	for _, text := range []string{"square:3x5", "staggered:4x3", "triangle:5", "ring:7+centre", "ring:12"} {
		b := board.MustParse(text)
		table := newTable(b)
		n := board.Peg(b.Pegs())
		for p := range n {
			for q := range n {
				if p == q {
					continue
				}
				for v := range n {
					turn := b.Turn(p, q, v)
					if got := table.onLine[table.at(p, q)]>>v&1 == 1; got != (turn == 0) {
						t.Fatalf("%s: onLine(%d, %d) has %d: %v, want %v", text, p, q, v, got, turn == 0)
					}
					if got := table.left[table.at(p, q)]>>v&1 == 1; got != (turn > 0) {
						t.Fatalf("%s: left(%d, %d) has %d: %v, want %v", text, p, q, v, got, turn > 0)
					}
					for x := range n {
						m := b.Meeting(board.Segment{From: p, To: q}, board.Segment{From: v, To: x})
						want := v != x && m != board.Apart && m != board.SharedEnd
						if got := table.blocked[table.at(p, q)][v]>>x&1 == 1; got != want {
							t.Fatalf("%s: blocked(%d, %d) from %d has %d: %v, want %v", text, p, q, v, x, got, want)
						}
					}
				}
			}
		}
	}
}

func TestTableOfTheMostPegsHasThemAll(t *testing.T) {
	slow(t)
	table := newTable(board.MustParse("square:8x8"))
	if table.all != ^set(0) {
		t.Errorf("all = %x, want 64 pegs", table.all)
	}
}
