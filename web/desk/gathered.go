package desk

import (
	"html/template"

	"pegwright/class"
	"pegwright/say"
	"pegwright/task"
	"pegwright/web/page"
)

// figuresPiece is the class by congruent figures.
type figuresPiece struct {
	*say.Speaker
	Path     string
	HaveTask bool
	Summary  string
	Kinds    []kindCard
	Others   []tile
	Waiting  []string
}

// kindCard is one figure and everyone who made it.
type kindCard struct {
	*say.Speaker
	Picture  template.HTML
	Name     string
	Count    string
	Standing task.Standing
	Words    string
	Model    bool
	Only     bool
	Pupils   []kindPupil
}

type kindPupil struct {
	Name, Address string
	First         bool
}

func (d *Desk) figuresPiece(say *say.Speaker, s *scene) figuresPiece {
	p := figuresPiece{Speaker: say, Path: s.path(""), HaveTask: s.Task != nil}
	if s.Task == nil {
		return p
	}
	p.Summary = summaryOf(say, *s.Task, s.Ideas)
	names := map[string]string{}
	for _, q := range s.Pupils {
		names[q.ID] = q.Nickname
	}
	for _, k := range s.Ideas.Kinds {
		p.Kinds = append(p.Kinds, d.kindCard(say, s, k, names))
	}
	for _, o := range s.Ideas.Others {
		if q, err := s.pupil(o.PupilID); err == nil {
			p.Others = append(p.Others, d.tileOf(say, s, q, "other-"))
		}
	}
	for _, q := range s.Ideas.Waiting {
		p.Waiting = append(p.Waiting, q.Nickname)
	}
	return p
}

// summaryOf says in a sentence how various the boards are.
func summaryOf(say *say.Speaker, t class.Task, g class.Gathering) string {
	out := say.Counted("figures.in", len(g.Latest)) + " " + say.Counted("figures.different", g.Different)
	if g.Fitting > 0 {
		out += " " + say.Counted("figures.fitting", g.Fitting)
	}
	if t.Model != "" {
		out += " " + say.Counted("figures.copies", g.Copies)
	}
	return out
}

func (d *Desk) kindCard(say *say.Speaker, s *scene, k class.Kind, names map[string]string) kindCard {
	shown := k.Showings[0]
	r := d.judged.reading(s.Board, shown.Figure, s.Task.Definitions)
	c := kindCard{
		Speaker: say, Picture: page.Figure(say, "kind-"+shown.ID, r, page.Small), Name: page.Name(say, r),
		Count: say.Counted("figures.pupils", len(k.Showings)), Standing: shown.Standing,
		Words: standWords(say, shown.Standing), Model: k.Model, Only: k.Only(),
	}
	for _, o := range k.Showings {
		c.Pupils = append(c.Pupils, kindPupil{names[o.PupilID], s.path("/pupil/" + o.PupilID), k.IsFirst(o) && len(k.Showings) > 1})
	}
	return c
}
