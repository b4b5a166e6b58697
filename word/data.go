package word

import (
	"embed"
	"fmt"
	"slices"
	"sync"

	"github.com/goccy/go-yaml"

	"pegwright/shape"
)

//go:embed data/*.yaml
var files embed.FS

// pages is everything in the data files.
type pages struct {
	words     []Word
	standards []Standard
}

// book reads the data files, once. They are part of the program, so a fault in
// them is a fault of the program.
var book = sync.OnceValue(func() pages {
	p, err := read()
	if err != nil {
		panic("word: " + err.Error())
	}
	return p
})

// entry is a word as words.yaml writes it.
type entry struct {
	ID       string         `yaml:"id"`
	Marks    []string       `yaml:"marks"`
	Kind     string         `yaml:"kind"`
	Source   string         `yaml:"source"`
	Show     []pictureEntry `yaml:"show"`
	Not      []pictureEntry `yaml:"not"`
	Action   actionEntry    `yaml:"action"`
	Confused string         `yaml:"confused"`
}

type pictureEntry struct {
	Board  string `yaml:"board"`
	Figure string `yaml:"figure"`
	Pegs   string `yaml:"pegs"`
	Line   string `yaml:"line"`
	On     string `yaml:"on"`
	Fails  string `yaml:"fails"`
}

type actionEntry struct {
	Poses  []poseEntry `yaml:"poses"`
	Turned []poseEntry `yaml:"turned"`
}

type poseEntry struct {
	Left  string `yaml:"left"`
	Right string `yaml:"right"`
}

func read() (pages, error) {
	var entries []entry
	if err := load("words", &entries); err != nil {
		return pages{}, err
	}
	texts := map[string]map[string]Text{}
	for _, language := range Languages() {
		var t map[string]Text
		if err := load(language, &t); err != nil {
			return pages{}, err
		}
		texts[language] = t
	}
	var out pages
	if err := load("standards", &out.standards); err != nil {
		return pages{}, err
	}
	for _, e := range entries {
		w, err := e.word()
		if err != nil {
			return pages{}, fmt.Errorf("%s: %w", e.ID, err)
		}
		w.texts = map[string]Text{}
		for language, t := range texts {
			w.texts[language] = t[e.ID]
		}
		out.words = append(out.words, w)
	}
	joinConfused(out.words, entries)
	return out, nil
}

// load reads a data file strictly: a key that nobody knows is an error.
func load(name string, into any) error {
	data, err := files.ReadFile("data/" + name + ".yaml")
	if err != nil {
		return err
	}
	if err := yaml.UnmarshalWithOptions(data, into, yaml.Strict()); err != nil {
		return fmt.Errorf("%s.yaml: %w", name, err)
	}
	return nil
}

func (e entry) word() (Word, error) {
	w := Word{ID: e.ID, Source: e.Source}
	var err error
	for _, text := range e.Marks {
		m, err := parseMark(text)
		if err != nil {
			return Word{}, err
		}
		w.Marks = append(w.Marks, m)
	}
	w.Kind = shape.Name(e.Kind)
	for _, p := range e.Show {
		picture, err := p.picture()
		if err != nil {
			return Word{}, err
		}
		w.Show = append(w.Show, picture)
	}
	for _, p := range e.Not {
		n, err := w.nonExample(p)
		if err != nil {
			return Word{}, err
		}
		w.Not = append(w.Not, n)
	}
	if w.Action.Poses, err = poses(e.Action.Poses); err != nil {
		return Word{}, err
	}
	w.Action.Turned, err = poses(e.Action.Turned)
	return w, err
}

func (p pictureEntry) picture() (Picture, error) {
	return parsePicture(p.Board, p.Figure, p.Pegs, p.Line, p.On)
}

func (w Word) nonExample(p pictureEntry) (NonExample, error) {
	picture, err := p.picture()
	if err != nil {
		return NonExample{}, err
	}
	i := slices.IndexFunc(w.Marks, func(m Mark) bool { return m.text == p.Fails })
	if i < 0 {
		return NonExample{}, fmt.Errorf("a non-example fails %q, which is no mark of the word", p.Fails)
	}
	return NonExample{picture, w.Marks[i]}, nil
}

func poses(entries []poseEntry) ([]Pose, error) {
	var out []Pose
	for _, e := range entries {
		left, err := parseArm(e.Left)
		if err != nil {
			return nil, err
		}
		right, err := parseArm(e.Right)
		if err != nil {
			return nil, err
		}
		out = append(out, Pose{left, right})
	}
	return out, nil
}

// joinConfused makes pairs that stand once in the data known to both words.
func joinConfused(words []Word, entries []entry) {
	at := func(id string) int { return slices.IndexFunc(words, func(w Word) bool { return w.ID == id }) }
	for i, e := range entries {
		if j := at(e.Confused); j >= 0 {
			words[i].Confused = append(words[i].Confused, words[j].ID)
			words[j].Confused = append(words[j].Confused, words[i].ID)
		}
	}
}
