//go:build !race

package atlas

const raceEnabled = false
