//go:build race

package closing_test

// raceDetector leaves out the sweeps over whole boards: the detector slows
// arithmetic down tenfold and finds nothing in it.
const raceDetector = true
