package say

import (
	"path/filepath"
	"strings"
	"testing"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// tasks ask for every property in every way, of every figure of the corpus.
var tasks = [][]string{
	{"sides=6"},
	{"sides>=3", "right-angles<=1", "acute-angles>1", "obtuse-angles<2", "reflex-angles!=0"},
	{"parallel-pairs=1", "perpendicular-pairs=1", "equal-sides=2", "side-lengths=1"},
	{"upright-sides=0", "fold-lines=1", "turn-order=2", "pegs-inside=1", "pegs-on-edge=4"},
	{"bands=1", "area=7/2", "perimeter>4√2"},
	{"convex=no"},
	{"convex=yes", "equilateral=yes", "equiangular=no"},
	{"regular=yes", "sides=4"},
	{"regular=yes", "sides=6"},
	{"kind=rhombus"},
	{"kind!=square"},
	{"kind=trapezoid", "upright-sides=0"},
	{"segments=3", "crossing-pairs=1", "meeting-pairs=1"},
}

func TestEveryVerdictIsSaid(t *testing.T) {
	for _, language := range Languages() {
		s := In(language)
		rules := map[task.Rule]bool{}
		ops := map[task.Op]bool{}
		for _, f := range corpus() {
			for _, texts := range tasks {
				v := task.Task{Board: f.Board, Conditions: task.MustParse(texts...)}.Judge(f)
				for _, text := range verdictTexts(s, v) {
					if !sound(text) {
						t.Errorf("%s: %s against %v says %q", language, f, texts, text)
					}
				}
				for _, i := range v.Ideas {
					rules[i.Rule] = true
				}
				if v.Hint != nil {
					ops[v.Hint.Change.Op] = true
				}
			}
		}
		for _, r := range task.Rules() {
			if !rules[r] {
				t.Errorf("%s: no figure of the corpus shows %q", language, r)
			}
		}
		if len(ops) != 3 {
			t.Errorf("%s: of the three changes only %v are said", language, ops)
		}
	}
}

// verdictTexts says everything about a verdict.
func verdictTexts(s *Speaker, v task.Verdict) []string {
	b := v.Reading.Figure.Board
	out := []string{s.Standing(v.Standing)}
	for _, r := range v.Results {
		out = append(out, s.Result(b, r), s.Condition(r.Condition))
	}
	if v.Hint != nil {
		out = append(out, s.Nudge(*v.Hint), s.Change(*v.Hint))
	}
	for _, i := range v.Ideas {
		out = append(out, s.Idea(b, i))
	}
	return out
}

func TestCondition(t *testing.T) {
	for text, want := range map[string][2]string{
		"sides=6":          {"6 sides", "6 lados"},
		"right-angles>=1":  {"at least 1 right angle", "al menos 1 ángulo recto"},
		"kind=rhombus":     {"a rhombus", "un rombo"},
		"kind!=square":     {"not a square", "no es un cuadrado"},
		"convex=no":        {"not convex", "no convexa"},
		"area=7/2":         {"area 7/2", "área 7/2"},
		"fold-lines<2":     {"less than 2 fold lines", "menos de 2 ejes de simetría"},
		"not regular":      {"not regular", "no regular"},
		"kind is dart":     {"a dart", "una punta de flecha"},
		"pegs-inside != 0": {"not 0 pegs inside", "no 0 clavijas dentro"},
	} {
		c := task.MustParse(text)[0]
		if got := [2]string{In("en").Condition(c), In("es").Condition(c)}; got != want {
			t.Errorf("Condition(%s) = %q, want %q", text, got, want)
		}
	}
}

func TestNudgeGivesNoPegAway(t *testing.T) {
	b := board.MustParse("square:5x5")
	f := board.MustParseFigure(b, "A1 E1 E3 A4")
	h := task.Task{Board: b, Conditions: task.MustParse("kind=rectangle")}.Judge(f).Hint
	if h == nil {
		t.Fatal("no hint for a figure one corner away from a rectangle")
	}
	if got, want := In("en").Nudge(*h), "You are one corner away. Think about this: a rectangle."; got != want {
		t.Errorf("Nudge = %q, want %q", got, want)
	}
	if got := In("en").Change(*h); !strings.Contains(got, b.Name(h.Change.From)) {
		t.Errorf("Change = %q names no peg", got)
	}
}

func TestEveryAnswerIsSaid(t *testing.T) {
	b := board.MustParse("square:3x3")
	p, _ := shape.NewPolygon(b, []board.Peg{0, 1, 4, 3})
	for _, language := range Languages() {
		s := In(language)
		for _, name := range constants("Theorem", filepath.Join("..", "atlas", "theorem.go")) {
			if text := s.Why(atlas.Why{Theorem: atlas.Theorem(name)}); !sound(text) {
				t.Errorf("%s: Why(%s) = %q", language, name, text)
			}
		}
		for _, w := range []atlas.Why{{Seen: 3609732, Sides: atlas.Range{Least: 7, Most: 7}}, {Seen: 1, Sides: atlas.Range{Least: 3, Most: 8}}} {
			if text := s.Why(w); !sound(text) || w.Seen > 1 && !strings.Contains(text, "3,609,732") {
				t.Errorf("%s: Why(%+v) = %q", language, w, text)
			}
		}
		near := atlas.Near{Figure: board.MustParseFigure(b, "A1 B1 B2 A2"), Polygon: p, Fails: task.MustParse("sides=5", "regular=yes")}
		for _, text := range []string{
			s.Near(near), s.Elsewhere(atlas.Answer{Elsewhere: []*board.Board{b}}),
			s.Possible(atlas.Answer{Possible: true, Complete: true, Count: 1, Different: 1}),
			s.Possible(atlas.Answer{Possible: true, Count: 5_000_000_000, Different: 2}),
			s.Possible(atlas.Answer{Complete: true}), s.Possible(atlas.Answer{Seen: 9}),
			s.Likeness(shape.Facts{Likeness: 0.99999, SideSpread: 0.1}), s.Likeness(shape.Facts{Regular: true}),
		} {
			if !sound(text) {
				t.Errorf("%s says %q", language, text)
			}
		}
		if s.Elsewhere(atlas.Answer{}) != "" {
			t.Errorf("%s: Elsewhere of no boards says something", language)
		}
	}
}

func TestEveryLabelIsSaid(t *testing.T) {
	for _, language := range Languages() {
		for _, l := range constants("Label", "label.go") {
			if text := In(language).Label(Label(l)); !sound(text) {
				t.Errorf("%s: Label(%s) = %q", language, l, text)
			}
		}
	}
}
