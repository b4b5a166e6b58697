package say

import "strings"

// Text returns a message of a screen in messages/ui.*.toml by its id. The
// arguments fill its blanks, by name and value in turn:
//
//	s.Text("run.started", "Class", "Kestrels")
//
// An id that nobody wrote comes out in brackets; the tests of the rooms that
// draw screens see to it that there is none.
func (s *Speaker) Text(id string, args ...any) string { return s.text(id, pairs(args)) }

// Counted returns the form of a message of a screen that goes with n, which
// fills Count. The arguments are as for Text.
func (s *Speaker) Counted(id string, n int, args ...any) string { return s.count(id, n, pairs(args)) }

// List joins things as a sentence does: "A1, B2 and C3".
func (s *Speaker) List(items []string) string { return s.list(items) }

// Capital gives the first letter of a sentence its size.
func (s *Speaker) Capital(text string) string {
	if text == "" {
		return ""
	}
	return capital(text)
}

// Sentence makes a sentence of a text: a capital in front, a full stop behind.
func (s *Speaker) Sentence(text string) string {
	text = s.Capital(text)
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}

// pairs makes a message's fill of names and values in turn; a name without a
// value is left out.
func pairs(args []any) with {
	fill := with{}
	for i := 0; i+1 < len(args); i += 2 {
		if name, ok := args[i].(string); ok {
			fill[name] = args[i+1]
		}
	}
	return fill
}
