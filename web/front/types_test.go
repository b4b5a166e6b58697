package front

import (
	"testing"

	"github.com/jba/templatecheck"
)

func TestTemplatesFitTheirStructs(t *testing.T) {
	for name, data := range map[string]any{"frame": frontPage{}, "front": view{}, "counts": counts{}} {
		if err := templatecheck.CheckHTML(frontTemplate.Template().Lookup(name), data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
