// Command build bundles the scripts and styles of all pages into
// web/asset/dist, which is kept in the repository. Run it from the top folder:
//
//	go run ./web/asset/build
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"pegwright/web/asset/bundle"
)

func main() {
	built, err := bundle.Files(".")
	if err == nil {
		err = keep(filepath.Join("web", "asset", "dist"), built)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "error:", err)
		os.Exit(3)
	}
}

// keep makes a folder hold exactly the built files.
func keep(dir string, built map[string][]byte) error {
	old, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range old {
		if _, ok := built[e.Name()]; !ok && !strings.HasPrefix(e.Name(), ".") {
			if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
				return err
			}
		}
	}
	for name, content := range built {
		if err := os.WriteFile(filepath.Join(dir, name), content, 0o644); err != nil {
			return err
		}
	}
	return nil
}
