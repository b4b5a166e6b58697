package desk

import (
	"cmp"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"time"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// keptPage is what a run leaves behind.
type keptPage struct {
	page.Frame
	Class   class.Class
	Open    bool
	Path    string
	Started string
	Ended   string
	Tasks   []keptTask
	Line    []moment
}

// keptTask is a task with the boards handed in for it.
type keptTask struct {
	*say.Speaker
	Task    class.Task
	Asked   string
	Board   string
	Limits  string
	Summary string
	When    string
	Boards  []keptBoard
	Model   template.HTML
}

type keptBoard struct {
	*say.Speaker
	Nickname string
	Picture  template.HTML
	Name     string
	Words    string
	Standing string
	When     string
	Source   string
	Go       string // "second go", "" for the only one
}

// moment is an entry of the time line.
type moment struct {
	At    time.Time
	Clock string
	Words string
}

var keptTemplate = page.Parse(files, "kept.html")

// Kept shows what a run leaves behind: each task with the boards handed in,
// and the time line.
func (d *Desk) Kept(w http.ResponseWriter, r *http.Request) error {
	s, err := d.bareScene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	tasks, err := d.Store.Tasks(r.Context(), s.Run.ID)
	if err != nil {
		return err
	}
	f := d.frame(r, page.Speaker(r).Text("kept.title"), page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID}, page.Crumb{Name: page.Speaker(r).Text("kept.title")})
	p := keptPage{Frame: f, Class: s.Class, Open: s.Run.Open(), Path: s.path(""), Started: dayOf(f.Speaker, s.Run.Started)}
	line := timeLine{speaker: f.Speaker}
	line.add(s.Run.Started, "line.started", "Class", s.Class.Name)
	for _, t := range tasks {
		k, err := d.keptTask(r, f.Speaker, s, t, &line)
		if err != nil {
			return err
		}
		p.Tasks = append(p.Tasks, k)
	}
	if !s.Run.Open() {
		p.Ended = dayOf(f.Speaker, s.Run.Ended)
		line.add(s.Run.Ended, "line.ended")
	}
	slices.SortStableFunc(line.moments, func(a, b moment) int { return a.At.Compare(b.At) })
	p.Line = line.moments
	return keptTemplate.Write(w, http.StatusOK, p)
}

func (d *Desk) keptTask(r *http.Request, say *say.Speaker, s *scene, t class.Task, line *timeLine) (keptTask, error) {
	if err := d.setTask(r.Context(), s, t); err != nil {
		return keptTask{}, err
	}
	k := keptTask{
		Speaker: say, Task: t, Asked: askedOf(say, t), Board: say.Board(s.Board), Limits: limitsOf(say, t), When: d.when(say, t.Started),
		Summary: summaryOf(say, t, s.Ideas),
	}
	if t.Model != "" {
		k.Model = page.Figure(say, "model-"+t.ID, d.judged.reading(s.Board, t.Model, t.Definitions), page.Small)
	}
	line.add(t.Started, "line.set", "N", t.Ordinal, "Words", t.Words)
	if !t.Open() {
		line.add(t.Ended, "line.stopped", "N", t.Ordinal)
	}
	k.Boards = d.keptBoards(say, s, t, line)
	return k, nil
}

// keptBoards lists the showings of a task by pupil, in the order of the class
// list, each pupil's in the order made.
func (d *Desk) keptBoards(say *say.Speaker, s *scene, t class.Task, line *timeLine) []keptBoard {
	number, goes := map[string]class.Pupil{}, map[string]int{}
	for _, p := range s.Pupils {
		number[p.ID] = p
	}
	all := slices.Clone(s.Showings)
	for _, o := range all {
		goes[o.PupilID]++
		line.add(o.Received, "line.handed_in", "Name", number[o.PupilID].Nickname, "N", t.Ordinal, "Standing", say.Standing(o.Standing))
	}
	slices.SortStableFunc(all, func(a, b class.Showing) int {
		return cmp.Compare(number[a.PupilID].Number, number[b.PupilID].Number)
	})
	var out []keptBoard
	count := map[string]int{}
	for _, o := range all {
		count[o.PupilID]++
		b := d.keptBoard(say, s.Board, t, o)
		b.Nickname = number[o.PupilID].Nickname
		if goes[o.PupilID] > 1 {
			b.Go = say.Text("kept.go", "N", count[o.PupilID])
		}
		out = append(out, b)
	}
	return out
}

func (d *Desk) keptBoard(say *say.Speaker, on *board.Board, t class.Task, o class.Showing) keptBoard {
	r := d.judged.reading(on, o.Figure, t.Definitions)
	return keptBoard{
		Speaker: say, Picture: page.Figure(say, fmt.Sprintf("kept-%s", o.ID), r, page.Small), Name: page.Name(say, r),
		Words: standWords(say, o.Standing), Standing: string(o.Standing), When: d.when(say, o.Received), Source: say.Text("source." + string(o.Source)),
	}
}

// timeLine collects what happened when.
type timeLine struct {
	speaker *say.Speaker
	moments []moment
}

func (l *timeLine) add(at time.Time, id string, args ...any) {
	l.moments = append(l.moments, moment{at, at.Local().Format("15:04:05"), l.speaker.Text(id, args...)})
}
