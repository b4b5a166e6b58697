package class

import (
	"fmt"
	"time"
)

// Plan is a teacher's own plan of a lesson, as a file.
type Plan struct {
	ID      string
	Title   string
	Text    string // the file, as package lesson reads it; it may have mistakes
	Version int    // how often it was saved, from 1
	Updated time.Time
}

// Period is the plan that is taught in a run and how far it has got. The plan is
// the text as it was when the period began, so that changing or deleting the
// file afterwards changes nothing here.
type Period struct {
	RunID   string
	PlanID  string // of a Plan or the name of a built-in lesson; it may be gone
	Plan    string // the text of the plan, as package lesson reads it
	State   string // JSON, as package period reads it
	Version int    // how often a desk has changed it, from 1
	Updated time.Time
}

// StaleError says that somebody else has saved a record in the meantime, so
// that what came now was not kept.
type StaleError struct {
	What  string // "plan" or "period"
	ID    string
	Given int // the version that the change was made on
	Kept  int // the version there is
}

// Error returns one sentence for the teacher.
func (e *StaleError) Error() string {
	return fmt.Sprintf("another desk has changed this %s in the meantime: look at it as it is now, and try again", e.What)
}

// WordMark is how a class did with one word that was called. A call has one
// mark; marking it again replaces it.
type WordMark struct {
	RunID   string
	ClassID string // of the run
	Step    int    // the step of the period
	Call    int    // in the step, from 0
	Word    string
	Mark    string // as word/recall has them: "all", "most", "some" or "few"
	Made    time.Time
}

// Answer is what a pupil answered in a step of a period: to an item of a close
// step, about a card of a sort or name step, or about a partner's board in a
// make step. Answers are only ever added; the last one on an item counts.
type Answer struct {
	ID       string // made by the device, so that a resend is harmless
	RunID    string
	Step     int    // the step of the period
	Item     string // of the step's set, or the showing that a partner checks
	PupilID  string
	AboutID  string // the partner whose board it is about, "" for none
	Body     string // JSON, as package period reads it
	Source   Source
	Right    bool
	Idea     string // behind a wrong answer, as package period writes it, "" for none
	Rules    int    // the RulesVersion it was judged by
	Made     time.Time
	Received time.Time
}
