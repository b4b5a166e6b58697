package class

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
)

// Forget returns a text holding JSON without any of the IDs: every member of an
// object whose name or value is one of them goes, and every such element of a
// list. Nothing else changes but the order of members and the spaces. The second
// result reports whether anything went; if not, the text is as it was.
func Forget(text string, ids []string) (kept string, changed bool, err error) {
	var value any
	in := json.NewDecoder(bytes.NewReader([]byte(text)))
	in.UseNumber() // a seed has more digits than a float
	if err := in.Decode(&value); err != nil {
		return "", false, fmt.Errorf("forgetting: %w", err)
	}
	f := forgetter{ids: ids}
	value = f.without(value)
	if !f.changed {
		return text, false, nil
	}
	out, err := json.Marshal(value)
	return string(out), true, err
}

type forgetter struct {
	ids     []string
	changed bool
}

func (f *forgetter) is(v any) bool {
	s, ok := v.(string)
	found := ok && slices.Contains(f.ids, s)
	f.changed = f.changed || found
	return found
}

func (f *forgetter) without(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for name, member := range v {
			if f.is(name) || f.is(member) {
				delete(v, name)
				continue
			}
			v[name] = f.without(member)
		}
	case []any:
		kept := slices.DeleteFunc(v, f.is)
		for i := range kept {
			kept[i] = f.without(kept[i])
		}
		return kept
	}
	return v
}
