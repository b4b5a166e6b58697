package period

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"pegwright/board"
	"pegwright/lesson/closing"
	"pegwright/lesson/sorting"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/word"
)

// MaxReply is the longest reply, as JSON in bytes.
const MaxReply = 4096

// Reply is what a pupil answers, as class.Answer.Body keeps it in JSON. What it
// needs depends on the question; what is not answered is left out.
type Reply struct {
	Figure string   `json:"figure,omitempty"` // close: make and mend
	Picks  []int    `json:"picks,omitempty"`  // close: pick, indexes of the options from 0
	Yes    *bool    `json:"yes,omitempty"`    // close: true or not; sort: belongs or not; check: it is a polygon or not
	Words  []string `json:"words,omitempty"`  // name: all that are true; check: the name
	Sides  int      `json:"sides,omitempty"`  // check
	Why    string   `json:"why,omitempty"`    // close: is and all, where a pupil writes it
}

// Yes returns a reply that says yes or no.
func Yes(yes bool) Reply { return Reply{Yes: &yes} }

// String returns the reply as JSON.
func (r Reply) String() string {
	out, err := json.Marshal(r)
	if err != nil {
		panic(err) // texts and numbers only
	}
	return string(out)
}

// ParseReply reads a reply, so that ParseReply(r.String()) is r. It refuses what is
// too long to be an answer.
func ParseReply(text string) (Reply, error) {
	if len(text) > MaxReply {
		return Reply{}, errors.New("this answer cannot be read: it is too long")
	}
	var r Reply
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		return Reply{}, fmt.Errorf("this answer cannot be read: %w", err)
	}
	return r, nil
}

// Judgement is what class.Answer keeps of how a reply was judged.
type Judgement struct {
	Right bool
	Idea  Idea // behind a wrong one, "" for none that is known
}

// Judge holds a reply against an item of a close step. A reply that does not
// answer it is wrong, without an idea.
func (i Item) Judge(r Reply, d shape.Definitions) Judgement {
	switch i.Kind {
	case closing.Make, closing.Mend:
		return i.judgeFigure(r.Figure, d)
	case closing.Pick:
		return i.judgePicks(r.Picks)
	}
	return yesOrNo(r, i.True, i.Idea)
}

func yesOrNo(r Reply, want bool, idea Idea) Judgement {
	switch {
	case r.Yes == nil:
		return Judgement{}
	case *r.Yes == want:
		return Judgement{Right: true}
	}
	return Judgement{Idea: idea}
}

func (i Item) judgeFigure(figure string, d shape.Definitions) Judgement {
	asked, err := i.asked(d)
	if err != nil || asked.Board == nil {
		return Judgement{}
	}
	f, err := board.ParseFigure(asked.Board, figure)
	if err != nil {
		return Judgement{}
	}
	v := asked.Judge(f)
	if v.Standing != task.Fits {
		return Judgement{Idea: ideaOfVerdict(v)}
	}
	return Judgement{Right: i.Kind == closing.Make || i.movedOne(v.Reading.Polygon, d)}
}

// movedOne reports whether a polygon is the figure to mend with one corner moved.
func (i Item) movedOne(p *shape.Polygon, d shape.Definitions) bool {
	if i.Picture == nil || p == nil {
		return false
	}
	from, ok := i.Picture.Read()
	before := shape.Read(from.Figure, d).Polygon
	if !ok || before == nil {
		return false
	}
	found := false
	sorting.Moves(before, func(corners []board.Peg, _ int) {
		q, made := shape.NewPolygon(before.Board(), corners)
		found = found || made && slices.Equal(q.Corners(), p.Corners())
	})
	return found
}

// judgePicks names the idea of the first picture picked wrongly, or else of the
// first one left out.
func (i Item) judgePicks(picks []int) Judgement {
	for _, right := range []bool{false, true} {
		for n, o := range i.Options {
			if o.Right == right && slices.Contains(picks, n) != right {
				return Judgement{Idea: o.Idea}
			}
		}
	}
	return Judgement{Right: len(i.Options) > 0}
}

// JudgeSort holds a reply that a card belongs, or does not, against the word that
// the cards are sorted by.
func (c Card) JudgeSort(id string, r Reply, d shape.Definitions) Judgement {
	if j := yesOrNo(r, c.Belongs, ""); j.Right || r.Yes == nil {
		return j
	}
	f, err := c.Read()
	if err != nil {
		return Judgement{}
	}
	if c.Belongs {
		return Judgement{Idea: c.behindRefusing(f, d)}
	}
	return Judgement{Idea: behindTaking(id, f, d)}
}

// behindRefusing names the idea behind refusing a figure that belongs.
func (c Card) behindRefusing(f board.Figure, d shape.Definitions) Idea {
	p := shape.Read(f, d).Polygon
	switch {
	case p == nil:
		return ""
	case c.Role == sorting.Overlap:
		return specialIsNot
	case !p.Convex():
		return convexOnly
	case p.UprightSides() == 0:
		return uprightOnly
	}
	return ""
}

// JudgeName holds the words that a reply says are true of a card against those
// that are. Words that were not asked do not count.
func (c Card) JudgeName(asked []string, r Reply, d shape.Definitions) Judgement {
	said, missing, extra := 0, 0, ""
	for _, id := range asked {
		yes, is := slices.Contains(r.Words, id), slices.Contains(c.True, id)
		switch {
		case yes && is:
			said++
		case yes && extra == "":
			extra = id
		case is:
			missing++
		}
	}
	switch {
	case extra != "":
		f, err := c.Read()
		if err != nil {
			return Judgement{}
		}
		return Judgement{Idea: behindTaking(extra, f, d)}
	case missing > 0 && said > 0:
		return Judgement{Idea: specialIsNot} // as when a square is only a square
	}
	return Judgement{Right: missing == 0}
}

// Check holds what a pupil says of a partner's board against the board: how many
// sides, and a name if one is said. Of a figure that is no polygon the right reply
// is no.
func Check(f board.Figure, r Reply, d shape.Definitions) Judgement {
	p := shape.Read(f, d).Polygon
	if p == nil || r.Yes != nil && !*r.Yes {
		return Judgement{Right: p == nil && r.Yes != nil && !*r.Yes}
	}
	if r.Sides != p.Sides() {
		if over := len(p.PassedOver()); over > 0 && r.Sides == p.Sides()+over {
			return Judgement{Idea: countsPegs}
		}
		return Judgement{}
	}
	for _, id := range r.Words {
		if w, _ := word.Find(id); !w.OfPolygons() || len(w.Lacks(p, d)) > 0 {
			return Judgement{Idea: behindName(w, p)}
		}
	}
	return Judgement{Right: true}
}

// behindName names the idea behind a wrong name when the sides were counted
// rightly: the name of a figure with one side more or fewer.
func behindName(w word.Word, p *shape.Polygon) Idea {
	const wordy = 5 // nobody mixes up triangle and quadrilateral
	sides, known := shape.Named(w.Kind)
	if apart := sides - p.Sides(); known && sides > 0 && min(sides, p.Sides()) >= wordy && (apart == 1 || apart == -1) {
		return mixesUpNames
	}
	return ""
}
