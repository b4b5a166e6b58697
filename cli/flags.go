package cli

import (
	"errors"
	"strings"

	"pegwright/board"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
)

// boardFlag is the board, for the commands that need one.
type boardFlag struct {
	Board string `default:"square:5x5" placeholder:"BOARD" predictor:"board" help:"The board: square:5x5, staggered:5x5, triangle:5, ring:12 or ring:12+centre (square:5x5)."`
}

func (f boardFlag) board() (*board.Board, error) {
	b, err := board.Parse(f.Board)
	if err == nil {
		return b, nil
	}
	what, mend, _ := strings.Cut(err.Error(), "; ")
	return nil, &misuse{what, mend}
}

// wordFlags are the language and the choices that textbooks make differently.
type wordFlags struct {
	Language  string `enum:"en,es" default:"en" help:"The language of the sentences: ${enum}."`
	Trapezoid string `enum:"at-least-one,exactly-one" default:"at-least-one" help:"A trapezoid has this many pairs of parallel sides: ${enum}."`
	Isosceles string `enum:"at-least-two,exactly-two" default:"at-least-two" help:"An isosceles triangle has this many equal sides: ${enum}."`
	Kite      string `enum:"with-rhombus,without-rhombus" default:"with-rhombus" help:"Whether a rhombus is a kite: ${enum}."`
}

func (f wordFlags) definitions() shape.Definitions {
	return shape.Definitions{
		TrapezoidExactlyOne: f.Trapezoid == "exactly-one",
		IsoscelesExactlyTwo: f.Isosceles == "exactly-two",
		KiteNotRhombus:      f.Kite == "without-rhombus",
	}
}

func (f wordFlags) speaker() *say.Speaker { return say.In(f.Language) }

// figure reads a figure for the command line.
func figure(b *board.Board, text string) (board.Figure, error) {
	f, err := board.ParseFigure(b, text)
	var bad *board.FigureError
	if errors.As(err, &bad) {
		whole := bad.Error()
		return f, &misuse{strings.TrimSuffix(whole, "; "+bad.Mend), bad.Mend}
	}
	return f, err
}

// conditions reads conditions for the command line.
func conditions(texts []string) (task.Conditions, error) {
	cs, err := task.Parse(texts)
	var bad *task.ConditionError
	if errors.As(err, &bad) {
		whole := bad.Error()
		return cs, &misuse{strings.TrimSuffix(whole, "; "+bad.Mend), bad.Mend}
	}
	return cs, err
}
