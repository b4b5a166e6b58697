package demo

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync/atomic"
	"time"

	"pegwright/board"
	"pegwright/class"
)

// worker is a simulated pupil at work.
type worker struct {
	*classroom
	Pupil
	seat   *Seat
	hangUp func()      // ends the stream; nil before the first
	cut    atomic.Bool // the network is down
}

// live joins the room and works on each task until the context ends or the
// pupil is sent out.
func (w *worker) live(ctx context.Context) error {
	random := rand.New(rand.NewPCG(w.Seed, uint64(w.Number)))
	// Nobody is at the door at the same moment.
	if err := w.Pause(ctx, varied(paces[Quick].think, random)); err != nil {
		return err
	}
	if err := w.retry(ctx, func() error { return w.seat.Join(ctx, w.Run.RoomWord, w.Run.ID, w.ID) }); err != nil {
		return err
	}
	tasks, done := make(chan string, 1), make(chan error, 1)
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	go func() { done <- w.listen(ctx, tasks) }()
	return w.follow(ctx, tasks, done)
}

// follow works on the latest task and drops it for the next.
func (w *worker) follow(ctx context.Context, tasks <-chan string, done <-chan error) error {
	stop := func() {}
	defer func() { stop() }()
	for at := ""; ; {
		select {
		case err := <-done:
			return err
		case id := <-tasks:
			if id == at {
				continue
			}
			stop()
			at, stop = id, w.begin(ctx, id)
		}
	}
}

// begin starts work on a task; the function it returns ends it.
func (w *worker) begin(ctx context.Context, taskID string) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		if taskID == "" {
			return
		}
		if err := w.make(ctx, taskID); err != nil && ctx.Err() == nil {
			w.Log.WarnContext(ctx, "simulated pupil stopped", "seat", w.Number, "err", err)
		}
	}()
	return func() { cancel(); <-ended }
}

// listen keeps the stream open and hands on which task is being made, "" for
// none; it returns when the pupil is out or the context ends.
func (w *worker) listen(ctx context.Context, tasks chan string) error {
	for {
		if !w.cut.Load() {
			if err := w.hear(ctx, tasks); errors.Is(err, ErrOut) {
				return err
			}
		}
		if err := w.Pause(ctx, time.Second); err != nil {
			return err
		}
	}
}

// hear listens to one stream until it breaks.
func (w *worker) hear(ctx context.Context, tasks chan string) error {
	ctx, end := context.WithCancel(ctx)
	defer end()
	w.mu.Lock()
	w.hangUp = end
	w.mu.Unlock()
	var failed error
	err := w.seat.Listen(ctx, func(pieces []string) {
		if pieces != nil && !slices.Contains(pieces, "task") {
			return
		}
		st, err := w.seat.State(ctx)
		if err != nil {
			failed = err
			end()
			return
		}
		latest(tasks, st.Task)
	})
	return errors.Join(failed, err)
}

// latest puts a value into a channel with room for one, in the place of an
// older one.
func latest(c chan string, v string) {
	select {
	case <-c:
	default:
	}
	c <- v
}

// goes is how many figures a pupil makes for one task.
const goes = 3

// make works on a task: a figure, perhaps a second go after hearing that it
// does not fit, and then another one.
func (w *worker) make(ctx context.Context, taskID string) error {
	t, choices, err := w.work(ctx, taskID)
	if err != nil {
		return err
	}
	random := rand.New(rand.NewPCG(w.Seed, uint64(w.Number)<<16|uint64(t.Ordinal)))
	beside := ""
	if w.Character == Copier && w.Beside != "" {
		if beside, err = w.table(t.ID).see(ctx, w.Beside); err != nil {
			return err
		}
	}
	if err := w.Pause(ctx, varied(w.Character.pace().think, random)); err != nil {
		return err
	}
	var made []string
	for f, ok := choices.First(w.Character, random, beside), true; ok; f, ok = w.next(choices, f, made, t, random) {
		if err := w.one(ctx, t, f, random); err != nil {
			return err
		}
		if made = append(made, f.String()); len(made) == goes {
			return nil
		}
		if err := w.Pause(ctx, varied(w.Character.pace().rest, random)); err != nil {
			return err
		}
	}
	return nil
}

// next returns the figure of the next go: one that mends the last where the
// seat said something and the pupil heeds it, another one after one that fits.
func (w *worker) next(choices *Choices, last board.Figure, made []string, t class.Task, random *rand.Rand) (board.Figure, bool) {
	again, wrong := choices.Again(last, random)
	if wrong {
		return again, t.Feedback != class.NoFeedback && w.Character.heeds(random)
	}
	if w.Character == Copier || w.Character == Slow || random.IntN(2) == 0 {
		return last, false
	}
	return choices.Another(made, random)
}

// one makes one figure, peg by peg, and shows it.
func (w *worker) one(ctx context.Context, t class.Task, f board.Figure, random *rand.Rand) error {
	pace := w.Character.pace()
	for _, step := range steps(f) {
		err := w.retry(ctx, func() error { return w.seat.Move(ctx, t.ID, step) })
		if err != nil {
			return fmt.Errorf("move: %w", err)
		}
		if err := w.Pause(ctx, varied(pace.peg, random)); err != nil {
			return err
		}
	}
	w.table(t.ID).put(w.ID, f.String())
	if err := w.Pause(ctx, varied(pace.look, random)); err != nil {
		return err
	}
	return w.show(ctx, t, f, random)
}

// steps are the boards on the way to a figure: each band is stretched from peg
// to peg.
func steps(f board.Figure) []string {
	var out []string
	for i, band := range f.Bands {
		for n := 2; n <= len(band); n++ {
			part := board.Figure{Board: f.Board, Bands: append(slices.Clone(f.Bands[:i]), band[:n])}
			out = append(out, part.String())
		}
	}
	return out
}

// show hands a figure in. Whoever is off the network keeps it on the device
// and sends it on coming back.
func (w *worker) show(ctx context.Context, t class.Task, f board.Figure, random *rand.Rand) error {
	showing := Showing{
		ID: class.NewID(w.Random), Task: t.ID, Figure: f.String(), Made: w.Now().UnixMilli(),
	}
	if w.Character == Dropper {
		if err := w.dropOff(ctx, random); err != nil {
			return err
		}
	}
	return w.retry(ctx, func() error {
		_, err := w.seat.Show(ctx, showing)
		return err
	})
}

// dropOff cuts the network for a while.
func (w *worker) dropOff(ctx context.Context, random *rand.Rand) error {
	w.cut.Store(true)
	defer w.cut.Store(false)
	w.mu.Lock()
	end := w.hangUp
	w.mu.Unlock()
	if end != nil {
		end()
	}
	return w.Pause(ctx, varied(away, random))
}
