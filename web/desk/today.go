package desk

import (
	"net/http"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// todayPage is the first page behind the passphrase.
type todayPage struct {
	page.Frame
	Runs    []openRun
	Classes []classCard
	Form    classForm
}

// openRun is a run that goes on.
type openRun struct {
	*say.Speaker
	Run     class.Run
	Class   string
	Started string
}

// classCard is a class with how many pupils it has.
type classCard struct {
	*say.Speaker
	Class  class.Class
	Pupils int
}

// classForm is what was typed to add a class, and what was wrong with it.
type classForm struct {
	*say.Speaker
	Name, Nicknames, Language, Fault string
}

var todayTemplate = page.Parse(files, "today.html")

// Today shows the runs that go on and the classes.
func (d *Desk) Today(w http.ResponseWriter, r *http.Request) error {
	return d.today(w, r, http.StatusOK, classForm{})
}

func (d *Desk) today(w http.ResponseWriter, r *http.Request, status int, form classForm) error {
	p := todayPage{Frame: d.frame(r, page.Speaker(r).Text("today.title")), Form: form}
	p.Form.Speaker = p.Speaker
	classes, err := d.Store.Classes(r.Context())
	if err != nil {
		return err
	}
	names := map[string]string{}
	for _, c := range classes {
		names[c.ID] = c.Name
		pupils, err := d.Store.Pupils(r.Context(), c.ID)
		if err != nil {
			return err
		}
		p.Classes = append(p.Classes, classCard{p.Speaker, c, len(pupils)})
	}
	runs, err := d.Store.OpenRuns(r.Context())
	if err != nil {
		return err
	}
	for _, run := range runs {
		p.Runs = append(p.Runs, openRun{p.Speaker, run, names[run.ClassID], d.when(p.Speaker, run.Started)})
	}
	return todayTemplate.Write(w, status, p)
}
