package desk

import (
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/task"
	"pegwright/web/page"
)

// tapVerdict is what the desk hears of a board as it closes.
type tapVerdict struct {
	Standing task.Standing `json:"standing"`
	Words    string        `json:"words"`
	Name     string        `json:"name"`
	Lines    []string      `json:"lines"`
}

// verdictFor says a verdict in a few words.
func verdictFor(s *say.Speaker, v task.Verdict) tapVerdict {
	out := tapVerdict{Standing: v.Standing, Words: s.Capital(s.Standing(v.Standing)), Name: page.Name(s, v.Reading), Lines: []string{}}
	if v.Standing == task.Fits {
		return out
	}
	if len(v.Reading.Outline.Problems) > 0 {
		out.Lines = append(out.Lines, s.Problem(v.Reading.Figure.Board, v.Reading.Outline.Problems[0]))
		return out
	}
	for _, r := range v.Results {
		if !r.Holds {
			out.Lines = append(out.Lines, s.Sentence(s.Result(v.Reading.Figure.Board, r)))
		}
	}
	return out
}

// tapped is what the script or the form sends.
type tapped struct {
	ID     string `json:"id"`
	Pupil  string `json:"pupil"`
	Figure string `json:"figure"`
	Made   int64  `json:"made"`
}

// tapAnswer is what the script hears of it.
type tapAnswer struct {
	Kept    bool       `json:"kept"`
	Verdict tapVerdict `json:"verdict"`
	Next    string     `json:"next"` // the address of the next tile
	Words   string     `json:"words,omitempty"`
}

// mostTapped is how many bytes a tapped board may be.
const mostTapped = 16 << 10

func isJSON(r *http.Request) bool {
	return strings.HasPrefix(r.Header.Get("Content-Type"), "application/json")
}

// readTapped reads what was sent, from a script or a form.
func readTapped(r *http.Request) (tapped, error) {
	var in tapped
	if isJSON(r) {
		if err := json.NewDecoder(r.Body).Decode(&in); err != nil {
			return in, page.Refuse(http.StatusBadRequest, "tap.fault_sent")
		}
		return in, nil
	}
	in = tapped{ID: r.FormValue("id"), Pupil: r.FormValue("pupil"), Figure: r.FormValue("figure")}
	in.Made, _ = strconv.ParseInt(r.FormValue("made"), 10, 64)
	return in, nil
}

// tapping reads what was tapped and the run that it is for.
func (d *Desk) tapping(w http.ResponseWriter, r *http.Request) (tapped, *scene, error) {
	r.Body = http.MaxBytesReader(w, r.Body, mostTapped)
	in, err := readTapped(r)
	if err != nil {
		return in, nil, err
	}
	s, err := d.runOf(r)
	return in, s, err
}

// TapIn keeps a board tapped in for a pupil and goes on to the next tile.
func (d *Desk) TapIn(w http.ResponseWriter, r *http.Request) error {
	in, s, err := d.tapping(w, r)
	if err != nil {
		return err
	}
	say := page.Speaker(r)
	v, fault, err := d.keep(r, s, in)
	switch {
	case err != nil:
		return err
	case fault != "" && isJSON(r):
		return sendJSON(w, http.StatusUnprocessableEntity, tapAnswer{Words: say.Text(fault)})
	case fault != "":
		return d.tapPage(w, r, http.StatusUnprocessableEntity, s, in.Pupil, in.Figure, say.Text(fault))
	}
	next := s.path("/tap?kept=" + in.ID)
	if q, ok := s.nextTile(in.Pupil); ok {
		next = s.path("/tap?pupil=" + q + "&kept=" + in.ID)
	}
	if isJSON(r) {
		return sendJSON(w, http.StatusOK, tapAnswer{Kept: true, Verdict: verdictFor(say, v), Next: next})
	}
	return see(w, r, next)
}

// keep judges and stores a tapped board. A fault is the id of a message.
func (d *Desk) keep(r *http.Request, s *scene, in tapped) (v task.Verdict, fault string, err error) {
	if s.Task == nil || !s.Run.Open() {
		return v, "tap.no_task", nil
	}
	if _, err := s.pupil(in.Pupil); err != nil {
		return v, "", err
	}
	if !class.ValidID(in.ID) {
		return v, "tap.fault_sent", nil
	}
	f, err := board.ParseFigure(s.Board, in.Figure)
	if err != nil || len(f.Bands) == 0 {
		return v, "tap.fault_figure", nil
	}
	if v, err = d.judged.verdict(*s.Task, f.String()); err != nil {
		return v, "", err
	}
	made := d.Now()
	if in.Made > 0 {
		made = time.UnixMilli(in.Made)
	}
	_, err = d.Store.AddShowing(r.Context(), class.Showing{
		ID: in.ID, RunID: s.Run.ID, TaskID: s.Task.ID, PupilID: in.Pupil, Figure: f.String(), Source: class.FromDesk,
		Standing: v.Standing, Rules: class.RulesVersion, Made: made, Received: d.Now(),
	})
	if errors.Is(err, class.ErrDifferent) {
		return v, "tap.fault_sent", nil
	}
	if err != nil {
		return v, "", err
	}
	d.publish(s.Run.ID, "tile-"+in.Pupil, "counts")
	d.tellFront(s.Run.ID)
	return v, "", nil
}

// nextTile returns the next pupil in table order with nothing handed in, other
// than the one just done.
func (s *scene) nextTile(done string) (string, bool) {
	at := 0
	for i, p := range s.Pupils {
		if p.ID == done {
			at = i + 1
		}
	}
	for i := range s.Pupils {
		p := s.Pupils[(at+i)%len(s.Pupils)]
		if _, in := s.latest(p.ID); !in && p.ID != done {
			return p.ID, true
		}
	}
	return "", false
}

// TapCheck says what a board comes to while it is tapped.
func (d *Desk) TapCheck(w http.ResponseWriter, r *http.Request) error {
	in, s, err := d.tapping(w, r)
	if err != nil {
		return err
	}
	say := page.Speaker(r)
	if s.Task == nil {
		return sendJSON(w, http.StatusConflict, tapAnswer{Words: say.Text("tap.no_task")})
	}
	f, err := board.ParseFigure(s.Board, in.Figure)
	if err != nil {
		return sendJSON(w, http.StatusUnprocessableEntity, tapAnswer{Words: say.Text("tap.fault_figure")})
	}
	v, err := d.judged.verdict(*s.Task, f.String())
	if err != nil {
		return err
	}
	return sendJSON(w, http.StatusOK, tapAnswer{Verdict: verdictFor(say, v)})
}

func sendJSON(w http.ResponseWriter, status int, v any) error {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	return json.NewEncoder(w).Encode(v)
}
