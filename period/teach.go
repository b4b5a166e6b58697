package period

import "pegwright/word"

// Teach is the state of a teach step: which picture of which word is shown.
type Teach struct {
	Slides []Slide `json:"slides,omitempty"`
	At     int     `json:"at"`
}

// Slide is one picture of a word, an example or a non-example.
type Slide struct {
	Word  string `json:"word"`
	Not   bool   `json:"not,omitempty"` // a non-example
	Index int    `json:"index"`         // in word.Word's Show or Not
}

// slides lists the pictures of words: of each word the usual picture, then a
// non-example and a turned example by turns. A word without pictures, or one
// that is not in the vocabulary, has one slide, so that it is not passed over.
func slides(ids []string) []Slide {
	var out []Slide
	for _, id := range ids {
		w, _ := word.Find(id)
		out = append(out, Slide{Word: id})
		for i := range max(len(w.Show)-1, len(w.Not)) {
			if i < len(w.Not) {
				out = append(out, Slide{Word: id, Not: true, Index: i})
			}
			if i+1 < len(w.Show) {
				out = append(out, Slide{Word: id, Index: i + 1})
			}
		}
	}
	return out
}

// Slide returns the present slide, and whether there is one.
func (t Teach) Slide() (Slide, bool) {
	if t.At < 0 || t.At >= len(t.Slides) {
		return Slide{}, false
	}
	return t.Slides[t.At], true
}

// Next shows the next picture; the last one stays.
func (t Teach) Next() Teach { return t.GoTo(t.At + 1) }

// Previous shows the picture before.
func (t Teach) Previous() Teach { return t.GoTo(t.At - 1) }

// GoTo shows a picture by its index, or the nearest one.
func (t Teach) GoTo(at int) Teach {
	t.At = clamp(at, len(t.Slides))
	return t
}

// GoToWord shows the first picture of a word.
func (t Teach) GoToWord(id string) Teach {
	for i, s := range t.Slides {
		if s.Word == id {
			return t.GoTo(i)
		}
	}
	return t
}

// Picture returns the picture of a slide, and false when the word has none or is
// no longer in the vocabulary.
func (s Slide) Picture() (word.Picture, bool) {
	w, _ := word.Find(s.Word)
	switch {
	case s.Index < 0:
	case s.Not && s.Index < len(w.Not):
		return w.Not[s.Index].Picture, true
	case !s.Not && s.Index < len(w.Show):
		return w.Show[s.Index], true
	}
	return word.Picture{}, false
}
