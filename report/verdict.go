package report

import (
	"pegwright/board"
	"pegwright/task"
)

// Verdict is a reading held against conditions.
type Verdict struct {
	Standing string   `json:"standing"` // "fits", "nearly", "not yet" or "unfinished"
	Results  []Result `json:"results"`  // one for each condition, in the order given
	Hint     *Hint    `json:"hint"`     // the smallest change that makes it fit; null when one corner is not enough
	Ideas    []Idea   `json:"ideas"`    // ideas that may stand behind the figure, each seen once
	Reading  Reading  `json:"reading"`  // the reading
}

// Result is one condition held against a figure.
type Result struct {
	Condition string  `json:"condition"` // "sides=6"
	Holds     bool    `json:"holds"`     // whether the figure satisfies it
	Actual    string  `json:"actual"`    // what the figure has; "" for one that is no polygon
	Reason    *Reason `json:"reason"`    // why; null where there is none to give
	Text      string  `json:"text"`      // the sentence
}

// Hint is a change of one corner, at two strengths.
type Hint struct {
	Nudge  string `json:"nudge"`  // the sentence that gives nothing away
	Change string `json:"change"` // the sentence that says exactly what to do
	Op     string `json:"op"`     // "move", "add" or "drop"
	From   string `json:"from"`   // the corner moved or dropped; for "add", the neighbour before the new corner
	To     string `json:"to"`     // the peg moved to or added; "" for "drop"
	Beside string `json:"beside"` // for "add", the neighbour after the new corner; else ""
	After  string `json:"after"`  // the figure that comes of it
}

// Idea is an idea that may stand behind a figure that does not fit.
type Idea struct {
	Rule   string   `json:"rule"`   // the name of the rule: "counted pegs"
	Source string   `json:"source"` // the literature behind it, or "common practice, no source"
	Pegs   []string `json:"pegs"`   // the pegs that show it
	Text   string   `json:"text"`   // the sentence
}

// VerdictSentences makes the texts of a verdict.
type VerdictSentences interface {
	Sentences
	Result(b *board.Board, r task.Result) string
	Actual(r task.Result) string
	Nudge(h task.Hint) string
	Change(h task.Hint) string
	Idea(b *board.Board, i task.Idea) string
}

// OfVerdict reports a verdict.
func OfVerdict(v task.Verdict, say VerdictSentences) Verdict {
	b := v.Reading.Figure.Board
	out := Verdict{Standing: string(v.Standing), Results: []Result{}, Ideas: []Idea{}, Reading: Of(v.Reading, say)}
	for _, r := range v.Results {
		result := Result{Condition: r.Condition.String(), Holds: r.Holds, Actual: say.Actual(r), Text: say.Result(b, r)}
		if r.Reason.Because != "" {
			reason := reasonOf(b, r.Reason, say)
			result.Reason = &reason
		}
		out.Results = append(out.Results, result)
	}
	out.Hint = hintOf(b, v.Hint, say)
	for _, i := range v.Ideas {
		out.Ideas = append(out.Ideas, Idea{string(i.Rule), i.Source, b.Names(i.Pegs), say.Idea(b, i)})
	}
	return out
}

func hintOf(b *board.Board, h *task.Hint, say VerdictSentences) *Hint {
	if h == nil {
		return nil
	}
	c := h.Change
	out := &Hint{Nudge: say.Nudge(*h), Change: say.Change(*h), Op: string(c.Op), From: b.Name(c.From), After: c.After.String()}
	if c.Op != task.Drop {
		out.To = b.Name(c.To)
	}
	if c.Op == task.Add {
		out.Beside = b.Name(c.Beside)
	}
	return out
}
