package cli

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"golang.org/x/term"
)

// Env is what a command may touch of the world.
type Env struct {
	In       io.Reader
	Out, Err io.Writer
	Now      func() time.Time
	// Until ends when the program is to stop; nil leaves that to Ctrl-C and to
	// the system.
	Until context.Context
	// Watched says that a person looks at Err, who likes to see progress.
	Watched bool

	paint, errPaint paint
}

// System returns the world as it is. Colour is for terminals only, and not
// where NO_COLOR is set (no-color.org).
func System() Env {
	return Env{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Now: time.Now,
		Watched: term.IsTerminal(int(os.Stderr.Fd())),
		paint:   paint(coloured(os.Stdout)), errPaint: paint(coloured(os.Stderr)),
	}
}

// until returns a context that ends when the program is to stop.
func (e Env) until() (context.Context, context.CancelFunc) {
	if e.Until != nil {
		return context.WithCancel(e.Until)
	}
	return signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
}

func coloured(f *os.File) bool {
	return term.IsTerminal(int(f.Fd())) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

// paint sets off words, where it is on.
type paint bool

func (p paint) strong(text string) string { return p.code("1", text) }
func (p paint) faint(text string) string  { return p.code("2", text) }
func (p paint) yes(text string) string    { return p.code("32", text) }
func (p paint) no(text string) string     { return p.code("33", text) }

func (p paint) code(code, text string) string {
	if !p {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}
