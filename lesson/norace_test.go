//go:build !race

package lesson_test

const raceDetector = false
