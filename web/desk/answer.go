package desk

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"sync"
	"time"

	"pegwright/atlas"
)

func itoa(n int) string { return strconv.Itoa(n) }

// How much is asked of the atlas for a builder, and how long it may take.
const (
	mostExamples = 6
	mostWrong    = 4
	answerLimit  = 4 * time.Second
	mostAnswers  = 200
)

// answers remembers what the atlas answered. One question is asked once,
// however many wait for it, and a search that nobody waits for any more ends.
type answers struct {
	find func(context.Context, atlas.Question) (atlas.Answer, error)
	mu   sync.Mutex
	by   map[string]atlas.Answer
	room chan struct{} // two searches at a time
}

func newAnswers(find func(context.Context, atlas.Question) (atlas.Answer, error)) *answers {
	return &answers{find: find, by: map[string]atlas.Answer{}, room: make(chan struct{}, 2)}
}

// ask answers a question, from memory where it can.
func (a *answers) ask(ctx context.Context, q atlas.Question) (atlas.Answer, error) {
	key := q.Board.String() + "\x00" + strings.Join(q.Conditions.Texts(), "\x00") + definitionsKey(q.Definitions)
	if answer, ok := a.known(key); ok {
		return answer, nil
	}
	select {
	case a.room <- struct{}{}:
		defer func() { <-a.room }()
	case <-ctx.Done():
		return atlas.Answer{}, fmt.Errorf("answer: %w", ctx.Err())
	}
	if answer, ok := a.known(key); ok {
		return answer, nil
	}
	answer, err := a.find(ctx, q)
	if err != nil {
		return answer, err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if len(a.by) >= mostAnswers {
		clear(a.by)
	}
	a.by[key] = answer
	return answer, nil
}

func (a *answers) known(key string) (atlas.Answer, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	answer, ok := a.by[key]
	return answer, ok
}
