// Package bundle builds the scripts and styles of pages with esbuild. It is a
// tool of the build and of tests; the program that serves pages does not have it
// in it.
//
// A style sheet in a room of web, and a script there that exports nothing, is a
// file that pages name; a script that exports is a part of others. Start at Files.
package bundle

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

var exports = regexp.MustCompile(`(?m)^export `)

// Files builds every file that pages name, by its name, from the sources under
// a folder.
func Files(root string) (map[string][]byte, error) {
	entries, err := entriesOf(root)
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{}
	for _, entry := range entries {
		name := strings.TrimSuffix(filepath.Base(entry), ".ts")
		if name != filepath.Base(entry) {
			name += ".js"
		}
		if _, twice := out[name]; twice {
			return nil, fmt.Errorf("%s: another room has a file of this name", entry)
		}
		if out[name], err = File(entry); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func entriesOf(root string) ([]string, error) {
	styles, err := filepath.Glob(filepath.Join(root, "web", "*", "*.css"))
	if err != nil {
		return nil, err
	}
	scripts, err := filepath.Glob(filepath.Join(root, "web", "*", "*.ts"))
	if err != nil {
		return nil, err
	}
	for _, name := range scripts {
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if !exports.Match(text) {
			styles = append(styles, name)
		}
	}
	return styles, nil
}

// File builds one script or style sheet with all that it imports.
func File(entry string) ([]byte, error) {
	full, err := filepath.Abs(entry)
	if err != nil {
		return nil, err
	}
	return build(api.BuildOptions{EntryPoints: []string{full}})
}

// Parts builds one module that exports all that some scripts of a folder do,
// for tests that drive them without a page.
func Parts(dir string, scripts ...string) ([]byte, error) {
	full, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	var all strings.Builder
	for _, s := range scripts {
		fmt.Fprintf(&all, "export * from \"./%s\";\n", s)
	}
	return build(api.BuildOptions{Stdin: &api.StdinOptions{Contents: all.String(), ResolveDir: full, Loader: api.LoaderTS}})
}

func build(o api.BuildOptions) ([]byte, error) {
	o.Bundle, o.Format, o.Target = true, api.FormatESModule, api.ES2019
	o.MinifyWhitespace, o.MinifySyntax, o.MinifyIdentifiers = true, true, true
	o.LegalComments, o.Charset = api.LegalCommentsNone, api.CharsetUTF8
	r := api.Build(o)
	if len(r.Errors) > 0 {
		e := r.Errors[0]
		if e.Location != nil {
			return nil, fmt.Errorf("%s:%d: %s", e.Location.File, e.Location.Line, e.Text)
		}
		return nil, errors.New(e.Text)
	}
	return r.OutputFiles[0].Contents, nil
}
