// Package class holds the records of a class at work: pupils by nickname, runs
// of a lesson, the tasks set in them, and the figures that pupils hand in,
// with the rules about them. It knows neither SQL nor pages.
//
// Start at Run, Task and Showing.
package class

import (
	"errors"
	"time"

	"pegwright/shape"
	"pegwright/task"
)

// What callers branch on, wrapped with the way there.
var (
	ErrNotFound  = errors.New("not found")                // a record that was asked for is not there
	ErrWordTaken = errors.New("room word taken")          // another open run has it
	ErrNameTaken = errors.New("nickname taken")           // another pupil of the class has it
	ErrSeatTaken = errors.New("seat taken")               // another device sits there
	ErrDifferent = errors.New("different showing")        // another showing has the same ID
	ErrOver      = errors.New("this run is already over") // a task for a run that has ended
)

// RulesVersion is the version of the rules that verdicts are made by. It goes
// up whenever a figure could be judged differently, and showings with an older
// version can be judged again.
const RulesVersion = 1

// Class is a group of pupils taught together.
type Class struct {
	ID          string
	Name        string
	Language    string // of the seats: "en" or "es"
	Definitions shape.Definitions
	Created     time.Time
}

// Pupil is a nickname and a number in a class; never an account.
type Pupil struct {
	ID       string
	ClassID  string
	Number   int // from 1, in the order of the class list
	Nickname string
	Group    string // the table group, "" for none
}

// Run is a lesson being taught to a class on a day.
type Run struct {
	ID       string
	ClassID  string
	RoomWord string // two short words, "amber-otter", unique among open runs
	Started  time.Time
	Ended    time.Time // zero while it runs
}

// Feedback says how much a seat tells its pupil about a showing.
type Feedback string

// The feedback policies, from nothing to everything.
const (
	NoFeedback    Feedback = "none"
	CountFeedback Feedback = "count"
	HintFeedback  Feedback = "hint"
	AllFeedback   Feedback = "all"
)

// Task is a task as it was set in a run.
type Task struct {
	ID          string
	RunID       string
	Ordinal     int    // from 1 in its run
	Words       string // to the pupils
	Board       string // as board.Parse reads it
	Conditions  []string
	Definitions shape.Definitions
	MaxBands    int // 0 for any number
	Minutes     int // 0 for no limit
	Feedback    Feedback
	Model       string // the figure shown as a model, "" for none
	Started     time.Time
	Ended       time.Time // zero while it is being made
}

// Source says where a showing came from.
type Source string

// The sources.
const (
	FromSeat  Source = "seat"
	FromDesk  Source = "desk"
	FromPaper Source = "paper"
)

// Showing is a figure that a pupil handed in. Showings are only ever added.
type Showing struct {
	ID       string // made by the device, so that a resend is harmless
	RunID    string
	TaskID   string
	PupilID  string
	Figure   string // as board.ParseFigure reads it on the task's board
	Source   Source
	Standing task.Standing
	Rules    int       // the RulesVersion it was judged by
	Made     time.Time // by the device's clock, which may be wrong
	Received time.Time
	Looked   time.Time // when the teacher first opened it, zero before
}

// Seat is a device that a pupil has taken a place with.
type Seat struct {
	ID        string
	RunID     string
	PupilID   string
	TokenHash string // SHA-256 of the cookie, hex
	Joined    time.Time
	Left      time.Time // zero while it is in
}

// FrontKind says what kind of thing the front shows.
type FrontKind string

// What the front can show.
const (
	FrontBlank  FrontKind = "blank"
	FrontJoin   FrontKind = "join" // the room word, address and code
	FrontTask   FrontKind = "task"
	FrontBoards FrontKind = "boards" // showings, without names
)

// FrontView is what the front shows now.
type FrontView struct {
	Kind     FrontKind
	Showings []string // IDs, for FrontBoards
	Standing bool     // whether verdicts are shown beside the boards
}
