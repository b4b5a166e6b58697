package lesson

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// String returns the plan as a file that Parse reads.
func (p Plan) String() string {
	w := &writer{}
	w.text("title", p.Title)
	w.text("aim", p.Aim)
	w.list("words", p.Words)
	w.list("older", p.Older)
	w.key("steps")
	for _, s := range p.Steps {
		w.step(s)
	}
	return w.out.String()
}

// writer writes YAML in block style, two spaces deeper at each level.
type writer struct {
	out   strings.Builder
	depth int
	first bool // the next line begins an entry of a list
}

func (w *writer) line(format string, args ...any) {
	indent := strings.Repeat("  ", w.depth)
	if w.first {
		indent = indent[:len(indent)-2] + "- "
		w.first = false
	}
	fmt.Fprintf(&w.out, indent+format+"\n", args...)
}

func (w *writer) key(name string) { w.line("%s:", name) }

// entry writes one entry of a list.
func (w *writer) entry(write func()) {
	w.depth += 2
	w.first = true
	write()
	w.first = false
	w.depth -= 2
}

func (w *writer) deeper(write func()) {
	w.depth++
	write()
	w.depth--
}

func (w *writer) text(name string, t Text) {
	switch {
	case t.EN == "":
	case t.ES == "":
		w.line("%s: %s", name, quoted(t.EN))
	default:
		w.key(name)
		w.deeper(func() {
			w.line("en: %s", quoted(t.EN))
			w.line("es: %s", quoted(t.ES))
		})
	}
}

func (w *writer) texts(name string, list []Text) {
	if len(list) == 0 {
		return
	}
	w.key(name)
	for _, t := range list {
		w.entry(func() {
			if t.ES == "" {
				w.line("%s", quoted(t.EN))
				return
			}
			w.line("en: %s", quoted(t.EN))
			w.line("es: %s", quoted(t.ES))
		})
	}
}

// list writes short words on one line.
func (w *writer) list(name string, items []string) {
	if len(items) == 0 {
		return
	}
	w.line("%s: [%s]", name, strings.Join(items, ", "))
}

func (w *writer) step(s Step) {
	w.entry(func() {
		w.line("%s: %d", s.Kind, s.Minutes)
		w.text("say", s.Say)
		switch s.Kind {
		case Sort:
			w.line("word: %s", s.Words[0])
			w.line("from: %s", s.From)
		case Naming:
			w.list("words", s.Words)
			w.line("from: %s", s.From)
		case Gather:
			w.line("of: %d", s.Of)
		case Close:
			w.line("items: %d", s.Items)
		case Make:
			w.key("tasks")
			for _, t := range s.Tasks {
				w.task(t)
			}
		default:
			w.list("words", s.Words)
		}
		w.texts("talk", s.Talk)
		w.texts("expect", s.Expect)
	})
}

func (w *writer) task(t Task) {
	w.entry(func() {
		w.text("say", t.Say)
		w.line("board: %s", t.Board)
		w.list("holds", conditionTexts(t.Conditions.Texts()))
		if t.Bands > 0 {
			w.line("bands: %d", t.Bands)
		}
		if t.Minutes > 0 {
			w.line("minutes: %d", t.Minutes)
		}
		w.line("feedback: %s", t.Feedback)
		if t.Impossible {
			w.line("impossible: yes")
			w.text("because", t.Because)
		}
		w.wayIn(t.WayIn)
		w.stretch(t.Stretch)
	})
}

// conditionTexts quotes conditions where a list on one line needs it.
func conditionTexts(texts []string) []string {
	out := slices.Clone(texts)
	for i, t := range out {
		if !plainCondition.MatchString(t) {
			out[i] = strconv.Quote(t)
		}
	}
	return out
}

var plainCondition = regexp.MustCompile(`^[a-z][a-z-]*=[a-z0-9-]+$`)

func (w *writer) wayIn(in WayIn) {
	if in.None() {
		return
	}
	w.key("way-in")
	w.deeper(func() {
		switch {
		case in.Begun != nil:
			w.line("begin: %s", quoted(in.Begun.String()))
		case in.Board != nil:
			w.line("board: %s", in.Board)
		default:
			w.line("word: %s", in.Word)
		}
	})
}

func (w *writer) stretch(s Stretch) {
	if s.Goal == "" {
		return
	}
	w.key("stretch")
	w.deeper(func() {
		switch s.Goal {
		case Another:
			w.line("another: yes")
		case Largest:
			w.line("largest: %s", strings.TrimPrefix(s.Area.Texts()[0], "area="))
		default:
			w.list(string(s.Goal), conditionTexts(s.Conditions.Texts()))
		}
		w.text("say", s.Say)
		w.text("because", s.Because)
	})
}

// plain are texts that YAML takes as they are: they begin with a letter and hold
// no sign that means something. Whatever else there is gets quotation marks.
var (
	plain    = regexp.MustCompile(`^[\p{L}][\p{L}\p{N} .,;?!'’()=+-]*$`)
	reserved = []string{"true", "false", "yes", "no", "on", "off", "null", "nan", "inf", "y", "n"}
)

func quoted(text string) string {
	if plain.MatchString(text) && !slices.Contains(reserved, strings.ToLower(text)) {
		return text
	}
	// Only these two need escapes: control signs are refused by Parse.
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
