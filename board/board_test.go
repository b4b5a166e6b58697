package board

import (
	"math"
	"strings"
	"testing"
)

func TestEveryBoardParsesAndPrints(t *testing.T) {
	all := everyBoard()
	if want := 2*11*11 + 11 + 2*34; len(all) != want {
		t.Fatalf("%d descriptions, want %d", len(all), want)
	}
	for _, text := range all {
		b, err := Parse(text)
		if err != nil {
			t.Errorf("Parse(%q): %v", text, err)
			continue
		}
		if b.String() != text {
			t.Errorf("Parse(%q).String() = %q", text, b)
		}
		p := layOut(t, b)
		seen := map[string]bool{}
		for k := range b.Pegs() {
			peg := Peg(k)
			name := b.Name(peg)
			if back, ok := b.Peg(name); !ok || back != peg || seen[name] {
				t.Errorf("%s: Peg(%q) = %d, %v, want %d", b, name, back, ok, peg)
			}
			seen[name] = true
			x, y := b.At(peg)
			wantX, wantY := p.x[k]*math.Sqrt(p.scale), p.y[k]*math.Sqrt(p.scale*p.weight)
			if math.Hypot(x-wantX, y-wantY) > 1e-12 {
				t.Errorf("%s: At(%s) = %v, %v, want %v, %v", b, name, x, y, wantX, wantY)
			}
		}
	}
}

func TestParseIsForgivingAboutLetters(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"capitals", "SQUARE:5X5", "square:5x5"},
		{"spaces around", "  triangle:5\n", "triangle:5"},
		{"a zero in front", "ring:012", "ring:12"},
		{"capitals at the end", "Ring:12+Centre", "ring:12+centre"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, err := Parse(tt.text)
			if err != nil || b.String() != tt.want {
				t.Errorf("Parse(%q) = %v, %v, want %s", tt.text, b, err, tt.want)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	const mend = "write square:5x5, staggered:5x5, triangle:5, ring:12 or ring:12+centre"
	tests := []struct{ name, text, says string }{
		{"an empty text", "", "no size after a colon"},
		{"a kind alone", "square", "no size after a colon"},
		{"a size alone", "5x5", "no size after a colon"},
		{"an empty kind", ":5x5", `no board of the kind ""`},
		{"an empty size", "square:", `the size "" is not two numbers with an x between`},
		{"an unknown kind", "hexagon:5", `no board of the kind "hexagon"`},
		{"one number for a square board", "square:5", `the size "5" is not two numbers with an x between`},
		{"two numbers for a triangle", "triangle:5x5", `"5x5" is not a whole number of pegs`},
		{"no number", "square:axb", `"a" is not a whole number of pegs`},
		{"a number too many", "square:3x3x3", `"3x3" is not a whole number of pegs`},
		{"a missing number", "square:x5", `"" is not a whole number of pegs`},
		{"one peg across", "square:1x5", "1 pegs is out of range, which is 2 to 12"},
		{"thirteen pegs up", "staggered:5x13", "13 pegs is out of range, which is 2 to 12"},
		{"a negative number", "triangle:-5", "-5 pegs is out of range, which is 2 to 12"},
		{"a plus sign", "triangle:+5", `"+5" is not a whole number of pegs`},
		{"a fraction", "ring:7.5", `"7.5" is not a whole number of pegs`},
		{"a ring of two", "ring:2", "2 pegs is out of range, which is 3 to 36"},
		{"a ring of thirty-seven", "ring:37+centre", "37 pegs is out of range, which is 3 to 36"},
		{"two centres", "ring:12+centre+centre", `"12+centre" is not a whole number of pegs`},
		{"a centre alone", "ring:+centre", `"" is not a whole number of pegs`},
		{"spaces inside", "square: 5x5", `" 5" is not a whole number of pegs`},
		{"a number past all numbers", "ring:99999999999999999999", "is not a whole number of pegs"},
		{"broken text", "square:\xff\xfex5", "is not a whole number of pegs"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, err := Parse(tt.text)
			if err == nil {
				t.Fatalf("Parse(%q) = %s, want an error", tt.text, b)
			}
			for _, says := range []string{tt.says, mend} {
				if !strings.Contains(err.Error(), says) {
					t.Errorf("Parse(%q): %q does not say %q", tt.text, err, says)
				}
			}
		})
	}
}

func TestParseKeepsItsErrorsShort(t *testing.T) {
	for _, text := range []string{strings.Repeat("a", 10_000), "square:" + strings.Repeat("9", 10_000) + "x5", "ring:" + strings.Repeat("é", 10_000)} {
		if _, err := Parse(text); err == nil || len(err.Error()) > 400 {
			t.Errorf("Parse of %d bytes: an error of %d bytes, want at most 400", len(text), len(err.Error()))
		}
	}
}

func TestMustParsePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("MustParse(\"square:0x0\") did not panic")
		}
	}()
	MustParse("square:0x0")
}

func TestPegNames(t *testing.T) {
	tests := []struct {
		board string
		names string
	}{
		{"square:3x2", "A1 B1 C1 A2 B2 C2"},
		{"staggered:2x3", "A1 B1 A2 B2 A3 B3"},
		{"triangle:3", "A1 B1 C1 A2 B2 A3"},
		{"ring:4", "1 2 3 4"},
		{"ring:3+centre", "1 2 3 O"},
	}
	for _, tt := range tests {
		b := MustParse(tt.board)
		pegs := make([]Peg, b.Pegs())
		for k := range pegs {
			pegs[k] = Peg(k)
		}
		if got := strings.Join(b.Names(pegs), " "); got != tt.names {
			t.Errorf("%s: names %q, want %q", b, got, tt.names)
		}
	}
	if got := MustParse("square:12x12").Name(143); got != "L12" {
		t.Errorf("square:12x12: the last peg is %q, want L12", got)
	}
	for _, name := range []string{"", "A", "1", "A0", "A6", "F1", "a1", "A1 ", "A01", "AA1"} {
		if p, ok := MustParse("square:5x5").Peg(name); ok {
			t.Errorf("square:5x5: Peg(%q) = %d, want none", name, p)
		}
	}
}

func TestRowsAndColumns(t *testing.T) {
	for _, text := range everyBoard() {
		b := MustParse(text)
		for k := range b.Pegs() {
			row, column := b.Row(Peg(k))
			if b.Kind() == Ring {
				if row != 0 || column != k {
					t.Errorf("%s: Row(%d) = %d, %d, want 0, %d", b, k, row, column, k)
				}
				continue
			}
			if want := string(rune('A'+column)) + itoa(row+1); b.Name(Peg(k)) != want {
				t.Errorf("%s: Row(%s) = %d, %d", b, b.Name(Peg(k)), row, column)
			}
		}
	}
}

func FuzzParseBoard(f *testing.F) {
	for _, seed := range []string{"", "square:5x5", "STAGGERED:2x12", "triangle:5", "ring:12", "ring:36+centre", "square:\xff", ":::"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		b, err := Parse(text)
		if err != nil {
			return
		}
		again, err := Parse(b.String())
		if err != nil || again.String() != b.String() || again.Pegs() != b.Pegs() {
			t.Errorf("Parse(%q) = %s, which parses as %v, %v", text, b, again, err)
		}
	})
}
