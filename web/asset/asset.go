// Package asset holds the files that pages bring with them: scripts and styles
// built from TypeScript and CSS by web/asset/build and kept in dist, and the
// typeface, cut down from the font module to the letters that are needed.
//
// A file's address carries a hash of its content, so a browser may keep it for
// ever: Address("seat.js"). The style sheet "type.css" names the typeface "Go".
// Start at Address and Handler.
package asset

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"mime"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

//go:embed all:dist
var dist embed.FS

// Root is the part of the address that all files share.
const Root = "/asset/"

// file is one file, plain and compressed.
type file struct {
	address string
	kind    string
	plain   []byte
	small   []byte
}

// shelf holds the files by name and by address.
type shelf struct{ byName, byAddress map[string]*file }

var files = sync.OnceValue(func() *shelf {
	s := &shelf{map[string]*file{}, map[string]*file{}}
	entries, err := dist.ReadDir("dist")
	must(err)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		content, err := dist.ReadFile("dist/" + e.Name())
		must(err)
		s.add(e.Name(), content)
	}
	s.addTypeface()
	return s
})

// addTypeface cuts the fonts and writes the style sheet that names them.
func (s *shelf) addTypeface() {
	var css strings.Builder
	for _, f := range []struct {
		name   string
		weight int
		ttf    []byte
	}{{"regular.ttf", 400, goregular.TTF}, {"bold.ttf", 700, gobold.TTF}} {
		cut, err := cut(f.ttf, letters())
		must(err)
		s.add(f.name, cut)
		fmt.Fprintf(&css, "@font-face{font-family:Go;font-weight:%d;font-display:swap;src:url(%s)format(\"truetype\")}\n",
			f.weight, s.byName[f.name].address)
	}
	s.add("type.css", []byte(css.String()))
}

func (s *shelf) add(name string, content []byte) {
	sum := sha256.Sum256(content)
	kind := mime.TypeByExtension(path.Ext(name))
	if kind == "" {
		kind = "font/ttf"
	}
	f := &file{Root + hex.EncodeToString(sum[:6]) + "/" + name, kind, content, compressed(content)}
	s.byName[name], s.byAddress[f.address] = f, f
}

func compressed(content []byte) []byte {
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	must(err)
	_, err = z.Write(content)
	must(err)
	must(z.Close())
	return out.Bytes()
}

// must stops the program for a fault in a file that is part of it.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

// Address returns the address of a file by its name. It panics for a name that
// there is no file of: names are written in the program.
func Address(name string) string {
	f, ok := files().byName[name]
	if !ok {
		panic("asset: no file " + name + "; run go run ./web/asset/build")
	}
	return f.address
}

// Size returns how many bytes a file takes on its way to a browser.
func Size(name string) int { return len(files().byName[name].small) }

// Handler serves every file under Root.
func Handler() http.Handler { return http.HandlerFunc(serve) }

func serve(w http.ResponseWriter, r *http.Request) {
	f, ok := files().byAddress[r.URL.Path]
	if !ok {
		http.NotFound(w, r)
		return
	}
	h, body := w.Header(), f.plain
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", "public, max-age=31536000, immutable")
	h.Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		body = f.small
	}
	h.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method != http.MethodHead {
		// A browser that goes away while it is sent a file is no fault.
		_, _ = w.Write(body)
	}
}
