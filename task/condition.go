package task

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"

	"pegwright/exact"
	"pegwright/shape"
)

// Comparison is how a condition compares a property with its value.
type Comparison string

// The comparisons. Names and yes-or-no properties take only the first two.
const (
	Equal    Comparison = "="
	NotEqual Comparison = "!="
	AtLeast  Comparison = ">="
	AtMost   Comparison = "<="
	MoreThan Comparison = ">"
	LessThan Comparison = "<"
)

// holds reports whether a comparison's outcome (−1, 0, +1) satisfies it.
func (c Comparison) holds(order int) bool {
	switch c {
	case Equal:
		return order == 0
	case NotEqual:
		return order != 0
	case AtLeast:
		return order >= 0
	case AtMost:
		return order <= 0
	case MoreThan:
		return order > 0
	}
	return order < 0
}

// Condition is one requirement on a figure: a property, a comparison and a
// value, of which the property's form says which field holds it.
type Condition struct {
	Property   Property
	Comparison Comparison
	Count      int         // for counts
	Size       exact.Roots // for area and perimeter
	Yes        bool        // for yes-or-no properties
	Kind       shape.Name  // for Kind
}

// Conditions are requirements that must all hold.
type Conditions []Condition

// ConditionError says what is wrong with a condition and how to mend it.
type ConditionError struct {
	Text string // the condition as it was written
	What string
	Mend string
}

// Error returns one sentence: which condition, what is wrong, what to do.
func (e *ConditionError) Error() string {
	return fmt.Sprintf("condition %q: %s; %s", e.Text, e.What, e.Mend)
}

// Parse reads conditions, each written like "sides=6", "fold lines >= 1",
// "kind is rhombus", "convex=no" or "not convex". Conditions that contradict
// each other by their words alone are refused. The error is a *ConditionError.
func Parse(texts []string) (Conditions, error) {
	var out Conditions
	for _, text := range texts {
		c, err := ParseCondition(text)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	if err := out.contradiction(); err != nil {
		return nil, err
	}
	return out, nil
}

// MustParse is Parse for conditions known to be good; it panics on others.
func MustParse(texts ...string) Conditions {
	c, err := Parse(texts)
	if err != nil {
		panic(err)
	}
	return c
}

// ParseCondition reads one condition.
func ParseCondition(text string) (Condition, error) {
	shown := clip(text)
	left, comparison, right := splitCondition(text)
	prop, err := findProperty(shown, left)
	if err != nil {
		return Condition{}, err
	}
	c := Condition{Property: prop.name, Comparison: comparison}
	if comparison == "" {
		if prop.form != yesNo {
			return Condition{}, &ConditionError{shown, "it has no comparison", "write it like " + prop.example()}
		}
		c.Comparison, right = Equal, "yes"
	}
	if err := prop.parseValue(&c, shown, right); err != nil {
		return Condition{}, err
	}
	return c, nil
}

// clip shortens text that came from outside, for use in a message.
func clip(text string) string {
	const most = 60
	runes := []rune(strings.ToValidUTF8(strings.TrimSpace(text), "\uFFFD"))
	if len(runes) <= most {
		return string(runes)
	}
	return string(runes[:most]) + "…"
}

// signs are the ways to write a comparison, longer ones first.
var signs = []struct {
	text string
	is   Comparison
}{
	{">=", AtLeast},
	{"<=", AtMost},
	{"!=", NotEqual},
	{"==", Equal},
	{"≥", AtLeast},
	{"≤", AtMost},
	{"≠", NotEqual},
	{" is not ", NotEqual},
	{" is ", Equal},
	{"=", Equal},
	{">", MoreThan},
	{"<", LessThan},
}

// splitCondition cuts a condition at its first comparison sign. A condition
// without one has an empty comparison; "not" in front of a property makes it
// "= no".
func splitCondition(text string) (left string, c Comparison, right string) {
	t := strings.ToLower(strings.TrimSpace(text))
	if rest, negated := strings.CutPrefix(t, "not "); negated {
		return rest, Equal, "no"
	}
	at := len(t)
	for _, s := range signs {
		if i := strings.Index(t, s.text); i >= 0 && i < at {
			at, c = i, s.is
			left, right = t[:i], t[i+len(s.text):]
		}
	}
	if c == "" {
		return t, "", ""
	}
	return left, c, strings.TrimSpace(right)
}

// spelling brings a word of the language to the form it has in the tables.
func spelling(word string) string {
	fields := strings.FieldsFunc(strings.ToLower(word), func(r rune) bool { return r == ' ' || r == '_' || r == '-' })
	return strings.Join(fields, "-")
}

// synonyms are other usual words for properties.
var synonyms = map[string]Property{
	"corners": Sides, "vertices": Sides, "lines-of-symmetry": FoldLines, "symmetry-lines": FoldLines,
	"rotation-order": TurnOrder, "name": Kind, "shape": Kind,
}

func findProperty(shown, word string) (property, error) {
	name := Property(spelling(word))
	if other, ok := synonyms[string(name)]; ok {
		name = other
	}
	if name == "concave" {
		return property{}, &ConditionError{shown, "concave is written through its opposite", "write convex=no"}
	}
	if p, ok := find(name); ok {
		return p, nil
	}
	if name == "" {
		return property{}, &ConditionError{shown, "it names no property", "write it like sides=6 or kind=rhombus"}
	}
	var words []string
	for _, p := range properties {
		words = append(words, string(p.name))
	}
	what := fmt.Sprintf("there is no property %q", clip(string(name)))
	mend := "the properties are " + strings.Join(words, ", ")
	if kind, ok := kindNamed(word); ok {
		mend = fmt.Sprintf("did you mean kind=%s?", spelling(string(kind)))
	} else if near, ok := nearest(string(name), words); ok {
		mend = fmt.Sprintf("did you mean %s?", near)
	}
	return property{}, &ConditionError{shown, what, mend}
}

// nearest returns the word that takes the fewest changed letters, if it takes
// few enough to be meant.
func nearest(word string, among []string) (string, bool) {
	if len(word) > 40 {
		return "", false
	}
	best, least := "", 1+len([]rune(word))/2
	for _, w := range among {
		if d := levenshtein.ComputeDistance(word, w); d < least {
			best, least = w, d
		}
	}
	return best, best != ""
}

func (p property) example() string {
	switch p.form {
	case yesNo:
		return string(p.name) + "=yes"
	case named:
		return "kind=rhombus"
	case size:
		return string(p.name) + "=4"
	}
	return string(p.name) + ">=1"
}

// parseValue reads the value of a condition on p.
func (p property) parseValue(c *Condition, shown, text string) error {
	if p.form >= yesNo && c.Comparison != Equal && c.Comparison != NotEqual {
		return &ConditionError{shown, fmt.Sprintf("%s is not a number, so %s says nothing", p.name, c.Comparison), "write it like " + p.example()}
	}
	switch p.form {
	case yesNo:
		return parseYes(c, shown, text)
	case named:
		return parseKind(c, shown, text)
	case size:
		v, err := exact.ParseRoots(text)
		if err != nil {
			return &ConditionError{shown, err.Error(), "write it like " + p.example()}
		}
		if v.Cmp(exact.Roots{}) <= 0 && !c.Comparison.holds(1) {
			return &ConditionError{shown, fmt.Sprintf("%s is always more than 0", p.name), "write it like " + p.example()}
		}
		c.Size = v
		return nil
	}
	return p.parseCount(c, shown, text)
}

func parseYes(c *Condition, shown, text string) error {
	switch text {
	case "yes", "true":
		c.Yes = true
	case "no", "false":
		c.Yes = false
	default:
		return &ConditionError{shown, fmt.Sprintf("%q is neither yes nor no", clip(text)), fmt.Sprintf("write %s=yes or %s=no", c.Property, c.Property)}
	}
	if c.Comparison == NotEqual {
		c.Comparison, c.Yes = Equal, !c.Yes
	}
	return nil
}

// mostCount bounds the counts in conditions; no board reaches it.
const mostCount = 20_000

func (p property) parseCount(c *Condition, shown, text string) error {
	n, err := strconv.Atoi(text)
	switch {
	case err != nil || strings.HasPrefix(text, "+"):
		return &ConditionError{shown, fmt.Sprintf("%q is not a whole number", clip(text)), "write it like " + p.example()}
	case n < 0 || n > mostCount:
		return &ConditionError{shown, fmt.Sprintf("%d is out of range", n), fmt.Sprintf("write a number from %d to %d", p.least, mostCount)}
	}
	c.Count = n
	if !c.allowsAny(p.least) {
		return &ConditionError{shown, fmt.Sprintf("%s cannot be less than %d", p.name, p.least), fmt.Sprintf("write a number from %d up", p.least)}
	}
	return nil
}

// allowsAny reports whether some count from least up satisfies c.
func (c Condition) allowsAny(least int) bool {
	return c.Allows(least) || c.Allows(least+1) || c.Allows(c.Count) && c.Count >= least || c.Allows(mostCount+1)
}

// Allows reports whether a count satisfies c.
func (c Condition) Allows(n int) bool {
	order := 0
	if n < c.Count {
		order = -1
	} else if n > c.Count {
		order = 1
	}
	return c.Comparison.holds(order)
}

func parseKind(c *Condition, shown, text string) error {
	name, ok := kindNamed(text)
	if ok {
		c.Kind = name
		return nil
	}
	var words []string
	for _, n := range shape.AllNames() {
		words = append(words, spelling(string(n)))
	}
	mend := "the kinds are " + strings.Join(words, ", ")
	if near, ok := nearest(spelling(text), words); ok {
		mend = fmt.Sprintf("did you mean kind=%s?", near)
	}
	return &ConditionError{shown, fmt.Sprintf("there is no kind of figure called %q", clip(text)), mend}
}

// otherKinds are other usual words for kinds.
var otherKinds = map[string]shape.Name{
	"trapezium": shape.Trapezoid, "undecagon": shape.SideName(11), "tetragon": shape.Quadrilateral,
	"regular-triangle": shape.Equilateral, "regular-quadrilateral": shape.Square, "oblong": "",
	"isosceles-right-triangle": "right isosceles triangle", "scalene-right-triangle": "right scalene triangle",
}

// kindNamed finds the name that a text means: hyphens stand for spaces, and
// the last word may be left out where that leaves one name ("isosceles" alone
// could be a triangle or a trapezoid, so it means the triangle).
func kindNamed(text string) (shape.Name, bool) {
	word := spelling(text)
	if other, ok := otherKinds[word]; ok && other != "" {
		return other, true
	}
	for _, n := range shape.AllNames() {
		if spelling(string(n)) == word {
			return n, true
		}
	}
	for _, n := range shape.AllNames() {
		if spelling(string(n)) == word+"-triangle" {
			return n, true
		}
	}
	if sides, ok := strings.CutSuffix(word, "-gon"); ok {
		if k, err := strconv.Atoi(sides); err == nil && k >= 3 && k <= 144 {
			return shape.SideName(k), true
		}
	}
	return "", false
}

// String prints the condition as Parse reads it.
func (c Condition) String() string {
	p, _ := find(c.Property)
	value := strconv.Itoa(c.Count)
	switch p.form {
	case size:
		value = strings.ReplaceAll(c.Size.String(), " ", "")
	case yesNo:
		value = "no"
		if c.Yes {
			value = "yes"
		}
	case named:
		value = spelling(string(c.Kind))
	}
	return string(c.Property) + string(c.Comparison) + value
}

// Texts returns the conditions as Parse reads them.
func (cs Conditions) Texts() []string {
	out := make([]string, len(cs))
	for i, c := range cs {
		out[i] = c.String()
	}
	return out
}

// AboutLines reports whether the conditions are about straight pieces rather
// than polygons: whether one of them is on a property that only lines have.
func (cs Conditions) AboutLines() bool {
	return slices.ContainsFunc(cs, func(c Condition) bool {
		return c.Property == Segments || c.Property == CrossingPairs || c.Property == MeetingPairs
	})
}

// Without returns the conditions on other properties than one.
func (cs Conditions) Without(name Property) Conditions {
	return slices.DeleteFunc(slices.Clone(cs), func(c Condition) bool { return c.Property == name })
}
