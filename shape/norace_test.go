//go:build !race

package shape_test

const raceDetector = false
