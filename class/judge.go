package class

import (
	"fmt"
	"time"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

// TaskError says what part of a task as it was set cannot be read.
type TaskError struct {
	Part string // "board", "conditions" or "model"
	Err  error
}

// Error returns one sentence.
func (e *TaskError) Error() string {
	return fmt.Sprintf("this task's %s cannot be read: %v", e.Part, e.Err)
}

// Unwrap returns the error that says why.
func (e *TaskError) Unwrap() error { return e.Err }

// OtherBoardError says that a figure does not belong to the board of its task.
type OtherBoardError struct {
	Board string
	Err   error // a *board.FigureError
}

// Error returns one sentence.
func (e *OtherBoardError) Error() string {
	return fmt.Sprintf("this figure is for another board: %v", e.Err)
}

// Unwrap returns the error that says where.
func (e *OtherBoardError) Unwrap() error { return e.Err }

// Judge holds a figure, as a device wrote it, against a task, as it was set. The
// error is a *TaskError about the task, an *OtherBoardError about a figure with
// a peg that the board does not have, or a *board.FigureError about any other.
func Judge(t Task, figure string) (task.Verdict, error) {
	asked, err := t.Asked()
	if err != nil {
		return task.Verdict{}, err
	}
	f, err := readFigure(asked.Board, figure)
	if err != nil {
		return task.Verdict{}, err
	}
	return asked.Judge(f), nil
}

// Asked returns what a task asks for, with the limit on bands as a condition.
// The error is a *TaskError.
func (t Task) Asked() (task.Task, error) {
	b, err := board.Parse(t.Board)
	if err != nil {
		return task.Task{}, &TaskError{"board", err}
	}
	texts := t.Conditions
	if t.MaxBands > 0 {
		texts = append(texts[:len(texts):len(texts)], fmt.Sprintf("%s<=%d", task.Bands, t.MaxBands))
	}
	conditions, err := task.Parse(texts)
	if err != nil {
		return task.Task{}, &TaskError{"conditions", err}
	}
	return task.Task{Board: b, Conditions: conditions, Definitions: t.Definitions}, nil
}

// Check returns a *TaskError for a task that cannot be set as it is written.
func (t Task) Check() error {
	asked, err := t.Asked()
	if err != nil {
		return err
	}
	if _, err := readFigure(asked.Board, t.Model); err != nil {
		return &TaskError{"model", err}
	}
	return nil
}

func readFigure(b *board.Board, text string) (board.Figure, error) {
	f, err := board.ParseFigure(b, text)
	if bad, ok := err.(*board.FigureError); ok && bad.Rule == board.UnknownPeg {
		return board.Figure{}, &OtherBoardError{b.String(), err}
	}
	return f, err
}

// Polygon returns the polygon that a figure makes on the task's board, or nil
// when it makes none or cannot be read.
func (t Task) Polygon(figure string) *shape.Polygon {
	b, err := board.Parse(t.Board)
	if err != nil {
		return nil
	}
	f, err := board.ParseFigure(b, figure)
	if err != nil {
		return nil
	}
	return polygonOf(f)
}

func polygonOf(f board.Figure) *shape.Polygon {
	outline := shape.Trace(f)
	if outline.Status != shape.ClosedPolygon {
		return nil
	}
	p, _ := shape.NewPolygon(f.Board, outline.Corners)
	return p
}

// Open reports whether the run goes on.
func (r Run) Open() bool { return r.Ended.IsZero() }

// Open reports whether the task is being made.
func (t Task) Open() bool { return t.Ended.IsZero() }

// In reports whether the seat's device is in the room.
func (s Seat) In() bool { return s.Left.IsZero() }

// Deadline returns when the calm timer of a task runs out, and whether it has
// one.
func (t Task) Deadline() (at time.Time, timed bool) {
	if t.Minutes <= 0 {
		return time.Time{}, false
	}
	return t.Started.Add(t.length()), true
}

// Remaining returns how much of the task's time is left, and whether its time
// is limited. However the clock jumps, it is never negative and never more than
// the task's minutes, and nothing ends by itself when it reaches 0.
func (t Task) Remaining(now time.Time) (left time.Duration, timed bool) {
	deadline, timed := t.Deadline()
	if !timed || !t.Open() {
		return 0, timed
	}
	return min(max(deadline.Sub(now), 0), t.length()), true
}

// Extension returns the minutes to add to a timed task so that it goes on for
// at least so many from now, also when its time ran out some while ago.
func (t Task) Extension(now time.Time, minutes int) int {
	deadline, timed := t.Deadline()
	if late := now.Sub(deadline); timed && late > 0 {
		return minutes + int((late+time.Minute-1)/time.Minute)
	}
	return minutes
}

func (t Task) length() time.Duration { return time.Duration(t.Minutes) * time.Minute }
