package lesson_test

import (
	"testing"

	"pgregory.net/rapid"

	"pegwright/lesson"
	"pegwright/lesson/wording"
)

func plan(t testing.TB, name string) lesson.Plan {
	t.Helper()
	p, ok := lesson.Find(name)
	if !ok {
		t.Fatalf("no lesson %s", name)
	}
	return p
}

func TestMaterials(t *testing.T) {
	lines := plan(t, "1-lines") // two bands on square:5x5
	cases := []struct {
		name           string
		pupils, boards int
		want           lesson.Material
	}{
		{"nobody", 0, 30, lesson.Material{}},
		{"a board each", 28, 30, lesson.Material{Boards: 28, Bands: 56, Spares: 6}},
		{"eight pairs", 28, 20, lesson.Material{Boards: 20, Pairs: 8, Bands: 40, Spares: 4}},
		{"all in pairs", 28, 14, lesson.Material{Boards: 14, Pairs: 14, Bands: 28, Spares: 3}},
		{"pairs and threes", 28, 10, lesson.Material{Boards: 10, Pairs: 10, Threes: 8, Bands: 20, Spares: 3}},
		{"threes and paper", 28, 5, lesson.Material{Boards: 5, Pairs: 5, Threes: 5, Paper: 13, Bands: 10, Spares: 3}},
		{"only paper", 28, 0, lesson.Material{Paper: 28}},
	}
	for _, c := range cases {
		got := lines.Materials(lesson.Room{Pupils: c.pupils, Boards: map[string]int{"square:5x5": c.boards}})
		if len(got) != 1 {
			t.Fatalf("%s: %d layouts", c.name, len(got))
		}
		c.want.Board = got[0].Board
		if got[0] != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got[0], c.want)
		}
	}
	if got := plan(t, "4-regular").Materials(lesson.Room{Pupils: 20, Boards: map[string]int{"square:5x5": 20}}); len(got) != 2 || got[1].Board.String() != "triangle:5" || got[1].Paper != 20 {
		t.Errorf("the lesson with two layouts: %+v", got)
	}
}

// TestEveryPupilSitsSomewhere: boards for one, two and three, and paper, seat
// everybody, and no board is put out that is not there.
func TestEveryPupilSitsSomewhere(t *testing.T) {
	p := plan(t, "1-lines")
	rapid.Check(t, func(t *rapid.T) {
		pupils, boards := rapid.IntRange(0, 60).Draw(t, "pupils"), rapid.IntRange(0, 60).Draw(t, "boards")
		m := p.Materials(lesson.Room{Pupils: pupils, Boards: map[string]int{"square:5x5": boards}})[0]
		seated := m.Boards + m.Pairs + m.Threes + m.Paper
		if seated != pupils || m.Boards > boards || m.Threes > m.Pairs || m.Pairs > m.Boards {
			t.Fatalf("%d pupils, %d boards: %+v", pupils, boards, m)
		}
	})
}

// TestMaterialsAreSaid: nine boards for thirty pupils, in words.
func TestMaterialsAreSaid(t *testing.T) {
	m := plan(t, "1-lines").Materials(lesson.Room{Pupils: 30, Boards: map[string]int{"square:5x5": 9}})[0]
	want := []string{"9 boards", "9 boards are shared by three", "18 bands", "and 3 spares", "3 sheets of dot paper"}
	for i, c := range m.Messages() {
		if got := wording.In("en").Say(c); i >= len(want) || got != want[i] {
			t.Errorf("line %d: %q", i+1, got)
		}
	}
	if got := (lesson.Material{Paper: 1}).Messages(); len(got) != 1 || wording.In("es").Say(got[0]) != "1 hoja de puntos" {
		t.Errorf("only paper: %v", got)
	}
}

func TestCautionsAreWritten(t *testing.T) {
	if len(lesson.Cautions()) < 6 {
		t.Error("cautions are missing")
	}
	for _, language := range wording.Languages() {
		for _, id := range lesson.Cautions() {
			if text := wording.In(language).Text(id); text[0] == '[' {
				t.Errorf("%s: no message %s", language, id)
			}
		}
	}
}
