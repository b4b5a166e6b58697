// Package front is the projector's page: one thing at a time, in type that can
// be read from nine metres. It shows no names, and not who is right unless the
// teacher says so.
//
// Start at Front.Show.
package front

import (
	"bytes"
	"context"
	"embed"
	"errors"
	"html/template"
	"net/http"
	"time"

	"pegwright/board"
	"pegwright/bus"
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/store"
	"pegwright/task"
	"pegwright/web/live"
	"pegwright/web/page"
)

//go:embed *.html
var files embed.FS

// Config is what a front works with.
type Config struct {
	Store    *store.Store
	Bus      bus.Bus
	Now      func() time.Time
	Stopping <-chan struct{}
	Version  string
	// Addresses returns where other devices reach the room, none when it is
	// closed.
	Addresses func() []string
	// Join returns the address that a code leads to.
	Join func(address, word string) string
	// Open returns what reports whether a request's session still goes on.
	Open func(*http.Request) func() bool
}

// Front answers for the projector's page.
type Front struct{ Config }

// New makes a front.
func New(c Config) *Front { return &Front{c} }

// frontPage is the projector's page.
type frontPage struct {
	page.Frame
	View view
}

// view is what the front shows now; only what its kind calls for is filled.
type view struct {
	*say.Speaker
	Kind   class.FrontKind
	Word   string
	Way    []string // addresses
	Code   *page.Code
	Task   *class.Task
	Board  template.HTML
	Model  template.HTML
	Timer  *page.Timer
	Counts counts
	Boards []shown
}

// counts is how many boards are in.
type counts struct {
	*say.Speaker
	Words string
}

// shown is a board without a name.
type shown struct {
	Picture  template.HTML
	Standing task.Standing // "" unless standings are shown
	Words    string
}

var frontTemplate = page.Parse(files, "front.html")

// Show shows what the desk has chosen for the front.
func (f *Front) Show(w http.ResponseWriter, r *http.Request) error {
	v, title, err := f.view(r)
	if err != nil {
		return err
	}
	p := frontPage{View: v, Frame: page.Frame{
		Speaker: v.Speaker, Title: title, Place: "front", Styles: page.Assets("type.css", "page.css", "front.css"),
		Scripts: page.Assets("live.js"), Stream: r.URL.Path + "/stream", Pieces: r.URL.Path + "/pieces",
	}}
	return frontTemplate.Write(w, http.StatusOK, p)
}

// Pieces hands out the page's pieces: all that it shows, and the counts alone.
func (f *Front) Pieces(w http.ResponseWriter, r *http.Request) error {
	v, _, err := f.view(r)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	names := map[string]bool{}
	for _, name := range r.URL.Query()["name"] {
		names[name] = true
	}
	switch {
	case names["front"]:
		err = frontTemplate.Piece(&out, "front", v)
	case names["counts"]:
		err = frontTemplate.Piece(&out, "counts", v.Counts)
	}
	if err != nil {
		return err
	}
	return page.SendPieces(w, &out)
}

// Stream tells the page what changed.
func (f *Front) Stream(w http.ResponseWriter, r *http.Request) error {
	run, err := f.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	live.Streamer{Version: f.Version, Open: f.Open(r), Done: f.Stopping}.Stream(w, r, f.Bus.Subscribe("front/"+run.ID))
	return nil
}

// view reads what the front shows, and the class's name for the title.
func (f *Front) view(r *http.Request) (view, string, error) {
	ctx := r.Context()
	run, err := f.Store.Run(ctx, r.PathValue("run"))
	if err != nil {
		return view{}, "", err
	}
	c, err := f.Store.Class(ctx, run.ClassID)
	if err != nil {
		return view{}, "", err
	}
	shows, err := f.Store.Front(ctx, run.ID)
	if err != nil && !errors.Is(err, class.ErrNotFound) {
		return view{}, "", err
	}
	s := say.In(c.Language)
	v := view{Speaker: s, Kind: shows.Kind, Counts: counts{Speaker: s}}
	switch {
	case !run.Open():
		v.Kind = "over"
	case v.Kind == class.FrontJoin:
		f.join(&v, run)
	case v.Kind == class.FrontTask:
		err = f.task(ctx, &v, run, c)
	case v.Kind == class.FrontBoards:
		err = f.boards(ctx, &v, run, shows)
	}
	return v, c.Name, err
}

func (f *Front) join(v *view, run class.Run) {
	v.Word, v.Way = run.RoomWord, f.Addresses()
	if len(v.Way) > 0 {
		v.Code = page.NewCode(f.Join(v.Way[0], run.RoomWord))
	}
}

// task fills in the last task set; without one the front is blank.
func (f *Front) task(ctx context.Context, v *view, run class.Run, c class.Class) error {
	tasks, err := f.Store.Tasks(ctx, run.ID)
	if err != nil {
		return err
	}
	if len(tasks) == 0 {
		v.Kind = class.FrontBlank
		return nil
	}
	t := tasks[len(tasks)-1]
	b, err := board.Parse(t.Board)
	if err != nil {
		return err
	}
	v.Task, v.Board, v.Timer = &t, page.Board(v.Speaker, "board", b), f.timer(v.Speaker, t)
	if t.Model != "" {
		if m, err := board.ParseFigure(b, t.Model); err == nil {
			v.Model = page.Figure(v.Speaker, "model", shape.Read(m, t.Definitions), page.Lettered)
		}
	}
	return f.counts(ctx, v, t, c)
}

func (f *Front) counts(ctx context.Context, v *view, t class.Task, c class.Class) error {
	showings, err := f.Store.TaskShowings(ctx, t.ID)
	if err != nil {
		return err
	}
	pupils, err := f.Store.Pupils(ctx, c.ID)
	if err != nil {
		return err
	}
	in := map[string]bool{}
	for _, s := range showings {
		in[s.PupilID] = true
	}
	v.Counts.Words = v.Counted("counts.in", len(in), "Of", len(pupils))
	return nil
}

// timer is the time of a task that goes on.
func (f *Front) timer(s *say.Speaker, t class.Task) *page.Timer {
	if !t.Open() {
		return nil
	}
	return page.NewTimer(s, t, f.Now())
}

// boards fills in the showings that the desk has sent.
func (f *Front) boards(ctx context.Context, v *view, run class.Run, shows class.FrontView) error {
	for _, id := range shows.Showings {
		s, err := f.Store.Showing(ctx, id)
		if errors.Is(err, class.ErrNotFound) || err == nil && s.RunID != run.ID {
			continue
		}
		if err != nil {
			return err
		}
		t, err := f.Store.Task(ctx, s.TaskID)
		if err != nil {
			return err
		}
		b, err := board.Parse(t.Board)
		if err != nil {
			return err
		}
		figure, err := board.ParseFigure(b, s.Figure)
		if err != nil {
			return err
		}
		one := shown{Picture: page.Figure(v.Speaker, "board-"+id, shape.Read(figure, t.Definitions), page.Small)}
		if shows.Standing {
			one.Standing, one.Words = s.Standing, v.Capital(v.Speaker.Standing(s.Standing))
		}
		v.Boards = append(v.Boards, one)
	}
	return nil
}
