package desk

import (
	"errors"
	"net/http"
	"slices"
	"strings"
	"unicode/utf8"

	"pegwright/class"
	"pegwright/say"
	"pegwright/web/page"
)

// mostName is how long the name of a class or a table group may be.
const mostName = 40

// AddClass adds a class from a pasted list of nicknames.
func (d *Desk) AddClass(w http.ResponseWriter, r *http.Request) error {
	s := page.Speaker(r)
	form := classForm{Name: tidy(r.FormValue("name")), Nicknames: r.FormValue("nicknames"), Language: r.FormValue("language")}
	if n := utf8.RuneCountInString(form.Name); n == 0 || n > mostName {
		form.Fault = s.Text("class.fault_name", "Most", mostName)
		return d.today(w, r, http.StatusUnprocessableEntity, form)
	}
	names, err := class.ParseNicknames(form.Nicknames)
	if err != nil {
		form.Fault = nicknameFault(s, err)
		return d.today(w, r, http.StatusUnprocessableEntity, form)
	}
	c := class.Class{ID: d.newID(), Name: form.Name, Language: say.In(form.Language).Language(), Created: d.Now()}
	if err := d.Store.AddClass(r.Context(), c); err != nil {
		return err
	}
	if err := d.Store.AddPupils(r.Context(), c.ID, d.newPupils(c.ID, names, 1)); err != nil {
		return err
	}
	return see(w, r, "/desk/class/"+c.ID)
}

// newPupils makes pupils of nicknames, numbered on from a number.
func (d *Desk) newPupils(classID string, names []string, number int) []class.Pupil {
	pupils := make([]class.Pupil, len(names))
	for i, name := range names {
		pupils[i] = class.Pupil{ID: d.newID(), ClassID: classID, Number: number + i, Nickname: name}
	}
	return pupils
}

// tidy takes needless space off a name.
func tidy(name string) string { return strings.Join(strings.Fields(name), " ") }

// nicknameFault says what is wrong with a list of nicknames.
func nicknameFault(s *say.Speaker, err error) string {
	var bad *class.NicknameError
	if !errors.As(err, &bad) {
		return s.Text("nicknames.not_text", "Line", 1)
	}
	id := "nicknames." + strings.ReplaceAll(string(bad.Fault), " ", "_")
	return s.Text(id, "Line", bad.Line, "First", bad.First, "Name", bad.Name, "Count", bad.Count, "Most", class.MaxPupils, "Longest", class.MaxNickname)
}

// classPage is a class: its pupils and what can be done with them.
type classPage struct {
	page.Frame
	Class  class.Class
	Pupils []pupilRow
	Groups []string
	Open   *openRun // the run that goes on, nil for none
	Past   []openRun
	Delete string // the pupil to be deleted, once it is confirmed
	Fault  string
	List   string // what was pasted, when it has a fault
}

type pupilRow struct {
	*say.Speaker
	class.Pupil
	Confirm bool // ask before deleting
	Path    string
}

var classTemplate = page.Parse(files, "class.html")

// Class shows a class.
func (d *Desk) Class(w http.ResponseWriter, r *http.Request) error {
	return d.classPage(w, r, http.StatusOK, "", "")
}

func (d *Desk) classPage(w http.ResponseWriter, r *http.Request, status int, list, fault string) error {
	c, err := d.Store.Class(r.Context(), r.PathValue("class"))
	if err != nil {
		return err
	}
	pupils, err := d.Store.Pupils(r.Context(), c.ID)
	if err != nil {
		return err
	}
	runs, err := d.Store.Runs(r.Context(), c.ID)
	if err != nil {
		return err
	}
	p := classPage{Frame: d.frame(r, c.Name, page.Crumb{Name: c.Name}), Class: c, Fault: fault, List: list}
	for _, q := range pupils {
		row := pupilRow{p.Speaker, q, r.FormValue("delete") == q.ID, "/desk/class/" + c.ID}
		p.Pupils = append(p.Pupils, row)
		if q.Group != "" && !slices.Contains(p.Groups, q.Group) {
			p.Groups = append(p.Groups, q.Group)
		}
	}
	slices.Sort(p.Groups)
	for _, run := range runs {
		o := openRun{p.Speaker, run, c.Name, d.when(p.Speaker, run.Started)}
		if run.Open() && p.Open == nil {
			p.Open = &o
		} else {
			p.Past = append(p.Past, o)
		}
	}
	return classTemplate.Write(w, status, p)
}

// AddPupils adds pupils to a class from a pasted list.
func (d *Desk) AddPupils(w http.ResponseWriter, r *http.Request) error {
	c, err := d.Store.Class(r.Context(), r.PathValue("class"))
	if err != nil {
		return err
	}
	pupils, err := d.Store.Pupils(r.Context(), c.ID)
	if err != nil {
		return err
	}
	s, list := page.Speaker(r), r.FormValue("nicknames")
	names, err := class.ParseNicknames(list)
	if err != nil {
		return d.classPage(w, r, http.StatusUnprocessableEntity, list, nicknameFault(s, err))
	}
	if n := len(pupils) + len(names); n > class.MaxPupils {
		return d.classPage(w, r, http.StatusUnprocessableEntity, list, s.Text("nicknames.too_many", "Count", n, "Most", class.MaxPupils))
	}
	next := 1
	for _, p := range pupils {
		next = max(next, p.Number+1)
	}
	err = d.Store.AddPupils(r.Context(), c.ID, d.newPupils(c.ID, names, next))
	if errors.Is(err, class.ErrNameTaken) {
		return d.classPage(w, r, http.StatusUnprocessableEntity, list, s.Text("nicknames.taken"))
	}
	if err != nil {
		return err
	}
	if err := d.tellClass(r.Context(), c.ID); err != nil {
		return err
	}
	return see(w, r, "/desk/class/"+c.ID)
}

// Group puts pupils of a class at table groups: a field "group-" and the
// pupil's id for each.
func (d *Desk) Group(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("class")
	pupils, err := d.Store.Pupils(r.Context(), id)
	if err != nil {
		return err
	}
	for _, p := range pupils {
		group, sent := r.PostForm["group-"+p.ID]
		if !sent || tidy(group[0]) == p.Group {
			continue
		}
		p.Group = tidy(group[0])
		if utf8.RuneCountInString(p.Group) > mostName {
			return page.Refuse(http.StatusUnprocessableEntity, "class.fault_group", "Most", mostName)
		}
		if err := d.Store.UpdatePupil(r.Context(), p); err != nil {
			return err
		}
	}
	if err := d.tellClass(r.Context(), id); err != nil {
		return err
	}
	return see(w, r, "/desk/class/"+id)
}

// ClassLanguage chooses the language of a class's seats.
func (d *Desk) ClassLanguage(w http.ResponseWriter, r *http.Request) error {
	c, err := d.Store.Class(r.Context(), r.PathValue("class"))
	if err != nil {
		return err
	}
	c.Language = say.In(r.FormValue("language")).Language()
	if err := d.Store.UpdateClass(r.Context(), c); err != nil {
		return err
	}
	return see(w, r, "/desk/class/"+c.ID)
}

// DeletePupil deletes a pupil and everything about them.
func (d *Desk) DeletePupil(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("class")
	p, err := d.Store.Pupil(r.Context(), r.FormValue("pupil"))
	if err != nil {
		return err
	}
	if p.ClassID != id {
		return class.ErrNotFound
	}
	if r.FormValue("sure") != "yes" {
		return see(w, r, "/desk/class/"+id+"?delete="+p.ID+"#pupil-"+p.ID)
	}
	if err := d.Store.DeletePupil(r.Context(), p.ID); err != nil {
		return err
	}
	if err := d.tellClass(r.Context(), id, p.ID); err != nil {
		return err
	}
	return see(w, r, "/desk/class/"+id)
}
