package word

import "slices"

// Standard is one item of a curriculum that names words, in a paraphrase of our
// own.
type Standard struct {
	Framework string `yaml:"framework"`
	Code      string `yaml:"code"`
	Grade     string `yaml:"grade"`
	// Checked is "seen" when code and content were held against a stored copy,
	// and "memory" when they still have to be.
	Checked string   `yaml:"checked"`
	EN      string   `yaml:"en"`
	ES      string   `yaml:"es"`
	Words   []string `yaml:"words"`
}

// Text returns the paraphrase in a language, English where there is no other.
func (s Standard) Text(language string) string {
	if language == "es" {
		return s.ES
	}
	return s.EN
}

// Standards lists all standards, in the order of the data file.
func Standards() []Standard { return slices.Clone(book().standards) }

// Frameworks lists the curricula, in the order of the data file.
func Frameworks() []string {
	var out []string
	for _, s := range book().standards {
		if !slices.Contains(out, s.Framework) {
			out = append(out, s.Framework)
		}
	}
	return out
}
