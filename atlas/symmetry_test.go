package atlas

import (
	"context"
	"slices"
	"testing"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

func TestSymmetriesOfBoards(t *testing.T) {
	tests := []struct {
		name, board string
		want        int
	}{
		{"a square board turns and flips", "square:5x5", 8},
		{"so does the smallest", "square:2x2", 8},
		{"an oblong board has half of it", "square:3x4", 4},
		{"a triangle keeps level moves level only when flipped", "triangle:5", 2},
		{"a ring of 12 has four quarter turns and their flips", "ring:12", 8},
		{"a ring of 6 can only go half round", "ring:6", 4},
		{"a ring of 5 only flips", "ring:5", 2},
		{"the centre changes nothing", "ring:12+centre", 8},
		{"an odd number of staggered rows flips upside down", "staggered:3x3", 2},
		{"an even number makes a half turn", "staggered:3x4", 2},
		{"a board too large for the look-ups gets none", "square:6x6", 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := newSymmetries(board.MustParse(tt.board))
			if got := len(s.halves) + 1; got != tt.want {
				t.Errorf("symmetries of %s = %d, want %d", tt.board, got, tt.want)
			}
		})
	}
}

// Motions are a group and keep every distance: the images of two pegs are as
// far apart as they are, and the motions carry a set of images onto itself.
func TestSymmetriesAreMotions(t *testing.T) {
	for _, text := range []string{"square:4x4", "square:3x5", "triangle:4", "ring:8", "ring:12+centre", "staggered:3x3"} {
		b := board.MustParse(text)
		s := newSymmetries(b)
		image := func(i int, m set) set { return s.halves[i][0][m&(1<<halfBits-1)] | s.halves[i][1][m>>halfBits] }
		for i := range s.halves {
			for p := range b.Pegs() {
				for q := range p {
					pair := image(i, 1<<p|1<<q)
					ends := []board.Peg{}
					for k := range b.Pegs() {
						if pair>>k&1 == 1 {
							ends = append(ends, board.Peg(k))
						}
					}
					if len(ends) != 2 || distance(b, ends[0], ends[1]) != distance(b, board.Peg(p), board.Peg(q)) {
						t.Fatalf("%s: motion %d sends %d, %d to %v", text, i, p, q, ends)
					}
				}
			}
			for j := range s.halves {
				twice := set(0)
				closed := func(k int) bool { return image(k, 0b1011) == twice }
				twice = image(i, image(j, 0b1011))
				if twice != 0b1011 && !slices.ContainsFunc(indices(len(s.halves)), closed) {
					t.Fatalf("%s: motion %d after %d is no motion", text, i, j)
				}
			}
		}
	}
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// The weights of the sets of corners looked at add up to all sets.
func TestWeightsCountEverySet(t *testing.T) {
	for _, text := range []string{"square:3x3", "square:3x4", "triangle:4", "ring:9", "ring:8+centre", "staggered:3x3"} {
		s := newSymmetries(board.MustParse(text))
		total := 0
		for m := range set(1) << s.pegs {
			total += s.weight(m)
		}
		if want := 1 << s.pegs; total != want {
			t.Errorf("%s: weights add up to %d, want %d", text, total, want)
		}
	}
}

// With and without the sieve a search counts the same figures and classes, for
// conditions of every kind.
func TestSieveChangesNoCount(t *testing.T) {
	conditions := [][]string{
		{"sides>=3"},
		{"upright-sides=0"},
		{"upright-sides=2", "fold-lines=1"},
		{"convex=no", "right-angles>=2"},
		{"parallel-pairs=1"},
		{"turn-order=2"},
		{"area>1"},
		{"perimeter<=6"},
		{"pegs-inside>=1"},
		{"equal-sides=2"},
		{"kind!=triangle", "pegs-on-edge=6"},
	}
	for _, text := range []string{"square:3x3", "square:3x4", "staggered:3x3", "triangle:4", "ring:8", "ring:6+centre"} {
		for i, cs := range conditions {
			if raceEnabled && i%4 > 0 {
				continue
			}
			q := Question{Board: board.MustParse(text), Conditions: task.MustParse(cs...), Limit: DefaultLimit, Progress: func(float64, int64) {}}
			run := func(sieve bool) *search {
				s := newSearch(context.Background(), q, newNeed(q.Board, q.Conditions, shape.Definitions{}))
				if !sieve {
					s.images = &symmetries{}
				}
				s.run()
				return s
			}
			with, without := run(true), run(false)
			if with.found() != without.found() || with.classes.count() != without.classes.count() {
				t.Errorf("%s %v: %d figures in %d classes with the sieve, %d in %d without",
					text, cs, with.found(), with.classes.count(), without.found(), without.classes.count())
			}
			without.classes.each(func(corners []byte, places int) {
				p := shape.EmptyPolygon(q.Board)
				p.Reset(pegs(corners))
				if got := with.classes.places(p); got != places {
					t.Errorf("%s %v: places of %v = %d with the sieve, %d without", text, cs, q.Board.Names(p.Corners()), got, places)
				}
			})
		}
	}
}
