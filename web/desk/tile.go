package desk

import (
	"html/template"

	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/page"
)

// tileGroup is the tiles of a table group.
type tileGroup struct {
	Name  string
	Tiles []tile
}

// tilesPiece is all tiles, by table group.
type tilesPiece struct{ Groups []tileGroup }

func (d *Desk) tilesPiece(say *say.Speaker, s *scene) tilesPiece {
	var out []tileGroup
	for _, p := range s.Pupils {
		if len(out) == 0 || out[len(out)-1].Name != p.Group {
			out = append(out, tileGroup{Name: p.Group})
		}
		g := &out[len(out)-1]
		g.Tiles = append(g.Tiles, d.tile(say, s, p))
	}
	return tilesPiece{out}
}

// tile is one pupil's board.
type tile struct {
	*say.Speaker
	ID       string // of the element
	Address  string
	Pupil    class.Pupil
	Picture  template.HTML
	Figure   string // in words: its name, or how many sides
	Sides    string
	Key      string // of the standing, "none" for nothing handed in
	Standing task.Standing
	Words    string // of the standing
	Moving   bool   // the board differs from what was handed in last
	Goes     int
	Unlooked bool
	First    bool
	Only     bool
	Model    bool
	In       bool
	Lost     bool // in, with no line to its device
	AtFront  bool
	Source   class.Source
}

func (d *Desk) tile(say *say.Speaker, s *scene, p class.Pupil) tile {
	return d.tileOf(say, s, p, "tile-")
}

func (d *Desk) tileOf(say *say.Speaker, s *scene, p class.Pupil, prefix string) tile {
	t := tile{Speaker: say, ID: prefix + p.ID, Address: s.path("/pupil/" + p.ID), Pupil: p, Key: "none"}
	_, t.In = s.Seats[p.ID]
	t.Lost = t.In && d.Live.Connected(s.Run.ID, p.ID) == 0
	if s.Task == nil {
		return t
	}
	figure, moving := d.Live.Moving(s.Run.ID, p.ID)
	if last, ok := s.latest(p.ID); ok {
		t.handedIn(say, s, last)
		t.Moving = moving && figure != last.Figure
		if !t.Moving {
			figure = last.Figure
		}
	} else {
		t.Moving = moving && figure != ""
	}
	r := d.judged.reading(s.Board, figure, s.Task.Definitions)
	t.Picture = page.Figure(say, t.ID+"-picture", r, page.Small)
	t.Sides = sidesOf(say, r)
	return t
}

// handedIn fills in how the last showing stands.
func (t *tile) handedIn(say *say.Speaker, s *scene, last class.Showing) {
	t.Key, t.Standing, t.Source = standingKey(last.Standing), last.Standing, last.Source
	t.Words = standWords(say, last.Standing)
	t.Unlooked = last.Looked.IsZero()
	for _, o := range s.Showings {
		if o.PupilID == t.Pupil.ID {
			t.Goes++
		}
	}
	if k, ok := s.Ideas.KindOf(last); ok {
		t.Only, t.Model = k.Only(), k.Model
		t.First = !t.Only && k.IsFirst(last)
	}
	for _, id := range s.Front.Showings {
		t.AtFront = t.AtFront || id == last.ID && s.Front.Kind == class.FrontBoards
	}
}

// sidesOf says how many sides a figure has, or what it comes to.
func sidesOf(say *say.Speaker, r shape.Reading) string {
	switch {
	case r.Polygon != nil:
		return say.Claim(shape.Reason{Fact: shape.FactSides, Holds: true, Count: r.Polygon.Sides()})
	case r.Outline.Status == shape.Empty:
		return ""
	}
	return say.Status(r.Outline.Status)
}
