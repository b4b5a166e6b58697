//go:build !race

package sorting_test

const raceDetector = false
