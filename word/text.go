package word

import "pegwright/shape"

// Text is what is said of a word in one language. Child, Why, Hint, Do and
// Turned are for children to read, the rest for their teacher.
type Text struct {
	Name    string   `yaml:"name"`
	A       string   `yaml:"a"`
	Plural  string   `yaml:"plural"`
	Child   string   `yaml:"child"`
	Precise string   `yaml:"precise"`
	Why     []string `yaml:"why"`
	Hint    string   `yaml:"hint"`
	Do      string   `yaml:"do"`
	Turned  string   `yaml:"turned"`
	Also    []string `yaml:"also"`
	Note    string   `yaml:"note"`
	Exactly *Wording `yaml:"exactly"`
}

// Wording is a definition in two registers.
type Wording struct {
	Child   string `yaml:"child"`
	Precise string `yaml:"precise"`
}

// Languages lists the languages that the words are written in, English first.
func Languages() []string { return []string{"en", "es"} }

// Text returns what is said of the word in a language, English where nobody
// has translated it. Child and Precise follow the definitions of the class.
func (w Word) Text(language string, d shape.Definitions) Text {
	t, ok := w.texts[language]
	if !ok {
		t = w.texts["en"]
	}
	if t.Exactly != nil && w.narrowed(d) {
		t.Child, t.Precise = t.Exactly.Child, t.Exactly.Precise
	}
	return t
}

// narrowed reports whether the definitions of the class take the narrower
// reading of this word.
func (w Word) narrowed(d shape.Definitions) bool {
	switch w.Kind {
	case shape.Trapezoid:
		return d.TrapezoidExactlyOne
	case shape.Isosceles:
		return d.IsoscelesExactlyTwo
	case shape.Kite:
		return d.KiteNotRhombus
	}
	return false
}
