package seat

import (
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/pegs"
)

// answer is what a seat hears of a showing.
type answer struct {
	Kept   bool   `json:"kept"`
	Late   bool   `json:"late,omitempty"`
	Title  string `json:"title,omitempty"`
	Lines  []line `json:"lines,omitempty"`
	Spoken string `json:"spoken,omitempty"` // the board in words, for those who hear the page
	Words  string `json:"words,omitempty"`  // why it was not kept
}

// line is one sentence, with a mark: "yes", "no", or "" for neither.
type line struct {
	Mark string `json:"mark"`
	Text string `json:"text"`
}

// answerTo says to a pupil as much of a verdict as the task allows.
func answerTo(s *say.Speaker, t class.Task, v task.Verdict, late bool) answer {
	a := answer{Kept: true, Late: late, Title: s.Text("seat.handed_in")}
	if late {
		a.Title = s.Text("seat.handed_late")
	}
	switch t.Feedback {
	case class.CountFeedback:
		a.Lines = []line{{Text: countOf(s, v)}}
	case class.HintFeedback:
		a.Lines = []line{hintOf(s, v)}
	case class.AllFeedback:
		a.Lines = allOf(s, v)
		// The description names the figure, so it goes with everything only.
		a.Spoken = s.Describe(v.Reading)
	}
	return a
}

// countOf counts corners, or straight pieces where lines were asked for.
func countOf(s *say.Speaker, v task.Verdict) string {
	if v.Reading.Polygon != nil {
		return s.Counted("seat.corners", len(v.Reading.Polygon.Corners()))
	}
	if conditionsOf(v).AboutLines() {
		return s.Counted("seat.pieces", len(v.Reading.Outline.Segments))
	}
	return problemOf(s, v.Reading)
}

func conditionsOf(v task.Verdict) (out task.Conditions) {
	for _, r := range v.Results {
		out = append(out, r.Condition)
	}
	return out
}

// problemOf says why bands make no polygon.
func problemOf(s *say.Speaker, r shape.Reading) string {
	if len(r.Outline.Problems) > 0 {
		return s.Sentence(s.Problem(r.Figure.Board, r.Outline.Problems[0]))
	}
	return s.Sentence(s.Status(r.Outline.Status))
}

// hintOf says that it fits, or where to look.
func hintOf(s *say.Speaker, v task.Verdict) line {
	if v.Standing == task.Fits {
		return line{"yes", s.Text("seat.fits")}
	}
	if v.Standing == task.Unfinished {
		return line{"no", problemOf(s, v.Reading)}
	}
	if v.Hint != nil {
		return line{"no", s.Sentence(s.Nudge(*v.Hint))}
	}
	for _, r := range v.Results {
		if !r.Holds {
			return line{"no", s.Sentence(s.Nudge(task.Hint{Nudge: r.Condition}))}
		}
	}
	return line{"no", problemOf(s, v.Reading)}
}

// allOf says of every condition whether it holds, and why.
func allOf(s *say.Speaker, v task.Verdict) (out []line) {
	for _, r := range v.Results {
		mark := "no"
		if r.Holds {
			mark = "yes"
		}
		out = append(out, line{mark, s.Sentence(s.Result(v.Reading.Figure.Board, r))})
	}
	if v.Standing == task.Unfinished && !conditionsOf(v).AboutLines() {
		out = append([]line{{"no", problemOf(s, v.Reading)}}, out...)
	}
	return out
}

// scriptTexts are the messages that the script of the page needs, besides those
// of the board, by the ids it uses.
var scriptTexts = map[string]string{
	"show":            "seat.show",
	"show_done":       "seat.show_done",
	"show_waits":      "seat.show_waits",
	"mark_yes":        "seat.mark_yes",
	"mark_no":         "seat.mark_no",
	"nothing_to_show": "seat.nothing_to_show",
	"sending":         "seat.sending",
	"saved":           "seat.saved",
	"keep_open":       "seat.keep_open",
	"refused":         "seat.refused",
	"later_task":      "seat.later_task",
	"later_stop":      "seat.later_stop",
	"later_unshown":   "seat.later_unshown",
	"minutes":         "seat.minutes",
	"minute":          "seat.minute",
	"time_up":         "seat.time_up",
}

// textsOf returns the messages of the script in a language.
func textsOf(s *say.Speaker) map[string]string {
	out := pegs.Texts(s)
	for id, message := range scriptTexts {
		out[id] = s.Text(message)
	}
	return out
}
