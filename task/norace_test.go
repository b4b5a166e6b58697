//go:build !race

package task_test

const raceEnabled = false
