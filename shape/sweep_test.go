package shape_test

import (
	"math"
	"slices"
	"sync"
	"testing"

	"pegwright/board"
	"pegwright/exact"
	"pegwright/shape"
)

// corners4x4 are the polygons on 4×4 pegs by number of corners from 3 (the
// reference tables, section 1.4, found there by two programs).
var corners4x4 = []int{516, 1758, 7608, 23610, 57616, 109897, 148296, 146046, 91988, 35025, 8576, 1144, 64, 2}

// tally counts what a sweep saw.
type tally struct {
	byCorners [20]int
	sixteens  [][]board.Peg
}

// sweep checks every law on every polygon of a board, in several parts at a
// time; the race detector gets to see one in sixteen.
func sweep(t *testing.T, b *board.Board, most, parts int) tally {
	t.Helper()
	var mu sync.Mutex
	var all tally
	var wait sync.WaitGroup
	for part := range parts {
		wait.Add(1)
		go func() {
			defer wait.Done()
			l := newLaws(t, b)
			var mine tally
			seen := 0
			newSearch(l.plain).each(most, part, parts, func(pegs []board.Peg) {
				mine.byCorners[len(pegs)]++
				if len(pegs) == 16 {
					mine.sixteens = append(mine.sixteens, slices.Clone(pegs))
				}
				if seen++; (!raceDetector || seen%16 == 0) && !t.Failed() {
					l.check(pegs)
				}
			})
			mu.Lock()
			defer mu.Unlock()
			all.sixteens = append(all.sixteens, mine.sixteens...)
			for k, n := range mine.byCorners {
				all.byCorners[k] += n
			}
		}()
	}
	wait.Wait()
	return all
}

// Every polygon on 3×3 pegs. Counts: the reference tables, section 1.4.
func TestLawsOnAllPolygonsOf3x3(t *testing.T) {
	got := sweep(t, board.MustParse("square:3x3"), 9, 2)
	if want := []int{76, 94, 164, 158, 36, 0, 0}; !slices.Equal(got.byCorners[3:10], want) {
		t.Errorf("polygons by corners = %v, want %v", got.byCorners[3:10], want)
	}
}

// Every polygon on 4×4 pegs, 632,146 of them.
func TestLawsOnAllPolygonsOf4x4(t *testing.T) {
	if testing.Short() {
		t.Skip("looks at 632,146 figures")
	}
	if raceDetector {
		t.Skip("looks at 632,146 figures, which takes the race detector a minute; run it without")
	}
	b := board.MustParse("square:4x4")
	got := sweep(t, b, 16, 4)
	if !slices.Equal(got.byCorners[3:17], corners4x4) {
		t.Errorf("polygons by corners = %v, want %v", got.byCorners[3:17], corners4x4)
	}
	total := 0
	for _, n := range got.byCorners {
		total += n
	}
	if total != 632146 {
		t.Errorf("%d polygons, want 632146", total)
	}
	// The two that use every peg: the reference tables, section 1.6.
	for _, pegs := range got.sixteens {
		f, _ := shape.Measure(b, pegs)
		if f.Area2 != 14 || f.PegsInside != 0 {
			t.Errorf("16-gon %v: area2 %d, %d pegs inside, want 14, 0", b.Names(pegs), f.Area2, f.PegsInside)
		}
	}
	if len(got.sixteens) == 2 && !shape.Congruent(polygonOf(t, b, got.sixteens[0]), polygonOf(t, b, got.sixteens[1])) {
		t.Error("the two 16-gons are not congruent")
	}
}

// Oblong, staggered and triangular boards and rings. The counts on 3×4 are
// those of the reference tables, section 1.4.
func TestLawsOnOtherBoards(t *testing.T) {
	tests := []struct {
		board string
		most  int
		want  []int // nil where nothing is published
	}{
		{"square:2x2", 4, []int{4, 1}},
		{"square:2x3", 6, []int{18, 9, 0, 0}},
		{"square:3x4", 12, []int{200, 420, 1128, 2004, 2180, 1788, 664, 70, 0, 0}},
		{"triangle:3", 6, []int{17, 6}},     // section 2
		{"triangle:4", 10, []int{105, 150}}, // section 2
		{"triangle:5", 4, []int{407, 1197}}, // section 2
		{"staggered:3x3", 9, nil},
		{"staggered:4x3", 5, nil},
		{"ring:3", 3, []int{1}},
		{"ring:8", 8, []int{56, 70, 56, 28, 8, 1}},
		{"ring:12", 12, []int{220, 495, 792, 924, 792, 495, 220, 66, 12, 1}},
		{"ring:3+centre", 4, []int{4, 3}},
		{"ring:4+centre", 5, []int{8, 1}},
		{"ring:7+centre", 8, nil},
		{"ring:8+centre", 9, nil},
		{"ring:9+centre", 10, nil},
	}
	for _, tt := range tests {
		t.Run(tt.board, func(t *testing.T) {
			got := sweep(t, board.MustParse(tt.board), tt.most, 2)
			for i, want := range tt.want {
				if got.byCorners[3+i] != want {
					t.Errorf("%d-gons: %d, want %d", 3+i, got.byCorners[3+i], want)
				}
			}
		})
	}
}

// laws checks one polygon after another on one board.
type laws struct {
	t     *testing.T
	b     *board.Board
	plain *plain
	// maps of the board onto itself that generate all others
	maps []func(board.Peg) board.Peg
	// whether a map keeps upright sides upright
	keepsUpright []bool
	polygon      *shape.Polygon
}

func newLaws(t *testing.T, b *board.Board) *laws {
	l := &laws{t: t, b: b, plain: layOut(t, b), polygon: shape.EmptyPolygon(b)}
	add := func(keeps bool, image func(board.Peg) board.Peg) {
		l.maps, l.keepsUpright = append(l.maps, image), append(l.keepsUpright, keeps)
	}
	w, h := b.Columns(), b.Rows()
	switch b.Kind() {
	case board.Square:
		add(true, func(p board.Peg) board.Peg { return board.Peg(int(p)/w*w + w - 1 - int(p)%w) })
		add(true, func(p board.Peg) board.Peg { return board.Peg((h-1-int(p)/w)*w + int(p)%w) })
		if w == h {
			add(true, func(p board.Peg) board.Peg { return board.Peg(int(p)%w*w + int(p)/w) })
		}
	case board.Staggered:
		if h%2 == 1 {
			add(true, func(p board.Peg) board.Peg { return board.Peg((h-1-int(p)/w)*w + int(p)%w) })
		}
	case board.Triangle:
		// a third of a turn: columns become rows
		add(false, func(p board.Peg) board.Peg {
			row, column := b.Row(p)
			return l.triangle(column, w-1-row-column)
		})
		add(true, func(p board.Peg) board.Peg {
			row, column := b.Row(p)
			return l.triangle(row, w-1-row-column)
		})
	case board.Ring:
		round := func(p board.Peg, to int) board.Peg {
			if int(p) == w {
				return p
			}
			return board.Peg((to%w + w) % w)
		}
		add(w == 4, func(p board.Peg) board.Peg { return round(p, int(p)+1) })
		add(true, func(p board.Peg) board.Peg { return round(p, -int(p)) })
	}
	return l
}

// triangle returns the peg in a row and column of a triangular board.
func (l *laws) triangle(row, column int) board.Peg {
	p, ok := l.b.Peg(string(rune('A'+column)) + itoa(row+1))
	if !ok {
		l.t.Errorf("%s: no peg in row %d, column %d", l.b, row, column)
	}
	return p
}

func (l *laws) check(pegs []board.Peg) {
	b := l.b
	f, ok := shape.Measure(b, pegs)
	if !ok {
		l.t.Errorf("%s: Measure(%v) is no polygon", b, b.Names(pegs))
		return
	}
	l.polygon.Reset(pegs)
	l.checkNaively(pegs, f)
	l.checkAngleSum(pegs)
	l.checkArea(pegs, f)
	l.checkNumbers(pegs, f)
	l.checkMoved(pegs, f)
	if f.Sides == 3 || f.Sides == 4 || f.Regular {
		l.checkNames(pegs, f)
	}
}

func (l *laws) checkNaively(pegs []board.Peg, f shape.Facts) {
	want := l.plain.facts(pegs)
	want.Likeness, want.SideSpread, want.AngleSpread = f.Likeness, f.SideSpread, f.AngleSpread
	if f != want {
		l.t.Errorf("%s: Measure(%v)\n = %+v,\nwant %+v", l.b, l.b.Names(pegs), f, want)
	}
}

// checkAngleSum checks that the interior angles add up to (k−2)·180° exactly:
// the product of the corners as complex numbers a + c·√−w must be a real
// number of the right sign, and the float64 sum says which of the sums that
// differ by a full turn it is.
func (l *laws) checkAngleSum(pegs []board.Peg) {
	p, k, sum := l.polygon, len(pegs), 0.0
	re, im, w := int64(1), int64(0), int64(1)
	if l.b.Triangular() {
		w = 3
	}
	steps := int64(0)
	for i := range k {
		a := p.Angle(i)
		sum += l.b.Degrees(a)
		if l.b.Kind() == board.Ring {
			steps += int64(a.Dot)
			continue
		}
		d, c := int64(a.Dot), int64(a.Cross)
		re, im = re*d-w*im*c, re*c+im*d
		g := exact.GCD(re, im)
		re, im = re/g, im/g
	}
	right := im == 0 && (re > 0) == (k%2 == 0)
	if l.b.Kind() == board.Ring {
		right = steps == int64(2*l.b.Columns()*(k-2))
	}
	if want := float64(180 * (k - 2)); !right || math.Abs(sum-want) > 1e-9 {
		l.t.Errorf("%s: angles of %v add up to %v°, want %v°", l.b, l.b.Names(pegs), sum, want)
	}
}

// checkArea checks Pick's theorem (Pick 1899) with counted pegs on lattices,
// and the area as a number and as a float64 against the shoelace sum.
func (l *laws) checkArea(pegs []board.Peg, f shape.Facts) {
	p, k, sum := l.polygon, len(pegs), 0.0
	for i := range k {
		x1, y1 := l.b.At(pegs[i])
		x2, y2 := l.b.At(pegs[(i+1)%k])
		sum += (x1*y2 - x2*y1) / 2
	}
	sum = math.Abs(sum)
	if math.Abs(p.AreaFloat()-sum) > 1e-9 || math.Abs(p.Area().Float()-sum) > 1e-9 {
		l.t.Errorf("%s: area of %v = %v (%s), want %v", l.b, l.b.Names(pegs), p.AreaFloat(), p.Area(), sum)
	}
	if l.b.Kind() != board.Ring && f.Area2 != 2*f.PegsInside+f.PegsOnEdge-2 {
		l.t.Errorf("%s: Area2(%v) = %d, want %d by Pick's theorem", l.b, l.b.Names(pegs), f.Area2, 2*f.PegsInside+f.PegsOnEdge-2)
	}
}

// checkNumbers checks the laws that tie facts together.
func (l *laws) checkNumbers(pegs []board.Peg, f shape.Facts) {
	law := func(holds bool, what string) {
		if !holds {
			l.t.Errorf("%s: %v: %s does not hold: %+v", l.b, l.b.Names(pegs), what, f)
		}
	}
	k, p := f.Sides, l.polygon
	law(f.RightAngles+f.AcuteAngles+f.ObtuseAngles+f.ReflexAngles == k, "each corner has one kind of angle")
	law(f.Convex == (f.ReflexAngles == 0), "convex means no reflex corner")
	law(f.FoldLines == 0 || f.FoldLines == f.TurnOrder, "fold lines are none or as many as the turn order")
	law(k%f.TurnOrder == 0, "the turn order divides the number of sides")
	law(f.Regular == (f.FoldLines == k && f.TurnOrder == k), "regular means that all lines fold and all turns fit")
	law(f.Regular == (f.Likeness > 1-1e-12), "likeness is 1 for a regular figure only")
	law(f.Likeness >= 0 && f.Likeness <= 1, "likeness is from 0 to 1")
	law(f.Equilateral == (f.SideSpread == 0) && f.SideSpread >= 0, "the side spread is 0 when all sides are equal")
	law(f.Equiangular == (f.AngleSpread == 0) && f.AngleSpread >= 0, "the angle spread is 0 when all angles are equal")
	law(f.Equilateral == (p.LengthsUsed() == 1), "one length is used when all sides are equal")
	law(len(p.PassedOver()) == f.PegsOnEdge-k, "pegs on the edge are corners or passed over")
	law(len(p.FoldAxes()) == f.FoldLines, "there is an axis for each fold line")
	law(f.AcuteAngles+f.RightAngles+f.ObtuseAngles >= 3, "three corners at least turn out")
	law(!f.Convex || f.AcuteAngles <= 3, "a convex figure has three acute corners at most")
	law(!f.Convex || k < 5 || f.RightAngles <= 3, "convex with five corners or more has three square corners at most")
	law(p.Sides() == k && p.Convex() == f.Convex && p.Regular() == f.Regular, "the polygon agrees with its facts")
	if l.b.Kind() == board.Square {
		law(!f.Regular || k == 4, "only the square is regular on a square board") // section 4.2
		law(!f.Equilateral || k%2 == 0, "no equilateral figure has an odd number of sides on a square board")
	}
	if l.b.Triangular() {
		law(!f.Regular || k == 3 || k == 6, "only triangles and hexagons are regular on a triangular board") // section 4.4
	}
}

// checkMoved checks that turning or flipping the board changes no fact, nor
// does running round the other way from another corner.
func (l *laws) checkMoved(pegs []board.Peg, f shape.Facts) {
	var moved [20]board.Peg
	image := moved[:len(pegs)]
	for i, m := range l.maps {
		for j, p := range pegs {
			image[j] = m(p)
		}
		l.same(pegs, image, f, l.keepsUpright[i])
	}
	k := len(pegs)
	for j := range pegs {
		image[j] = pegs[(2*k-2-j)%k]
	}
	l.same(pegs, image, f, true)
}

func (l *laws) same(pegs, image []board.Peg, f shape.Facts, upright bool) {
	g, ok := shape.Measure(l.b, image)
	if math.Abs(f.Likeness-g.Likeness) < 1e-12 && math.Abs(f.SideSpread-g.SideSpread) < 1e-12 && math.Abs(f.AngleSpread-g.AngleSpread) < 1e-9 {
		g.Likeness, g.SideSpread, g.AngleSpread = f.Likeness, f.SideSpread, f.AngleSpread
	}
	if !upright {
		g.UprightSides = f.UprightSides
	}
	if !ok || f != g {
		l.t.Errorf("%s: Measure(%v)\n = %+v, but moved to %v\n = %+v", l.b, l.b.Names(pegs), f, l.b.Names(image), g)
	}
}

// checkNames checks the hierarchy of names under each choice of definitions,
// against tests on the facts that share nothing with the names' own.
func (l *laws) checkNames(pegs []board.Peg, f shape.Facts) {
	for _, d := range allDefinitions {
		want := wantNames(f, l.kiteSides(pegs), d)
		got := l.polygon.Names(d)
		if len(got) == 0 || got[0] != shape.AnyPolygon {
			l.t.Errorf("%s: Names(%v) = %v, want polygon first", l.b, l.b.Names(pegs), got)
		}
		for _, name := range shape.AllNames() {
			if has := slices.Contains(got, name); has != want[name] || has != l.polygon.Is(name, d) {
				l.t.Errorf("%s: %v is %q = %v (%v in its names), want %v, under %+v", l.b, l.b.Names(pegs), name, l.polygon.Is(name, d), has, want[name], d)
			}
			if r := l.polygon.WhyName(name, d); r.Holds != want[name] || r.Because == "" || r.Fact != shape.Fact(name) {
				l.t.Errorf("%s: WhyName(%v, %q) = %q, %v, want a reason for %v", l.b, l.b.Names(pegs), name, r.Because, r.Holds, want[name])
			}
		}
	}
}

// kiteSides reports whether a quadrilateral has two pairs of equal neighbours.
func (l *laws) kiteSides(pegs []board.Peg) bool {
	if len(pegs) != 4 {
		return false
	}
	// a diagonal is the mirror line of the other: its ends are as far from both
	far := func(a, b, c board.Peg) bool { return l.plain.sign(l.plain.squared(a, b)-l.plain.squared(a, c)) == 0 }
	return far(pegs[0], pegs[1], pegs[3]) && far(pegs[2], pegs[1], pegs[3]) ||
		far(pegs[1], pegs[0], pegs[2]) && far(pegs[3], pegs[0], pegs[2])
}

var allDefinitions = []shape.Definitions{
	{},
	{TrapezoidExactlyOne: true},
	{IsoscelesExactlyTwo: true},
	{KiteNotRhombus: true},
	{TrapezoidExactlyOne: true, IsoscelesExactlyTwo: true, KiteNotRhombus: true},
}

// wantNames says which names a figure has, by the definitions in words.
func wantNames(f shape.Facts, kiteSides bool, d shape.Definitions) map[shape.Name]bool {
	want := map[shape.Name]bool{shape.AnyPolygon: true, shape.SideName(f.Sides): true}
	if f.Regular && f.Sides > 4 {
		want["regular "+shape.SideName(f.Sides)] = true
	}
	switch f.Sides {
	case 3:
		sides := map[string]bool{
			"scalene":   f.EqualSides == 1,
			"isosceles": f.EqualSides == 2 || f.EqualSides == 3 && !d.IsoscelesExactlyTwo,
		}
		angles := map[string]bool{"right": f.RightAngles > 0, "obtuse": f.ObtuseAngles > 0, "acute": f.RightAngles+f.ObtuseAngles == 0}
		for s, is := range sides {
			want[shape.Name(s+" triangle")] = is
			for a, also := range angles {
				want[shape.Name(a+" triangle")] = also
				want[shape.Name(a+" "+s+" triangle")] = is && also
			}
		}
		want[shape.Equilateral] = f.EqualSides == 3
	case 4:
		trapezoid := f.ParallelPairs > 0 && !(d.TrapezoidExactlyOne && f.ParallelPairs > 1)
		// A fold line through two parallel sides: of a figure with one pair,
		// any fold line; of one with two, the two of a rectangle.
		folds := f.ParallelPairs == 1 && f.FoldLines == 1 || f.RightAngles == 4
		want[shape.Parallelogram] = f.ParallelPairs == 2
		want[shape.Rectangle] = f.RightAngles == 4
		want[shape.Rhombus] = f.EqualSides == 4
		want[shape.Square] = f.EqualSides == 4 && f.RightAngles == 4
		want[shape.Trapezoid] = trapezoid
		want[shape.RightTrapezoid] = trapezoid && f.RightAngles == 2
		want[shape.IsoscelesTrapezoid] = trapezoid && folds
		want[shape.Kite] = kiteSides && f.Convex && !(d.KiteNotRhombus && f.EqualSides == 4)
		want[shape.Dart] = kiteSides && !f.Convex
	}
	return want
}
