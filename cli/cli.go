// Package cli is the command line: one file and one struct for each command,
// with a Run method that is given what it may touch. It joins the other rooms
// and knows nothing that they know; start at Main.
package cli

import (
	"errors"
	"fmt"

	"github.com/alecthomas/kong"
	kongcompletion "github.com/jotaen/kong-completion"
)

// The exit codes.
const (
	Done    = 0 // it worked, and the answer is yes where there is a yes or no
	No      = 1 // it worked, and the answer is no
	Misuse  = 2 // the words on the command line make no sense
	Failure = 3 // something else went wrong: a file, a pipe, a search stopped
)

// commands are the commands of the program.
type commands struct {
	Read       readCommand               `cmd:"" help:"Say what a figure is, and why."`
	Check      checkCommand              `cmd:"" help:"Hold a figure against conditions."`
	Find       findCommand               `cmd:"" help:"Find the figures on a board that meet conditions."`
	Draw       drawCommand               `cmd:"" help:"Draw figures into a file."`
	Serve      serveCommand              `cmd:"" help:"Start the desk, the front and the seats for a class."`
	Demo       demoCommand               `cmd:"" help:"Show an invented class at work, live."`
	Tour       tourCommand               `cmd:"" help:"Show what the program says of figures, in a minute."`
	Completion kongcompletion.Completion `cmd:"" help:"Print how to switch on tab completion."`
}

const about = `Pegwright reads figures made with rubber bands on pegboards: what they are,
exactly, and why. It serves a class at work, and reads single figures here.

A figure is its bands: the pegs that each goes round, in order, with / between
bands: "A1 D1 D3" or "A1 D1 / D1 D3". A peg is its column and its row from the
bottom left, or its number on a ring, with O in the middle.

A board is square:5x5, staggered:5x5, triangle:5, ring:12 or ring:12+centre.

Exit codes: 0 done or yes, 1 no, 2 misuse, 3 failure.`

// stop carries an exit code out of the depths of the parser.
type stop int

// Main runs a command line and returns the exit code.
func Main(args []string, env Env) (code int) {
	defer func() {
		switch r := recover().(type) {
		case nil:
		case stop:
			code = int(r)
		default:
			panic(r)
		}
	}()
	var c commands
	parser, err := kong.New(&c,
		kong.Name("pegwright"), kong.Description(about),
		kong.Writers(env.Out, env.Err), kong.Exit(func(code int) { panic(stop(code)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 90}))
	if err != nil {
		return env.fail(err)
	}
	if completed, err := completeWords(parser); completed || err != nil {
		return env.fail(err)
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		return env.fail(misuseOf(err))
	}
	return env.fail(ctx.Run(env))
}

// errNo is returned by a command whose answer is no; it has said so itself.
var errNo = errors.New("the answer is no")

// misuse is a mistake in the command line: what is wrong, and what to do.
type misuse struct{ what, mend string }

func (m *misuse) Error() string { return m.what }

// trouble is something in the way that people can clear: what is wrong, and
// what to do.
type trouble struct {
	what, mend string
	err        error // beneath it
}

func (t *trouble) Error() string { return t.what }
func (t *trouble) Unwrap() error { return t.err }

func misuseOf(err error) error {
	var parse *kong.ParseError
	mend := "pegwright --help shows the commands"
	if errors.As(err, &parse) && parse.Context != nil && parse.Context.Selected() != nil {
		mend = fmt.Sprintf("pegwright %s --help shows how it is used", parse.Context.Selected().Name)
	}
	return &misuse{err.Error(), mend}
}

// fail reports an error to people and returns the exit code that goes with it.
func (e Env) fail(err error) int {
	var m *misuse
	var t *trouble
	switch {
	case err == nil:
		return Done
	case errors.Is(err, errNo):
		return No
	case errors.As(err, &m):
		e.complain(m.what, m.mend)
		return Misuse
	case errors.As(err, &t):
		e.complain(t.what, t.mend)
		return Failure
	}
	e.complain(err.Error(), "")
	return Failure
}

func (e Env) complain(what, mend string) {
	fmt.Fprintf(e.Err, "%s %s\n", e.errPaint.strong("error:"), what)
	if mend != "" {
		fmt.Fprintf(e.Err, "%s %s\n", e.errPaint.faint("hint:"), mend)
	}
}
