package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	"github.com/gofrs/flock"

	"pegwright/store"
	"pegwright/store/schema"
	"pegwright/web"
)

// serveFlags are the flags of the commands that start a server.
type serveFlags struct {
	Listen string `default:"127.0.0.1:8320" placeholder:"HOST:PORT" help:"Where to listen (127.0.0.1:8320). Other devices are let in when the room is opened at the desk."`
	Data   string `placeholder:"DIR" help:"The folder of the records, or a postgres:// address."`
}

// serveCommand starts the server.
type serveCommand struct{ serveFlags }

// Help says what is where.
func (serveCommand) Help() string {
	return `The desk is for the teacher, behind a passphrase that is chosen on the first
visit. The seats are for pupils, with the room word of a run. Records are kept
in one folder of this machine (--data) and go nowhere else.

Ctrl-C stops the server. Nothing that was handed in is lost, however it stops.`
}

// Run serves until the program is to stop.
func (c serveCommand) Run(env Env) error {
	ctx, stop := env.until()
	defer stop()
	if c.Data == "" {
		folder, err := dataFolder()
		if err != nil {
			return err
		}
		c.Data = folder
	}
	h, err := openHouse(ctx, env, c.serveFlags)
	if err != nil {
		return err
	}
	return h.serve(ctx, func() error {
		fmt.Fprintf(env.Out, "%s\n\n", env.paint.strong("Pegwright is ready."))
		h.row("Desk", h.door.base()+"/desk")
		h.row("Seats", h.door.base()+"/  (other devices: open the room at the desk)")
		h.row("Records", c.Data)
		fmt.Fprint(env.Out, "\nCtrl-C stops it.\n")
		return nil
	})
}

// row prints a line of two columns.
func (h *house) row(name, value string) { fmt.Fprintf(h.env.Out, "  %-12s%s\n", name, value) }

// house is a server and what it stands on.
type house struct {
	env   Env
	log   *slog.Logger
	store *store.Store
	alone *flock.Flock // held while this server has the folder of records; nil on a database server
	pages *web.Server
	door  *door
	place place
}

// openHouse takes the port and opens the records, in this order: a second
// server on one port must not touch them.
func openHouse(ctx context.Context, env Env, flags serveFlags) (*house, error) {
	at, err := parsePlace(flags.Listen)
	if err != nil {
		return nil, err
	}
	h := &house{env: env, log: slog.New(slog.NewTextHandler(env.Err, nil)), place: at}
	h.door = &door{log: h.log, lan: at.others, opened: h.opened}
	if err := h.door.listen(at.here); err != nil {
		return nil, listenTrouble(at.here.String(), err)
	}
	if h.store, err = openStore(ctx, flags.Data); err != nil {
		_ = h.door.here.Close()
		return nil, err
	}
	if h.alone, err = holdFolder(flags.Data); err != nil {
		return nil, errors.Join(err, h.store.Close(), h.door.here.Close())
	}
	h.pages = web.New(web.Config{Store: h.store, Log: h.log, Now: env.Now, Room: h.door, Version: version()})
	h.door.handler = h.pages.Handler()
	h.door.server.Handler = h.door.handler
	return h, nil
}

// opened prints where other devices reach the room.
func (h *house) opened(addresses []string) {
	if len(addresses) == 0 {
		fmt.Fprintln(h.env.Out, "The room is closed: this machine alone.")
		return
	}
	fmt.Fprintf(h.env.Out, "The room is open: %s\n", strings.Join(addresses, "  "))
}

// patience is how long a shutdown waits for what has begun.
const patience = 5 * time.Second

// serve answers requests until the context ends, and calls ready once it does.
func (h *house) serve(ctx context.Context, ready func() error) (err error) {
	served := make(chan error, 1)
	go func() { served <- h.door.serve() }()
	h.log.Info("listening", "address", addressOf(h.door.here).String())
	defer func() { err = errors.Join(err, h.close()) }()
	if err := ready(); err != nil {
		return err
	}
	if h.place.open {
		if _, err := h.door.Open(); err != nil {
			return listenTrouble("", err)
		}
	}
	select {
	case <-ctx.Done():
		return nil
	case err := <-served:
		return err
	}
}

// close stops answering and then closes the records.
func (h *house) close() error {
	h.pages.Stop()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	err := h.door.shut(ctx)
	h.log.Info("stopped")
	err = errors.Join(err, h.store.Close())
	if h.alone != nil {
		err = errors.Join(err, h.alone.Unlock())
	}
	return err
}

// holdFolder takes a folder of records for this server alone. Two servers on
// one folder would keep everything, but the pages of one would not hear what
// happens at the other. The system lets go of the hold however a server ends.
func holdFolder(data string) (*flock.Flock, error) {
	if strings.Contains(data, "://") {
		return nil, nil
	}
	alone := flock.New(filepath.Join(data, "pegwright.lock"))
	held, err := alone.TryLock()
	switch {
	case err != nil:
		return nil, storeTrouble(data, err)
	case !held:
		return nil, &trouble{what: "another Pegwright works with the records in " + data, mend: "stop it, or name another folder with --data DIR"}
	}
	return alone, nil
}

// listenTrouble says why an address could not be listened at.
func listenTrouble(address string, err error) error {
	t := &trouble{what: "cannot listen at " + address + ": " + err.Error(), err: err}
	var op *net.OpError
	switch {
	case errors.Is(err, errNoNetwork):
		t.what, t.mend = "this machine is on no network, so no other device can reach it", "join the network of the classroom, or leave --listen out"
	case errors.Is(err, syscall.EADDRINUSE):
		t.what, t.mend = "another program listens at "+address+" already", "stop it, or choose another port with --listen HOST:PORT"
	case errors.Is(err, syscall.EACCES):
		t.what, t.mend = "this user may not listen at "+address, "choose a port above 1023 with --listen HOST:PORT"
	case errors.Is(err, syscall.EADDRNOTAVAIL):
		t.what, t.mend = "--listen names an address that this machine does not have", "write 127.0.0.1:8320, or 0.0.0.0:8320 for all networks"
	case errors.As(err, &op):
		t.mend = "choose another address with --listen HOST:PORT"
	}
	return t
}

// openStore opens the records of a folder, or of a database server.
func openStore(ctx context.Context, data string) (*store.Store, error) {
	address := data
	if !strings.Contains(data, "://") {
		address = filepath.Join(data, "pegwright.db")
	}
	st, err := store.Open(ctx, address)
	if err == nil {
		return st, nil
	}
	return nil, storeTrouble(data, err)
}

// storeTrouble says why records could not be opened. What the database says
// may hold its passphrase and is left out.
func storeTrouble(data string, err error) error {
	t := &trouble{what: "the records in " + data + " cannot be opened: " + err.Error(), err: err}
	var disk *store.DiskError
	var newer *schema.NewerError
	var path *fs.PathError
	switch {
	case strings.Contains(data, "://"):
		t.what, t.mend = "the database server does not let this program in", "check the address after --data, and that the server runs"
	case errors.As(err, &newer):
		t.what, t.mend = "the records in "+data+" were written by a newer Pegwright", "use that one, or name another folder with --data"
	case errors.As(err, &disk):
		t.what, t.mend = diskTrouble(data, disk.Fault)
	case errors.As(err, &path):
		t.what, t.mend = "the folder "+data+" cannot be made", "name another one with --data DIR"
	}
	return t
}

func diskTrouble(data string, fault store.DiskFault) (what, mend string) {
	switch fault {
	case store.DiskBusy:
		return "another program holds the records in " + data, "close it, or name another folder with --data DIR"
	case store.DiskFull:
		return "the disk of " + data + " is full", "make room on it, or name another folder with --data DIR"
	case store.DiskReadOnly:
		return "the folder " + data + " cannot be written to", "check who owns it, or name another one with --data DIR"
	}
	return "the records in " + data + " cannot be read: they are damaged, or no records of Pegwright", "copy the folder to another disk, or name another one with --data DIR"
}

// dataFolder returns the folder for records in the way of the system.
func dataFolder() (string, error) {
	home, err := os.UserHomeDir()
	if err != nil {
		return "", &trouble{"this user has no home folder for the records", "name a folder with --data DIR", err}
	}
	switch runtime.GOOS {
	case "windows":
		return filepath.Join(or(os.Getenv("LocalAppData"), filepath.Join(home, "AppData", "Local")), "Pegwright"), nil
	case "darwin":
		return filepath.Join(home, "Library", "Application Support", "Pegwright"), nil
	}
	return filepath.Join(or(os.Getenv("XDG_DATA_HOME"), filepath.Join(home, ".local", "share")), "pegwright"), nil
}

func or(first, second string) string {
	if first != "" {
		return first
	}
	return second
}

// version tells one build from another, so that pages which live through a
// change of the program load again.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	out := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			out += " " + s.Value
		}
	}
	return out
}
