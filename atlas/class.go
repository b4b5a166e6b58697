package atlas

import (
	"bytes"
	"cmp"
	"math/bits"
	"slices"
	"sync"

	"pegwright/board"
	"pegwright/shape"
)

// speller writes a polygon as a word that two polygons of one board share
// exactly when they are congruent in the plane: the least of the cyclic lists
// of its sides and angles, over every start and both directions. A side is the
// number of its length among the board's lengths. An angle is its dot product
// and the side it turns to, which with the two lengths beside it determine it.
type speller struct {
	board      *board.Board
	lengths    []uint32 // number of each Length
	angleBits  uint
	symbolBits uint
	shift      int32
}

func newSpeller(b *board.Board) *speller {
	var found []board.Length
	for p := range b.Pegs() {
		for q := range p {
			found = append(found, b.Length(b.Arrow(board.Peg(p), board.Peg(q))))
		}
	}
	slices.Sort(found)
	found = slices.Compact(found)
	longest := found[len(found)-1]
	s := &speller{board: b, lengths: make([]uint32, longest+1)}
	for i, l := range found {
		s.lengths[l] = uint32(i)
	}
	most := 4 * int32(b.Columns()) // on a ring an angle is its 4N-ths of a turn
	if b.Kind() != board.Ring {
		// Dot products lie within twice the longest squared length, either
		// sign; one more bit holds the turn.
		s.shift = 2 * int32(longest)
		most = 2 * (2*s.shift + 1)
	}
	s.angleBits = uint(bits.Len32(uint32(most)))
	s.symbolBits = s.angleBits + uint(bits.Len(uint(len(found))))
	return s
}

// short reports whether words of polygons with k corners fit a shortWord.
func (s *speller) short(k int) bool { return uint(k)*s.symbolBits <= 120 && k < 256 }

// shortWord is a word packed into two machine words, with the number of
// corners in the top byte.
type shortWord [2]uint64

// symbols appends the lists of p's symbols read one way and the other.
func (s *speller) symbols(p *shape.Polygon, one, other []uint32) (a, b []uint32) {
	k := p.Sides()
	for i := range k {
		one = append(one, s.symbol(p.Length(i), p.Angle(i)))
		j := k - 1 - i
		other = append(other, s.symbol(p.Length((j+k-1)%k), p.Angle(j)))
	}
	return one, other
}

func (s *speller) symbol(l board.Length, a board.Angle) uint32 {
	angle := uint32(a.Dot)
	if s.board.Kind() != board.Ring {
		angle = uint32(a.Dot+s.shift) << 1
		if a.Cross > 0 {
			angle |= 1
		}
	}
	return s.lengths[l]<<s.angleBits | angle
}

// word returns the least list, appended to out.
func (s *speller) word(p *shape.Polygon, out []uint32) []uint32 {
	var buffer [2][32]uint32
	a, b := s.symbols(p, buffer[0][:0], buffer[1][:0])
	least := a
	start := leastStart(a)
	if other := leastStart(b); compareFrom(b, other, a, start) < 0 {
		least, start = b, other
	}
	return append(append(out, least[start:]...), least[:start]...)
}

// leastStart returns where the least rotation of a list starts.
func leastStart(a []uint32) int {
	best := 0
	for i := 1; i < len(a); i++ {
		if a[i] <= a[best] && compareFrom(a, i, a, best) < 0 {
			best = i
		}
	}
	return best
}

// compareFrom compares rotations of two lists of one length.
func compareFrom(a []uint32, i int, b []uint32, j int) int {
	for range a {
		if a[i] != b[j] {
			return cmp.Compare(a[i], b[j])
		}
		if i++; i == len(a) {
			i = 0
		}
		if j++; j == len(b) {
			j = 0
		}
	}
	return 0
}

func (s *speller) pack(word []uint32) shortWord {
	var out shortWord
	at := uint(0)
	for _, symbol := range word {
		out[at/64] |= uint64(symbol) << (at % 64)
		if over := at%64 + s.symbolBits; over > 64 {
			out[at/64+1] |= uint64(symbol) >> (s.symbolBits - (over - 64))
		}
		at += s.symbolBits
	}
	out[1] |= uint64(len(word)) << 56
	return out
}

func spellLong(word []uint32) string {
	out := make([]byte, 0, 4*len(word))
	for _, symbol := range word {
		out = append(out, byte(symbol>>24), byte(symbol>>16), byte(symbol>>8), byte(symbol))
	}
	return string(out)
}

// class is a congruence class: how many of its polygons were met, and the
// first of them in the order of their corners.
type class struct {
	places uint32
	first  uint32 // where its corners lie in the shard's bytes
}

// maxClasses bounds the memory of a search; a search that meets more counts
// figures on but no longer tells them apart.
const maxClasses = 8_000_000

const shards = 64

// classes collects congruence classes from several walkers at once.
type classes struct {
	*speller
	parts [shards]struct {
		sync.Mutex
		short   map[shortWord]class
		long    map[string]class
		corners []byte
	}
}

func newClasses(b *board.Board) *classes { return &classes{speller: newSpeller(b)} }

// shardOf spreads words over the shards.
func shardOf(w shortWord) uint64 { return (w[0] ^ w[0]>>23 ^ w[1]*0x9E3779B97F4A7C15) % shards }

func shardOfLong(w string) uint32 { return mix([]byte(w)) % shards }

// add counts a polygon in its class, for so many places. It returns false when
// there is no room for another class.
func (c *classes) add(p *shape.Polygon, places int) bool {
	var buffer [32]uint32
	word := c.word(p, buffer[:0])
	if c.short(len(word)) {
		w := c.pack(word)
		return c.addShort(w, p, places)
	}
	return c.addLong(spellLong(word), p, places)
}

func (c *classes) addShort(w shortWord, p *shape.Polygon, places int) bool {
	part := &c.parts[shardOf(w)]
	part.Lock()
	defer part.Unlock()
	if part.short == nil {
		part.short = map[shortWord]class{}
	}
	k, known := part.short[w]
	if !known && len(part.short) >= maxClasses/shards {
		return false
	}
	part.short[w] = tally(k, known, &part.corners, p, places)
	return true
}

func (c *classes) addLong(w string, p *shape.Polygon, places int) bool {
	part := &c.parts[shardOfLong(w)]
	part.Lock()
	defer part.Unlock()
	if part.long == nil {
		part.long = map[string]class{}
	}
	k, known := part.long[w]
	if !known && len(part.long) >= maxClasses/shards/8 {
		return false
	}
	part.long[w] = tally(k, known, &part.corners, p, places)
	return true
}

// tally counts one more polygon of a class, for so many places, and keeps the
// corners of the first.
func tally(k class, known bool, corners *[]byte, p *shape.Polygon, places int) class {
	var buffer [board.MaxPegs]byte
	mine := buffer[:p.Sides()]
	for i := range mine {
		mine[i] = byte(p.Corner(i))
	}
	if !known {
		k.first = uint32(len(*corners))
		*corners = append(*corners, mine...)
	} else if kept := (*corners)[k.first:][:len(mine)]; bytes.Compare(mine, kept) < 0 {
		copy(kept, mine)
	}
	k.places += uint32(places)
	return k
}

// places returns how many places the class of a polygon was counted for.
func (c *classes) places(p *shape.Polygon) int {
	word := c.word(p, nil)
	if c.short(len(word)) {
		w := c.pack(word)
		return int(c.parts[shardOf(w)].short[w].places)
	}
	w := spellLong(word)
	return int(c.parts[shardOfLong(w)].long[w].places)
}

// join adds the classes of a part of the board, so that each has at least as
// many places as it has there. widen turns pegs of the part into pegs of the
// board.
func (c *classes) join(part *classes, widen func([]board.Peg) []board.Peg) {
	p := shape.EmptyPolygon(c.board)
	part.each(func(corners []byte, places int) {
		p.Reset(widen(pegs(corners)))
		if more := places - c.places(p); more > 0 {
			c.add(p, more)
		}
	})
}

// count returns the number of classes.
func (c *classes) count() int {
	n := 0
	for i := range c.parts {
		n += len(c.parts[i].short) + len(c.parts[i].long)
	}
	return n
}

// each visits every class with the corners of its first polygon, in no order.
func (c *classes) each(visit func(corners []byte, places int)) {
	for i := range c.parts {
		part := &c.parts[i]
		for w, k := range part.short {
			visit(part.corners[k.first:][:w[1]>>56], int(k.places))
		}
		for w, k := range part.long {
			visit(part.corners[k.first:][:len(w)/4], int(k.places))
		}
	}
}
