//go:build !race

package word_test

const raceDetector = false
