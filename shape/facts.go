package shape

import "pegwright/board"

// Facts are the answers to every question about a polygon that is one number
// or a yes or no. Lists (sides, angles, fold lines, names) come from Polygon.
type Facts struct {
	Sides              int
	RightAngles        int
	AcuteAngles        int
	ObtuseAngles       int
	ReflexAngles       int
	ParallelPairs      int
	PerpendicularPairs int
	EqualSides         int // the most sides of one length
	UprightSides       int
	FoldLines          int
	TurnOrder          int
	PegsInside         int
	PegsOnEdge         int
	Area2              int // see Polygon.Area2
	Convex             bool
	Equilateral        bool
	Equiangular        bool
	Regular            bool
	Likeness           float64
	SideSpread         float64
	AngleSpread        float64
}

// Measure checks that pegs are the corners of a simple polygon and returns its
// facts. It allocates for the polygon and nothing else.
func Measure(b *board.Board, pegs []board.Peg) (Facts, bool) {
	p, ok := NewPolygon(b, pegs)
	if !ok {
		return Facts{}, false
	}
	return p.Facts(), true
}

// Facts returns all facts of p.
func (p *Polygon) Facts() Facts {
	f := Facts{
		Sides:              p.Sides(),
		ParallelPairs:      p.ParallelPairs(),
		PerpendicularPairs: p.PerpendicularPairs(),
		EqualSides:         p.EqualSides(),
		UprightSides:       p.UprightSides(),
		FoldLines:          p.FoldLines(),
		TurnOrder:          p.TurnOrder(),
		PegsInside:         p.PegsInside(),
		PegsOnEdge:         p.PegsOnEdge(),
		Area2:              p.Area2(),
		Equilateral:        p.Equilateral(),
		Equiangular:        p.Equiangular(),
		Likeness:           p.Likeness(),
		SideSpread:         p.SideSpread(),
		AngleSpread:        p.AngleSpread(),
	}
	f.countAngles(p)
	f.Convex = f.ReflexAngles == 0
	f.Regular = f.Equilateral && f.Equiangular
	return f
}

func (f *Facts) countAngles(p *Polygon) {
	for i := range p.corners {
		switch p.AngleKind(i) {
		case board.Acute:
			f.AcuteAngles++
		case board.Right:
			f.RightAngles++
		case board.Obtuse:
			f.ObtuseAngles++
		case board.Reflex:
			f.ReflexAngles++
		}
	}
}
