package board

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Figure is what the bands on a board make. Each band names two pegs or more,
// no peg twice; a band round two pegs is a segment, a longer one a closed loop
// through its pegs in order. A figure with no bands is an empty board. Make
// one with NewFigure or ParseFigure, which refuse anything else.
type Figure struct {
	Board *Board
	Bands [][]Peg
}

// Rule is the rule for bands that a text or a list of pegs breaks.
type Rule string

// The rules for bands.
const (
	UnknownPeg  Rule = "unknown peg"
	LonelyPeg   Rule = "one-peg band"
	RepeatedPeg Rule = "repeated peg"
	EmptyBand   Rule = "empty band"
	TooLong     Rule = "band too long"
	NotText     Rule = "not text"
)

// FigureError says which rule a figure breaks, where, and how to mend it.
type FigureError struct {
	Rule Rule
	Band int // the band, from 1
	Peg  int // the peg in the band, from 1; 0 when the whole band is meant
	What string
	Mend string
}

// Error returns one sentence: where, what is wrong, what to do.
func (e *FigureError) Error() string {
	where := fmt.Sprintf("band %d", e.Band)
	if e.Peg > 0 {
		where += fmt.Sprintf(", peg %d", e.Peg)
	}
	return fmt.Sprintf("%s: %s; %s", where, e.What, e.Mend)
}

// NewFigure checks bands and returns the figure they make, or a *FigureError.
func NewFigure(b *Board, bands [][]Peg) (Figure, error) {
	for i, band := range bands {
		if err := b.checkBand(i+1, band); err != nil {
			return Figure{}, err
		}
	}
	return Figure{b, bands}, nil
}

func (b *Board) checkBand(number int, band []Peg) error {
	switch {
	case len(band) == 0:
		return &FigureError{EmptyBand, number, 0, "no pegs are named", "name the pegs it goes round, or leave it out"}
	case len(band) > b.Pegs()+1: // one too many is the first named again
		what := fmt.Sprintf("%d pegs are named on a board of %d", len(band), b.Pegs())
		return &FigureError{TooLong, number, 0, what, "a band can go round each peg once, so name its corners only"}
	}
	seen := make([]int, b.Pegs())
	for i, p := range band {
		if int(p) >= b.Pegs() {
			what := fmt.Sprintf("there is no peg number %d on %s", p, b)
			return &FigureError{UnknownPeg, number, i + 1, what, b.pegsHint()}
		}
		if seen[p] > 0 {
			return b.repeated(number, seen[p], i+1, len(band), p)
		}
		seen[p] = i + 1
	}
	if len(band) == 1 {
		what := fmt.Sprintf("only %s is named", b.Name(band[0]))
		return &FigureError{LonelyPeg, number, 0, what, "stretch it to a second peg"}
	}
	return nil
}

func (b *Board) repeated(number, first, again, length int, p Peg) error {
	what := fmt.Sprintf("%s is named a second time", b.Name(p))
	mend := "name each peg of a band once; for a second loop start another band after /"
	if first == 1 && again == length {
		mend = "leave it out at the end, since a band closes by itself"
	}
	return &FigureError{RepeatedPeg, number, again, what, mend}
}

func (b *Board) pegsHint() string {
	last := b.names[len(b.names)-1]
	switch {
	case b.kind == Ring && b.centre:
		return fmt.Sprintf("%s has the pegs 1 to %d and O", b, b.columns)
	case b.kind == Ring:
		return fmt.Sprintf("%s has the pegs 1 to %d", b, b.columns)
	case b.kind == Triangle:
		return fmt.Sprintf("%s has the pegs A1 to %s in its bottom row and %s at its top", b, b.names[b.columns-1], last)
	}
	return fmt.Sprintf("%s has the pegs A1 to %s", b, last)
}

// ParseFigure reads bands as their pegs in order, with spaces or commas
// between pegs and / between bands: "A1 D1 D3", "A1 D1 / D1 D3 / D3 A1". Small
// letters are as good as capitals. An empty text is an empty board. The error
// is a *FigureError.
func ParseFigure(b *Board, text string) (Figure, error) {
	if strings.TrimSpace(text) == "" {
		return Figure{Board: b}, nil
	}
	var bands [][]Peg
	for i, part := range strings.Split(text, "/") {
		band, err := b.parseBand(i+1, part)
		if err != nil {
			return Figure{}, err
		}
		bands = append(bands, band)
	}
	return NewFigure(b, bands)
}

func (b *Board) parseBand(number int, text string) ([]Peg, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '\t' || r == '\n' || r == '\r' })
	band := make([]Peg, len(words))
	for i, word := range words {
		if !utf8.ValidString(word) {
			return nil, &FigureError{NotText, number, i + 1, "the text is not valid UTF-8", "write pegs such as A1 with plain letters and numbers"}
		}
		p, ok := b.Peg(strings.ToUpper(word))
		if !ok {
			what := fmt.Sprintf("there is no peg %q on %s", clip(word), b)
			return nil, &FigureError{UnknownPeg, number, i + 1, what, b.pegsHint()}
		}
		band[i] = p
	}
	return band, nil
}

// MustParseFigure is ParseFigure for texts known to be good; it panics on
// others.
func MustParseFigure(b *Board, text string) Figure {
	f, err := ParseFigure(b, text)
	if err != nil {
		panic(err)
	}
	return f
}

// String returns the text that ParseFigure reads.
func (f Figure) String() string {
	bands := make([]string, len(f.Bands))
	for i, band := range f.Bands {
		bands[i] = strings.Join(f.Board.Names(band), " ")
	}
	return strings.Join(bands, " / ")
}

// Segments returns the straight pieces of every band, in order; a band round
// two pegs is one piece.
func (f Figure) Segments() []Segment {
	var out []Segment
	for _, band := range f.Bands {
		for i, p := range band {
			if len(band) == 2 && i == 1 {
				continue
			}
			out = append(out, Segment{p, band[(i+1)%len(band)]})
		}
	}
	return out
}
