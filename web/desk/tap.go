package desk

import (
	"encoding/json"
	"html/template"
	"net/http"

	"pegwright/class"
	"pegwright/say"
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
