package cli

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strconv"
	"sync"
	"time"
)

// door decides who reaches the pages: this machine always, other devices from
// when the teacher opens the room until it is closed again.
type door struct {
	handler http.Handler
	log     *slog.Logger
	// lan returns the addresses at which other devices reach this machine.
	lan func() ([]netip.Addr, error)
	// opened is told the addresses when the room opens, none when it closes.
	opened func(addresses []string)

	here   net.Listener
	server *http.Server // of this machine

	mu        sync.Mutex
	room      *http.Server // of other devices, nil while the room is closed
	addresses []string
}

// listen takes the port on this machine, before anything else is begun.
func (d *door) listen(at netip.AddrPort) error {
	l, err := net.Listen("tcp", at.String())
	if err != nil {
		return err
	}
	d.here, d.server = l, d.newServer()
	return nil
}

// newServer makes a server that no slow stranger can hold up. Streams are
// written for hours, so writing has no limit here; they have their own.
func (d *door) newServer() *http.Server {
	return &http.Server{
		Handler: d.handler, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 32 << 10,
		ErrorLog: slog.NewLogLogger(d.log.Handler(), slog.LevelDebug),
	}
}

// port returns the port that was taken.
func (d *door) port() uint16 { return addressOf(d.here).Port() }

// base returns the address of the pages on this machine.
func (d *door) base() string { return "http://" + addressOf(d.here).String() }

func addressOf(l net.Listener) netip.AddrPort { return l.Addr().(*net.TCPAddr).AddrPort() }

// serve answers this machine until shut is called.
func (d *door) serve() error {
	if err := d.server.Serve(d.here); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// shut lets what has begun come to an end, as long as the context allows.
func (d *door) shut(ctx context.Context) error {
	d.opened = func([]string) {} // what is told now is told too late
	err := errors.Join(d.Close(), d.server.Shutdown(ctx))
	if errors.Is(err, context.DeadlineExceeded) {
		return d.server.Close()
	}
	return err
}

// Open listens for other devices too and returns where they reach the room.
func (d *door) Open() ([]string, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.room != nil {
		return slices.Clone(d.addresses), nil
	}
	hosts, err := d.lan()
	if err != nil {
		return nil, fmt.Errorf("addresses of this machine: %w", err)
	}
	listeners, err := listenAt(hosts, d.port())
	if err != nil {
		return nil, err
	}
	d.room, d.addresses = d.newServer(), nil
	for _, l := range listeners {
		d.addresses = append(d.addresses, "http://"+addressOf(l).String())
		go d.room.Serve(l) //nolint:errcheck // it ends when the room is closed
	}
	d.log.Info("room opened", "addresses", len(listeners))
	d.opened(slices.Clone(d.addresses))
	return slices.Clone(d.addresses), nil
}

// errNoNetwork is returned when no other device could reach this machine.
var errNoNetwork = errors.New("this machine is on no network")

// listenAt takes a port at every address where that can be done.
func listenAt(hosts []netip.Addr, port uint16) ([]net.Listener, error) {
	var out []net.Listener
	failed := errNoNetwork
	for _, h := range hosts {
		l, err := net.Listen("tcp", netip.AddrPortFrom(h, port).String())
		if err != nil {
			failed = err
			continue
		}
		out = append(out, l)
	}
	if len(out) == 0 {
		return nil, failed
	}
	return out, nil
}

// Close listens to this machine alone; other devices are cut off.
func (d *door) Close() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.room == nil {
		return nil
	}
	err := d.room.Close()
	d.room, d.addresses = nil, nil
	d.log.Info("room closed")
	d.opened(nil)
	return err
}

// Addresses returns where other devices reach the room, none when it is closed.
func (d *door) Addresses() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.addresses)
}

// lanAddresses returns the addresses of this machine on its networks, those of
// private networks before others.
func lanAddresses() ([]netip.Addr, error) {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil, err
	}
	var out []netip.Addr
	for _, a := range all {
		p, err := netip.ParsePrefix(a.String())
		if err == nil && reachable(p.Addr()) {
			out = append(out, p.Addr())
		}
	}
	slices.SortStableFunc(out, func(a, b netip.Addr) int { return rank(a) - rank(b) })
	return out, nil
}

// reachable reports whether other devices may know this machine by an address.
// IPv6 addresses are left to those who ask for one with --listen: nobody can
// type them.
func reachable(a netip.Addr) bool { return a.Is4() && !a.IsLoopback() && !a.IsUnspecified() }

// rank puts the addresses that a class is likely to reach first.
func rank(a netip.Addr) int {
	switch {
	case a.IsPrivate():
		return 0
	case a.IsLinkLocalUnicast():
		return 2
	}
	return 1
}

// place is what --listen says: where this machine reaches the pages, and, when
// the host is not this machine alone, where others do from the start.
type place struct {
	here   netip.AddrPort
	others func() ([]netip.Addr, error)
	open   bool // from the start
}

// parsePlace reads HOST:PORT.
func parsePlace(text string) (place, error) {
	host, port, err := net.SplitHostPort(text)
	if err != nil {
		return place{}, badListen(text)
	}
	n, err := strconv.ParseUint(port, 10, 16)
	if err != nil {
		return place{}, badListen(text)
	}
	local := netip.AddrPortFrom(netip.AddrFrom4([4]byte{127, 0, 0, 1}), uint16(n))
	if host == "localhost" {
		return place{here: local, others: lanAddresses}, nil
	}
	a, err := netip.ParseAddr(host)
	switch {
	case host == "" || err == nil && a.IsUnspecified():
		return place{here: local, others: lanAddresses, open: true}, nil
	case err != nil:
		return place{}, badListen(text)
	case a.IsLoopback():
		return place{here: netip.AddrPortFrom(a, uint16(n)), others: lanAddresses}, nil
	}
	return place{here: local, others: func() ([]netip.Addr, error) { return []netip.Addr{a}, nil }, open: true}, nil
}

func badListen(text string) error {
	return &misuse{
		fmt.Sprintf("--listen %q is no address of this machine", text),
		"write a host and a port, such as 127.0.0.1:8320",
	}
}
