//go:build !race

package demo

import "pegwright/class"

const raced = false

// thinned returns all tasks, and some whose searches take seconds.
func thinned(tasks []class.Task) []class.Task {
	return append(tasks, on("square:5x5", "sides=6"), on("square:5x5", "sides=7"), on("square:5x5", "kind=square"), on("square:7x7", "sides=6"))
}
