package store_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"pegwright/store"
	"pegwright/store/storetest"
)

// victim is set to an address in the child process of
// TestKilledProcessLosesNothing.
const victim = "PEGWRIGHT_TEST_VICTIM"

func TestMain(m *testing.M) {
	if address := os.Getenv(victim); address != "" {
		bleed(address)
		return
	}
	os.Exit(m.Run())
}

// bleed adds showings from four sides for ever, and writes the ID of each one
// when it has been acknowledged.
func bleed(address string) {
	ctx := context.Background()
	s, err := store.Open(ctx, address)
	if err != nil {
		fmt.Println("error:", err)
		os.Exit(1)
	}
	room, err := storetest.AddScene(ctx, s, "kite", 4)
	if err != nil {
		fmt.Println("error:", err)
		os.Exit(1)
	}
	var out sync.Mutex
	for w := range 4 {
		go func() {
			for n := 0; ; n++ {
				showing := room.Showing(w*1_000_000+n, w)
				_, err := s.AddShowing(ctx, showing)
				out.Lock()
				if err != nil {
					fmt.Println("error:", err)
				} else {
					fmt.Println(showing.ID)
				}
				out.Unlock()
			}
		}()
	}
	select {}
}

// TestKilledProcessLosesNothing kills a process with SIGKILL while it writes, and
// finds every showing that it had acknowledged.
func TestKilledProcessLosesNothing(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no SIGKILL")
	}
	for _, after := range []int{1, 50, 333} {
		t.Run(fmt.Sprint("after ", after), func(t *testing.T) {
			storetest.Each(t, func(t *testing.T, address string) {
				acknowledged := killAfter(t, address, after)
				s := storetest.Open(t, address)
				kept, err := s.Showings(t.Context(), "kite-run")
				need(t, err)
				there := map[string]bool{}
				for _, showing := range kept {
					there[showing.ID] = true
				}
				for _, id := range acknowledged {
					if !there[id] {
						t.Errorf("%s was acknowledged and is lost", id)
					}
				}
				t.Logf("%d acknowledged, %d kept", len(acknowledged), len(kept))
			})
		})
	}
}

func killAfter(t *testing.T, address string, n int) (acknowledged []string) {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), victim+"="+address)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	need(t, err)
	need(t, child.Start())
	guard := time.AfterFunc(time.Minute, func() { child.Process.Kill() })
	defer guard.Stop()
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "error") {
			t.Error(lines.Text())
		} else if strings.HasPrefix(lines.Text(), "kite-showing-") {
			acknowledged = append(acknowledged, lines.Text())
		}
		if len(acknowledged) == n {
			need(t, child.Process.Signal(syscall.SIGKILL))
		}
	}
	child.Wait() //nolint:errcheck // it was killed
	if len(acknowledged) < n {
		t.Fatalf("the process died after %d showings", len(acknowledged))
	}
	return acknowledged
}
