package cli

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"pegwright/board"
	"pegwright/draw"
	"pegwright/draw/pdf"
	"pegwright/draw/png"
	"pegwright/draw/svg"
	"pegwright/say"
	"pegwright/shape"
)

// drawCommand draws figures into a file.
type drawCommand struct {
	boardFlag
	wordFlags
	Output  string   `short:"o" required:"" placeholder:"FILE" predictor:"picture" help:"The file to write: its ending .svg, .pdf or .png chooses the kind."`
	Figures []string `arg:"" name:"figure" help:"The figures, each in quotes; words that are single pegs make one figure."`
}

// Help returns examples.
func (drawCommand) Help() string {
	return `Examples:

  pegwright draw -o triangle.svg A1 D1 D3
  pegwright draw -o sheet.pdf "A1 D1 D3" "A1 E1 E3 A3" "A2 B4 D3 C1"
  pegwright draw --board ring:12 -o square.png "1 4 7 10"`
}

// Run draws the figures.
func (c drawCommand) Run(env Env) error {
	b, err := c.board()
	if err != nil {
		return err
	}
	if _, err := formatOf(c.Output); err != nil {
		return err
	}
	readings, err := c.readings(b)
	if err != nil {
		return err
	}
	if err := drawing(readings, c.speaker()).save(c.Output); err != nil {
		return err
	}
	_, err = fmt.Fprintln(env.Out, c.Output)
	return err
}

func (c drawCommand) readings(b *board.Board) ([]shape.Reading, error) {
	texts := c.Figures
	if len(texts) > 1 && !strings.ContainsAny(strings.Join(texts, ""), " ,") {
		// No figure is a single peg, so single pegs are one figure.
		texts = []string{strings.Join(texts, " ")}
	}
	out := make([]shape.Reading, len(texts))
	for i, text := range texts {
		f, err := figure(b, text)
		if err != nil {
			return nil, err
		}
		out[i] = shape.Read(f, c.definitions())
	}
	return out, nil
}

// sheet is a picture to be saved, with the language of its words.
type sheet struct {
	picture  draw.Picture
	language string
}

// drawing lays out readings on a sheet as nearly square as may be, each named
// below when there are several.
func drawing(readings []shape.Reading, s *say.Speaker) sheet {
	pictures, captions := make([]draw.Picture, len(readings)), make([]string, len(readings))
	for i, r := range readings {
		o := draw.AllMarks()
		o.Title, o.Description = title(r, s), s.Describe(r)
		pictures[i], captions[i] = draw.Figure(r, o), o.Title
	}
	if len(pictures) == 1 {
		return sheet{pictures[0], s.Language()}
	}
	columns := int(math.Ceil(math.Sqrt(float64(len(pictures)))))
	return sheet{draw.Sheet(pictures, captions, columns), s.Language()}
}

func title(r shape.Reading, s *say.Speaker) string {
	if r.Polygon == nil {
		return s.Status(r.Outline.Status)
	}
	return s.Name(r.Polygon.BestName(r.Definitions))
}

// formatOf returns the writer for the kind of file that a name asks for.
func formatOf(name string) (func(io.Writer, sheet) error, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".svg":
		return func(w io.Writer, s sheet) error { return svg.Write(w, s.picture, svg.Options{}) }, nil
	case ".pdf":
		return func(w io.Writer, s sheet) error { return pdf.Write(w, s.picture, pdf.Options{Lang: s.language}) }, nil
	case ".png":
		return func(w io.Writer, s sheet) error { return png.Write(w, s.picture, png.Options{}) }, nil
	}
	return nil, &misuse{fmt.Sprintf("the file name %q does not say which kind of picture to write", name), "let it end in .svg, .pdf or .png"}
}

// save writes the picture into a file, all of it or nothing.
func (s sheet) save(name string) error {
	write, err := formatOf(name)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := write(&out, s); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return os.WriteFile(name, out.Bytes(), 0o644)
}
