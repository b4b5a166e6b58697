// Package word holds the vocabulary that a class learns, from point to
// dodecagon: for each word what decides it, its wordings for children and for
// teachers, pictures, near misses with the one mark that each fails, an action
// for the stand-up review, the words it is confused with, and the standards
// that name it.
//
// Structure lies in data/words.yaml, texts in one file a language. Which words
// a lesson uses, and in what order they are called, is decided elsewhere; start
// reading at Find and Word.Fails.
package word

import (
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	"pegwright/shape"
	"pegwright/task"
)

// Word is a term that the class learns.
type Word struct {
	ID       string
	Marks    []Mark     // a picture has the word exactly when all hold
	Kind     shape.Name // the kernel's own name for it, if it has one
	Source   string     // of the definition
	Show     []Picture  // the usual picture first, then turned ones
	Not      []NonExample
	Action   Action
	Confused []string // words that children take for it

	texts map[string]Text
}

// NonExample is a picture that does not have a word, with the one mark that it
// fails. The reasons are Text.Why, in the same order.
type NonExample struct {
	Picture Picture
	Fails   Mark
}

// All lists the words in the order in which they are taught.
func All() []Word { return slices.Clone(book().words) }

// IDs lists the ids of all words, in the order of All.
func IDs() []string {
	out := make([]string, len(book().words))
	for i, w := range book().words {
		out[i] = w.ID
	}
	return out
}

// Find returns the word of an id.
func Find(id string) (Word, bool) {
	i := slices.IndexFunc(book().words, func(w Word) bool { return w.ID == id })
	if i < 0 {
		return Word{}, false
	}
	return book().words[i], true
}

// MustFind is Find for ids known to be good; it panics on others.
func MustFind(id string) Word {
	w, ok := Find(id)
	if !ok {
		panic("word: no word " + id)
	}
	return w
}

// Nearest returns the id that a misspelt one most likely means, if any is near.
func Nearest(id string) (string, bool) {
	id = strings.ToLower(strings.TrimSpace(id))
	if len(id) > 60 {
		return "", false
	}
	best, least := "", 1+len([]rune(id))/2
	for _, other := range IDs() {
		if d := levenshtein.ComputeDistance(id, other); d < least {
			best, least = other, d
		}
	}
	return best, best != ""
}

// Fails returns the marks of the word that a picture lacks, none exactly when
// the picture has the word.
func (w Word) Fails(p Picture, d shape.Definitions) []Mark {
	s := scene{Picture: p, reading: shape.Read(p.Figure, d), lines: w.AboutLines()}
	var out []Mark
	for _, m := range w.Marks {
		if !m.holds(s) {
			out = append(out, m)
		}
	}
	return out
}

// Holds reports whether a picture has the word.
func (w Word) Holds(p Picture, d shape.Definitions) bool { return len(w.Fails(p, d)) == 0 }

// Lacks returns the marks of a word of polygons that a polygon lacks.
func (w Word) Lacks(p *shape.Polygon, d shape.Definitions) task.Conditions {
	var out task.Conditions
	for _, c := range w.Conditions() {
		if !c.Holds(p, d) {
			out = append(out, c)
		}
	}
	return out
}

// OfPolygons reports whether a single polygon decides the word: a rhombus is
// one, a diagonal or a pair of parallel lines is not.
func (w Word) OfPolygons() bool { return len(w.Conditions()) > 0 && !w.AboutLines() }

// AboutLines reports whether the word is about straight pieces.
func (w Word) AboutLines() bool {
	return slices.ContainsFunc(w.Marks, func(m Mark) bool {
		return m.condition != nil && task.Conditions{*m.condition}.AboutLines()
	})
}

// Conditions returns the marks as conditions of a task, or none when a task
// cannot ask for the word.
func (w Word) Conditions() task.Conditions {
	var out task.Conditions
	for _, m := range w.Marks {
		if m.condition == nil {
			return nil
		}
		out = append(out, *m.condition)
	}
	return out
}

// Standards returns the standards that name the word.
func (w Word) Standards() []Standard {
	var out []Standard
	for _, s := range book().standards {
		if slices.Contains(s.Words, w.ID) {
			out = append(out, s)
		}
	}
	return out
}
