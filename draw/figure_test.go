package draw

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pegwright/board"
	"pegwright/shape"
)

// within reports where a picture draws outside its bounds.
func within(p Picture) error {
	inside := func(x, y, reach float64) bool {
		const rounding = 1e-9
		return x-reach > p.Min.X-rounding && x+reach < p.Max.X+rounding && y-reach > p.Min.Y-rounding && y+reach < p.Max.Y+rounding
	}
	for _, s := range p.Shapes {
		switch s := s.(type) {
		case Circle:
			if !inside(s.At.X, s.At.Y, s.Radius+s.Style.Width/2) {
				return fmt.Errorf("a circle (%s) at %v leaves the picture", s.Role, s.At)
			}
		case Line:
			for _, at := range s.Points {
				if !inside(at.X, at.Y, s.Style.Width/2) {
					return fmt.Errorf("a line (%s) at %v leaves the picture", s.Role, at)
				}
			}
		case Label:
			half := TextWidth(s.Text, s.Size) / 2
			if !inside(s.At.X, s.At.Y+s.Size*capHeight/2, s.Size*capHeight/2) || s.At.X-half < p.Min.X || s.At.X+half > p.Max.X {
				return fmt.Errorf("the label %q leaves the picture", s.Text)
			}
		}
	}
	return nil
}

func TestNothingIsCutOff(t *testing.T) {
	for _, k := range slices.Concat(knownFigures, notPolygons) {
		for _, o := range []Options{{}, {Marks: true, FoldLines: true}, AllMarks()} {
			if err := within(Figure(read(k), o)); err != nil {
				t.Errorf("%s with %+v: %v", k.name, o, err)
			}
		}
	}
	for _, name := range allBoards {
		if err := within(Board(board.MustParse(name), AllMarks())); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestBoardHasItsPegsAndLetters(t *testing.T) {
	tests := []struct {
		board   string
		letters string
	}{
		{"square:3x2", "A 1 B C 2"},
		{"staggered:2x3", "A 1 B 2 3"},
		{"triangle:3", "A 1 B C 2 3"},
		{"ring:4", "1 2 3 4"},
		{"ring:3+centre", "1 2 3 O"},
	}
	for _, tt := range tests {
		b := board.MustParse(tt.board)
		p := Board(b, Options{Letters: true})
		if got := strings.Join(p.labels(Letter), " "); got != tt.letters {
			t.Errorf("%s has the letters %q, want %q", tt.board, got, tt.letters)
		}
		if got := len(p.circles(Peg)); got != b.Pegs() {
			t.Errorf("%s has %d pegs drawn, want %d", tt.board, got, b.Pegs())
		}
	}
}

func TestOptionsSwitchMarks(t *testing.T) {
	k := known{board: "square:5x5", bands: "A1 E1 E3 A3"}
	count := func(o Options) [5]int {
		p := Figure(read(k), o)
		return [5]int{len(p.lines(Tick)), len(p.lines(Arrow)), len(p.lines(RightBox)), len(p.lines(Fold)), len(p.labels(Letter))}
	}
	tests := []struct {
		name string
		o    Options
		want [5]int
	}{
		{"nothing", Options{}, [5]int{}},
		{"marks", Options{Marks: true}, [5]int{6, 6, 4, 0, 0}},
		{"fold lines", Options{FoldLines: true}, [5]int{0, 0, 0, 2, 0}},
		{"letters", Options{Letters: true}, [5]int{0, 0, 0, 0, 10}},
		{"all", AllMarks(), [5]int{6, 6, 4, 2, 10}},
	}
	for _, tt := range tests {
		if got := count(tt.o); got != tt.want {
			t.Errorf("%s: ticks, heads, squares, folds, letters are %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestCornersAndPassedPegsDiffer(t *testing.T) {
	p := Figure(read(knownFigures[0]), Options{}) // 3 corners, 12 pegs touched
	if got := len(p.circles(Corner)); got != 3 {
		t.Errorf("%d corners, want 3", got)
	}
	if got := len(p.circles(Passed)); got != 9 {
		t.Errorf("%d pegs passed over, want 9", got)
	}
	for _, c := range p.circles(Passed) {
		if c.Style.Fill != Paper {
			t.Errorf("the peg passed over at %v is filled like a corner", c.At)
		}
	}
}

func TestEveryBandHasItsOwnThread(t *testing.T) {
	p := Figure(read(known{board: "square:5x5", bands: "A1 B1 / A2 B2 / A3 B3 / A4 B4 / A5 B5 / D1 E1 / D2 E2"}), Options{})
	threads := p.lines(Thread)
	if len(threads) != 7 {
		t.Fatalf("%d threads, want 7", len(threads))
	}
	seen := map[string]int{}
	for _, l := range threads[:6] {
		pattern := fmt.Sprint(l.Style.Dash)
		if other, ok := seen[pattern]; ok {
			t.Errorf("bands %d and %d have one pattern", other, l.Series)
		}
		seen[pattern] = l.Series
		if l.Closed {
			t.Errorf("band %d round two pegs is drawn as a loop", l.Series)
		}
	}
}

func TestProblemsAreMarkedOnce(t *testing.T) {
	tests := []struct {
		bands      string
		meet, ends int
	}{
		{"", 0, 0},
		{"A1 E5 E1 A5", 1, 0},
		{"A1 E5 / A5 E1 / C1 C5 / A3 E3", 1, 8},
		{"A1 C1 / C1 C3", 0, 2},
		{"A1 C1 C3 / C3 E3 E5", 1, 0},
	}
	for _, tt := range tests {
		r := read(known{board: "square:5x5", bands: tt.bands})
		p := Figure(r, AllMarks())
		if got := len(p.circles(Meet)); got != tt.meet {
			t.Errorf("%q has %d places marked where bands meet, want %d", tt.bands, got, tt.meet)
		}
		if got := len(p.lines(End)); got != tt.ends {
			t.Errorf("%q has %d loose ends marked, want %d", tt.bands, got, tt.ends)
		}
		if len(p.lines(Tick)) > 0 || len(p.lines(Wash)) > 0 {
			t.Errorf("%q is marked as if it were a polygon", tt.bands)
		}
	}
}

func TestStep(t *testing.T) {
	tests := []struct {
		board string
		want  float64
	}{
		{"square:5x5", 1}, {"triangle:5", 1}, {"ring:3", 0.5}, {"ring:6", 0.5}, {"ring:36", 0.1743},
	}
	for _, tt := range tests {
		if got := Board(board.MustParse(tt.board), Options{}).Step; got < tt.want-1e-4 || got > tt.want+1e-4 {
			t.Errorf("the step of %s is %v, want %v", tt.board, got, tt.want)
		}
	}
}

func TestWordsGivenAreKept(t *testing.T) {
	p := Figure(read(knownFigures[0]), Options{Title: "Triángulo", Description: "Un triángulo."})
	if p.Title != "Triángulo" || p.Description != "Un triángulo." {
		t.Errorf("the words are %q and %q", p.Title, p.Description)
	}
}

func BenchmarkFigure(b *testing.B) {
	r := read(knownFigures[22])
	for b.Loop() {
		Figure(r, AllMarks())
	}
}

func ExampleFigure() {
	b := board.MustParse("square:5x5")
	r := shape.Read(board.MustParseFigure(b, "A1 D1 E3 B3"), shape.Definitions{})
	p := Figure(r, AllMarks())
	fmt.Println(p.Title)
	fmt.Println(p.Description)
	// Output:
	// Parallelogram
	// A pegboard, square:5x5. One band. A parallelogram with corners at A1, D1, E3 and B3. It passes straight over B1, C1, D3 and C3. Equal sides: D1-E3 and B3-A1; A1-D1 and E3-B3. Parallel sides: A1-D1 and E3-B3; D1-E3 and B3-A1. No right angles. No fold lines.
}
