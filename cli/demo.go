package cli

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"strings"
	"sync"

	"pegwright/demo"
)

// demoCommand starts the server with an invented class at work in it.
type demoCommand struct {
	serveFlags
	Seed uint64 `default:"1" hidden:"" help:"Which figures the pupils make."`
}

// demoPassphrase opens the desk of the demo. It is no secret: it is printed.
const demoPassphrase = "kestrels over the harbour"

// Help says what there is to see.
func (demoCommand) Help() string {
	return `A class of 28 invented pupils, three lessons that they had, and one that has
begun: two dozen of them are at work in their seats, each with habits of its
own. Open the desk and a front, and take one of the free seats beside them.

The records are in a temporary folder, which is removed at the end unless --data
names another.`
}

// Run shows the class until the program is to stop.
func (c demoCommand) Run(env Env) (err error) {
	ctx, stop := env.until()
	defer stop()
	if c.Data == "" {
		folder, err := os.MkdirTemp("", "pegwright-demo-")
		if err != nil {
			return &trouble{"no temporary folder can be made", "name a folder with --data DIR", err}
		}
		defer func() { _ = os.RemoveAll(folder) }()
		c.Data = folder
	}
	h, err := openHouse(ctx, env, c.serveFlags)
	if err != nil {
		return err
	}
	var pupils sync.WaitGroup
	defer pupils.Wait()
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	return h.serve(ctx, func() error {
		s, err := c.prepare(ctx, h)
		if err != nil {
			return err
		}
		pupils.Go(func() { h.room(s, c.Seed).Work(ctx) })
		h.welcome(s)
		return nil
	})
}

// prepare seeds the records, or finds what an earlier demo left, and chooses
// the passphrase as a first visit does.
func (c demoCommand) prepare(ctx context.Context, h *house) (demo.Scenario, error) {
	s, found, err := demo.Resume(ctx, h.store)
	if errors.Is(err, demo.ErrOthers) {
		return s, &trouble{"the folder " + c.Data + " holds records of a class that is not the demo's", "name an empty folder with --data DIR, or leave it out", err}
	}
	if err == nil && !found {
		s, err = demo.Seed(ctx, h.store, rand.Reader, h.env.Now(), c.Seed)
	}
	if err != nil {
		return s, err
	}
	return s, h.choosePassphrase(ctx)
}

func (h *house) choosePassphrase(ctx context.Context) error {
	form := url.Values{"passphrase": {demoPassphrase}}
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, h.door.base()+"/desk/setup", strings.NewReader(form.Encode()))
	if err != nil {
		return err
	}
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	res, err := http.DefaultTransport.RoundTrip(req)
	if err != nil {
		return fmt.Errorf("passphrase: %w", err)
	}
	defer func() { _ = res.Body.Close() }()
	if res.StatusCode != http.StatusSeeOther {
		return fmt.Errorf("passphrase: %s", res.Status)
	}
	return nil
}

// room is the room with the simulated pupils in it.
func (h *house) room(s demo.Scenario, seed uint64) demo.Room {
	return demo.Room{
		Scenario: s, Base: h.door.base(), Store: h.store, Seed: seed, Log: h.log, Now: h.env.Now,
		Pause: demo.Wait, Random: rand.Reader,
	}
}

// welcome says what there is to see and how to get in.
func (h *house) welcome(s demo.Scenario) {
	base := h.door.base()
	fmt.Fprintf(h.env.Out, "%s\nThe school, the class and the pupils are invented.\n\n", h.env.paint.strong("A class at work: "+s.Class.Name))
	h.row("Desk", base+"/desk")
	h.row("Passphrase", demoPassphrase)
	if s.Run.ID != "" {
		h.row("Class now", base+"/desk/run/"+s.Run.ID)
		h.row("Front", base+"/front/"+s.Run.ID+"  (in the desk's browser)")
		h.row("Seat", base+"/  in another browser or a private window")
		h.row("Room word", s.Run.RoomWord)
	}
	fmt.Fprint(h.env.Out, "\nSeats at the table \"Coats\" are free. Ctrl-C stops it; nothing is kept unless --data was given.\n")
}
