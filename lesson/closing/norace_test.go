//go:build !race

package closing_test

const raceDetector = false
