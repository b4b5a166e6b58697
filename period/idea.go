package period

import (
	"net/url"
	"slices"
	"strings"

	"pegwright/board"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// Idea is the idea that may stand behind a wrong answer, as class.Answer keeps
// it: the ID of a message of the room wording, and what fills its blanks as in
// the address of a page; "" for none. Equal ideas are equal texts.
type Idea string

func ideaOf(m wording.Message) Idea {
	if len(m.Fill) == 0 {
		return Idea(m.ID)
	}
	fill := url.Values{}
	for name, v := range m.Fill {
		fill.Set(name, v)
	}
	return Idea(m.ID + "?" + fill.Encode()) // by name
}

// Message returns the idea as a sentence, as data.
func (i Idea) Message() wording.Message {
	id, query, _ := strings.Cut(string(i), "?")
	m := wording.Message{ID: id}
	fill, err := url.ParseQuery(query)
	if err != nil || len(fill) == 0 {
		return m
	}
	m.Fill = map[string]string{}
	for name := range fill {
		m.Fill[name] = fill.Get(name)
	}
	return m
}

// The ideas that are decided here.
const (
	countsPegs    Idea = "idea.counted_pegs"
	mixesUpNames  Idea = "idea.neighbouring_name"
	uprightOnly   Idea = "idea.upright_only"
	convexOnly    Idea = "idea.convex_only"
	specialIsNot  Idea = "idea.special_is_not_general"
	leavesOutMark      = "idea.leaves_out_a_mark"
)

// ideaOfVerdict returns the first of the kernel's ideas that there is a sentence
// for. That a figure is open or crosses says nothing about the word.
func ideaOfVerdict(v task.Verdict) Idea {
	for _, i := range v.Ideas {
		if i.Rule != task.NotClosed && i.Rule != task.CrossesItself {
			return Idea("idea." + strings.ReplaceAll(string(i.Rule), " ", "_"))
		}
	}
	return ""
}

// behindTaking returns the idea behind taking a figure for a word that it does
// not have: the kernel's, or the first mark that it lacks.
func behindTaking(id string, f board.Figure, d shape.Definitions) Idea {
	w, _ := word.Find(id)
	v := task.Task{Board: f.Board, Conditions: w.Conditions(), Definitions: d}.Judge(f)
	if idea := ideaOfVerdict(v); idea != "" || v.Reading.Polygon == nil {
		return idea
	}
	lacks := slices.IndexFunc(v.Results, func(r task.Result) bool { return !r.Holds })
	if lacks < 0 {
		return ""
	}
	return leftOut(v.Results[lacks].Condition.String())
}

func leftOut(mark string) Idea {
	return ideaOf(wording.Message{ID: leavesOutMark, Fill: map[string]string{"Mark": mark}})
}
