package e2e

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pegwright/internal/browser"
	"pegwright/store"
)

func contains(text string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

// TestTheNetworkCutInTheMiddle: what is shown while the network is down waits
// on the device and arrives when it is back.
func TestTheNetworkCutInTheMiddle(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	r := s.room(0, "en")
	r.set(nil)
	desk := s.teacher(b)
	r.desk(desk)
	p := r.seat(b, 2)
	ready(p)
	p.Tap("A1", "C1", "D2")
	r.moved(2, "A1 C1 D2")
	p.Cut(true)
	p.Tap("C3", "A3", "B2", "A1")
	p.Click("[data-show]")
	p.Until(`document.querySelector("[data-answer][data-kind=waiting]")`)
	p.Shot("seat-cut")
	if all, err := s.store.Showings(context.Background(), r.run.ID); err != nil || len(all) != 0 {
		t.Fatalf("%d showings came through a cut network, %v", len(all), err)
	}
	before := time.Now()
	p.Cut(false)
	p.Until(`document.querySelector("[data-answer][data-kind=kept]")`)
	all := r.kept(1)
	if all[0].Figure != "A1 C1 D2 C3 A3 B2" || !all[0].Made.Before(before) {
		t.Errorf("kept %+v", all[0])
	}
	r.standing(desk, 2, "fits")
	p.Until(`document.querySelector("[data-lost]").hidden`)
	desk.Calm("desk")
	p.Calm("seat", "net::ERR_INTERNET_DISCONNECTED")
}

// server is the program in a process of its own.
type server struct {
	cmd  *exec.Cmd
	base string
	said string
}

// serve starts a command that serves on a port, and waits until it is ready.
func serve(t *testing.T, command string, port int, folder string) *server {
	t.Helper()
	exe, err := os.Executable()
	must(t, err)
	s := &server{cmd: exec.Command(exe), base: fmt.Sprintf("http://127.0.0.1:%d", port)}
	s.cmd.Env = append(os.Environ(), fmt.Sprintf("PEGWRIGHT_E2E_RUN=%s --listen 127.0.0.1:%d --data %s", command, port, folder))
	out, err := s.cmd.StdoutPipe()
	must(t, err)
	must(t, s.cmd.Start())
	t.Cleanup(s.kill)
	for lines := bufio.NewScanner(out); lines.Scan(); {
		s.said += lines.Text() + "\n"
		if strings.Contains(lines.Text(), "Ctrl-C") {
			return s
		}
	}
	t.Fatal("the server did not become ready")
	return nil
}

// kill ends the process as a power cut would, without a word.
func (s *server) kill() {
	_ = s.cmd.Process.Kill()
	_ = s.cmd.Wait()
}

// freePort returns a port that nothing listens at.
func freePort(t testing.TB) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	must(t, err)
	defer func() { must(t, l.Close()) }()
	return l.Addr().(*net.TCPAddr).Port
}

// TestTheServerIsKilledInTheMiddle: a showing that the seat was told is kept
// is there after SIGKILL, and the pages find the new server by themselves.
func TestTheServerIsKilledInTheMiddle(t *testing.T) {
	b := browser.Start(t)
	folder, port := t.TempDir(), freePort(t)
	first := serve(t, "serve", port, folder)
	seed, err := store.Open(context.Background(), filepath.Join(folder, "pegwright.db"))
	must(t, err)
	s := &school{t: t, store: seed, base: first.base}
	t.Cleanup(func() { must(t, seed.Close()) })
	r := s.room(0, "en")
	desk := s.teacher(b)
	r.desk(desk)
	seats := []*browser.Tab{r.seat(b, 0), r.seat(b, 1)}
	desk.Click("#quick summary")
	desk.Click(`label[for="quick-triangle"]`)
	desk.Click("#quick form button.main")
	for _, p := range seats {
		ready(p)
	}
	seats[0].Tap("A1", "D1", "D3", "A1")
	show(seats[0]) // acknowledged
	seats[1].Tap("A1", "E1", "A5", "A1")

	first.kill()
	seats[1].Click("[data-show]")
	seats[1].Until(`document.querySelector("[data-answer][data-kind=waiting]")`)
	seats[0].Tap("D3", "E5") // a move that nobody hears
	again := serve(t, "serve", port, folder)
	if again.base != first.base {
		t.Fatal("another address")
	}
	seats[1].Until(`document.querySelector("[data-answer][data-kind=kept]")`)
	show(seats[0])
	all := r.kept(3)
	figures := map[string]int{}
	for _, one := range all {
		figures[one.Figure]++
	}
	if len(all) != 3 || figures["A1 D1 D3"] != 1 || figures["A1 E1 A5"] != 1 {
		t.Errorf("kept %v", figures)
	}
	for i := range seats {
		r.standing(desk, i, "fits")
	}
}

// TestTwoTabsOnOneSeat: both show one board, and either may hand it in.
func TestTwoTabsOnOneSeat(t *testing.T) {
	b, s := browser.Start(t), newSchool(t)
	r := s.room(0, "en")
	r.set(nil)
	one := r.seat(b, 1)
	ready(one)
	two := one.Another()
	two.Size(820, 1180)
	two.Open(s.base + "/seat")
	ready(two)
	one.Tap("A1", "D1", "D3", "A1")
	r.moved(1, "A1 D1 D3")
	two.Until(`document.querySelector("[data-words]").textContent.includes("D3")`)
	show(two)
	one.Until(`document.querySelector("[data-answer][data-kind=kept]")`)
	if all := r.kept(1); len(all) != 1 || all[0].Figure != "A1 D1 D3" {
		t.Errorf("kept %+v", all)
	}
	one.Calm("first tab")
	two.Calm("second tab")
}
