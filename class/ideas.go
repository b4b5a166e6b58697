package class

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// Gathering is a class at one task seen as ideas instead of single boards.
type Gathering struct {
	Latest    []Showing             // the last of each pupil, in the order of the class
	Kinds     []Kind                // the polygons by congruence, the most frequent first, then the earliest
	Others    []Showing             // the latest that are no polygons
	Different int                   // how many kinds
	Fitting   int                   // how many kinds have a showing that fits
	Copies    int                   // the latest showings congruent to the task's model
	Standings map[task.Standing]int // the latest showings by standing
	Unlooked  []Showing             // the latest that nobody has opened
	Waiting   []Pupil               // those who have shown nothing yet
}

// Kind is one idea: all latest showings of congruent polygons.
type Kind struct {
	Showings []Showing // in the order received
	First    Showing   // the first of this kind in the task, even if its pupil has moved on
	Model    bool      // congruent to the task's model
	Fits     int       // how many of the showings fit
}

// Only reports whether a single pupil has this kind.
func (k Kind) Only() bool { return len(k.Showings) == 1 }

// IsFirst reports whether a showing is by the pupil who was the first with this
// kind.
func (k Kind) IsFirst(s Showing) bool { return k.First.PupilID == s.PupilID }

// KindOf returns the kind that a showing is of, if it is among the latest ones
// and a polygon.
func (g Gathering) KindOf(s Showing) (Kind, bool) {
	for _, k := range g.Kinds {
		if slices.ContainsFunc(k.Showings, func(o Showing) bool { return o.ID == s.ID }) {
			return k, true
		}
	}
	return Kind{}, false
}

// Ideas gathers the showings of one task, given in the order received, of these
// pupils. Showings of other pupils or tasks are left out.
//
// Every latest showing is in exactly one Kind or in Others, and the standings
// add up to the number of latest showings. Swapping pupils, or turning and flipping
// boards, changes no count but that of the standings.
func Ideas(t Task, showings []Showing, pupils []Pupil) Gathering {
	g := Gathering{Standings: map[task.Standing]int{}}
	seat := map[string]int{}
	for i, p := range pupils {
		seat[p.ID] = i
	}
	latest := make([]Showing, len(pupils))
	known := showings[:0:0]
	for _, s := range showings {
		if i, ok := seat[s.PupilID]; ok && s.TaskID == t.ID {
			latest[i] = s
			known = append(known, s)
		}
	}
	for i, s := range latest {
		if s.ID == "" {
			g.Waiting = append(g.Waiting, pupils[i])
			continue
		}
		g.Latest = append(g.Latest, s)
		g.Standings[s.Standing]++
		if s.Looked.IsZero() {
			g.Unlooked = append(g.Unlooked, s)
		}
	}
	g.sort(newSorter(t), known, latest, seat)
	return g
}

// sort fills Kinds, Others and their counts. It goes through all showings, not
// only the latest, so as to know the first of each kind.
func (g *Gathering) sort(in *sorter, known, latest []Showing, seat map[string]int) {
	for _, s := range known {
		k := in.kind(s)
		now := latest[seat[s.PupilID]].ID == s.ID
		switch {
		case k == nil && now:
			g.Others = append(g.Others, s)
		case k == nil:
		default:
			if k.First.ID == "" {
				k.First = s
			}
			if now {
				k.add(s)
			}
		}
	}
	for _, k := range in.kinds {
		if len(k.Showings) == 0 {
			continue
		}
		g.Kinds = append(g.Kinds, k.Kind)
		g.Different++
		if k.Fits > 0 {
			g.Fitting++
		}
		if k.Model {
			g.Copies += len(k.Showings)
		}
	}
	slices.SortStableFunc(g.Kinds, func(a, b Kind) int { return cmp.Compare(len(b.Showings), len(a.Showings)) })
}

func (k *sorted) add(s Showing) {
	k.Showings = append(k.Showings, s)
	if s.Standing == task.Fits {
		k.Fits++
	}
}

// sorter puts figures of one task into kinds.
type sorter struct {
	board *board.Board
	kinds []*sorted
	byKey map[string][]*sorted
	model *shape.Polygon
}

// sorted is a kind with the polygon that stands for it.
type sorted struct {
	Kind
	polygon *shape.Polygon
}

func newSorter(t Task) *sorter {
	in := &sorter{byKey: map[string][]*sorted{}}
	in.board, _ = board.Parse(t.Board)
	if t.Model != "" {
		in.model = in.polygon(t.Model)
	}
	return in
}

// kind returns the kind of a showing, made if it is new, or nil if the showing
// is no polygon.
func (in *sorter) kind(s Showing) *sorted {
	p := in.polygon(s.Figure)
	if p == nil {
		return nil
	}
	key := congruenceKey(p)
	for _, k := range in.byKey[key] {
		if shape.Congruent(k.polygon, p) {
			return k
		}
	}
	k := &sorted{polygon: p}
	k.Model = in.model != nil && shape.Congruent(in.model, p)
	in.byKey[key] = append(in.byKey[key], k)
	in.kinds = append(in.kinds, k)
	return k
}

// polygon returns the polygon of a figure, or nil.
func (in *sorter) polygon(figure string) *shape.Polygon {
	if in.board == nil {
		return nil
	}
	f, err := board.ParseFigure(in.board, figure)
	if err != nil {
		return nil
	}
	return polygonOf(f)
}

// congruenceKey returns a text that congruent polygons of one board share: the
// lengths of the sides, sorted, and the area where it is a whole number.
func congruenceKey(p *shape.Polygon) string {
	lengths := make([]board.Length, p.Sides())
	for i := range lengths {
		lengths[i] = p.Length(i)
	}
	slices.Sort(lengths)
	var key strings.Builder
	fmt.Fprint(&key, p.Area2())
	for _, l := range lengths {
		fmt.Fprint(&key, " ", l)
	}
	return key.String()
}
