package desk

import (
	"bytes"
	"html/template"
	"net/http"
	"strings"
	"time"

	"pegwright/board"
	"pegwright/bus"
	"pegwright/class"
	"pegwright/say"
	"pegwright/shape"
	"pegwright/task"
	"pegwright/web/live"
	"pegwright/web/page"
)

// runPage is a class at work.
type runPage struct {
	page.Frame
	Class    class.Class
	Run      class.Run
	Path     string
	Task     taskPiece
	Counts   countsPiece
	Front    frontPiece
	Room     roomPiece
	Quick    quickPiece
	Groups   []tileGroup
	ByFigure bool
	Figures  figuresPiece
}

// tileGroup is the tiles of a table group.
type tileGroup struct {
	Name  string
	Tiles []tile
}

var runTemplate = page.Parse(files, "run.html", "pieces.html", "tile.html", "figures.html")

// Run shows a run: the task, the front, the room, and the class as tiles or as
// figures. A run that is over is shown by the page of what was kept.
func (d *Desk) Run(w http.ResponseWriter, r *http.Request) error {
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	if !s.Run.Open() {
		return see(w, r, s.path("/kept"))
	}
	f := d.frame(r, s.Class.Name, page.Crumb{Name: s.Class.Name, Address: "/desk/class/" + s.Class.ID}, page.Crumb{Name: s.Run.RoomWord})
	f.Stream, f.Pieces = s.path("/stream"), s.path("/pieces")
	f.Scripts = append(f.Scripts, page.Assets("live.js")...)
	p := runPage{
		Frame: f, Class: s.Class, Run: s.Run, Path: s.path(""), ByFigure: r.FormValue("view") == "figures",
		Task: d.taskPiece(f.Speaker, s), Counts: d.countsPiece(f.Speaker, s), Front: d.frontPiece(f.Speaker, s),
		Room: d.roomPiece(f.Speaker, s), Quick: d.quickPiece(f.Speaker, s),
	}
	if p.ByFigure {
		p.Figures = d.figuresPiece(f.Speaker, s)
	} else {
		p.Groups = d.groups(f.Speaker, s)
	}
	return runTemplate.Write(w, http.StatusOK, p)
}

// groups draws the tiles by table group.
func (d *Desk) groups(say *say.Speaker, s *scene) []tileGroup {
	var out []tileGroup
	for _, p := range s.Pupils {
		if len(out) == 0 || out[len(out)-1].Name != p.Group {
			out = append(out, tileGroup{Name: p.Group})
		}
		g := &out[len(out)-1]
		g.Tiles = append(g.Tiles, d.tile(say, s, p))
	}
	return out
}

// Stream tells a run's page what changed.
func (d *Desk) Stream(w http.ResponseWriter, r *http.Request) error {
	run, err := d.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	live.Streamer{Version: d.Version, Open: d.open(r), Done: d.Stopping}.Stream(w, r,
		d.Bus.Subscribe("run/"+run.ID), d.Bus.Subscribe("desk/"+session(r).Hash))
	return nil
}

// mostPieces is how many pieces may be asked for at once.
const mostPieces = 100

// Pieces hands out pieces of a run's page by name. Names that the page does
// not have are passed over. Beside a tile come the tiles whose marks change
// with it.
func (d *Desk) Pieces(w http.ResponseWriter, r *http.Request) error {
	names := r.URL.Query()["name"]
	if len(names) > mostPieces {
		names = names[:mostPieces]
	}
	s, err := d.runOf(r)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	sent := map[string]bool{}
	for _, name := range names {
		if err := d.piece(&out, page.Speaker(r), s, name, sent); err != nil {
			return err
		}
	}
	return page.SendPieces(w, &out)
}

// piece draws one piece, once.
func (d *Desk) piece(out *bytes.Buffer, say *say.Speaker, s *scene, name string, sent map[string]bool) error {
	if sent[name] {
		return nil
	}
	sent[name] = true
	if id, ok := strings.CutPrefix(name, "tile-"); ok {
		return d.tilePieces(out, say, s, id, sent)
	}
	var data any
	switch name {
	case "task":
		data = d.taskPiece(say, s)
	case "counts":
		data = d.countsPiece(say, s)
		if err := d.piece(out, say, s, "figures", sent); err != nil {
			return err
		}
	case "front":
		data = d.frontPiece(say, s)
	case "room", "who":
		name, data = "room", d.roomPiece(say, s)
	case "figures":
		data = d.figuresPiece(say, s)
	default:
		return nil
	}
	return runTemplate.Piece(out, name, data)
}

// tilePieces draws a tile and those of figures congruent to any that its
// pupil showed: they may have become the first of their kind, or the only one.
func (d *Desk) tilePieces(out *bytes.Buffer, say *say.Speaker, s *scene, pupil string, sent map[string]bool) error {
	draw := func(id string) error {
		p, err := s.pupil(id)
		if err != nil {
			return nil // deleted; the page will hear of it
		}
		sent["tile-"+id] = true
		return runTemplate.Piece(out, "tile", d.tile(say, s, p))
	}
	if err := draw(pupil); err != nil {
		return err
	}
	for _, k := range s.changedKinds(pupil, d.Now()) {
		for _, o := range k.Showings {
			if !sent["tile-"+o.PupilID] {
				if err := draw(o.PupilID); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// changedKinds returns the kinds whose marks a pupil's last showing may have
// changed: the one it is of, and the one that the showing before it was of.
func (s *scene) changedKinds(pupil string, now time.Time) []class.Kind {
	var own []class.Showing
	for _, o := range s.Showings {
		if o.PupilID == pupil {
			own = append(own, o)
		}
	}
	if len(own) == 0 || now.Sub(own[len(own)-1].Received) > recent {
		return nil
	}
	var out []class.Kind
	for _, o := range own[max(0, len(own)-2):] {
		p := s.Task.Polygon(o.Figure)
		for _, k := range s.Ideas.Kinds {
			q := s.Task.Polygon(k.Showings[0].Figure)
			// Of three and more, none is the only one, and the first is known.
			if len(k.Showings) <= 3 && p != nil && q != nil && shape.Congruent(p, q) {
				out = append(out, k)
			}
		}
	}
	return out
}

// recent is how long after a showing the marks of other tiles are drawn again
// with its own.
const recent = 2 * time.Second

// taskPiece is the current task with its controls.
type taskPiece struct {
	*say.Speaker
	Path     string
	Set      bool
	Task     class.Task
	Asked    string
	Board    string
	Limits   string
	Feedback string
	Timer    *Timer
	Cautions bool // whether they lie open
	Picture  template.HTML
}

// Timer is a line that shortens while time passes.
type Timer struct {
	Left    int // seconds
	Share   int // of the line that is left, in thousandths
	Until   string
	Over    bool
	Minutes int
}

// NewTimer returns the timer of a task, nil when it has none.
func NewTimer(t class.Task, now time.Time) *Timer {
	left, timed := t.Remaining(now)
	if !timed {
		return nil
	}
	deadline, _ := t.Deadline()
	whole := time.Duration(t.Minutes) * time.Minute
	return &Timer{
		Left: int(left / time.Second), Share: int(1000 * left / whole), Over: left <= 0,
		Until: deadline.Local().Format("15:04"), Minutes: t.Minutes,
	}
}

func (d *Desk) taskPiece(say *say.Speaker, s *scene) taskPiece {
	p := taskPiece{Speaker: say, Path: s.path("")}
	if s.Task == nil {
		return p
	}
	t := *s.Task
	p.Set, p.Task, p.Cautions = true, t, t.Ordinal == 1 && d.Now().Sub(t.Started) < cautionFor
	p.Asked, p.Board = askedOf(say, t), say.Board(s.Board)
	p.Limits = limitsOf(say, t)
	p.Feedback = say.Text("task.hears", "What", say.Text("feedback."+string(t.Feedback)))
	p.Timer = NewTimer(t, d.Now())
	if t.Model != "" {
		p.Picture = page.Figure(say, "model", d.judged.reading(s.Board, t.Model, t.Definitions), page.Small)
	}
	return p
}

// askedOf says what a task asks for, as a sentence.
func askedOf(say *say.Speaker, t class.Task) string {
	cs, err := task.Parse(t.Conditions)
	if err != nil || len(cs) == 0 {
		return say.Text("task.any_figure")
	}
	return say.Sentence(say.Conditions(cs))
}

// limitsOf says the limits of a task.
func limitsOf(say *say.Speaker, t class.Task) string {
	limits := []string{say.Text("task.any_bands")}
	if t.MaxBands > 0 {
		limits[0] = say.Counted("task.bands", t.MaxBands)
	}
	if t.Minutes > 0 {
		limits = append(limits, say.Counted("task.minutes", t.Minutes))
	}
	return say.Capital(strings.Join(limits, " · "))
}

// countsPiece is how many boards are in and how they stand.
type countsPiece struct {
	*say.Speaker
	In, Of   int
	Filters  []filter
	InWords  string
	HaveTask bool
}

// filter shows some of the tiles.
type filter struct {
	ID       string // of the standing, in the tile's data-standing
	Words    string
	Standing string // for the mark
	Count    int
}

// standings are how a board can stand, with nothing handed in last.
var standings = []task.Standing{task.Fits, task.Nearly, task.NotYet, task.Unfinished}

func (d *Desk) countsPiece(say *say.Speaker, s *scene) countsPiece {
	p := countsPiece{Speaker: say, Of: len(s.Pupils), In: len(s.Ideas.Latest), HaveTask: s.Task != nil}
	p.InWords = say.Counted("counts.in", p.In, "Of", p.Of)
	p.Filters = append(p.Filters, filter{"all", say.Text("filter.all"), "", p.Of})
	for _, st := range standings {
		p.Filters = append(p.Filters, filter{standingKey(st), standWords(say, st), string(st), s.Ideas.Standings[st]})
	}
	waiting := p.Of - p.In
	p.Filters = append(p.Filters,
		filter{"none", say.Text("filter.none"), "", waiting},
		filter{"unlooked", say.Text("filter.unlooked"), "", len(s.Ideas.Unlooked)})
	return p
}

// standWords says in a word or two how a board stands.
func standWords(say *say.Speaker, s task.Standing) string {
	return say.Text("stand." + strings.ReplaceAll(string(s), " ", "_"))
}

// cautionFor is how long the cautions lie open after the first task is set.
const cautionFor = 90 * time.Second

// standingKey writes a standing as a word of an attribute.
func standingKey(s task.Standing) string { return strings.ReplaceAll(string(s), " ", "-") }

// frontPiece is what the front shows, with its controls.
type frontPiece struct {
	*say.Speaker
	Path     string
	Address  string
	Kind     class.FrontKind
	Boards   int
	Standing bool
	HaveTask bool
	Back     string
}

func (d *Desk) frontPiece(say *say.Speaker, s *scene) frontPiece {
	return frontPiece{
		Speaker: say, Path: s.path(""), Address: "/front/" + s.Run.ID, Kind: s.Front.Kind, Boards: len(s.Front.Showings),
		Standing: s.Front.Standing, HaveTask: s.Task != nil, Back: s.path(""),
	}
}

// roomPiece is the room word, who is in, and the door.
type roomPiece struct {
	*say.Speaker
	Path      string
	Word      string
	In, Of    int
	HasDoor   bool
	Addresses []string
	Code      *page.Code
}

func (d *Desk) roomPiece(say *say.Speaker, s *scene) roomPiece {
	p := roomPiece{Speaker: say, Path: s.path(""), Word: s.Run.RoomWord, In: len(s.Seats), Of: len(s.Pupils), HasDoor: d.Room != nil}
	if d.Room == nil {
		return p
	}
	p.Addresses = d.Room.Addresses()
	if len(p.Addresses) > 0 {
		p.Code = page.NewCode(JoinAddress(p.Addresses[0], s.Run.RoomWord))
	}
	return p
}

// JoinAddress is the address that a code leads to: the page where a room word
// is typed, with the word in it.
func JoinAddress(base, word string) string {
	return strings.TrimSuffix(base, "/") + "/?word=" + word
}

// figuresPiece is the class by congruent figures.
type figuresPiece struct {
	*say.Speaker
	Path     string
	HaveTask bool
	Summary  string
	Kinds    []kindCard
	Others   []tile
	Waiting  []string
}

// kindCard is one figure and everyone who made it.
type kindCard struct {
	*say.Speaker
	Picture  template.HTML
	Name     string
	Count    string
	Standing task.Standing
	Words    string
	Model    bool
	Only     bool
	Pupils   []kindPupil
}

type kindPupil struct {
	Name, Address string
	First         bool
}

func (d *Desk) figuresPiece(say *say.Speaker, s *scene) figuresPiece {
	p := figuresPiece{Speaker: say, Path: s.path(""), HaveTask: s.Task != nil}
	if s.Task == nil {
		return p
	}
	p.Summary = summaryOf(say, *s.Task, s.Ideas)
	names := map[string]string{}
	for _, q := range s.Pupils {
		names[q.ID] = q.Nickname
	}
	for _, k := range s.Ideas.Kinds {
		p.Kinds = append(p.Kinds, d.kindCard(say, s, k, names))
	}
	for _, o := range s.Ideas.Others {
		if q, err := s.pupil(o.PupilID); err == nil {
			p.Others = append(p.Others, d.tileOf(say, s, q, "other-"))
		}
	}
	for _, q := range s.Ideas.Waiting {
		p.Waiting = append(p.Waiting, q.Nickname)
	}
	return p
}

// summaryOf says in a sentence how various the boards are.
func summaryOf(say *say.Speaker, t class.Task, g class.Gathering) string {
	out := say.Counted("figures.in", len(g.Latest)) + " " + say.Counted("figures.different", g.Different)
	if g.Fitting > 0 {
		out += " " + say.Counted("figures.fitting", g.Fitting)
	}
	if t.Model != "" {
		out += " " + say.Counted("figures.copies", g.Copies)
	}
	return out
}

func (d *Desk) kindCard(say *say.Speaker, s *scene, k class.Kind, names map[string]string) kindCard {
	shown := k.Showings[0]
	r := d.judged.reading(s.Board, shown.Figure, s.Task.Definitions)
	c := kindCard{
		Speaker: say, Picture: page.Figure(say, "kind-"+shown.ID, r, page.Small), Name: page.Name(say, r),
		Count: say.Counted("figures.pupils", len(k.Showings)), Standing: shown.Standing,
		Words: standWords(say, shown.Standing), Model: k.Model, Only: k.Only(),
	}
	for _, o := range k.Showings {
		c.Pupils = append(c.Pupils, kindPupil{names[o.PupilID], s.path("/pupil/" + o.PupilID), k.IsFirst(o) && len(k.Showings) > 1})
	}
	return c
}

// tile is one pupil's board.
type tile struct {
	*say.Speaker
	ID       string // of the element
	Address  string
	Pupil    class.Pupil
	Picture  template.HTML
	Figure   string // in words: its name, or how many sides
	Sides    string
	Key      string // of the standing, "none" for nothing handed in
	Standing task.Standing
	Words    string // of the standing
	Moving   bool   // the board differs from what was handed in last
	Goes     int
	Unlooked bool
	First    bool
	Only     bool
	Model    bool
	In       bool
	Lost     bool // in, with no line to its device
	AtFront  bool
	Source   class.Source
}

func (d *Desk) tile(say *say.Speaker, s *scene, p class.Pupil) tile {
	return d.tileOf(say, s, p, "tile-")
}

func (d *Desk) tileOf(say *say.Speaker, s *scene, p class.Pupil, prefix string) tile {
	t := tile{Speaker: say, ID: prefix + p.ID, Address: s.path("/pupil/" + p.ID), Pupil: p, Key: "none"}
	_, t.In = s.Seats[p.ID]
	t.Lost = t.In && d.Live.Connected(s.Run.ID, p.ID) == 0
	if s.Task == nil {
		return t
	}
	figure, moving := d.Live.Moving(s.Run.ID, p.ID)
	if last, ok := s.latest(p.ID); ok {
		t.handedIn(say, s, last)
		t.Moving = moving && figure != last.Figure
		if !t.Moving {
			figure = last.Figure
		}
	} else {
		t.Moving = moving && figure != ""
	}
	r := d.judged.reading(s.Board, figure, s.Task.Definitions)
	t.Picture = page.Figure(say, t.ID+"-picture", r, page.Small)
	t.Sides = sidesOf(say, r)
	return t
}

// handedIn fills in how the last showing stands.
func (t *tile) handedIn(say *say.Speaker, s *scene, last class.Showing) {
	t.Key, t.Standing, t.Source = standingKey(last.Standing), last.Standing, last.Source
	t.Words = standWords(say, last.Standing)
	t.Unlooked = last.Looked.IsZero()
	for _, o := range s.Showings {
		if o.PupilID == t.Pupil.ID {
			t.Goes++
		}
	}
	if k, ok := s.Ideas.KindOf(last); ok {
		t.Only, t.Model = k.Only(), k.Model
		t.First = !t.Only && k.IsFirst(last)
	}
	for _, id := range s.Front.Showings {
		t.AtFront = t.AtFront || id == last.ID && s.Front.Kind == class.FrontBoards
	}
}

// sidesOf says how many sides a figure has, or what it comes to.
func sidesOf(say *say.Speaker, r shape.Reading) string {
	switch {
	case r.Polygon != nil:
		return say.Claim(shape.Reason{Fact: shape.FactSides, Holds: true, Count: r.Polygon.Sides()})
	case r.Outline.Status == shape.Empty:
		return ""
	}
	return say.Status(r.Outline.Status)
}

// OpenRoom lets other devices in.
func (d *Desk) OpenRoom(w http.ResponseWriter, r *http.Request) error {
	return d.door(w, r, func(room Room) error {
		_, err := room.Open()
		return err
	})
}

// CloseRoom keeps other devices out.
func (d *Desk) CloseRoom(w http.ResponseWriter, r *http.Request) error {
	return d.door(w, r, Room.Close)
}

func (d *Desk) door(w http.ResponseWriter, r *http.Request, do func(Room) error) error {
	run, err := d.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	if d.Room == nil {
		return page.Refuse(http.StatusConflict, "room.no_door")
	}
	if err := do(d.Room); err != nil {
		d.Log.ErrorContext(r.Context(), "the room's door is stuck", "err", err)
		return page.Refuse(http.StatusConflict, "room.stuck")
	}
	d.publish(run.ID, "room")
	d.tellFront(run.ID)
	return see(w, r, "/desk/run/"+run.ID)
}

// EndRun ends a run: its task, its seats, its front.
func (d *Desk) EndRun(w http.ResponseWriter, r *http.Request) error {
	run, err := d.Store.Run(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	if err := d.Store.EndRun(r.Context(), run.ID, d.Now()); err != nil {
		return err
	}
	d.Live.Forget(run.ID)
	d.tellSeats(run.ID)
	d.tellFront(run.ID)
	d.publish(run.ID, "task", "counts", "room")
	return see(w, r, "/desk/run/"+run.ID+"/kept")
}

// Free sends the device at a pupil's place out, or frees the place.
func (d *Desk) Free(w http.ResponseWriter, r *http.Request) error {
	s, err := d.bareScene(r.Context(), r.PathValue("run"))
	if err != nil {
		return err
	}
	p, err := s.pupil(r.FormValue("pupil"))
	if err != nil {
		return err
	}
	if err := d.Store.FreePupil(r.Context(), s.Run.ID, p.ID, d.Now()); err != nil {
		return err
	}
	d.tellSeat(s.Run.ID, p.ID)
	d.publish(s.Run.ID, "tile-"+p.ID, "room", "who")
	return see(w, r, orPath(r.FormValue("back"), s.path("/pupil/"+p.ID)))
}

// orPath returns the address to go back to, or another when none is given.
func orPath(back, other string) string {
	if back == "" {
		return other
	}
	return backOf(back)
}

// tellSeat says to one seat of a run that something changed for it.
func (d *Desk) tellSeat(run, pupil string) {
	d.Bus.Publish(bus.Event{Topic: "seat/" + run + "/" + pupil, Piece: "seat-" + pupil})
}

// tellSeats says to all seats of a run that the task changed.
func (d *Desk) tellSeats(run string) { d.Bus.Publish(bus.Event{Topic: "seats/" + run, Piece: "task"}) }

// tellFront says that the front shows something else.
func (d *Desk) tellFront(run string) { d.Bus.Publish(bus.Event{Topic: "front/" + run, Piece: "front"}) }

// tellAll says that a run has another task.
func (d *Desk) tellAll(s *scene) {
	d.tellSeats(s.Run.ID)
	d.tellFront(s.Run.ID)
	pieces := []string{"task", "counts", "front", "figures"}
	for _, p := range s.Pupils {
		pieces = append(pieces, "tile-"+p.ID)
	}
	d.publish(s.Run.ID, pieces...)
}

// boards are the boards that menus offer.
var boards = []string{
	"square:5x5", "square:3x3", "square:4x4", "square:6x6", "square:8x8", "square:10x10", "staggered:5x5", "triangle:5", "triangle:7",
	"ring:6", "ring:8", "ring:10", "ring:12", "ring:12+centre", "ring:24",
}

// boardChoice is a board in a menu.
type boardChoice struct {
	Value, Words string
	Chosen       bool
}

// boardChoices returns the menu of boards; one that is chosen and not in it is
// added.
func boardChoices(say *say.Speaker, chosen string) []boardChoice {
	var out []boardChoice
	found := false
	for _, text := range boards {
		found = found || text == chosen
		out = append(out, boardChoice{text, say.Capital(say.Board(board.MustParse(text))), text == chosen})
	}
	if b, err := board.Parse(chosen); err == nil && !found {
		out = append(out, boardChoice{b.String(), say.Capital(say.Board(b)), true})
	}
	return out
}
