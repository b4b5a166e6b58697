package seat

import (
	"testing"

	"github.com/jba/templatecheck"

	"pegwright/web/page"
)

func TestTemplatesFitTheirStructs(t *testing.T) {
	for name, tt := range map[string]struct {
		page *page.Page
		data any
	}{
		"board": {boardTemplate, boardPage{}},
		"join":  {joinTemplate, joinPage{}},
		"room":  {roomTemplate, roomPage{}},
		"plain": {plainTemplate, plainPage{}},
	} {
		if err := templatecheck.CheckHTML(tt.page.Template().Lookup("frame"), tt.data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
