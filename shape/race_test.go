//go:build race

package shape_test

// raceDetector leaves out the longest sweeps: the detector slows arithmetic
// down tenfold and finds nothing in it. They run without it.
const raceDetector = true
