//go:build race

package demo

import "pegwright/class"

// raced says that searches take ten times as long. They share nothing that the
// race detector could find.
const raced = true

// thinned returns a few of the tasks.
func thinned(tasks []class.Task) []class.Task { return tasks[:3] }
