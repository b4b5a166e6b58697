package desk

import (
	"strings"

	"pegwright/say"
	"pegwright/task"
)

// countsPiece is how many boards are in and how they stand.
type countsPiece struct {
	*say.Speaker
	In, Of   int
	Filters  []filter
	InWords  string
	HaveTask bool
}

// filter shows some of the tiles.
type filter struct {
	ID       string // of the standing, in the tile's data-standing
	Words    string
	Standing string // for the mark
	Count    int
}

// standings are how a board can stand, with nothing handed in last.
var standings = []task.Standing{task.Fits, task.Nearly, task.NotYet, task.Unfinished}

func (d *Desk) countsPiece(say *say.Speaker, s *scene) countsPiece {
	p := countsPiece{Speaker: say, Of: len(s.Pupils), In: len(s.Ideas.Latest), HaveTask: s.Task != nil}
	p.InWords = say.Counted("counts.in", p.In, "Of", p.Of)
	p.Filters = append(p.Filters, filter{"all", say.Text("filter.all"), "", p.Of})
	for _, st := range standings {
		p.Filters = append(p.Filters, filter{standingKey(st), standWords(say, st), string(st), s.Ideas.Standings[st]})
	}
	waiting := p.Of - p.In
	p.Filters = append(p.Filters,
		filter{"none", say.Text("filter.none"), "", waiting},
		filter{"unlooked", say.Text("filter.unlooked"), "", len(s.Ideas.Unlooked)})
	return p
}

// standWords says in a word or two how a board stands.
func standWords(say *say.Speaker, s task.Standing) string {
	return say.Text("stand." + strings.ReplaceAll(string(s), " ", "_"))
}

// standingKey writes a standing as a word of an attribute.
func standingKey(s task.Standing) string { return strings.ReplaceAll(string(s), " ", "-") }
