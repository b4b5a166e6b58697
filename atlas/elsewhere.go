package atlas

import (
	"context"
	"time"

	"pegwright/board"
)

// boardsTried are the boards that elsewhere looks at: those that schools have,
// small ones first within a kind.
var boardsTried = []string{
	"square:3x3", "square:4x4", "square:5x5", "square:6x6", "square:7x7", "square:8x8", "square:10x10", "square:11x11", "square:12x12",
	"triangle:4", "triangle:5", "triangle:6", "triangle:8",
	"ring:5", "ring:6", "ring:7", "ring:8", "ring:9", "ring:10", "ring:11", "ring:12", "ring:24", "ring:12+centre", "ring:24+centre",
}

// The bounds on looking elsewhere.
const (
	elsewhereWanted = 3
	elsewhereEach   = 250 * time.Millisecond
	elsewhereAll    = 2 * time.Second
)

// elsewhere returns boards on which the question has an answer: the first
// few found within a time limit, so a board that is missing may still do.
func elsewhere(ctx context.Context, q Question) []*board.Board {
	ctx, cancel := context.WithTimeout(ctx, elsewhereAll)
	defer cancel()
	var out []*board.Board
	for _, text := range boardsTried {
		b := board.MustParse(text)
		if text == q.Board.String() || !possibleOn(ctx, q, b) {
			continue
		}
		if out = append(out, b); len(out) == elsewhereWanted {
			break
		}
	}
	return out
}

// possibleOn reports whether an answer on another board is found in little
// time.
func possibleOn(ctx context.Context, q Question, b *board.Board) bool {
	ctx, cancel := context.WithTimeout(ctx, elsewhereEach)
	defer cancel()
	q.Board, q.Progress = b, func(float64, int64) {}
	n := newNeed(b, q.Conditions, q.Definitions)
	if len(n.proof()) > 0 {
		return false
	}
	s := newSearch(ctx, q, n)
	s.firstOnly = true
	s.run()
	return s.matches.Load() > 0
}
