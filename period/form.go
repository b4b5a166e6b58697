package period

import (
	"fmt"
	"maps"

	"pegwright/class"
)

// Form is one of two parallel forms of a set, so that neighbours have the same
// to think about on different figures.
type Form string

// The forms.
const (
	FormA Form = "a"
	FormB Form = "b"
)

// name names an item of a form, counted from 0: "a1", and "a1.2" when the set was
// built for the second time, so that no answer counts for what it was not given to.
func (f Form) name(i, built int) string {
	if built > 1 {
		return fmt.Sprintf("%s%d.%d", f, i+1, built)
	}
	return fmt.Sprintf("%s%d", f, i+1)
}

// assign gives a form to every pupil who has none yet: another one than the
// neighbour before, by group and number. Nobody's form changes.
func assign(forms map[string]Form, pupils []class.Pupil) map[string]Form {
	out := maps.Clone(forms)
	if out == nil {
		out = map[string]Form{}
	}
	last := FormB
	for _, p := range seated(pupils) {
		if _, has := out[p.ID]; !has {
			out[p.ID] = FormA
			if last == FormA {
				out[p.ID] = FormB
			}
		}
		last = out[p.ID]
	}
	return out
}

// formOf chooses the list of a pupil: that of the form, or the first when there is
// only one or the pupil has none.
func formOf[T any](a, b []T, forms map[string]Form, pupilID string) []T {
	if forms[pupilID] == FormB && len(b) > 0 {
		return b
	}
	return a
}
