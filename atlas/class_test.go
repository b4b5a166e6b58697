package atlas

import (
	"math/rand/v2"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// Words are equal exactly when plain's tables of distances are, over every
// polygon of the tiny boards.
func TestWordsTellClassesApart(t *testing.T) {
	for _, text := range tiny {
		t.Run(text, func(t *testing.T) {
			b := board.MustParse(text)
			s := newSpeller(b)
			there, back := map[string]string{}, map[string]string{}
			for _, f := range newPlain(t, b).figures() {
				p, _ := shape.NewPolygon(b, f.corners)
				word := spellLong(s.word(p, nil))
				if known, ok := there[word]; ok && known != f.word {
					t.Fatalf("%v has the word of another class", b.Names(f.corners))
				}
				if known, ok := back[f.word]; ok && known != word {
					t.Fatalf("%v has not the word of its class", b.Names(f.corners))
				}
				there[word], back[f.word] = f.word, word
			}
		})
	}
}

// Words are equal exactly when shape.Congruent says so.
func TestWordsAgreeWithCongruent(t *testing.T) {
	tests := []struct {
		name, board string
		sides       int
		sample      int // polygons compared, 0 for all
	}{
		{"every polygon of 3x3", "square:3x3", 9, 0},
		{"every polygon of 7 pegs in a hexagon", "ring:6+centre", 7, 0},
		{"every polygon of a ring of 8", "ring:8", 8, 0},
		{"some of 4x4", "square:4x4", 6, 400},
		{"quadrilaterals of 5x5", "square:5x5", 4, 500},
		{"some of a triangle of 4", "triangle:4", 7, 400},
		{"some of a staggered board", "staggered:3x4", 6, 400},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := board.MustParse(tt.board)
			all := everyPolygon(b, tt.sides)
			if tt.sample > 0 {
				random := rand.New(rand.NewPCG(7, 1))
				random.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
				all = all[:tt.sample]
			}
			s := newSpeller(b)
			for i, p := range all {
				for _, q := range all[:i] {
					if p.Sides() != q.Sides() || (testing.Short() || raceEnabled) && (i+int(q.Corner(1)))%7 > 0 {
						continue
					}
					same := spellLong(s.word(p, nil)) == spellLong(s.word(q, nil))
					if want := shape.Congruent(p, q); same != want {
						t.Fatalf("words of %v and %v equal: %v, want %v", b.Names(p.Corners()), b.Names(q.Corners()), same, want)
					}
				}
			}
		})
	}
}

// The pair of trap T2: congruent in the plane, though no motion of the board
// carries one to the other.
func TestWordsSeeThePlaneNotTheBoard(t *testing.T) {
	b := board.MustParse("square:6x6")
	p := polygon(t, b, "A1 B3 E4 D2")
	q := polygon(t, b, "A2 C1 F2 D3")
	s := newSpeller(b)
	if spellLong(s.word(p, nil)) != spellLong(s.word(q, nil)) || !shape.Congruent(p, q) {
		t.Error("the pair of T2 has two words, want one")
	}
}

func polygon(t testing.TB, b *board.Board, text string) *shape.Polygon {
	t.Helper()
	p, ok := shape.NewPolygon(b, board.MustParseFigure(b, text).Bands[0])
	if !ok {
		t.Fatalf("NewPolygon(%s) = false", text)
	}
	return p
}

// A word does not depend on the start or the direction, and packed words are
// equal exactly when the words are.
func TestWordsOfTurnedListsAreEqual(t *testing.T) {
	for _, text := range []string{"square:3x3", "triangle:4", "ring:8+centre"} {
		b := board.MustParse(text)
		s := newSpeller(b)
		packed, long := map[shortWord]string{}, map[string]shortWord{}
		for _, p := range everyPolygon(b, 6) {
			word := s.word(p, nil)
			one, other := s.symbols(p, nil, nil)
			for i := range one {
				if compareFrom(word, 0, one, i) > 0 || compareFrom(word, 0, other, i) > 0 {
					t.Fatalf("%s: word of %v = %v is not the least", text, b.Names(p.Corners()), word)
				}
			}
			if !s.short(len(word)) {
				continue
			}
			pack, spelt := s.pack(word), spellLong(word)
			if known, ok := packed[pack]; ok && known != spelt {
				t.Fatalf("%s: one packing of two words", text)
			}
			if known, ok := long[spelt]; ok && known != pack {
				t.Fatalf("%s: two packings of one word", text)
			}
			packed[pack], long[spelt] = spelt, pack
			if int(pack[1]>>56) != p.Sides() {
				t.Fatalf("%s: packed number of corners = %d, want %d", text, pack[1]>>56, p.Sides())
			}
		}
	}
}

// Short and long words give the same classes with the same places and firsts.
func TestClassesKeepPlacesAndFirst(t *testing.T) {
	b := board.MustParse("square:3x4")
	short, long := newClasses(b), newClasses(b)
	long.symbolBits = 121 // nothing fits a short word
	all := everyPolygon(b, 10)
	for i := range all {
		p, q := all[i], all[len(all)-1-i]
		short.add(p, 1)
		long.add(q, 1)
	}
	type kept struct {
		corners string
		places  int
	}
	list := func(c *classes) map[kept]bool {
		out := map[kept]bool{}
		c.each(func(corners []byte, places int) { out[kept{string(corners), places}] = true })
		return out
	}
	a, c := list(short), list(long)
	if len(a) != short.count() || len(a) != len(c) {
		t.Fatalf("short words make %d classes, long ones %d", len(a), len(c))
	}
	total := 0
	for k := range a {
		if !c[k] {
			t.Errorf("class %v is not among the long ones", k)
		}
		total += k.places
	}
	if total != len(all) {
		t.Errorf("places add up to %d, want %d", total, len(all))
	}
	for _, p := range all {
		if n := short.places(p); n == 0 || n != long.places(p) {
			t.Fatalf("places(%v) = %d, and of long words %d", b.Names(p.Corners()), n, long.places(p))
		}
	}
}

// Joining a part raises classes to the places they have there and no further.
func TestJoinKeepsTheLargerNumberOfPlaces(t *testing.T) {
	b, small := board.MustParse("square:4x4"), board.MustParse("square:3x3")
	triangle, square := polygon(t, b, "A1 B1 A2"), polygon(t, b, "A1 B1 B2 A2")
	c, part := newClasses(b), newClasses(small)
	c.add(triangle, 9)
	part.add(polygon(t, small, "A1 B1 A2"), 4)
	part.add(polygon(t, small, "A1 B1 B2 A2"), 4)
	c.join(part, func(p []board.Peg) []board.Peg { return b.Widen(small, p) })
	if c.places(triangle) != 9 || c.places(square) != 4 || c.count() != 2 {
		t.Errorf("places = %d and %d of %d classes, want 9 and 4 of 2", c.places(triangle), c.places(square), c.count())
	}
}
