package desk

import (
	"testing"

	"github.com/jba/templatecheck"

	"pegwright/web/page"
)

// TestTemplatesFitTheirStructs: html/template would find a misspelt field only
// when someone opens the page.
func TestTemplatesFitTheirStructs(t *testing.T) {
	for name, c := range map[string]struct {
		page *page.Page
		data any
	}{
		"key": {keyTemplate, keyPage{}}, "code": {codeTemplate, codePage{}}, "today": {todayTemplate, todayPage{}},
		"class": {classTemplate, classPage{}}, "run": {runTemplate, runPage{}}, "pupil": {pupilTemplate, pupilPage{}},
		"tap": {tapTemplate, tapPage{}}, "build": {buildTemplate, buildPage{}}, "kept": {keptTemplate, keptPage{}},
	} {
		if err := templatecheck.CheckHTML(c.page.Template().Lookup("frame"), c.data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, data := range map[string]any{
		"task": taskPiece{}, "counts": countsPiece{}, "front": frontPiece{}, "room": roomPiece{}, "figures": figuresPiece{}, "tile": tile{}, "tiles": tilesPiece{},
	} {
		if err := templatecheck.CheckHTML(runTemplate.Template().Lookup(name), data); err != nil {
			t.Errorf("piece %s: %v", name, err)
		}
	}
	if err := templatecheck.CheckHTML(buildTemplate.Template().Lookup("answer"), answerPiece{}); err != nil {
		t.Errorf("answer: %v", err)
	}
}
