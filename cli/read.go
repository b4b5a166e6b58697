package cli

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"pegwright/board"
	"pegwright/report"
	"pegwright/say"
	"pegwright/shape"
)

// readCommand says what a figure is.
type readCommand struct {
	boardFlag
	wordFlags
	JSON   bool     `help:"Write JSON (docs/json.md names the fields)."`
	Figure []string `arg:"" help:"The pegs of each band, with / between bands; - reads one figure a line and writes one JSON object a line."`
}

// Help returns examples.
func (readCommand) Help() string {
	return `Examples:

  pegwright read A1 D1 D3
  pegwright read --board ring:12 1 4 7 10
  pegwright read --json "A1 D1 / D1 D3 / D3 A1"
  pegwright read --language es A1 E1 E3 A3
  pegwright read - < figures.txt

A line that cannot be read gives an object with the fields error and line, and
reading goes on; the exit code is still 0.`
}

// Run reads the figure.
func (c readCommand) Run(env Env) error {
	b, err := c.board()
	if err != nil {
		return err
	}
	if len(c.Figure) == 1 && c.Figure[0] == "-" {
		return c.lines(env, b)
	}
	f, err := figure(b, strings.Join(c.Figure, " "))
	if err != nil {
		return err
	}
	r := shape.Read(f, c.definitions())
	if c.JSON {
		return writeJSON(env.Out, report.Of(r, c.speaker()))
	}
	return newPage(env, c.speaker()).reading(r)
}

func writeJSON(w io.Writer, v any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(v)
}

// longestLine bounds a line of input: a figure with a band round every peg of
// the largest board a thousand times is shorter.
const longestLine = 1 << 20

// lines reads a figure from each line and writes an object for each.
func (c readCommand) lines(env Env, b *board.Board) error {
	in := bufio.NewReaderSize(env.In, longestLine)
	out := bufio.NewWriter(env.Out)
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	for number, s := 1, c.speaker(); ; number++ {
		line, tooLong, err := nextLine(in)
		if errors.Is(err, io.EOF) {
			return out.Flush()
		}
		if err != nil {
			return errors.Join(err, out.Flush())
		}
		if err := encoder.Encode(c.line(b, s, line, tooLong, number)); err != nil {
			return err
		}
		// Someone may be typing, or a program waiting for each answer.
		if in.Buffered() == 0 {
			if err := out.Flush(); err != nil {
				return err
			}
		}
	}
}

func (c readCommand) line(b *board.Board, s *say.Speaker, line string, tooLong bool, number int) any {
	if tooLong {
		return report.Mistake{Error: fmt.Sprintf("the line is longer than %d bytes; write one figure on it", longestLine), Line: number}
	}
	f, err := board.ParseFigure(b, line)
	if err != nil {
		return report.Mistake{Error: err.Error(), Line: number}
	}
	return report.Of(shape.Read(f, c.definitions()), s)
}

// nextLine returns the next line without its end. Of a line that does not fit
// the buffer it returns nothing but that, and passes the rest over. A last
// line without an end counts; nothing after the last end does not.
func nextLine(in *bufio.Reader) (line string, tooLong bool, err error) {
	data, err := in.ReadSlice('\n')
	for errors.Is(err, bufio.ErrBufferFull) {
		tooLong = true
		data, err = in.ReadSlice('\n')
	}
	if errors.Is(err, io.EOF) && (len(data) > 0 || tooLong) {
		err = nil
	}
	return strings.TrimRight(string(data), "\r\n"), tooLong, err
}
