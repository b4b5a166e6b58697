package period_test

import (
	"context"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"pegwright/board"
	"pegwright/class"
	"pegwright/lesson"
	"pegwright/lesson/closing"
	"pegwright/lesson/sorting"
	"pegwright/period"
	"pegwright/shape"
	"pegwright/word"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// at is some minutes after noon.
func at(minutes float64) time.Time {
	return noon.Add(time.Duration(minutes * float64(time.Minute)))
}

// triangles is a lesson with every kind of step but gather and name.
var triangles = sync.OnceValue(func() lesson.Plan {
	plan, ok := lesson.Find("5-triangles")
	if !ok {
		panic("the lesson on triangles is gone")
	}
	return plan
})

// three is a plan of three notes of 5, 10 and 15 minutes.
func three() period.State {
	var plan lesson.Plan
	for _, minutes := range []int{5, 10, 15} {
		plan.Steps = append(plan.Steps, lesson.Step{Kind: lesson.Note, Minutes: minutes})
	}
	return period.Begin(plan)
}

func pupils(names ...string) []class.Pupil {
	var out []class.Pupil
	for i, name := range names {
		out = append(out, class.Pupil{ID: name, Number: i + 1, Nickname: name})
	}
	return out
}

// items are closing items on triangles, built once.
var items = sync.OnceValue(func() closing.Forms {
	forms, err := closing.Build(context.Background(), closing.Question{
		Words: words("isosceles-triangle", "right-triangle", "triangle"), Older: words("right-angle", "perpendicular"),
		Board: board.MustParse("square:4x4"), Items: 8, Seed: 3,
	})
	if err != nil {
		panic(err)
	}
	return forms
})

// rhombuses is a set to sort by rhombus, built once.
var rhombuses = sync.OnceValue(func() sorting.Set {
	set, err := sorting.Build(context.Background(), sorting.Question{
		Word: word.MustFind("rhombus"), Board: board.MustParse("square:4x4"), Seed: 1,
	})
	if err != nil {
		panic(err)
	}
	return set
})

// matches are figures to match with kinds of quadrilaterals.
func matches() []sorting.Match {
	b := board.MustParse("square:5x5")
	var figures []board.Figure
	for _, text := range []string{"A1 C1 C3 A3", "A1 D1 D2 A2", "A2 B4 C2 B1", "A1 D1 C3 B3"} {
		figures = append(figures, board.MustParseFigure(b, text))
	}
	return sorting.MatchWords(words(kinds...), figures, shape.Definitions{}, 4, 1)
}

var kinds = []string{"square", "rectangle", "rhombus"}

func words(ids ...string) []word.Word {
	var out []word.Word
	for _, id := range ids {
		out = append(out, word.MustFind(id))
	}
	return out
}

// same compares, with nothing and an empty list being the same.
func same(t testing.TB, name string, got, want any) {
	t.Helper()
	if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("%s: want - got +\n%s", name, diff)
	}
}
