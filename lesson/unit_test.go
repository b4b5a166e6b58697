package lesson_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"pegwright/class"
	"pegwright/lesson"
	"pegwright/lesson/wording"
	"pegwright/shape"
	"pegwright/word"
	"pegwright/word/level"
)

func TestTheUnitHasEightLessonsOfAPeriod(t *testing.T) {
	unit := lesson.Unit()
	if len(unit) != 8 {
		t.Fatalf("%d lessons", len(unit))
	}
	for _, p := range unit {
		if m := p.Minutes(); m < 40 || m > 60 {
			t.Errorf("%s takes %d minutes", p.Name, m)
		}
		var kinds []lesson.Kind
		for _, s := range p.Steps {
			kinds = append(kinds, s.Kind)
		}
		for _, k := range []lesson.Kind{lesson.Note, lesson.Recall, lesson.Teach, lesson.Make, lesson.Close} {
			if !slices.Contains(kinds, k) {
				t.Errorf("%s has no %s step", p.Name, k)
			}
		}
		if found, ok := lesson.Find(p.Name); !ok || found.Title != p.Title {
			t.Errorf("Find(%s) does not find it", p.Name)
		}
	}
	for _, k := range lesson.Kinds() {
		if !slices.ContainsFunc(unit, func(p lesson.Plan) bool {
			return slices.ContainsFunc(p.Steps, func(s lesson.Step) bool { return s.Kind == k })
		}) {
			t.Errorf("no lesson has a %s step", k)
		}
	}
}

// TestOlderWordsWereTaught: what a lesson recalls or comes back to was taught in
// an earlier one, or is new in this one.
func TestOlderWordsWereTaught(t *testing.T) {
	var taught []string
	for _, p := range lesson.Unit() {
		for _, id := range p.Older {
			if !slices.Contains(taught, id) {
				t.Errorf("%s comes back to %s before it was taught", p.Name, id)
			}
		}
		for _, id := range p.Words {
			if slices.Contains(taught, id) {
				t.Errorf("%s teaches %s again", p.Name, id)
			}
		}
		taught = append(taught, p.Words...)
		for _, s := range p.Steps {
			for _, id := range s.Words {
				if !slices.Contains(taught, id) {
					t.Errorf("%s uses %s in a %s step before it was taught", p.Name, id, s.Kind)
				}
			}
		}
	}
	for _, id := range word.IDs() {
		if !slices.Contains(taught, id) {
			t.Errorf("no lesson teaches %s", id)
		}
	}
}

// TestTheUnitCoversTheStandards of job-and-standards.md, section 2, that are
// about naming and sorting plane figures: every word that one of them names is
// taught.
func TestTheUnitCoversTheStandards(t *testing.T) {
	var taught []string
	for _, p := range lesson.Unit() {
		taught = append(taught, p.Words...)
	}
	want := []string{
		"CCSS-M 3.G.A.1", "CCSS-M 4.G.A.1", "CCSS-M 4.G.A.2", "CCSS-M 4.G.A.3", "CCSS-M 4.MD.C.5", "CCSS-M 5.G.B.3", "CCSS-M 5.G.B.4",
		"Texas 4(6)(A)", "Texas 4(6)(B)", "Texas 4(6)(C)", "Texas 4(6)(D)", "Texas 3(6)(B)", "Texas 2(8)(C)",
		"Florida MA.3.GR.1.1", "Florida MA.3.GR.1.2", "Florida MA.3.GR.1.3", "Florida MA.4.GR.1.1", "Florida MA.5.GR.1.1",
		"England Y3 shape", "England Y4 shape", "England Y5 shape", "England 3G-2", "England 4G-2",
		"Ontario gr 4 E1.1", "Ontario gr 4 E2 angles", "Ontario gr 5 E1.1", "Ontario gr 6 E1.1",
		"Australia AC9M2SP01", "Australia AC9M3M05", "Australia AC9M4M04", "Australia AC9M4SP03",
	}
	covered := map[string]bool{}
	for _, s := range word.Standards() {
		all := true
		for _, id := range s.Words {
			all = all && slices.Contains(taught, id)
		}
		covered[s.Framework+" "+s.Code] = all
	}
	for _, code := range want {
		if !covered[code] {
			t.Errorf("the unit does not cover %s", code)
		}
	}
}

// TestEveryTaskIsProved: every built-in task can be done, or is proved
// impossible where that is the point; every way in can be completed; every
// stretch is what it says.
func TestEveryTaskIsProved(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("asks the atlas some sixty questions")
	}
	for _, p := range lesson.Unit() {
		start := time.Now()
		for i, task := range p.Tasks() {
			proof, err := lesson.Prove(context.Background(), task, shape.Definitions{})
			if err != nil {
				t.Fatal(err)
			}
			if len(proof.Faults) > 0 {
				t.Errorf("%s, task %d (%v): %v; stretch %v", p.Name, i+1, task.Conditions.Texts(), proof.Faults, task.Stretched().Texts())
			}
			if proof.Answer.Possible && len(proof.Answer.Examples) < min(lesson.Shown, proof.Answer.Different) {
				t.Errorf("%s, task %d: %d sample answers", p.Name, i+1, len(proof.Answer.Examples))
			}
			if !task.Impossible && (task.WayIn.None() || task.Stretch.Goal == "") {
				t.Errorf("%s, task %d has no way in or no stretch", p.Name, i+1)
			}
		}
		t.Logf("%s: proved in %v", p.Name, time.Since(start).Round(time.Millisecond))
	}
}

// everyText visits the texts of a plan, and whether children read or hear them.
func everyText(p lesson.Plan, visit func(text lesson.Text, child bool)) {
	visit(p.Title, true)
	visit(p.Aim, false)
	for _, s := range p.Steps {
		visit(s.Say, false)
		for _, x := range s.Talk {
			visit(x, true)
		}
		for _, x := range s.Expect {
			visit(x, false)
		}
		for _, x := range s.Tasks {
			visit(x.Say, true)
			visit(x.Because, true)
			visit(x.Stretch.Say, true)
			visit(x.Stretch.Because, true)
		}
	}
}

func TestBothLanguagesAreComplete(t *testing.T) {
	for _, p := range lesson.Unit() {
		everyText(p, func(text lesson.Text, _ bool) {
			if (text.EN == "") != (text.ES == "") || text.EN != "" && text.EN == text.ES {
				t.Errorf("%s: %+v", p.Name, text)
			}
		})
	}
}

func terms() []string {
	var out []string
	for _, w := range word.All() {
		t := w.Text("en", shape.Definitions{})
		out = append(out, t.Name, t.Plural)
	}
	return append(out, "parallel lines", "fold line", "angle", "isosceles", "triangle board")
}

// TestChildrenCanReadIt: grade 3 by Flesch and Kincaid, the taught terms counted
// as one short word each (package level says why).
func TestChildrenCanReadIt(t *testing.T) {
	taught := terms()
	for _, p := range lesson.Unit() {
		everyText(p, func(text lesson.Text, child bool) {
			if g := level.Grade(text.EN, taught); child && g > 3 {
				t.Errorf("%s: grade %.1f: %q", p.Name, g, text.EN)
			}
		})
	}
	for _, id := range []string{"common", "different", "rare", "unusual", "surprise", "near", "trying"} {
		if text := wording.In("en").Text("ask." + id); level.Grade(text, taught) > 3 {
			t.Errorf("grade %.1f: %q", level.Grade(text, taught), text)
		}
	}
}

// TestFeedbackIsThatOfAClass: a task of a plan can be set in a run as it is.
func TestFeedbackIsThatOfAClass(t *testing.T) {
	for _, p := range lesson.Unit() {
		for _, x := range p.Tasks() {
			set := class.Task{Board: x.Board.String(), Conditions: x.Conditions.Texts(), MaxBands: x.Bands, Feedback: class.Feedback(x.Feedback)}
			if err := set.Check(); err != nil {
				t.Errorf("%s: %v", p.Name, err)
			}
		}
	}
	pairs := map[lesson.Feedback]class.Feedback{lesson.NoFeedback: class.NoFeedback, lesson.CountFeedback: class.CountFeedback, lesson.HintFeedback: class.HintFeedback, lesson.AllFeedback: class.AllFeedback}
	for ours, theirs := range pairs {
		if string(ours) != string(theirs) {
			t.Errorf("feedback %s is %s in a class", ours, theirs)
		}
	}
}
