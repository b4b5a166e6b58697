package class_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pegwright/class"
)

func TestForget(t *testing.T) {
	ids := []string{"ann", "s1"}
	for _, c := range []struct{ name, text, want string }{
		{"nothing in it", `{}`, `{}`},
		{"nothing to forget, and the text stays as it is", `{"b": 1,  "a":["bob"]}`, `{"b": 1,  "a":["bob"]}`},
		{"a name of a member", `{"forms":{"ann":"a","bob":"b"}}`, `{"forms":{"bob":"b"}}`},
		{"a value of a member", `{"picks":[{"showing":"s1","why":"rare"},{"showing":"s2"}]}`, `{"picks":[{"why":"rare"},{"showing":"s2"}]}`},
		{"an element", `["s1","s2",["ann"]]`, `["s2",[]]`},
		{"a number with twenty digits stays", `{"seed":18446744073709551615,"ann":1}`, `{"seed":18446744073709551615}`},
		{"part of a text is no ID", `{"word":"ann-s1"}`, `{"word":"ann-s1"}`},
	} {
		got, changed, err := class.Forget(c.text, ids)
		if err != nil || got != c.want || changed != (got != c.text) {
			t.Errorf("%s: %s, %v, %v, want %s", c.name, got, changed, err, c.want)
		}
	}
}

func TestForgetSaysWhatIsNoJSON(t *testing.T) {
	_, _, err := class.Forget("{", []string{"x"})
	if err == nil || !strings.Contains(err.Error(), "forgetting") {
		t.Errorf("Forget({) = %v", err)
	}
}

// TestForgetLeavesNoTrace in any text, and does nothing the second time.
func TestForgetLeavesNoTrace(t *testing.T) {
	word := rapid.SampledFrom([]string{"ann", "bob", "s1", "x"})
	var value func(depth int) *rapid.Generator[any]
	value = func(depth int) *rapid.Generator[any] {
		leaf := rapid.Map(word, func(s string) any { return s })
		if depth == 0 {
			return leaf
		}
		inner := value(depth - 1)
		return rapid.OneOf(leaf,
			rapid.Map(rapid.SliceOfN(inner, 0, 4), func(l []any) any { return l }),
			rapid.Map(rapid.MapOfN(word, inner, 0, 4), func(m map[string]any) any { return m }))
	}
	rapid.Check(t, func(t *rapid.T) {
		text, err := json.Marshal([]any{value(3).Draw(t, "value")})
		if err != nil {
			t.Fatal(err)
		}
		got, _, err := class.Forget(string(text), []string{"ann"})
		if err != nil || strings.Contains(got, `"ann"`) {
			t.Fatalf("Forget(%s) = %s, %v", text, got, err)
		}
		again, changed, err := class.Forget(got, []string{"ann"})
		if err != nil || changed || again != got {
			t.Fatalf("again: %s, %v, %v", again, changed, err)
		}
	})
}

func TestStaleErrorSaysWhatToDo(t *testing.T) {
	err := fmt.Errorf("period r: %w", &class.StaleError{What: "period", ID: "r", Given: 1, Kept: 2})
	var stale *class.StaleError
	if !errors.As(err, &stale) || stale.Kept != 2 || !strings.Contains(err.Error(), "try again") {
		t.Errorf("%v", err)
	}
}
