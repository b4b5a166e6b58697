package desk

import (
	"net/http"
	"slices"

	"pegwright/say"
	"pegwright/task"
	"pegwright/web/page"
)

// quickTask is a task on a card.
type quickTask struct {
	ID         string
	Conditions []string
}

// quickTasks are the cards, in the order shown.
var quickTasks = []quickTask{
	{"triangle", []string{"sides=3"}},
	{"quadrilateral", []string{"sides=4"}},
	{"pentagon", []string{"sides=5"}},
	{"hexagon", []string{"sides=6"}},
	{"octagon", []string{"sides=8"}},
	{"right_angle", []string{"right-angles>=1"}},
	{"fold_line", []string{"fold-lines>=1"}},
	{"parallel", []string{"parallel-pairs>=1"}},
	{"turns_in", []string{"convex=no"}},
	{"isosceles", []string{"kind=isosceles triangle"}},
	{"rectangle", []string{"kind=rectangle"}},
	{"rhombus", []string{"kind=rhombus"}},
}

// quickPiece is the drawer with the cards.
type quickPiece struct {
	*say.Speaker
	Path   string
	Cards  []quickCard
	Boards []boardChoice
}

type quickCard struct{ ID, Words string }

func (d *Desk) quickPiece(say *say.Speaker, s *scene) quickPiece {
	p := quickPiece{Speaker: say, Path: s.path("")}
	for _, q := range quickTasks {
		p.Cards = append(p.Cards, quickCard{q.ID, say.Text("quick." + q.ID)})
	}
	chosen := "square:5x5"
	if s.Task != nil {
		chosen = s.Task.Board
	}
	p.Boards = boardChoices(say, chosen)
	return p
}

// quick fills the form from a card.
func (f *form) quick(s *say.Speaker, id string) error {
	i := slices.IndexFunc(quickTasks, func(q quickTask) bool { return q.ID == id })
	if i < 0 {
		return page.Refuse(http.StatusUnprocessableEntity, "quick.none")
	}
	f.Words, f.Rows, f.MaxBands = s.Text("quick."+id), nil, 1
	for _, c := range quickTasks[i].Conditions {
		parsed, err := task.ParseCondition(c)
		if err != nil {
			return err
		}
		f.Rows = append(f.Rows, rowOf(parsed))
	}
	return nil
}
