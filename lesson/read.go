package lesson

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// PlanError says what is wrong in a plan file, where, and how to mend it.
type PlanError struct {
	Name         string
	Line, Column int // from 1; 0 when the whole file is meant
	What         string
	Mend         string
}

// Error returns one sentence: where, what is wrong, what to do.
func (e *PlanError) Error() string {
	where := e.Name
	if e.Line > 0 {
		where = fmt.Sprintf("%s:%d:%d", e.Name, e.Line, e.Column)
	}
	return fmt.Sprintf("%s: %s; %s", where, e.What, e.Mend)
}

// reader walks the nodes of a plan file. The first fault stays; after it every
// answer is empty.
type reader struct {
	name  string
	fault *PlanError
}

// field is a key of a mapping with its value.
type field struct {
	key   string
	at    ast.Node
	value ast.Node
}

// open parses the text of a file and returns its only document.
func (r *reader) open(text string) ast.Node {
	const most = 1 << 20
	if len(text) > most {
		r.fault = &PlanError{r.name, 0, 0, "the file is larger than 1 MB", "a plan is a few pages"}
		return nil
	}
	if !utf8.ValidString(text) {
		r.fault = &PlanError{r.name, 0, 0, "the file is not text in UTF-8", "save it as plain text"}
		return nil
	}
	file, err := parseSafely(text)
	if err != nil {
		r.syntax(err)
		return nil
	}
	var body ast.Node
	for _, d := range file.Docs {
		if d.Body == nil {
			continue
		}
		if body != nil {
			r.refuse(d.Body, "there is a second document in the file", "keep one plan in one file")
			return nil
		}
		body = d.Body
	}
	if body == nil {
		r.fault = &PlanError{r.name, 0, 0, "the file is empty", "a plan has a title, words and steps"}
	}
	return body
}

// parseSafely turns a crash of the YAML parser on strange input into an error.
func parseSafely(text string) (file *ast.File, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the YAML cannot be read")
		}
	}()
	return parser.ParseBytes([]byte(text), 0)
}

func (r *reader) syntax(err error) {
	r.fault = &PlanError{r.name, 0, 0, "the YAML cannot be read", "check spaces, colons and quotation marks"}
	var syntax *yaml.SyntaxError
	if errors.As(err, &syntax) && syntax.Token != nil && syntax.Token.Position != nil {
		p := syntax.Token.Position
		r.fault.Line, r.fault.Column, r.fault.What = p.Line, p.Column, oneLine(syntax.Message)
	}
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// refuse records a fault at a node, unless there was one before.
func (r *reader) refuse(at ast.Node, what, mend string) {
	if r.fault != nil {
		return
	}
	r.fault = &PlanError{Name: r.name, What: oneLine(what), Mend: oneLine(mend)}
	if at == nil || at.GetToken() == nil || at.GetToken().Position == nil {
		return
	}
	for m, ok := at.(*ast.MappingNode); ok && len(m.Values) > 0; m, ok = at.(*ast.MappingNode) {
		at = m.Values[0].Key
	}
	if m, ok := at.(*ast.MappingValueNode); ok {
		at = m.Key
	}
	p := at.GetToken().Position
	r.fault.Line, r.fault.Column = p.Line, p.Column
}

// fields returns the keys of a mapping in order. A key that is not among the
// known ones, or stands twice, is a fault.
func (r *reader) fields(n ast.Node, what string, known ...string) []field {
	var values []*ast.MappingValueNode
	switch m := n.(type) {
	case *ast.MappingNode:
		values = m.Values
	case *ast.MappingValueNode:
		values = []*ast.MappingValueNode{m}
	default:
		r.refuse(n, fmt.Sprintf("expected %s with keys such as %s", what, known[0]), "write "+known[0]+": and a value")
		return nil
	}
	var out []field
	for _, v := range values {
		key := r.word(v.Key)
		if !slices.Contains(known, key) {
			r.unknown(v.Key, fmt.Sprintf("%s has no key %q", what, clip(key)), key, known)
			return nil
		}
		if slices.ContainsFunc(out, func(f field) bool { return f.key == key }) {
			r.refuse(v.Key, fmt.Sprintf("%s has the key %s twice", what, key), "keep one of them")
			return nil
		}
		out = append(out, field{key, v.Key, v.Value})
	}
	return out
}

// unknown records a word that is not among the known ones, with the nearest.
func (r *reader) unknown(at ast.Node, what, word string, known []string) {
	mend := "write one of " + strings.Join(known, ", ")
	if near, ok := nearest(word, known); ok {
		mend = fmt.Sprintf("did you mean %s?", near)
	}
	r.refuse(at, what, mend)
}

func nearest(word string, among []string) (string, bool) {
	if len(word) > 60 {
		return "", false
	}
	best, least := "", 1+len([]rune(word))/2
	for _, w := range among {
		if d := levenshtein.ComputeDistance(strings.ToLower(word), w); d < least {
			best, least = w, d
		}
	}
	return best, best != ""
}

func clip(text string) string {
	runes := []rune(strings.ToValidUTF8(text, "\uFFFD"))
	if len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	return string(runes)
}

// list returns the entries of a list; a single value is a list of one.
func (r *reader) list(n ast.Node, what string) []ast.Node {
	switch s := n.(type) {
	case *ast.SequenceNode:
		return s.Values
	case nil, *ast.NullNode:
		r.refuse(n, "expected "+what, "write them in a list")
		return nil
	}
	return []ast.Node{n}
}

// word returns a value of one line as it is written.
func (r *reader) word(n ast.Node) string {
	switch s := n.(type) {
	case *ast.StringNode:
		return r.clean(n, s.Value)
	case *ast.LiteralNode:
		return r.clean(n, s.Value.Value)
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode:
		return r.clean(n, n.GetToken().Value)
	}
	r.refuse(n, "expected a text", "write a text on one line; anchors, tags and lists cannot stand here")
	return ""
}

// clean joins the lines of a text by single spaces and refuses what cannot be
// printed.
func (r *reader) clean(n ast.Node, text string) string {
	text = oneLine(text)
	if strings.ContainsFunc(text, func(c rune) bool { return c != ' ' && !unicode.IsPrint(c) || c == utf8.RuneError }) {
		r.refuse(n, "there is a sign here that cannot be printed", "delete it")
		return ""
	}
	return text
}

// number returns a whole number within bounds.
func (r *reader) number(n ast.Node, what string, least, most int) int {
	text := r.word(n)
	v, err := strconv.Atoi(text)
	if err != nil || v < least || v > most {
		r.refuse(n, fmt.Sprintf("%q is no number of %s", clip(text), what), fmt.Sprintf("write a whole number from %d to %d", least, most))
		return least
	}
	return v
}

// yes returns a yes or no.
func (r *reader) yes(n ast.Node, key string) bool {
	switch text := strings.ToLower(r.word(n)); text {
	case "yes", "true":
		return true
	case "no", "false":
		return false
	default:
		r.refuse(n, fmt.Sprintf("%q is neither yes nor no", clip(text)), fmt.Sprintf("write %s: yes or leave it out", key))
		return false
	}
}

// text returns a text in both languages, or one for every language.
func (r *reader) text(n ast.Node) Text {
	var t Text
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		for _, f := range r.fields(n, "a text", "en", "es") {
			if f.key == "en" {
				t.EN = r.word(f.value)
			} else {
				t.ES = r.word(f.value)
			}
		}
	default:
		t.EN = r.word(n)
	}
	if t.EN == "" {
		r.refuse(n, "the text is empty", "write something, or leave the key out")
	}
	return t
}

func (r *reader) texts(n ast.Node) []Text {
	var out []Text
	for _, v := range r.list(n, "texts") {
		out = append(out, r.text(v))
	}
	return out
}
