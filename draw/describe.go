package draw

import (
	"fmt"
	"strings"

	"pegwright/board"
	"pegwright/shape"
)

// The short English words of a picture, for callers that bring none of their
// own. They say what the marks say.

// title names the figure in a few words.
func title(r shape.Reading) string {
	if names := r.Names(); len(names) > 0 {
		return capital(string(names[len(names)-1]))
	}
	if r.Outline.Status == shape.Empty {
		return "Empty board"
	}
	return "Not a polygon: " + string(r.Outline.Status)
}

// describe says everything the marks of a picture say.
func describe(r shape.Reading) string {
	b := r.Figure.Board
	said := []string{"A pegboard, " + b.String() + "."}
	if r.Outline.Status != shape.Empty {
		said = append(said, bandsText(r.Figure))
	}
	if r.Polygon == nil {
		return strings.Join(append(said, problemsText(r.Outline)...), " ")
	}
	p := r.Polygon
	said = append(said, fmt.Sprintf("%s with corners at %s.", capital(article(string(p.BestName(r.Definitions)))), list(b.Names(p.Corners()))))
	if passed := b.Names(r.Outline.PassedOver); len(passed) > 0 {
		said = append(said, "It passes straight over "+list(passed)+".")
	}
	said = append(said, classesText("Equal sides", "No two sides are equal.", p, equalSides(p)))
	said = append(said, classesText("Parallel sides", "No sides are parallel.", p, parallelSides(p)))
	said = append(said, rightAnglesText(p), foldsText(p))
	return strings.Join(said, " ")
}

func bandsText(f board.Figure) string {
	if len(f.Bands) == 1 {
		return "One band."
	}
	bands := make([]string, len(f.Bands))
	for i, band := range f.Bands {
		bands[i] = strings.Join(f.Board.Names(band), "-")
	}
	return fmt.Sprintf("%d bands: %s.", len(bands), list(bands))
}

// problemWords say what happens at a spot.
var problemWords = map[shape.Status]string{
	shape.Crossing:  "Bands cross at",
	shape.Branching: "Bands branch at",
	shape.Touching:  "Bands touch at",
	shape.OpenPath:  "Loose ends at",
}

func problemsText(o shape.Outline) []string {
	var said []string
	for _, status := range []shape.Status{shape.Crossing, shape.Branching, shape.Touching, shape.OpenPath} {
		var at []string
		for _, p := range distinct(o.Problems) {
			if p.Status == status {
				at = append(at, o.Board.SpotText(p.At))
			}
		}
		if len(at) > 0 {
			said = append(said, problemWords[status]+" "+list(at)+".")
		}
	}
	if o.Status == shape.SeveralPieces {
		said = append(said, "It is in several pieces.")
	}
	if o.Status == shape.Empty {
		said = append(said, "No band is on it.")
	}
	return said
}

func classesText(what, none string, p *shape.Polygon, classes [][]int) string {
	if len(classes) == 0 {
		return none
	}
	parts := make([]string, len(classes))
	for n, class := range classes {
		sides := make([]string, len(class))
		for k, i := range class {
			sides[k] = segmentText(p.Board(), p.Side(i))
		}
		parts[n] = list(sides)
	}
	return what + ": " + strings.Join(parts, "; ") + "."
}

func rightAnglesText(p *shape.Polygon) string {
	corners := p.Board().Names(p.Why(shape.FactRightAngles).Corners)
	if len(corners) == 0 {
		return "No right angles."
	}
	return "Right angles at " + list(corners) + "."
}

func foldsText(p *shape.Polygon) string {
	var lines []string
	for _, f := range p.FoldAxes() {
		lines = append(lines, placeText(p.Board(), f.FromEdge)+" to "+placeText(p.Board(), f.ToEdge))
	}
	switch len(lines) {
	case 0:
		return "No fold lines."
	case 1:
		return "One fold line, from " + lines[0] + "."
	}
	return fmt.Sprintf("%d fold lines: %s.", len(lines), strings.Join(lines, "; "))
}

// placeText names an end of a fold line: a corner, or the middle of a side.
func placeText(b *board.Board, edge board.Segment) string {
	if edge.From == edge.To {
		return b.Name(edge.From)
	}
	return "the middle of " + segmentText(b, edge)
}

func segmentText(b *board.Board, s board.Segment) string {
	return b.Name(s.From) + "-" + b.Name(s.To)
}

// list joins words: "A1", "A1 and B2", "A1, B2 and C3".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func article(s string) string {
	if strings.ContainsRune("aeiou", rune(s[0])) || strings.HasPrefix(s, "8") || strings.HasPrefix(s, "18-") {
		return "an " + s
	}
	return "a " + s
}
