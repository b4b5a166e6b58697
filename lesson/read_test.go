package lesson_test

import (
	"reflect"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/lesson"
	"pegwright/task"
)

// TestParseReadsEveryPart: a plan with every key there is, held against the
// values it stands for.
func TestParseReadsEveryPart(t *testing.T) {
	p, err := lesson.Parse("full", fullPlan)
	if err != nil {
		t.Fatal(err)
	}
	b := board.MustParse("square:4x4")
	begun := board.MustParseFigure(b, "A1 B1")
	want := lesson.Plan{
		Name: "full", Title: lesson.Text{EN: "Title", ES: "Título"}, Aim: lesson.Text{EN: "An aim"},
		Words: []string{"square", "rhombus"}, Older: []string{"line"},
		Steps: []lesson.Step{
			{Kind: lesson.Note, Minutes: 1, Say: lesson.Text{EN: "A note"}, Expect: []lesson.Text{{EN: "One"}, {EN: "Two", ES: "Dos"}}},
			{Kind: lesson.Make, Minutes: 10, Tasks: []lesson.Task{
				{
					Say: lesson.Text{EN: "Make it"}, Board: b, Conditions: task.MustParse("kind=square", "convex=yes"), Bands: 4, Minutes: 3,
					Feedback: lesson.HintFeedback, WayIn: lesson.WayIn{Begun: &begun},
					Stretch: lesson.Stretch{Goal: lesson.Also, Say: lesson.Text{EN: "More"}, Conditions: task.MustParse("upright-sides=0")},
				},
				{
					Say: lesson.Text{EN: "Try it"}, Board: b, Conditions: task.MustParse("sides=3"), Feedback: lesson.NoFeedback,
					Impossible: true, Because: lesson.Text{EN: "It is"},
				},
			}},
			{Kind: lesson.Gather, Minutes: 3, Of: 2, Talk: []lesson.Text{{EN: "Why?"}}},
			{Kind: lesson.Sort, Minutes: 4, Words: []string{"rhombus"}, From: lesson.FromAtlas},
			{Kind: lesson.Naming, Minutes: 5, Words: []string{"square"}, From: lesson.FromClass},
			{Kind: lesson.Close, Minutes: 6, Items: 5},
		},
	}
	if !reflect.DeepEqual(p, want) {
		t.Errorf("\n got %+v\nwant %+v", p, want)
	}
}

const fullPlan = `
title: {en: Title, es: Título}
aim: An aim
words: [square, rhombus]
older: line
steps:
  - note: 1
    say: A note
    expect: [One, {en: Two, es: Dos}]
  - make: 10
    tasks:
      - say: Make it
        board: SQUARE:4x4
        holds: [kind is square, convex]
        bands: 4
        minutes: 3
        feedback: hint
        way-in: {begin: a1 b1}
        stretch: {also: upright sides = 0, say: More}
      - say: Try it
        board: square:4x4
        holds: sides = 3
        impossible: yes
        because: It is
  - gather: 3
    of: 2
    talk: [Why?]
  - sort: 4
    word: rhombus
    from: atlas
  - name: 5
    words: square
  - close: 6
    items: 5
`

// TestErrorsWithoutAPlace name only the file.
func TestErrorsWithoutAPlace(t *testing.T) {
	_, err := lesson.Parse("mine.yaml", "")
	if err == nil || !strings.HasPrefix(err.Error(), "mine.yaml: the file is empty") {
		t.Errorf("%v", err)
	}
}
