package closing

import (
	"strings"

	"pegwright/lesson/wording"
	"pegwright/task"
)

// SayIdea returns the idea behind a wrong answer in a language. Where it names a
// mark of the word, that is put into words too: conditions by say, which the
// caller has from package say, and the other marks from the room wording.
func SayIdea(m wording.Message, language string, say func(task.Condition) string) string {
	if mark, ok := m.Fill["Mark"]; ok {
		m.Fill = map[string]string{"Mark": SayMark(mark, language, say)}
	}
	return wording.In(language).Say(m)
}

// SayMark returns a mark of a word, as word.Mark.String writes it, in a language.
func SayMark(mark, language string, say func(task.Condition) string) string {
	if c, err := task.ParseCondition(mark); err == nil {
		return say(c)
	}
	return wording.In(language).Text("mark." + strings.NewReplacer("-", "_", "=", "_").Replace(mark))
}
