package desk

import (
	"encoding/json"
	"errors"
	"html/template"
	"net/http"
	"strconv"
	"strings"
	"time"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/task"
	"pegwright/web/page"
	"pegwright/web/pegs"
)

// tapPage is the desk's own board for boards that have no device: choose a
// tile, tap the pegs that the band turns at, done.
type tapPage struct {
	page.Frame
	Path    string
	Words   string
	Tiles   []tapTile
	Pupil   *class.Pupil // nil while none is chosen
	Bench   template.HTML
	Tools   template.HTML
	Setting string // for the script, as JSON
	Typed   string
	Fault   string
	Kept    *tapVerdict // what was kept last
	KeptFor string
	ShowID  string
}

type tapTile struct {
	*say.Speaker
	class.Pupil
	Address string
	In      bool // has handed something in
	Here    bool
}

// tapVerdict is what the desk hears of a board as it closes.
type tapVerdict struct {
	Standing task.Standing `json:"standing"`
	Words    string        `json:"words"`
	Name     string        `json:"name"`
	Lines    []string      `json:"lines"`
}

// tapSetting is what the script begins with.
type tapSetting struct {
	Path    string            `json:"path"`
	Pupil   string            `json:"pupil"`
	Most    int               `json:"most"`
	Layout  pegs.Layout       `json:"layout"`
	Figure  string            `json:"figure"`
	Texts   map[string]string `json:"texts"`
	Kept    string            `json:"kept"`
	Failed  string            `json:"failed"`
	Nothing string            `json:"nothing"`
}

var tapTemplate = page.Parse(files, "tap.html")

// Tap shows the tiles to choose from, or the board of the one chosen.
func (d *Desk) Tap(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	return d.tapPage(w, r, http.StatusOK, s, r.FormValue("pupil"), "", "")
}

func (d *Desk) tapPage(w http.ResponseWriter, r *http.Request, status int, s *scene, pupil, typed, fault string) error {
	f := d.frame(r, page.Speaker(r).Text("tap.title"), page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID},
		page.Crumb{Name: s.Run.RoomWord, Address: s.path("")}, page.Crumb{Name: page.Speaker(r).Text("tap.title")})
	p := tapPage{Frame: f, Path: s.path(""), Typed: typed, Fault: fault, ShowID: d.newID()}
	if s.Task == nil || !s.Run.Open() {
		return tapTemplate.Write(w, status, p)
	}
	p.Words = s.Task.Words
	for _, q := range s.Pupils {
		_, in := s.latest(q.ID)
		p.Tiles = append(p.Tiles, tapTile{f.Speaker, q, s.path("/tap?pupil=" + q.ID), in, q.ID == pupil})
	}
	d.lastKept(r, s, &p)
	if pupil == "" {
		return tapTemplate.Write(w, status, p)
	}
	q, err := s.pupil(pupil)
	if err != nil {
		return err
	}
	p.Pupil, p.Bench, p.Tools = &q, pegs.Bench(f.Speaker), pegs.Tools(f.Speaker)
	set, err := json.Marshal(tapSetting{
		Path: s.path("/tap"), Pupil: q.ID, Most: s.Task.MaxBands, Layout: pegs.LayoutOf(s.Board), Figure: typed, Texts: pegs.Texts(f.Speaker),
		Kept: f.Text("tap.kept"), Failed: f.Text("tap.failed"), Nothing: f.Text("tap.nothing"),
	})
	if err != nil {
		return err
	}
	p.Setting = string(set)
	p.Styles = append(p.Styles, page.Assets("pegs.css")...)
	p.Scripts = append(p.Scripts, page.Assets("tap.js")...)
	return tapTemplate.Write(w, status, p)
}

// lastKept fills in what was tapped in just before.
func (d *Desk) lastKept(r *http.Request, s *scene, p *tapPage) {
	for _, o := range s.Showings {
		if o.ID != r.FormValue("kept") {
			continue
		}
		if q, err := s.pupil(o.PupilID); err == nil {
			if v, err := d.judged.verdict(*s.Task, o.Figure); err == nil {
				kept := verdictFor(p.Speaker, v)
				p.Kept, p.KeptFor = &kept, q.Nickname
			}
		}
	}
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

// TapIn keeps a board tapped in for a pupil and goes on to the next tile.
func (d *Desk) TapIn(w http.ResponseWriter, r *http.Request) error {
	r.Body = http.MaxBytesReader(w, r.Body, mostTapped)
	in, err := readTapped(r)
	if err != nil {
		return err
	}
	s, err := d.runOf(r)
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
	r.Body = http.MaxBytesReader(w, r.Body, mostTapped)
	in, err := readTapped(r)
	if err != nil {
		return err
	}
	s, err := d.runOf(r)
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
