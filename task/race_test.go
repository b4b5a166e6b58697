//go:build race

package task_test

// raceEnabled trims the largest sweeps: the race detector slows arithmetic
// down tenfold and finds nothing in it.
const raceEnabled = true
