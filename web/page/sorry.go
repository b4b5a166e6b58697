package page

import (
	"net/http"
)

// Handler answers a request or returns the error that kept it from doing so.
type Handler func(w http.ResponseWriter, r *http.Request) error

// Refusal is an error with a text meant for the person at the page.
type Refusal struct {
	Status int
	ID     string // of the message
	Args   []any  // what fills its blanks
}

// Error returns the message's id; the person reads the message itself.
func (r *Refusal) Error() string { return r.ID }

// Refuse makes a refusal.
func Refuse(status int, id string, args ...any) error { return &Refusal{status, id, args} }

// sorry is the page that says what went wrong.
type sorry struct {
	Frame
	Words string
	Back  string
}

var sorryPage = Parse(files, "sorry.html")

// Sorry sends a page with a sentence for people.
func Sorry(w http.ResponseWriter, r *http.Request, status int, id string, args ...any) error {
	s := Speaker(r)
	back := "/"
	if len(r.URL.Path) >= 5 && r.URL.Path[:5] == "/desk" {
		back = "/desk"
	}
	return sorryPage.Write(w, status, sorry{
		Frame: Frame{Speaker: s, Title: s.Text("sorry.title"), Place: "plain", Styles: Assets("type.css", "page.css")},
		Words: s.Text(id, args...), Back: back,
	})
}
