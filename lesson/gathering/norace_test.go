//go:build !race

package gathering_test

const raceDetector = false
