package cli

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"pegwright/board"
	"pegwright/draw/text"
	"pegwright/say"
	"pegwright/shape"
)

// page collects what a command tells a person and writes it in one go.
type page struct {
	env Env
	say *say.Speaker
	out bytes.Buffer
}

func newPage(env Env, s *say.Speaker) *page { return &page{env: env, say: s} }

func (p *page) write() error {
	_, err := p.env.Out.Write(p.out.Bytes())
	return err
}

func (p *page) line(text string) { fmt.Fprintln(&p.out, text) }

// The widths of the column of labels and of the column beside it.
const (
	labelWidth = 16
	lineWidth  = 84
)

// row writes a label and, in a column beside it, lines, the long ones folded.
func (p *page) row(l say.Label, lines ...string) {
	label := p.say.Label(l)
	before := p.env.paint.faint(label) + strings.Repeat(" ", max(1, labelWidth-utf8.RuneCountInString(label)))
	for _, line := range lines {
		for _, piece := range wrap(line, lineWidth) {
			p.line(before + piece)
			before = strings.Repeat(" ", labelWidth)
		}
	}
}

// wrap folds a line between words; what follows the fold is set in a little.
func wrap(line string, width int) []string {
	if utf8.RuneCountInString(line) <= width {
		return []string{line}
	}
	var out []string
	now := ""
	for _, word := range strings.Split(line, " ") {
		if now != "" && utf8.RuneCountInString(now)+1+utf8.RuneCountInString(word) > width {
			out = append(out, now)
			now = "  " + word
			continue
		}
		if now != "" {
			now += " "
		}
		now += word
	}
	return append(out, now)
}

func (p *page) picture(f board.Figure) error {
	if err := text.Write(&p.out, f); err != nil {
		return err
	}
	p.line("")
	return nil
}

// reading writes everything about a figure.
func (p *page) reading(r shape.Reading) error {
	if err := p.picture(r.Figure); err != nil {
		return err
	}
	if r.Polygon == nil {
		p.outline(r.Outline)
		return p.write()
	}
	p.polygon(r)
	p.line("")
	b := r.Figure.Board
	reasons := make([]string, len(r.Reasons))
	for i, reason := range r.Reasons {
		reasons[i] = p.say.Reason(b, reason)
	}
	p.row(say.LabelWhy, reasons...)
	return p.write()
}

// summary writes the name and the corners.
func (p *page) summary(r shape.Reading) {
	if r.Polygon == nil {
		p.line(p.env.paint.strong(p.say.Status(r.Outline.Status)))
		return
	}
	p.line(p.env.paint.strong(p.say.AName(r.Polygon.BestName(r.Definitions))) + " (" + p.say.Status(r.Outline.Status) + ")")
}

func (p *page) polygon(r shape.Reading) {
	b, q := r.Figure.Board, r.Polygon
	p.summary(r)
	p.row(say.LabelNames, strings.Join(p.say.Names(r.Names()), ", "))
	p.row(say.LabelCorners, strings.Join(b.Names(q.Corners()), " "))
	if over := r.Outline.PassedOver; len(over) > 0 {
		p.row(say.LabelPassed, strings.Join(b.Names(over), " "))
	}
	sides, angles := make([]string, q.Sides()), make([]string, q.Sides())
	for i := range sides {
		sides[i] = p.piece(b, q.Side(i))
		angles[i] = fmt.Sprintf("%-7s %-8s %s", b.Name(q.Corner(i)), p.say.AngleKind(q.AngleKind(i)), say.Degrees(b, q.Angle(i)))
	}
	p.row(say.LabelSides, sides...)
	p.row(say.LabelAngles, angles...)
	p.row(say.LabelArea, number(q.Area().String(), q.AreaFloat()))
	p.row(say.LabelPerimeter, number(q.Perimeter().String(), q.Perimeter().Float()))
	p.row(say.LabelPegsInside, fmt.Sprint(r.Facts.PegsInside))
	p.row(say.LabelPegsOnEdge, fmt.Sprint(r.Facts.PegsOnEdge))
	if !r.Facts.Regular {
		p.row(say.LabelLikeness, p.say.Likeness(r.Facts))
	}
}

// piece writes a straight piece with its length.
func (p *page) piece(b *board.Board, s board.Segment) string {
	return fmt.Sprintf("%-7s %s", say.Segment(b, s), number(say.Length(b, s), b.LengthFloat(b.Length(b.Along(s)))))
}

// number writes a number exactly, and as a decimal where that is not the same.
func number(exact string, value float64) string {
	decimal := fmt.Sprintf("%.2f", value)
	if short := strings.TrimRight(strings.TrimRight(decimal, "0"), "."); short == exact {
		return exact
	}
	return exact + " ≈ " + decimal
}

func (p *page) outline(o shape.Outline) {
	p.line(p.env.paint.strong(p.say.Status(o.Status)))
	var problems, pieces, angles, pairs []string
	for _, problem := range o.Problems {
		problems = append(problems, p.say.Problem(o.Board, problem))
	}
	for _, s := range o.Segments {
		pieces = append(pieces, p.piece(o.Board, s))
	}
	for _, a := range o.PathAngles() {
		angles = append(angles, p.say.Angle(o.Board, a.At, a.Angle))
	}
	for _, q := range o.Pairs() {
		pairs = append(pairs, p.say.Pair(o.Board, q))
	}
	p.row(say.LabelProblems, problems...)
	p.row(say.LabelPieces, pieces...)
	p.row(say.LabelAngles, angles...)
	p.row(say.LabelPairs, pairs...)
}
