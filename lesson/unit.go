package lesson

import (
	"embed"
	"slices"
	"strings"
	"sync"
)

//go:embed unit/*.yaml
var files embed.FS

// Unit returns the built-in lessons, in the order in which they are taught.
// They are part of the program, so a fault in one is a fault of the program.
func Unit() []Plan { return slices.Clone(unit()) }

var unit = sync.OnceValue(func() []Plan {
	entries, err := files.ReadDir("unit")
	if err != nil {
		panic(err)
	}
	var out []Plan
	for _, e := range entries {
		text, err := files.ReadFile("unit/" + e.Name())
		if err != nil {
			panic(err)
		}
		p, err := Parse(strings.TrimSuffix(e.Name(), ".yaml"), string(text))
		if err != nil {
			panic(err)
		}
		out = append(out, p)
	}
	return out
})

// Find returns the built-in lesson of a name.
func Find(name string) (Plan, bool) {
	i := slices.IndexFunc(unit(), func(p Plan) bool { return p.Name == name })
	if i < 0 {
		return Plan{}, false
	}
	return unit()[i], true
}
