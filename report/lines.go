package report

// Mistake is what is written for a line that cannot be read, in place of a
// reading.
type Mistake struct {
	Error string `json:"error"` // what is wrong, where, and what to do
	Line  int    `json:"line"`  // the number of the line, from 1
}
