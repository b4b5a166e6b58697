package desk

import (
	"sync"

	"pegwright/board"
	"pegwright/class"
	"pegwright/shape"
	"pegwright/task"
)

// judged remembers readings and verdicts, which many pieces ask for again and
// again. It forgets everything when it is full.
type judged struct {
	mu       sync.Mutex
	verdicts map[string]task.Verdict
	readings map[string]shape.Reading
}

// mostJudged is how many it remembers of each.
const mostJudged = 2000

func newJudged() *judged {
	return &judged{verdicts: map[string]task.Verdict{}, readings: map[string]shape.Reading{}}
}

// verdict holds a figure against a task.
func (j *judged) verdict(t class.Task, figure string) (task.Verdict, error) {
	key := t.ID + "\x00" + figure
	j.mu.Lock()
	v, ok := j.verdicts[key]
	j.mu.Unlock()
	if ok {
		return v, nil
	}
	v, err := class.Judge(t, figure)
	if err != nil {
		return v, err
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	if len(j.verdicts) >= mostJudged {
		clear(j.verdicts)
	}
	j.verdicts[key] = v
	return v, nil
}

// reading reads a figure on a board; one that cannot be read is an empty
// board.
func (j *judged) reading(b *board.Board, figure string, d shape.Definitions) shape.Reading {
	key := b.String() + "\x00" + figure + definitionsKey(d)
	j.mu.Lock()
	r, ok := j.readings[key]
	j.mu.Unlock()
	if ok {
		return r
	}
	f, err := board.ParseFigure(b, figure)
	if err != nil {
		f = board.Figure{Board: b}
	}
	r = shape.Read(f, d)
	j.mu.Lock()
	defer j.mu.Unlock()
	if len(j.readings) >= mostJudged {
		clear(j.readings)
	}
	j.readings[key] = r
	return r
}

func definitionsKey(d shape.Definitions) string {
	key := []byte("\x00---")
	for i, on := range []bool{d.TrapezoidExactlyOne, d.IsoscelesExactlyTwo, d.KiteNotRhombus} {
		if on {
			key[i+1] = '+'
		}
	}
	return string(key)
}
