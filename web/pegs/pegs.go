// Package pegs holds the board that a hand can work, which the pupils' pages
// and the desk's tap-in share: where its pegs lie on the page, its words and
// its buttons in Go, and beside them the TypeScript that follows fingers and
// keys (start at Board in board.ts).
//
// It decides nothing about figures: the script sends pegs, and whoever hears
// them reads the figure. Start at Bench and LayoutOf.
package pegs

import (
	"bytes"
	"embed"
	"html/template"

	"pegwright/say"
)

//go:embed bench.html tools.html help.html
var files embed.FS

var templates = template.Must(template.ParseFS(files, "*.html"))

// Bench draws the place of a board: where its script puts the pegs, and the
// line that says what to do next.
func Bench(s *say.Speaker) template.HTML { return drawn("bench", s) }

// Tools draws the buttons of a board. They belong inside the same element as
// its Bench.
func Tools(s *say.Speaker) template.HTML { return drawn("tools", s) }

// Help draws how the board is used, folded up.
func Help(s *say.Speaker) template.HTML { return drawn("help", s) }

func drawn(name string, s *say.Speaker) template.HTML {
	var out bytes.Buffer
	// A bytes.Buffer takes everything, and a test draws the templates.
	_ = templates.ExecuteTemplate(&out, name, s)
	return template.HTML(out.String()) //nolint:gosec // made by html/template
}

// texts are the messages that the script needs, by the ids it uses.
var texts = map[string]string{
	"board":           "pegboard.pegboard",
	"peg":             "pegboard.peg",
	"corner":          "pegboard.peg_corner",
	"held":            "pegboard.peg_held",
	"empty":           "pegboard.describe_empty",
	"band":            "pegboard.describe_band",
	"hint_start":      "pegboard.hint_start",
	"hint_peg":        "pegboard.hint_peg",
	"hint_first":      "pegboard.hint_first",
	"hint_open":       "pegboard.hint_open",
	"hint_corner":     "pegboard.hint_corner",
	"hint_side":       "pegboard.hint_side",
	"hint_fresh":      "pegboard.hint_fresh",
	"hint_rest":       "pegboard.hint_rest",
	"refused_again":   "pegboard.again",
	"refused_full":    "pegboard.full",
	"refused_nothing": "pegboard.nothing",
}

// Texts returns the messages that the script needs in a language.
func Texts(s *say.Speaker) map[string]string {
	out := map[string]string{}
	for id, message := range texts {
		out[id] = s.Text(message)
	}
	return out
}
