package draw

import (
	"fmt"
	"strings"
)

// Space round the pictures of a sheet, in steps.
const (
	sheetGap    = 0.35
	captionLead = 1.25 // from line to line, in sizes of type
)

// Sheet lays out pictures in rows of so many columns, each with its caption
// below (none where there are fewer captions). A step is one unit of the
// sheet, so that strokes and letters are alike whatever boards it shows.
func Sheet(pictures []Picture, captions []string, columns int) Picture {
	columns = max(1, min(columns, len(pictures)))
	s := sheet{columns: columns, widths: make([]float64, columns)}
	for i, p := range pictures {
		caption := ""
		if i < len(captions) {
			caption = captions[i]
		}
		s.add(p, caption)
	}
	return s.picture()
}

// sheet is a sheet being laid out.
type sheet struct {
	columns int
	widths  []float64 // of the columns
	cells   []cell
}

type cell struct {
	picture Picture // one step to the unit
	caption string
}

func (s *sheet) add(p Picture, caption string) {
	p = p.inSteps()
	column := len(s.cells) % s.columns
	s.widths[column] = max(s.widths[column], p.Width())
	s.cells = append(s.cells, cell{p, caption})
}

// inSteps returns the picture with its corner at the origin and one step to
// the unit.
func (p Picture) inSteps() Picture {
	times := 1.0
	if p.Step > 0 {
		times = 1 / p.Step
	}
	by := p.Min.times(-times)
	shapes := make([]Shape, len(p.Shapes))
	for i, shape := range p.Shapes {
		shapes[i] = shape.moved(times, by)
	}
	p.Shapes, p.Max, p.Min, p.Step = shapes, p.Max.moved(times, by), Point{}, 1
	return p
}

func (s *sheet) picture() Picture {
	out := Picture{Step: 1}
	top := -sheetGap
	for first := 0; first < len(s.cells); first += s.columns {
		row := s.cells[first:min(first+s.columns, len(s.cells))]
		top = s.layRow(&out, row, top) - sheetGap
	}
	out.Min = Point{0, top}
	right := sheetGap
	for _, width := range s.widths {
		right += width + sheetGap
	}
	out.Max = Point{right, 0}
	out.Title, out.Description = s.words()
	return out
}

// layRow places one row below top, its pictures standing on one line, and
// returns the bottom of it.
func (s *sheet) layRow(out *Picture, row []cell, top float64) float64 {
	height := 0.0
	for _, c := range row {
		height = max(height, c.picture.Height())
	}
	lines, middle := 0, 0.0
	for i, c := range row {
		middle += sheetGap + s.widths[i]/2
		by := Point{middle - c.picture.Width()/2, top - height}
		for _, shape := range c.picture.Shapes {
			out.Shapes = append(out.Shapes, shape.moved(1, by))
		}
		wrapped := wrap(c.caption, s.widths[i], captionSize)
		lines = max(lines, len(wrapped))
		for n, text := range wrapped {
			at := Point{middle, top - height - captionSize*(1+captionLead*float64(n))}
			out.Shapes = append(out.Shapes, Label{Caption, at, captionSize, text, Ink})
		}
		middle += s.widths[i] / 2
	}
	return top - height - captionSize*captionLead*float64(lines)
}

// words put the words of the pictures one after another.
func (s *sheet) words() (title, description string) {
	said := make([]string, len(s.cells))
	for i, c := range s.cells {
		name := c.picture.Title
		if c.caption != "" && c.caption != name {
			name = c.caption + ": " + name
		}
		said[i] = fmt.Sprintf("%d. %s. %s", i+1, strings.TrimRight(name, "."), c.picture.Description)
	}
	if len(s.cells) == 1 {
		return "1 picture", said[0]
	}
	return fmt.Sprintf("%d pictures", len(s.cells)), strings.Join(said, " ")
}

// wrap breaks a text between words so that lines fit a width; a word that is
// too long for a line is broken inside.
func wrap(text string, width, size float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if TextWidth(longer, size) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		var cut []string
		cut, line = breakWord(word, width, size)
		lines = append(lines, cut...)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// breakWord cuts full lines off a word and returns them and the rest.
func breakWord(word string, width, size float64) (full []string, rest string) {
	for _, r := range word {
		if rest != "" && TextWidth(rest+string(r), size) > width {
			full = append(full, rest)
			rest = ""
		}
		rest += string(r)
	}
	return full, rest
}
