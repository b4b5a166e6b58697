package desk

import (
	"context"
	"crypto/rand"
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"pegwright/atlas"
	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

func TestKeysMatchOnlyThemselves(t *testing.T) {
	hash, err := hashKey(rand.Reader, "four quite ordinary words")
	if err != nil {
		t.Fatal(err)
	}
	for secret, want := range map[string]bool{
		"four quite ordinary words": true, "four quite ordinary word": false, "": false, "Four quite ordinary words": false,
	} {
		if got, err := matches(hash, secret); got != want || err != nil {
			t.Errorf("matches(%q) = %v, %v", secret, got, err)
		}
	}
	// One letter typed in two ways: é as one sign, and e with its accent.
	hash, err = hashKey(rand.Reader, "caf\u00e9 caf\u00e9 caf\u00e9 caf\u00e9")
	if err != nil {
		t.Fatal(err)
	}
	if ok, err := matches(hash, strings.Repeat("cafe\u0301 ", 4)[:27]); !ok || err != nil {
		t.Errorf("the same words composed otherwise: %v, %v", ok, err)
	}
	for _, broken := range []string{"", "plain", "$argon2id$v=19$m=1,t=1,p=1$!$!", "$argon2i$v=19$m=8,t=1,p=1$AAAA$AAAA"} {
		if _, err := matches(broken, "x"); err == nil {
			t.Errorf("matches(%q) gives no error", broken)
		}
	}
}

func TestFaultsOfPassphrases(t *testing.T) {
	for passphrase, want := range map[string]string{
		"fourteen chars":                         faultShort,
		"fifteen chars!!":                        "",
		strings.Repeat("ñ", 14):                  faultShort,
		strings.Repeat("wörd ", 51) + "x":        "",
		strings.Repeat("wörd ", 52):              faultLong,
		"Correct-Horse battery staple":           faultCommon,
		"123412341234123412":                     faultCommon,
		"kestrels eat voles at noon":             "",
		"aaaaaaaaaaaaaaaa":                       faultCommon,
		"the quick brown fox":                    faultCommon,
		"every word here is ordinary and in use": "",
	} {
		if got := faultOf(passphrase); got != want {
			t.Errorf("faultOf(%q) = %q, want %q", passphrase, got, want)
		}
	}
}

func TestRecoveryCodes(t *testing.T) {
	seen := map[string]bool{}
	for range 1000 {
		code, err := newRecovery(rand.Reader)
		if err != nil {
			t.Fatal(err)
		}
		if len(code) != 24 || strings.ContainsAny(code, "ILOU") || seen[code] {
			t.Fatalf("code %q", code)
		}
		seen[code] = true
		if got := foldRecovery(" " + strings.ToLower(strings.ReplaceAll(code, "0", "o"))); got != foldRecovery(code) {
			t.Fatalf("foldRecovery reads %q otherwise when typed", code)
		}
	}
}

func TestGuesses(t *testing.T) {
	g, now := newGuesses(), time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	for i := range freeTries {
		if until := g.take("a", false, now); !until.IsZero() {
			t.Fatalf("try %d must wait", i)
		}
	}
	waits := []time.Duration{30 * time.Second, time.Minute, 2 * time.Minute, 4 * time.Minute, 8 * time.Minute, 15 * time.Minute, 15 * time.Minute}
	for _, want := range waits {
		if got := g.take("a", false, now).Sub(now); got != want {
			t.Fatalf("wait %v, want %v", got, want)
		}
		now = now.Add(want)
		if until := g.take("a", false, now); !until.IsZero() {
			t.Fatal("the try after the wait is refused")
		}
	}
	if until := g.take("b", false, now); !until.IsZero() {
		t.Error("one address holds up another")
	}
	for i := range 60 {
		g.take(fmt.Sprint("many", i), false, now)
	}
	if until := g.take("fresh", false, now); until.IsZero() {
		t.Error("many addresses together are not limited")
	}
	if until := g.take("127.0.0.1", true, now); !until.IsZero() {
		t.Error("a class locks its teacher out")
	}
	for i := range 3 * mostTallies {
		g.take(fmt.Sprint("flood", i), false, now)
	}
	if len(g.by) > mostTallies {
		t.Errorf("%d tallies, want at most %d", len(g.by), mostTallies)
	}
}

func TestBackStaysInTheHouse(t *testing.T) {
	for back, want := range map[string]string{
		"": "/desk", "/desk": "/desk", "/desk/run/a?view=figures": "/desk/run/a?view=figures", "/front/a": "/front/a",
		"https://evil.example/desk": "/desk", "//evil.example/desk": "/desk", "/desk/unlock": "/desk", "/\\evil": "/desk", "/seat": "/desk",
		"javascript:alert(1)": "/desk",
	} {
		if got := backOf(back); got != want {
			t.Errorf("backOf(%q) = %q, want %q", back, got, want)
		}
	}
}

func TestFromHere(t *testing.T) {
	for peer, want := range map[string]bool{"127.0.0.1:1": true, "[::1]:1": true, "192.0.2.1:1": false, "nonsense": false} {
		r := httptest.NewRequest("GET", "/", nil)
		r.RemoteAddr = peer
		if got := fromHere(r); got != want {
			t.Errorf("fromHere(%s) = %v", peer, got)
		}
	}
}

func TestRowsWriteConditions(t *testing.T) {
	for _, text := range []string{"sides=6", "fold-lines>=1", "convex=no", "regular=yes", "kind=square", "kind!=right isosceles triangle", "area>=7/2"} {
		c, err := task.ParseCondition(text)
		if err != nil {
			t.Fatal(err)
		}
		again, err := task.ParseCondition(rowOf(c).Text())
		if err != nil || again.String() != c.String() {
			t.Errorf("%s: the menus write %q (%v)", text, rowOf(c).Text(), err)
		}
	}
}

func TestQuickTasksCanBeDone(t *testing.T) {
	for _, q := range quickTasks {
		cs, err := task.Parse(q.Conditions)
		if err != nil {
			t.Fatalf("%s: %v", q.ID, err)
		}
		a, err := atlas.Find(context.Background(), atlas.Question{Board: board.MustParse("square:4x4"), Conditions: cs, Examples: 1})
		if err != nil || !a.Possible {
			t.Errorf("%s cannot be done on 4 by 4 pegs: %v", q.ID, err)
		}
	}
	for _, text := range boards {
		board.MustParse(text)
	}
}

// TestWrongOnesFailOneCondition holds every wrong figure that the builder shows
// against its task.
func TestWrongOnesFailOneCondition(t *testing.T) {
	for _, texts := range [][]string{{"sides=6"}, {"kind=rectangle"}, {"sides=5", "right-angles>=2"}, {"fold-lines=1", "convex=no"}} {
		tk := task.Task{Board: board.MustParse("square:4x4"), Conditions: task.MustParse(texts...)}
		a, err := atlas.Find(context.Background(), atlas.Question{Board: tk.Board, Conditions: tk.Conditions, Examples: mostExamples})
		if err != nil {
			t.Fatal(err)
		}
		wrong := wrongOnes(a, tk)
		if len(wrong) == 0 {
			t.Errorf("%v: no wrong ones", texts)
		}
		var polygons []*shape.Polygon
		for _, w := range wrong {
			v := tk.Judge(w.Figure)
			fails := 0
			for _, r := range v.Results {
				if !r.Holds {
					fails++
				}
			}
			if fails != 1 {
				t.Errorf("%v: %s fails %d conditions", texts, w.Figure, fails)
			}
			for _, p := range polygons {
				if shape.Congruent(p, v.Reading.Polygon) {
					t.Errorf("%v: %s is there twice", texts, w.Figure)
				}
			}
			polygons = append(polygons, v.Reading.Polygon)
		}
	}
}

func TestAnswersAreAskedOnce(t *testing.T) {
	asked := 0
	a := newAnswers(func(ctx context.Context, _ atlas.Question) (atlas.Answer, error) {
		asked++
		return atlas.Answer{Possible: true}, ctx.Err()
	})
	q := atlas.Question{Board: board.MustParse("square:3x3"), Conditions: task.MustParse("sides=3")}
	gone, end := context.WithCancel(context.Background())
	end()
	if _, err := a.ask(gone, q); err == nil {
		t.Error("a question that was called off is answered")
	}
	for range 3 {
		if got, err := a.ask(context.Background(), q); err != nil || !got.Possible {
			t.Errorf("ask = %v, %v", got, err)
		}
	}
	if asked > 2 {
		t.Errorf("the atlas was asked %d times, want once and once called off", asked)
	}
}
