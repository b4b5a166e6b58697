package task_test

import (
	"fmt"

	"pegwright/board"
	"pegwright/task"
)

func ExampleParse() {
	_, err := task.Parse([]string{"sides = 4", "kind is regular hexagon"})
	fmt.Println(err)
	_, err = task.Parse([]string{"fold linse >= 1"})
	fmt.Println(err)
	// Output:
	// condition "kind=regular-hexagon": it contradicts "sides=4" (kind=regular-hexagon means sides=6); change or leave out one of the two
	// condition "fold linse >= 1": there is no property "fold-linse"; did you mean fold-lines?
}

func ExampleTask_Judge() {
	job := task.Task{Board: board.MustParse("square:5x5"), Conditions: task.MustParse("kind=square")}
	v := job.Judge(board.MustParseFigure(job.Board, "A1 D1 C3 A3"))
	fmt.Println(v.Standing, "-", v.Hint.Change.Op, job.Board.Name(v.Hint.Change.From), "to", job.Board.Name(v.Hint.Change.To))
	v = job.Judge(board.MustParseFigure(job.Board, "A1 B4 E5 D2"))
	fmt.Println(v.Standing, "-", v.Results[0].Actual.Kind, "-", v.Ideas[0].Rule)
	// Output:
	// nearly - move D1 to C1
	// not yet - rhombus - equal sides are enough
}
