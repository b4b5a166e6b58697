package report

import (
	"pegwright/atlas"
	"pegwright/task"
)

// Answer is what a search found.
type Answer struct {
	Board      string   `json:"board"`      // the board asked about
	Conditions []string `json:"conditions"` // as they were read
	Possible   bool     `json:"possible"`   // whether a figure was found
	Complete   bool     `json:"complete"`   // whether every figure that could answer was looked at, or a theorem settles it
	Count      int64    `json:"count"`      // figures by position
	Different  int      `json:"different"`  // truly different ones: up to turning, flipping and moving in the plane
	Examples   []Found  `json:"examples"`   // spread over the variety; empty when impossible
	Nearest    []Missed `json:"nearest"`    // the nearest misses; empty when possible
	Why        *string  `json:"why"`        // why there is none, as one text; null when possible
	Grounds    []Ground `json:"grounds"`    // the same one by one; empty when possible
	Elsewhere  []string `json:"elsewhere"`  // boards on which it is possible; empty when possible
	Seen       int64    `json:"seen"`       // figures looked at
	ElapsedMS  float64  `json:"elapsed_ms"` // milliseconds
}

// Found is a figure that answers.
type Found struct {
	Figure   string  `json:"figure"`    // "A1 D1 D3"
	BestName *string `json:"best_name"` // null for figures of lines
	Places   int     `json:"places"`    // positions on the board of figures congruent to it
}

// Missed is a figure that almost answers.
type Missed struct {
	Figure   string   `json:"figure"`    // "A1 D1 D3"
	BestName *string  `json:"best_name"` // null for figures of lines
	Fails    []string `json:"fails"`     // the conditions it does not meet
	Likeness *float64 `json:"likeness"`  // to the regular polygon; null for figures of lines
}

// Ground is one reason why there is no answer.
type Ground struct {
	Theorem string `json:"theorem"` // "" when the search itself is the reason
	Source  string `json:"source"`  // where the theorem comes from
	Text    string `json:"text"`    // the sentence
}

// AnswerSentences makes the texts of an answer.
type AnswerSentences interface {
	Why(w atlas.Why) string
}

// OfAnswer reports the answer to a question.
func OfAnswer(q atlas.Question, a atlas.Answer, say AnswerSentences) Answer {
	out := Answer{
		Board: q.Board.String(), Conditions: q.Conditions.Texts(), Possible: a.Possible, Complete: a.Complete,
		Count: a.Count, Different: a.Different, Examples: []Found{}, Nearest: []Missed{}, Grounds: []Ground{},
		Elsewhere: []string{}, Seen: a.Seen, ElapsedMS: *rounded(a.Elapsed.Seconds()*1000, 1),
	}
	for _, e := range a.Examples {
		found := Found{Figure: e.Figure.String(), Places: e.Places}
		if e.Polygon != nil {
			found.BestName = text(string(e.Polygon.BestName(q.Definitions)))
		}
		out.Examples = append(out.Examples, found)
	}
	for _, n := range a.Nearest {
		out.Nearest = append(out.Nearest, missed(q, n))
	}
	for _, b := range a.Elsewhere {
		out.Elsewhere = append(out.Elsewhere, b.String())
	}
	out.addWhy(a, say)
	return out
}

func missed(q atlas.Question, n atlas.Near) Missed {
	out := Missed{Figure: n.Figure.String(), Fails: task.Conditions(n.Fails).Texts()}
	if n.Polygon != nil {
		out.BestName = text(string(n.Polygon.BestName(q.Definitions)))
		out.Likeness = likeness(n.Polygon.Facts())
	}
	return out
}

func (out *Answer) addWhy(a atlas.Answer, say AnswerSentences) {
	if a.Possible {
		return
	}
	all := ""
	for _, w := range a.Why {
		g := Ground{Theorem: string(w.Theorem), Source: w.Source, Text: say.Why(w)}
		out.Grounds = append(out.Grounds, g)
		if all != "" {
			all += "; "
		}
		all += g.Text
	}
	out.Why = &all
}
