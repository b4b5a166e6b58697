// Package page draws pages: the frame around every one of them, the pictures
// of figures in them, and the page that says sorry. A page is a struct that
// embeds Frame, with a template beside it; it is drawn into a buffer and sent
// only when it is whole.
//
// What a page shows is decided by the rooms web/desk, web/front and web/seat.
// Start at Frame and Parse.
package page

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"net/http"
	"strconv"

	"pegwright/say"
	"pegwright/web/asset"
)

//go:embed *.html
var files embed.FS

// Frame is what every page has: the language it speaks, its title, and what
// the browser is to bring with it.
type Frame struct {
	*say.Speaker
	Title   string
	Place   string // "desk", "front" or "seat"; the class of the body
	Styles  []string
	Scripts []string
	Stream  string // the address of the page's event stream, "" for none
	Pieces  string // the address that hands out pieces of the page
	Bar     *Bar   // the desk's bar, nil for none
}

// Assets returns the addresses of styles and scripts by their names, for a
// Frame.
func Assets(names ...string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = asset.Address(name)
	}
	return out
}

// Bar is the bar above every page of the desk.
type Bar struct {
	Crumbs []Crumb
	Here   string // the address that the page is left to and come back to
}

// Crumb is a step on the way to a page.
type Crumb struct{ Name, Address string }

// Page is a template with the frame around it.
type Page struct{ template *template.Template }

// Parse reads a page's templates; one of the files defines "main". The files
// are part of the program, so a fault in them is a fault of the program.
func Parse(fsys fs.FS, names ...string) *Page {
	t := template.Must(template.ParseFS(files, "frame.html", "timer.html"))
	return &Page{template.Must(t.ParseFS(fsys, names...))}
}

// Template returns the template under the page, for a test of its types.
func (p *Page) Template() *template.Template { return p.template }

// Write draws the page and sends it.
func (p *Page) Write(w http.ResponseWriter, status int, data any) error {
	var out bytes.Buffer
	if err := p.template.ExecuteTemplate(&out, "frame", data); err != nil {
		return fmt.Errorf("page: %w", err)
	}
	return send(w, status, out.Bytes())
}

// Piece draws one piece of a page.
func (p *Page) Piece(w io.Writer, name string, data any) error {
	if err := p.template.ExecuteTemplate(w, name, data); err != nil {
		return fmt.Errorf("piece %s: %w", name, err)
	}
	return nil
}

// WritePiece draws one piece of a page and sends it.
func (p *Page) WritePiece(w http.ResponseWriter, name string, data any) error {
	var out bytes.Buffer
	if err := p.Piece(&out, name, data); err != nil {
		return err
	}
	return SendPieces(w, &out)
}

// SendPieces sends pieces that were drawn.
func SendPieces(w http.ResponseWriter, pieces *bytes.Buffer) error {
	return send(w, http.StatusOK, pieces.Bytes())
}

func send(w http.ResponseWriter, status int, body []byte) error {
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Length", strconv.Itoa(len(body)))
	if h.Get("Cache-Control") == "" {
		h.Set("Cache-Control", "no-store")
	}
	w.WriteHeader(status)
	_, err := w.Write(body)
	return err
}

// LanguageCookie holds the language that a device has chosen.
const LanguageCookie = "pegwright_language"

// Speaker returns the speaker of the language that the device has chosen.
func Speaker(r *http.Request) *say.Speaker {
	if c, err := r.Cookie(LanguageCookie); err == nil {
		return say.In(c.Value)
	}
	return say.In("en")
}
