package asset

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"pegwright/web/asset/bundle"
)

// TestDistIsFresh holds the files that are kept against a fresh build.
func TestDistIsFresh(t *testing.T) {
	built, err := bundle.Files(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	kept, err := os.ReadDir("dist")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range kept {
		if _, ok := built[e.Name()]; !ok && e.Name() != ".keep" {
			t.Errorf("dist/%s is built from nothing; run go run ./web/asset/build", e.Name())
		}
	}
	for name, want := range built {
		if got, err := os.ReadFile(filepath.Join("dist", name)); err != nil || !bytes.Equal(got, want) {
			t.Errorf("dist/%s is stale; run go run ./web/asset/build", name)
		}
	}
}

// TestScriptsHaveRightTypes runs the type checker over all scripts.
func TestScriptsHaveRightTypes(t *testing.T) {
	tsc := filepath.Join("..", "..", "node_modules", "typescript", "bin", "tsc")
	if _, err := os.Stat(tsc); err != nil {
		if os.Getenv("PEGWRIGHT_TEST_NODE") != "" {
			t.Fatal("typescript is not here; run npm ci")
		}
		t.Skip("typescript is not here; run npm ci")
	}
	out, err := exec.Command("node", tsc, "--noEmit", "-p", filepath.Join("..", "..")).CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// TestLockFileNamesNoRegistry keeps host names out of the lock file.
func TestLockFileNamesNoRegistry(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "package-lock.json"))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(text, []byte(`"resolved"`)) || bytes.Contains(text, []byte("://")) {
		t.Error("package-lock.json names a registry; use npm install --omit-lockfile-registry-resolved")
	}
}

func TestServing(t *testing.T) {
	for name, f := range files().byName {
		plain := httptest.NewRecorder()
		Handler().ServeHTTP(plain, httptest.NewRequest("GET", Address(name), nil))
		if plain.Code != 200 || !bytes.Equal(plain.Body.Bytes(), f.plain) || !strings.Contains(plain.Header().Get("Cache-Control"), "immutable") {
			t.Errorf("%s: %d %v", name, plain.Code, plain.Header())
		}
		r := httptest.NewRequest("GET", Address(name), nil)
		r.Header.Set("Accept-Encoding", "br, gzip")
		small := httptest.NewRecorder()
		Handler().ServeHTTP(small, r)
		z, err := gzip.NewReader(small.Body)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := io.ReadAll(z); err != nil || !bytes.Equal(back, f.plain) {
			t.Errorf("%s does not come out of its gzip", name)
		}
	}
	w := httptest.NewRecorder()
	Handler().ServeHTTP(w, httptest.NewRequest("GET", Root+"000000000000/seat.js", nil))
	if w.Code != 404 {
		t.Errorf("an address of another build: %d", w.Code)
	}
}

// TestCutFontKeepsItsLetters compares outlines and widths before and after.
func TestCutFontKeepsItsLetters(t *testing.T) {
	small, err := cut(goregular.TTF, letters())
	if err != nil {
		t.Fatal(err)
	}
	before, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	after, err := sfnt.Parse(small)
	if err != nil {
		t.Fatal(err)
	}
	buf := &sfnt.Buffer{}
	for _, r := range letters() {
		g, _ := before.GlyphIndex(buf, r)
		h, err := after.GlyphIndex(buf, r)
		if err != nil || g != h {
			t.Fatalf("%q is glyph %d, was %d", r, h, g)
		}
		was, err := before.LoadGlyph(buf, g, fixed.I(64), nil)
		if err != nil {
			t.Fatal(err)
		}
		want := append(sfnt.Segments{}, was...)
		got, err := after.LoadGlyph(buf, h, fixed.I(64), nil)
		if err != nil || len(got) != len(want) {
			t.Fatalf("%q: %v, %d segments, want %d", r, err, len(got), len(want))
		}
		for i := range got {
			if got[i] != want[i] {
				t.Fatalf("%q has another outline", r)
			}
		}
	}
}
