//go:build !race

package demo

import "pegwright/class"

// large are tasks whose searches take seconds; the race detector makes them
// take minutes, and they share nothing.
var large = []class.Task{
	on("square:5x5", "sides=6"),
	on("square:5x5", "sides=7"),
	on("square:5x5", "kind=square"),
	on("square:7x7", "sides=6"),
}
