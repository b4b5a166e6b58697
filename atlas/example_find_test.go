package atlas_test

import (
	"context"
	"fmt"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/task"
)

func ExampleFind() {
	a, err := atlas.Find(context.Background(), atlas.Question{
		Board: board.MustParse("square:5x5"), Conditions: task.MustParse("sides=7", "fold-lines=1"),
	})
	fmt.Println(a.Possible, a.Complete, a.Count, a.Different, err)
	// Output: true true 3340 604 <nil>
}

func ExampleFind_impossible() {
	a, _ := atlas.Find(context.Background(), atlas.Question{
		Board: board.MustParse("square:5x5"), Conditions: task.MustParse("kind=regular-pentagon"), Elsewhere: true,
	})
	fmt.Println(a.Possible, a.Complete)
	for _, why := range a.Why {
		fmt.Println(why.Theorem)
	}
	fmt.Printf("nearest %s, likeness %.3f\n", a.Nearest[0].Figure, a.Nearest[0].Likeness)
	fmt.Println("possible on", a.Elsewhere[0])
	// Output:
	// false true
	// regular on square pegs
	// odd equilateral
	// nearest A1 D1 E3 C5 A4, likeness 0.989
	// possible on ring:5
}
