//go:build race

package demo

import "pegwright/class"

var large []class.Task
