package cli

import (
	"context"
	"fmt"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
)

// tourCommand is a guided tour.
type tourCommand struct {
	Output string `short:"o" default:"pegwright-tour.svg" placeholder:"FILE" predictor:"picture" help:"Where to write the picture (pegwright-tour.svg)."`
}

// Help says what the tour shows.
func (tourCommand) Help() string {
	return `Three readings, a verdict, a search and a picture. Nothing is asked of you.`
}

// Run gives the tour.
func (c tourCommand) Run(env Env) error {
	if _, err := formatOf(c.Output); err != nil {
		return err
	}
	tour := []func(*page) error{tourReadings, tourVerdict, tourSearch, c.picture}
	for _, stop := range tour {
		p := newPage(env, say.In("en"))
		if err := stop(p); err != nil {
			return err
		}
	}
	return nil
}

func (p *page) heading(text string) { p.line("\n" + p.env.paint.strong("— "+text+" —") + "\n") }

// brief are the reasons shown on the tour, of the many there are.
var brief = map[shape.Fact]bool{shape.FactRegular: true, shape.FactRightAngles: true, shape.FactFoldLines: true}

func tourReadings(p *page) error {
	for _, stop := range []struct{ words, board, figure string }{
		{"A tilted square: pegs prove its corners square", "square:5x5", "A2 B4 D3 C1"},
		{"It looks regular, and it is not", "square:5x5", "B1 D1 E3 D5 B5 A3"},
		{"On a ring it can be done", "ring:12", "1 3 5 7 9 11"},
	} {
		f := board.MustParseFigure(board.MustParse(stop.board), stop.figure)
		r := shape.Read(f, shape.Definitions{})
		p.heading(stop.words)
		p.line("pegwright read --board " + stop.board + " " + stop.figure + "\n")
		if err := p.picture(f); err != nil {
			return err
		}
		p.summary(r)
		var reasons []string
		for _, reason := range r.Reasons {
			if brief[reason.Fact] {
				reasons = append(reasons, p.say.Reason(f.Board, reason))
			}
		}
		p.row(say.LabelWhy, reasons...)
	}
	return p.write()
}

func tourVerdict(p *page) error {
	b := board.MustParse("square:5x5")
	p.heading("A hexagon was asked for: six pegs are touched, but the band turns at three")
	p.line(`pegwright check "A1 C1 C3" sides=6` + "\n")
	t := task.Task{Board: b, Conditions: task.MustParse("sides=6")}
	return p.verdict(t.Judge(board.MustParseFigure(b, "A1 C1 C3")))
}

func tourSearch(p *page) error {
	for _, stop := range []struct{ words, condition, second string }{
		{"Heptagons with one fold line", "sides=7", "fold-lines=1"},
		{"Regular pentagons: the tool says no before the lesson does", "sides=5", "regular=yes"},
	} {
		q := atlas.Question{
			Board: board.MustParse("square:5x5"), Conditions: task.MustParse(stop.condition, stop.second),
			Examples: 4, Elsewhere: true, Progress: p.env.progress(),
		}
		p.heading(stop.words)
		p.line("pegwright find " + stop.condition + " " + stop.second + "\n")
		a, err := atlas.Find(context.Background(), q)
		p.env.wipe()
		if err != nil {
			return err
		}
		if err := p.answer(q, a); err != nil {
			return err
		}
		p.out.Reset()
	}
	return nil
}

// picture draws four figures into the file.
func (c tourCommand) picture(p *page) error {
	b := board.MustParse("square:5x5")
	var readings []shape.Reading
	for _, text := range []string{"A2 B4 D3 C1", "A1 C5 E1 C2", "A1 E1 C4 A4", "A1 E1 E3 C5 A3"} {
		readings = append(readings, shape.Read(board.MustParseFigure(b, text), shape.Definitions{}))
	}
	p.heading("A picture, with the marks of the textbook")
	if err := drawing(readings, p.say).save(c.Output); err != nil {
		return err
	}
	p.line(fmt.Sprintf("written to %s; open it in a browser", c.Output))
	p.line("pegwright --help says the rest.")
	return p.write()
}
