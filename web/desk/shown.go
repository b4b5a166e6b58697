package desk

import (
	"fmt"
	"html/template"
	"slices"

	"pegwright/board"
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/page"
)

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
		b.Ideas = append(b.Ideas, ideaLine{say.Sentence(say.Idea(on, i)), sourceOf(say, i)})
	}
}

// unsourced is what the kernel writes where an idea has no literature.
const unsourced = "common practice, no source"

// sourceOf says where an idea is known from.
func sourceOf(say *say.Speaker, i task.Idea) string {
	if i.Source == unsourced {
		return say.Text("pupil.no_source")
	}
	return say.Text("pupil.source", "Source", i.Source)
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
