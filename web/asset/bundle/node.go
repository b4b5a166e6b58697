package bundle

import (
	"os"
	"os/exec"
	"path/filepath"
)

// Test runs a test file in Node against a module of parts, which the file
// imports as ./parts.mjs. It returns what Node printed.
func Test(dir, testFile string, parts []byte) ([]byte, error) {
	text, err := os.ReadFile(testFile)
	if err != nil {
		return nil, err
	}
	name := filepath.Join(dir, filepath.Base(testFile))
	if err := os.WriteFile(name, text, 0o600); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(dir, "parts.mjs"), parts, 0o600); err != nil {
		return nil, err
	}
	return exec.Command("node", "--test", name).CombinedOutput()
}
