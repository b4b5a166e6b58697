package desk

import (
	"fmt"
	"html/template"
	"net/http"
	"slices"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/page"
)

// pupilPage is an opened tile.
type pupilPage struct {
	page.Frame
	Path    string // of the run
	Pupil   class.Pupil
	In      bool
	Words   string // of the task
	Showing *shownBoard
	Live    template.HTML // the board as it is now, when it differs
	Earlier []shownBoard
	Next    string // the next pupil whose board nobody has looked at
	Here    string
}

// shownBoard is a showing with everything that can be said about it.
type shownBoard struct {
	*say.Speaker
	Showing  class.Showing
	Address  string
	Picture  template.HTML
	Name     string
	Words    string // of the standing
	When     string
	Source   string
	AtFront  bool
	Results  []resultLine
	Nudge    string
	Change   string
	After    template.HTML
	Ideas    []ideaLine
	Problems []string
	Names    string
	Facts    []factLine
	Reasons  []string
}

type resultLine struct {
	Holds bool
	Words string
}

type ideaLine struct{ Words, Source string }

type factLine struct{ Name, Value string }

var pupilTemplate = page.Parse(files, "pupil.html")

// Pupil opens a tile: the pupil's board with all that can be said about it.
// Opening it marks the board as looked at.
func (d *Desk) Pupil(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	p, err := s.pupil(r.PathValue("pupil"))
	if err != nil {
		return err
	}
	f := d.frame(r, p.Nickname, page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID},
		page.Crumb{Name: s.Run.RoomWord, Address: s.path("")}, page.Crumb{Name: p.Nickname})
	f.Stream, f.Pieces = s.path("/stream"), s.path("/pieces")
	f.Scripts = append(f.Scripts, page.Assets("live.js")...)
	out := pupilPage{Frame: f, Path: s.path(""), Pupil: p, Here: r.URL.RequestURI()}
	_, out.In = s.Seats[p.ID]
	if s.Task != nil {
		out.Words = s.Task.Words
		if err := d.fillPupil(r, s, &out); err != nil {
			return err
		}
	}
	return pupilTemplate.Write(w, http.StatusOK, out)
}

func (d *Desk) fillPupil(r *http.Request, s *scene, out *pupilPage) error {
	var own []class.Showing
	for _, o := range s.Showings {
		if o.PupilID == out.Pupil.ID {
			own = append(own, o)
		}
	}
	slices.Reverse(own)
	chosen := 0
	for i, o := range own {
		if o.ID == r.FormValue("showing") {
			chosen = i
		}
	}
	for i, o := range own {
		if i == chosen {
			b, err := d.shownBoard(out.Speaker, s, o, true)
			if err != nil {
				return err
			}
			out.Showing = &b
		}
		if len(own) > 1 {
			b, err := d.shownBoard(out.Speaker, s, o, false)
			if err != nil {
				return err
			}
			out.Earlier = append(out.Earlier, b)
		}
	}
	if len(own) > 0 && own[chosen].Looked.IsZero() {
		if err := d.Store.MarkLooked(r.Context(), own[chosen].ID, d.Now()); err != nil {
			return err
		}
		d.publish(s.Run.ID, "tile-"+out.Pupil.ID, "counts")
	}
	for _, o := range s.Ideas.Unlooked {
		if o.PupilID != out.Pupil.ID {
			out.Next = s.path("/pupil/" + o.PupilID)
			break
		}
	}
	figure, moving := d.Live.Moving(s.Run.ID, out.Pupil.ID)
	if moving && figure != "" && (len(own) == 0 || own[0].Figure != figure) {
		out.Live = page.Figure(out.Speaker, "live", d.judged.reading(s.Board, figure, s.Task.Definitions), page.Lettered)
	}
	return nil
}

// shownBoard says what can be said about a showing; everything, or only what
// a small picture needs.
func (d *Desk) shownBoard(say *say.Speaker, s *scene, o class.Showing, everything bool) (shownBoard, error) {
	v, err := d.judged.verdict(*s.Task, o.Figure)
	if err != nil {
		return shownBoard{}, fmt.Errorf("showing %s: %w", o.ID, err)
	}
	b := shownBoard{
		Speaker: say, Showing: o, Address: s.path("/pupil/"+o.PupilID) + "?showing=" + o.ID, Name: page.Name(say, v.Reading),
		Words: say.Capital(say.Standing(v.Standing)), When: d.when(say, o.Received), Source: say.Text("source." + string(o.Source)),
		AtFront: s.Front.Kind == class.FrontBoards && slices.Contains(s.Front.Showings, o.ID),
	}
	if !everything {
		b.Picture = page.Figure(say, "earlier-"+o.ID, v.Reading, page.Small)
		return b, nil
	}
	b.Picture = page.Figure(say, "shown-"+o.ID, v.Reading, page.Full)
	b.verdict(say, v)
	b.reading(say, v.Reading)
	return b, nil
}

func (b *shownBoard) verdict(say *say.Speaker, v task.Verdict) {
	on := v.Reading.Figure.Board
	for _, r := range v.Results {
		b.Results = append(b.Results, resultLine{r.Holds, say.Sentence(say.Result(on, r))})
	}
	if v.Hint != nil {
		b.Nudge, b.Change = say.Sentence(say.Nudge(*v.Hint)), say.Sentence(say.Change(*v.Hint))
		b.After = page.Figure(say, "after-"+b.Showing.ID, shape.Read(v.Hint.Change.After, v.Reading.Definitions), page.Small)
	}
	for _, i := range v.Ideas {
		b.Ideas = append(b.Ideas, ideaLine{say.Sentence(say.Idea(on, i)), i.Source})
	}
}

func (b *shownBoard) reading(s *say.Speaker, r shape.Reading) {
	on := r.Figure.Board
	for _, p := range r.Outline.Problems {
		b.Problems = append(b.Problems, s.Problem(on, p))
	}
	for _, reason := range r.Reasons {
		b.Reasons = append(b.Reasons, s.Sentence(s.Reason(on, reason)))
	}
	q := r.Polygon
	if q == nil {
		return
	}
	b.Names = s.List(s.Names(r.Names()))
	b.Facts = factsOf(s, on, r, q)
}

// factsOf lists the measures of a polygon.
func factsOf(s *say.Speaker, on *board.Board, r shape.Reading, q *shape.Polygon) []factLine {
	var sides, angles []string
	for i := range q.Sides() {
		sides = append(sides, say.Segment(on, q.Side(i))+" "+say.Length(on, q.Side(i)))
		angles = append(angles, on.Name(q.Corner(i))+" "+say.Degrees(on, q.Angle(i)))
	}
	out := []factLine{
		{s.Label(say.LabelCorners), s.List(on.Names(q.Corners()))},
		{s.Label(say.LabelSides), s.List(sides)},
		{s.Label(say.LabelAngles), s.List(angles)},
		{s.Label(say.LabelArea), q.Area().String()},
		{s.Label(say.LabelPerimeter), q.Perimeter().String()},
		{s.Label(say.LabelPegsInside), fmt.Sprint(r.Facts.PegsInside)},
		{s.Label(say.LabelPegsOnEdge), fmt.Sprint(r.Facts.PegsOnEdge)},
	}
	if over := r.Outline.PassedOver; len(over) > 0 {
		out = slices.Insert(out, 1, factLine{s.Label(say.LabelPassed), s.List(on.Names(over))})
	}
	if !r.Facts.Regular {
		out = append(out, factLine{s.Label(say.LabelLikeness), s.Likeness(r.Facts)})
	}
	return out
}

// Look marks a showing as looked at.
func (d *Desk) Look(w http.ResponseWriter, r *http.Request) error {
	run := r.PathValue("run")
	shown, err := d.Store.Showing(r.Context(), r.FormValue("showing"))
	if err != nil {
		return err
	}
	if shown.RunID != run {
		return class.ErrNotFound
	}
	if err := d.Store.MarkLooked(r.Context(), shown.ID, d.Now()); err != nil {
		return err
	}
	d.publish(run, "tile-"+shown.PupilID, "counts")
	return see(w, r, orPath(r.FormValue("back"), "/desk/run/"+run))
}
