package say

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// constants reads the values of the constants of one type from a source file,
// so that a new one cannot be forgotten here.
func constants(typ, file string) []string {
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		panic(err)
	}
	var out []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok || spec.Type == nil {
			return true
		}
		if id, ok := spec.Type.(*ast.Ident); ok && id.Name == typ {
			text, _ := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
			out = append(out, text)
		}
		return true
	})
	return out
}

// sound reports whether a sentence has no open blank, no missing message and
// no doubled or hanging punctuation.
func sound(text string) bool {
	for _, bad := range []string{"{{", "[", "<no value>", "%!", "  ", ": :", ";;", ": ;", " ."} {
		if strings.Contains(text, bad) {
			return false
		}
	}
	return text != "" && text == strings.TrimSpace(text) && !strings.HasSuffix(text, ":")
}

func TestEveryGroundIsSaid(t *testing.T) {
	for _, language := range Languages() {
		s := In(language)
		seen := map[string]bool{}
		everyReason(func(b *board.Board, r shape.Reason) {
			seen[string(r.Because)] = true
			if text := s.Reason(b, r); !sound(text) {
				t.Errorf("%s: Reason(%+v) = %q", language, r, text)
			}
		})
		for _, g := range constants("Because", filepath.Join("..", "shape", "reason.go")) {
			if !seen[g] {
				t.Errorf("%s: no figure of the corpus has a reason because %q", language, g)
			}
		}
	}
}

func reasonFor(t *testing.T, boardText, figure, fact string, d shape.Definitions) (*board.Board, shape.Reason) {
	t.Helper()
	b := board.MustParse(boardText)
	r := shape.Read(board.MustParseFigure(b, figure), d)
	if r.Polygon == nil {
		t.Fatalf("%s on %s is no polygon", figure, boardText)
	}
	for _, reason := range r.Reasons {
		if string(reason.Fact) == fact {
			return b, reason
		}
	}
	return b, r.Polygon.WhyName(shape.Name(fact), d)
}

func TestReasonInEnglish(t *testing.T) {
	strict := shape.Definitions{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true}
	cases := []struct {
		name, board, figure, fact, want string
		d                               shape.Definitions
	}{
		{name: "pegs passed over are no corners", board: "square:5x5", figure: "A1 C1 B3", fact: "sides", want: "3 sides: it turns at 3 corners; it runs straight over B1, which is no corner"},
		{name: "unequal sides", board: "square:5x5", figure: "A1 D1 B2", fact: "regular", want: "not regular: B2–A1 is √2 long, but A1–D1 is 3 long"},
		{name: "tilted square corners", board: "square:5x5", figure: "A2 B4 D3 C1", fact: "right_angles", want: "4 right angles: square corners at C1, D3, B4 and A2: one goes in steps of right 1, up 2, the other in steps of left 2, up 1: the same two numbers changed over, one leaning right and one leaning left"},
		{name: "upright square corners", board: "square:5x5", figure: "A1 E1 E3 A3", fact: "rectangle", want: "a rectangle: square corners at A1, E1, E3 and A3: one goes level, the other straight up and down"},
		{name: "a near miss is not a rectangle", board: "square:5x5", figure: "A1 D1 E3 B3", fact: "rectangle", want: "not a rectangle: the angle at A1 is 63.4°, not 90°: one side goes in steps of right 1, up 2, the other in steps of right 1"},
		{name: "parallel sides", board: "square:5x5", figure: "A2 D5 D3 C2", fact: "parallel_pairs", want: "1 pair of parallel sides: C2–D3 and D5–A2: both go in steps of right 1, up 1"},
		{name: "Pick's rule", board: "square:5x5", figure: "A1 E1 A5", fact: "area", want: "area: pegs inside 3, pegs on the edge 12: 3 + 12 ÷ 2 − 1 = 8"},
		{name: "class definition", board: "square:5x5", figure: "A1 D1 E3 B3", fact: "trapezoid", d: strict, want: "not a trapezoid: in this class a trapezoid has exactly one pair of parallel sides"},
		{name: "square corner on the triangular lattice", board: "staggered:5x5", figure: "A1 B2 A3", fact: "right_angles", want: "no right angle: every corner is wider or narrower than a square corner"},
		{name: "slanting square corner on the triangular lattice", board: "staggered:5x5", figure: "C1 C2 A2", fact: "right_angles", want: "1 right angle: square corner at C1: one goes in steps of 1 half step right, 1 row up, the other in steps of 3 half steps left, 1 row up: half steps 1 × 3 = 3, and 3 × rows 1 × 1 = 3 too, one leaning right and one leaning left"},
		{name: "half the ring", board: "ring:12", figure: "1 4 7 10", fact: "square", want: "a square: all 4 sides are √2 long and all 4 angles are 90°"},
		{name: "ring corners", board: "ring:12", figure: "1 4 7", fact: "right_angles", want: "1 right angle: square corner at 4: they end at 7 and 1, 6 steps apart, half way round the ring"},
		{name: "centre corner", board: "ring:12+centre", figure: "1 4 O", fact: "right_angles", want: "1 right angle: square corner at O: they end at 1 and 4, 3 steps apart, a quarter of the ring"},
		{name: "ring parallels", board: "ring:12", figure: "1 2 6 7", fact: "parallel_pairs", want: "1 pair of parallel sides: 1–7 and 6–2: 1 step from 1 to 2, and 1 step from 7 to 6 the other way round the ring"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b, r := reasonFor(t, c.board, c.figure, c.fact, c.d)
			if got := In("en").Reason(b, r); got != c.want {
				t.Errorf("Reason = %q, want %q", got, c.want)
			}
		})
	}
}

// TestLatticeProofsAddUp recomputes every number of a proof from the pegs.
func TestLatticeProofsAddUp(t *testing.T) {
	for _, text := range []string{"square:4x4", "staggered:4x5"} {
		b := board.MustParse(text)
		eachPair(b, func(p shape.Pair) {
			if !p.Perpendicular {
				return
			}
			one, two := headingOf(b, p.First), headingOf(b, p.Second)
			straight := one.level() && two.upright() || one.upright() && two.level()
			if b.Kind() == board.Square && !straight && (abs(one.across) != two.up || abs(two.across) != one.up || one.across*two.across > 0) {
				t.Fatalf("%s: %v %v: not changed over", text, one, two)
			}
			if b.Triangular() && !straight && one.across*two.across != -3*one.up*two.up {
				t.Fatalf("%s: %v %v: not three times", text, one, two)
			}
		})
	}
}

func abs(n int) int { return max(n, -n) }

// eachPair visits every pair of different segments of a board.
func eachPair(b *board.Board, visit func(shape.Pair)) {
	var all []board.Segment
	for i := range b.Pegs() {
		for j := range i {
			all = append(all, board.Segment{From: board.Peg(i), To: board.Peg(j)})
		}
	}
	for i, s := range all {
		for _, t := range all[i+1:] {
			visit(shape.PairOf(b, s, t))
		}
	}
}

var numbers = regexp.MustCompile(`\d+`)

// TestRingProofsAddUp proves, over every pair of chords of many rings, that
// the steps named in a proof make the half or the quarter ring that it claims.
func TestRingProofsAddUp(t *testing.T) {
	s := In("en")
	for _, text := range []string{"ring:4+centre", "ring:6+centre", "ring:7", "ring:8+centre", "ring:12+centre", "ring:9+centre"} {
		b := board.MustParse(text)
		n := b.Columns()
		eachPair(b, func(p shape.Pair) {
			switch {
			case p.Perpendicular:
				checkRingSquare(t, n, s.ringSquare(b, p))
			case p.Parallel:
				checkRingParallel(t, n, s.ringParallel(b, p))
			}
		})
	}
}

func checkRingSquare(t *testing.T, n int, proof string) {
	t.Helper()
	var nums []int
	for _, m := range numbers.FindAllString(proof, -1) {
		v, _ := strconv.Atoi(m)
		nums = append(nums, v)
	}
	last := len(nums) - 1
	ok := false
	switch {
	case strings.Contains(proof, "half way"):
		ok = 2*nums[last] == n && near(n, board.Peg(nums[0]), board.Peg(nums[1])) == nums[last]
	case strings.Contains(proof, "quarter"):
		ok = 4*nums[last] == n
	case strings.HasPrefix(proof, "from"):
		ok = near(n, board.Peg(nums[0]), board.Peg(nums[2])) == nums[1] && near(n, board.Peg(nums[0]), board.Peg(nums[4])) == nums[3] && nums[1] == nums[3]
	case strings.Contains(proof, "+"):
		ok = 2*(nums[last]+nums[last-1]) == n
	case strings.Contains(proof, "more or less"):
		ok = 2*abs(nums[last]-nums[last-1]) == n
	}
	if !ok {
		t.Errorf("ring of %d: the proof %q does not add up", n, proof)
	}
}

func checkRingParallel(t *testing.T, n int, proof string) {
	t.Helper()
	if i := strings.LastIndex(proof, ": "); i >= 0 {
		proof = proof[i+2:]
	}
	var v []int
	for _, m := range numbers.FindAllString(proof, -1) {
		x, _ := strconv.Atoi(m)
		v = append(v, x)
	}
	clockwise := func(a, c int) int { return ((c-a)%n + n) % n }
	if len(v) != 6 || v[0] != v[3] || clockwise(v[1], v[2])%n != clockwise(v[5], v[4])%n || near(n, board.Peg(v[1]), board.Peg(v[2])) != v[0] {
		t.Errorf("ring of %d: the proof %q does not add up", n, proof)
	}
}

func TestNamesAreDifferentWords(t *testing.T) {
	for _, language := range Languages() {
		words := In(language).Names(shape.AllNames())
		slices.Sort(words)
		if len(slices.Compact(words)) != len(shape.AllNames()) {
			t.Errorf("%s: two names share a word", language)
		}
	}
	for _, c := range [][3]string{
		{"es", "dart", "punta de flecha"},
		{"es", "trapezoid", "trapecio"},
		{"es", "13-gon", "polígono de 13 lados"},
		{"en", "regular 13-gon", "regular 13-gon"},
	} {
		if got := In(c[0]).Name(shape.Name(c[1])); got != c[2] {
			t.Errorf("In(%q).Name(%q) = %q, want %q", c[0], c[1], got, c[2])
		}
	}
	if got := In("es").AName(shape.Kite); got != "una cometa" {
		t.Errorf("AName(kite) = %q", got)
	}
}
