package seat

import (
	"context"
	"errors"
	"html/template"
	"net/http"

	"pegwright/board"
	"pegwright/class"
	"pegwright/shape"
	"pegwright/web/live"
	"pegwright/web/page"
	"pegwright/web/pegs"
)

// boardPage is the page that a pupil works on.
type boardPage struct {
	page.Frame
	Pupil   class.Pupil
	Task    class.Task
	Model   template.HTML // a figure to look at, "" for none
	Bench   template.HTML // the board's place
	Tools   template.HTML // its buttons
	Help    template.HTML
	Setting setting // for the script, as JSON
}

// plainPage is a page with a few words: wait, out, over.
type plainPage struct {
	page.Frame
	Lines  []string
	Wait   bool   // listens for a task
	Seat   string // the place that waits
	In     bool   // may leave
	Pupil  class.Pupil
	Rejoin bool
}

var (
	boardTemplate = page.Parse(files, "board.html")
	plainTemplate = page.Parse(files, "plain.html")
)

// setting is what the script of the board begins with.
type setting struct {
	Seat     string            `json:"seat"`
	Task     string            `json:"task"`
	Language string            `json:"language"`
	Most     int               `json:"most"`
	Ends     int64             `json:"ends"` // 0 for no limit
	Now      int64             `json:"now"`
	Layout   pegs.Layout       `json:"layout"`
	Known    known             `json:"known"`
	Texts    map[string]string `json:"texts"`
}

// known is what the server knows of a seat.
type known struct {
	Seat  string  `json:"seat"` // the place, which changes when the teacher moves the device
	Task  string  `json:"task"` // "" for none
	Live  *string `json:"live"` // null when nothing is known
	Shown *shown  `json:"shown"`
}

type shown struct {
	ID     string `json:"id"`
	Figure string `json:"figure"`
	Answer answer `json:"answer"`
}

func (s *Seats) board(w http.ResponseWriter, r *http.Request) error {
	p, err := s.placeOf(r)
	if errors.Is(err, class.ErrNotFound) {
		return s.drawOut(w, r)
	}
	if err != nil {
		return err
	}
	t, err := s.current(r.Context(), p.Run.ID)
	switch {
	case err != nil:
		return err
	case !p.Run.Open():
		return s.drawOver(w, p)
	case t == nil:
		return s.drawWait(w, p)
	}
	return s.drawBoard(w, r, p, t)
}

func (s *Seats) drawBoard(w http.ResponseWriter, r *http.Request, p *place, t *class.Task) error {
	asked, err := t.Asked()
	if err != nil {
		return err
	}
	k, err := s.knownOf(r.Context(), p, t)
	if err != nil {
		return err
	}
	out := boardPage{
		Frame: frame(p.Speaker, "seat.board_title"), Pupil: p.Pupil, Task: *t,
		Bench: pegs.Bench(p.Speaker), Tools: pegs.Tools(p.Speaker), Help: pegs.Help(p.Speaker), Setting: s.settingOf(p, t, asked.Board, k),
	}
	if t.Model != "" {
		if f, err := board.ParseFigure(asked.Board, t.Model); err == nil {
			out.Model = page.Figure(p.Speaker, "model", shape.Read(f, t.Definitions), page.Small)
		}
	}
	return boardTemplate.Write(w, http.StatusOK, out)
}

func (s *Seats) settingOf(p *place, t *class.Task, b *board.Board, k known) setting {
	set := setting{
		Seat: p.Key(), Task: t.ID, Language: p.Speaker.Language(), Most: t.MaxBands,
		Now: s.Now().UnixMilli(), Layout: pegs.LayoutOf(b), Known: k, Texts: textsOf(p.Speaker),
	}
	if left, timed := t.Remaining(s.Now()); timed {
		set.Ends = set.Now + left.Milliseconds()
	}
	return set
}

// knownOf returns what the server knows of a seat at a task, or of one without.
func (s *Seats) knownOf(ctx context.Context, p *place, t *class.Task) (known, error) {
	if t == nil || !p.Run.Open() {
		return known{Seat: p.Key()}, nil
	}
	k := known{Seat: p.Key(), Task: t.ID}
	if figure, ok := s.Live.Moving(p.Run.ID, p.Pupil.ID); ok {
		k.Live = &figure
	}
	last, err := s.lastShown(ctx, t.ID, p.Pupil.ID)
	if err != nil || last == nil {
		return k, err
	}
	verdict, err := class.Judge(*t, last.Figure)
	if err != nil {
		return k, err
	}
	k.Shown = &shown{last.ID, last.Figure, answerTo(p.Speaker, *t, verdict, late(*t, last.Received))}
	return k, nil
}

func (s *Seats) state(w http.ResponseWriter, r *http.Request) error {
	p, err := s.placeOf(r)
	if err != nil {
		return s.refuse(w, r, err)
	}
	t, err := s.current(r.Context(), p.Run.ID)
	if err != nil {
		return s.refuse(w, r, err)
	}
	k, err := s.knownOf(r.Context(), p, t)
	if err != nil {
		return s.refuse(w, r, err)
	}
	return sendJSON(w, http.StatusOK, k)
}

func (s *Seats) stream(w http.ResponseWriter, r *http.Request) error {
	p, err := s.placeOf(r)
	if err != nil {
		return s.refuse(w, r, err)
	}
	still := context.WithoutCancel(r.Context())
	leave := s.Live.Enter(p.Run.ID, p.Pupil.ID)
	s.tell(p, "tile-"+p.Pupil.ID, "counts", "who")
	defer func() {
		leave()
		s.tell(p, "tile-"+p.Pupil.ID, "counts", "who")
	}()
	live.Streamer{Version: s.Version, Done: s.Stopping, Open: func() bool {
		_, err := s.Store.SeatByToken(still, p.Seat.TokenHash)
		return err == nil
	}}.Stream(w, r, s.Bus.Subscribe("seats/"+p.Run.ID), s.Bus.Subscribe("seat/"+p.Run.ID+"/"+p.Pupil.ID))
	return nil
}

func (s *Seats) drawWait(w http.ResponseWriter, p *place) error {
	t := p.Speaker.Text
	return plainTemplate.Write(w, http.StatusOK, plainPage{
		Frame: frame(p.Speaker, "seat.wait_title"), Wait: true, Seat: p.Key(), In: true, Pupil: p.Pupil,
		Lines: []string{t("seat.wait_in", "Name", p.Pupil.Nickname), t("seat.wait_words")},
	})
}

func (s *Seats) drawOver(w http.ResponseWriter, p *place) error {
	return plainTemplate.Write(w, http.StatusOK, plainPage{
		Frame: frame(p.Speaker, "seat.over_title"), Pupil: p.Pupil, Rejoin: true,
		Lines: []string{p.Speaker.Text("seat.over_words", "Name", p.Pupil.Nickname)},
	})
}

// drawOut draws the page of a device that has no place: never had one, or was
// sent out.
func (s *Seats) drawOut(w http.ResponseWriter, r *http.Request) error {
	if _, err := r.Cookie(placeCookie); err != nil {
		return see(w, r, "/")
	}
	speaker := speakerOf(r)
	return plainTemplate.Write(w, http.StatusOK, plainPage{
		Frame: frame(speaker, "seat.out_title"), Rejoin: true,
		Lines: []string{speaker.Text("seat.out_words"), speaker.Text("seat.out_next")},
	})
}
