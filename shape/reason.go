package shape

import (
	"pegwright/board"
)

// Fact names something that a reading states. A Name is a fact too.
type Fact string

// The facts that come with a reason.
const (
	FactSides         Fact = "sides"
	FactConvex        Fact = "convex"
	FactEquilateral   Fact = "equilateral"
	FactEquiangular   Fact = "equiangular"
	FactRegular       Fact = "regular"
	FactRightAngles   Fact = "right_angles"
	FactParallel      Fact = "parallel_pairs"
	FactPerpendicular Fact = "perpendicular_pairs"
	FactFoldLines     Fact = "fold_lines"
	FactTurnOrder     Fact = "turn_order"
	FactArea          Fact = "area"
)

// Because names the grounds of a reason. The fields of Reason that each one
// fills are given beside it.
type Because string

// The grounds.
const (
	CornersCounted    Because = "corners counted"     // Count; Corners passed over in Passed
	NoCornerTurnsIn   Because = "no corner turns in"  //
	CornersTurnIn     Because = "corners turn in"     // Corners
	SidesEqual        Because = "sides equal"         // Sides: all
	SidesDiffer       Because = "sides differ"        // Sides: the shortest, the longest
	AllSidesDiffer    Because = "all sides differ"    // Sides: all
	TwoSidesEqual     Because = "two sides equal"     // Sides: the equal ones
	NeighboursEqual   Because = "neighbours equal"    // Sides: a pair, then the other pair
	NeighboursDiffer  Because = "neighbours differ"   // Sides: all
	AnglesEqual       Because = "angles equal"        // Corners: all
	AnglesDiffer      Because = "angles differ"       // Corners: of the smallest, of the largest; Pairs: their arms
	SidesAnglesEqual  Because = "sides, angles equal" // Sides, Corners: all
	SquareCorners     Because = "square corners"      // Corners; Pairs: the arms of each
	NoSquareCorner    Because = "no square corner"    //
	NotSquareCorner   Because = "not a square corner" // Corners: one that is not; Pairs: its arms
	LargestAngle      Because = "largest angle"       // Corners: of the largest; Pairs: its arms
	ParallelSides     Because = "parallel sides"      // Pairs
	NoParallelSides   Because = "no parallel sides"   //
	PerpendicularEach Because = "perpendicular sides" // Pairs
	NoPerpendicular   Because = "no perpendicular"    //
	FoldsOnto         Because = "folds onto itself"   // Folds
	FoldsNowhere      Because = "folds nowhere"       // Landings
	FoldsElsewhere    Because = "folds elsewhere"     // Landings: of the line through the bases
	FitsTurned        Because = "fits turned"         // Count
	PegsCounted       Because = "pegs counted"        // Count: inside; Edge: on the edge
	AreaMeasured      Because = "area measured"       //
	WrongSideCount    Because = "wrong side count"    // Count
	DefinedAway       Because = "defined away"        // the class's definition leaves it out
)

// Reason says why a fact holds or does not, as data; sentences are made from
// it elsewhere. Only the fields that Because calls for are filled.
type Reason struct {
	Fact     Fact
	Holds    bool // for yes-or-no facts and names; true for counts
	Because  Because
	Count    int
	Edge     int
	Sides    []board.Segment
	Corners  []board.Peg
	Pairs    []Pair
	Folds    []FoldLine
	Landings []Landing
}

// Reasons returns a reason for every fact of p and for every name that is true
// of it.
func (p *Polygon) Reasons(d Definitions) []Reason {
	facts := []Fact{
		FactSides, FactConvex, FactEquilateral, FactEquiangular, FactRegular, FactRightAngles,
		FactParallel, FactPerpendicular, FactFoldLines, FactTurnOrder, FactArea,
	}
	var out []Reason
	for _, f := range facts {
		out = append(out, p.Why(f))
	}
	for _, n := range p.Names(d) {
		if n != AnyPolygon {
			out = append(out, p.WhyName(n, d))
		}
	}
	return out
}

// Why returns the reason for a fact.
func (p *Polygon) Why(f Fact) Reason {
	var r Reason
	switch f {
	case FactSides:
		r = Reason{Holds: true, Because: CornersCounted, Count: p.Sides(), Corners: p.PassedOver()}
	case FactConvex:
		r = p.whyConvex()
	case FactEquilateral:
		r = p.whyEquilateral()
	case FactEquiangular:
		r = p.whyEquiangular()
	case FactRegular:
		r = p.whyRegular()
	case FactRightAngles:
		r = p.whyRightAngles()
	case FactParallel:
		r = p.whyPairs(p.parallel, ParallelSides, NoParallelSides)
	case FactPerpendicular:
		r = p.whyPairs(p.perpendicular, PerpendicularEach, NoPerpendicular)
	case FactFoldLines:
		r = p.whyFolds()
	case FactTurnOrder:
		r = Reason{Holds: true, Because: FitsTurned, Count: p.TurnOrder()}
	case FactArea:
		r = Reason{Holds: true, Because: AreaMeasured}
		if p.board.Kind() == board.Square {
			r = Reason{Holds: true, Because: PegsCounted, Count: p.PegsInside(), Edge: p.PegsOnEdge()}
		}
	}
	r.Fact = f
	return r
}

func (p *Polygon) allSides() []board.Segment {
	out := make([]board.Segment, p.Sides())
	for i := range out {
		out[i] = p.Side(i)
	}
	return out
}

func (p *Polygon) cornersOf(kind board.AngleKind) []board.Peg {
	var out []board.Peg
	for i := range p.corners {
		if p.AngleKind(i) == kind {
			out = append(out, p.Corner(i))
		}
	}
	return out
}

// arms returns the two sides at corner i, both leading away from it.
func (p *Polygon) arms(i int) Pair {
	before := p.Corner(i + p.Sides() - 1)
	return PairOf(p.board, board.Segment{From: p.Corner(i), To: before}, p.Side(i))
}

func (p *Polygon) whyConvex() Reason {
	if in := p.cornersOf(board.Reflex); len(in) > 0 {
		return Reason{Because: CornersTurnIn, Corners: in}
	}
	return Reason{Holds: true, Because: NoCornerTurnsIn}
}

func (p *Polygon) whyEquilateral() Reason {
	if p.Equilateral() {
		return Reason{Holds: true, Because: SidesEqual, Sides: p.allSides()}
	}
	long := 0
	for i, c := range p.corners {
		if c.length > p.corners[long].length {
			long = i
		}
	}
	return Reason{Because: SidesDiffer, Sides: []board.Segment{p.Side(p.shortest()), p.Side(long)}}
}

func (p *Polygon) whyEquiangular() Reason {
	if p.Equiangular() {
		return Reason{Holds: true, Because: AnglesEqual, Corners: p.Corners()}
	}
	small, large := p.extremeAngles()
	return Reason{
		Because: AnglesDiffer,
		Corners: []board.Peg{p.Corner(small), p.Corner(large)},
		Pairs:   []Pair{p.arms(small), p.arms(large)},
	}
}

// extremeAngles returns the corners of the smallest and the largest angle.
// Different angles of one board differ by far more than rounding: no two are
// within a thousandth of a degree.
func (p *Polygon) extremeAngles() (small, large int) {
	for i := range p.corners {
		if p.board.Degrees(p.Angle(i)) < p.board.Degrees(p.Angle(small)) {
			small = i
		}
		if p.board.Degrees(p.Angle(i)) > p.board.Degrees(p.Angle(large)) {
			large = i
		}
	}
	return small, large
}

func (p *Polygon) whyRegular() Reason {
	switch {
	case !p.Equilateral():
		return p.whyEquilateral()
	case !p.Equiangular():
		return p.whyEquiangular()
	}
	return Reason{Holds: true, Because: SidesAnglesEqual, Sides: p.allSides(), Corners: p.Corners()}
}

func (p *Polygon) whyRightAngles() Reason {
	r := Reason{Holds: true, Because: SquareCorners, Corners: p.cornersOf(board.Right), Count: p.CountAngles(board.Right)}
	for i := range p.corners {
		if p.AngleKind(i) == board.Right {
			r.Pairs = append(r.Pairs, p.arms(i))
		}
	}
	if r.Count == 0 {
		r.Because = NoSquareCorner
	}
	return r
}

func (p *Polygon) whyPairs(holds func(i, j int) bool, some, none Because) Reason {
	r := Reason{Holds: true, Because: some}
	p.eachPair(func(i, j int) {
		if holds(i, j) {
			r.Pairs = append(r.Pairs, PairOf(p.board, p.Side(i), p.Side(j)))
		}
	})
	r.Count = len(r.Pairs)
	if r.Count == 0 {
		r.Because = none
	}
	return r
}

func (p *Polygon) whyFolds() Reason {
	r := Reason{Holds: true, Because: FoldsOnto, Folds: p.FoldAxes(), Landings: p.Landings()}
	r.Count = len(r.Folds)
	if r.Count == 0 {
		r.Because = FoldsNowhere
	}
	return r
}

// WhyName returns the reason why a name is true of p, or why it is not.
func (p *Polygon) WhyName(name Name, d Definitions) Reason {
	sides, _ := Named(name)
	var r Reason
	switch {
	case sides > 0 && sides != p.Sides():
		r = Reason{Because: WrongSideCount, Count: p.Sides()}
	case p.Sides() == 3:
		r = p.whyTriangle(name, d)
	case p.Sides() == 4:
		r = p.whyQuadrilateral(name, d)
	case name == regularName(p.Sides()):
		r = p.whyRegular()
	}
	if r.Because == "" {
		r = Reason{Because: CornersCounted, Count: p.Sides()}
	}
	r.Fact = Fact(name)
	r.Holds = p.Is(name, d)
	return r
}

func (p *Polygon) whyTriangle(name Name, d Definitions) Reason {
	switch name {
	case Equilateral:
		return p.whyEquilateral()
	case Scalene, Isosceles:
		return p.whyEqualSides(name, d)
	case AcuteTriangle, RightTriangle, ObtuseTriangle:
		_, large := p.extremeAngles()
		r := Reason{Because: LargestAngle, Corners: []board.Peg{p.Corner(large)}, Pairs: []Pair{p.arms(large)}}
		if p.AngleKind(large) == board.Right {
			r.Because, r.Count = SquareCorners, 1
		}
		return r
	case Triangle:
		return Reason{}
	}
	// A name of two parts, such as "right isosceles triangle": give the part
	// that fails, or the second part, which is about the sides.
	for _, part := range []Name{AcuteTriangle, RightTriangle, ObtuseTriangle, Scalene, Isosceles} {
		if partOf(part, name) && !p.Is(part, d) {
			return p.whyTriangle(part, d)
		}
	}
	return p.whyEqualSides(name, d)
}

func (p *Polygon) whyEqualSides(name Name, d Definitions) Reason {
	equal := p.SideClasses()
	for _, class := range equal {
		if len(class) == 2 {
			return Reason{Because: TwoSidesEqual, Sides: []board.Segment{p.Side(class[0]), p.Side(class[1])}}
		}
	}
	switch {
	case len(equal) == 3:
		return Reason{Because: AllSidesDiffer, Sides: p.allSides()}
	case name == Isosceles && !p.Is(name, d):
		return Reason{Because: DefinedAway}
	}
	return Reason{Because: SidesEqual, Sides: p.allSides()}
}

func (p *Polygon) whyQuadrilateral(name Name, d Definitions) Reason {
	switch name {
	case Square:
		return p.whyRegular()
	case Rhombus:
		return p.whyEquilateral()
	case Rectangle:
		return p.whyRectangle()
	case Kite, Dart:
		return p.whyKite(name, d)
	case Parallelogram:
		return p.Why(FactParallel)
	case Trapezoid, RightTrapezoid, IsoscelesTrapezoid:
		return p.whyTrapezoid(name, d)
	}
	return Reason{}
}

func (p *Polygon) whyRectangle() Reason {
	for i := range p.corners {
		if p.AngleKind(i) != board.Right {
			return Reason{Because: NotSquareCorner, Corners: []board.Peg{p.Corner(i)}, Pairs: []Pair{p.arms(i)}}
		}
	}
	return p.whyRightAngles()
}

func (p *Polygon) whyKite(name Name, d Definitions) Reason {
	switch {
	case !kiteSides(p):
		return Reason{Because: NeighboursDiffer, Sides: p.allSides()}
	case p.Convex() == (name == Dart):
		return p.whyConvex()
	case !p.Is(name, d):
		return Reason{Because: DefinedAway}
	case p.Length(0) == p.Length(1):
		return Reason{Because: NeighboursEqual, Sides: p.allSides()}
	}
	sides := p.allSides()
	return Reason{Because: NeighboursEqual, Sides: append(sides[1:], sides[0])}
}

func (p *Polygon) whyTrapezoid(name Name, d Definitions) Reason {
	pairs := p.Why(FactParallel)
	switch {
	case !p.Is(Trapezoid, d) && pairs.Count == 2:
		return Reason{Because: DefinedAway}
	case !p.Is(Trapezoid, d) || name == Trapezoid:
		return pairs
	case name == RightTrapezoid:
		return p.whyRightAngles()
	case p.Is(name, d):
		return p.whyFolds()
	}
	return p.whyBasesDoNotFold()
}

// whyBasesDoNotFold shows where a corner of a trapezoid lands when folded
// along the line through the middles of its parallel sides.
func (p *Polygon) whyBasesDoNotFold() Reason {
	for s := 1; s < 4; s += 2 {
		if first := (s - 1) / 2; p.parallel(first, first+2) {
			if l, ok := p.landing(p.axis(s)); ok {
				return Reason{Because: FoldsElsewhere, Landings: []Landing{l}}
			}
		}
	}
	return p.whyFolds()
}
