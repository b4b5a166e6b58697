package shape

import "pegwright/board"

// Reading is everything that is true of a figure.
type Reading struct {
	Figure      board.Figure
	Definitions Definitions
	Outline     Outline
	Polygon     *Polygon // nil unless the outline is a polygon
	Facts       Facts    // zero unless the outline is a polygon
	Reasons     []Reason
}

// Read reads a figure.
func Read(f board.Figure, d Definitions) Reading {
	r := Reading{Figure: f, Definitions: d, Outline: Trace(f)}
	if r.Outline.Status != ClosedPolygon {
		return r
	}
	r.Polygon = EmptyPolygon(f.Board)
	r.Polygon.Reset(r.Outline.Corners)
	r.Outline.Corners = r.Polygon.Corners()
	r.Outline.PassedOver = r.Polygon.PassedOver()
	r.Facts = r.Polygon.Facts()
	r.Reasons = r.Polygon.Reasons(d)
	return r
}

// Names returns every name that is true of the figure, the most telling last;
// none unless it is a polygon.
func (r Reading) Names() []Name {
	if r.Polygon == nil {
		return nil
	}
	return r.Polygon.Names(r.Definitions)
}

// Bands returns how many bands the figure is made of.
func (r Reading) Bands() int { return len(r.Figure.Bands) }
