package desk

import (
	"net/http"

	"pegwright/web/page"
)

// buildPage is the task builder.
type buildPage struct {
	page.Frame
	Path      string
	Form      form
	Fault     string
	Rows      []rowMenus
	Boards    []boardChoice
	Feedbacks []choice
	Bands     []choice
	Minutes   []choice
	Answer    answerPiece
	More      bool // there is room for another condition
}

var buildTemplate = page.Parse(files, "build.html", "answer.html")

// Build shows the task builder with the atlas's answer beside it.
func (d *Desk) Build(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if !s.Run.Open() {
		return see(w, r, s.path("/kept"))
	}
	f := readForm(r)
	if !r.Form.Has("words") {
		f.Rows = []row{{"sides", "=", "4"}}
		f.MaxBands = 1
		if s.Task != nil {
			f.Board = s.Task.Board
		}
	}
	if r.FormValue("more") != "" {
		f.Rows = append(f.Rows, row{})
	}
	return d.buildPage(w, r, http.StatusOK, s, f, "")
}

func (d *Desk) buildPage(w http.ResponseWriter, r *http.Request, status int, s *scene, f form, fault string) error {
	fr := d.frame(r, page.Speaker(r).Text("build.title"), page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID},
		page.Crumb{Name: s.Run.RoomWord, Address: s.path("")}, page.Crumb{Name: page.Speaker(r).Text("build.title")})
	fr.Scripts = append(fr.Scripts, page.Assets("build.js")...)
	if len(f.Rows) == 0 {
		f.Rows = []row{{}}
	}
	p := buildPage{
		Frame: fr, Path: s.path(""), Form: f, Fault: fault, Boards: boardChoices(fr.Speaker, f.Board), More: len(f.Rows) < mostRows,
		Answer: d.answerPiece(r, fr.Speaker, f, s.Class.Definitions),
	}
	for i, row := range f.Rows {
		p.Rows = append(p.Rows, menusOf(fr.Speaker, i+1, row))
	}
	for _, b := range feedbacks {
		p.Feedbacks = append(p.Feedbacks, choice{string(b), fr.Capital(fr.Text("feedback." + string(b))), b == f.Feedback})
	}
	p.Bands = numberChoices(fr.Speaker, []int{1, 2, 3, 4, 0}, f.MaxBands, "task.bands", "task.any_bands")
	p.Minutes = numberChoices(fr.Speaker, []int{0, 2, 3, 5, 8, 10, 15, 20, 30}, f.Minutes, "task.minutes", "task.no_limit")
	return buildTemplate.Write(w, status, p)
}
