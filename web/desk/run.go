package desk

import (
	"net/http"

	"pegwright/class"
	"pegwright/web/live"
	"pegwright/web/page"
)

// runPage is a class at work.
type runPage struct {
	page.Frame
	Class    class.Class
	Run      class.Run
	Path     string
	Task     taskPiece
	Counts   countsPiece
	Front    frontPiece
	Room     roomPiece
	Quick    quickPiece
	Tiles    tilesPiece
	ByFigure bool
	Figures  figuresPiece
}

var runTemplate = page.Parse(files, "run.html", "pieces.html", "tile.html", "figures.html")

// Run shows a run: the task, the front, the room, and the class as tiles or as
// figures. A run that is over is shown by the page of what was kept.
func (d *Desk) Run(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if !s.Run.Open() {
		return see(w, r, s.path("/kept"))
	}
	f := d.frame(r, s.Class.Name, page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID}, page.Crumb{Name: s.Run.RoomWord})
	f.Stream, f.Pieces = s.path("/stream"), s.path("/pieces")
	f.Scripts = append(f.Scripts, page.Assets("live.js")...)
	p := runPage{
		Frame: f, Class: s.Class, Run: s.Run, Path: s.path(""), ByFigure: r.FormValue("view") == "figures",
		Task: d.taskPiece(f.Speaker, s), Counts: d.countsPiece(f.Speaker, s), Front: d.frontPiece(f.Speaker, s),
		Room: d.roomPiece(f.Speaker, s), Quick: d.quickPiece(f.Speaker, s),
	}
	if p.ByFigure {
		p.Figures = d.figuresPiece(f.Speaker, s)
	} else {
		p.Tiles = d.tilesPiece(f.Speaker, s)
	}
	return runTemplate.Write(w, http.StatusOK, p)
}

// Stream tells a run's page what changed.
func (d *Desk) Stream(w http.ResponseWriter, r *http.Request) error {
	run, err := d.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	live.Streamer{Version: d.Version, Open: d.open(r), Done: d.Stopping}.Stream(w, r,
		d.Bus.Subscribe("run/"+run.ID), d.Bus.Subscribe("desk/"+session(r).Hash))
	return nil
}
