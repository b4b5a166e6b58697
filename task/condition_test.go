package task_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pegwright/board"
	"pegwright/shape"
	"pegwright/task"
)

func TestParseCondition(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"a count", "sides=6", "sides=6"},
		{"spaces", "  sides   =  6 ", "sides=6"},
		{"a word for the sign", "sides is 6", "sides=6"},
		{"two signs as in programs", "sides==6", "sides=6"},
		{"a property of two words", "fold lines >= 1", "fold-lines>=1"},
		{"hyphens", "fold-lines>=1", "fold-lines>=1"},
		{"underlines", "right_angles>2", "right-angles>2"},
		{"capitals", "FOLD LINES ≥ 1", "fold-lines>=1"},
		{"at most", "parallel-pairs <= 2", "parallel-pairs<=2"},
		{"at most, in one sign", "parallel-pairs ≤ 2", "parallel-pairs<=2"},
		{"not, in one sign", "sides≠4", "sides!=4"},
		{"not, in two", "sides!=4", "sides!=4"},
		{"not, in words", "sides is not 4", "sides!=4"},
		{"less", "acute-angles<3", "acute-angles<3"},
		{"more", "obtuse-angles > 1", "obtuse-angles>1"},
		{"nought", "perpendicular-pairs=0", "perpendicular-pairs=0"},
		{"a kind", "kind=rhombus", "kind=rhombus"},
		{"a kind in words", "kind is rhombus", "kind=rhombus"},
		{"a kind left out", "kind!=square", "kind!=square"},
		{"a kind left out in words", "kind is not square", "kind!=square"},
		{"a kind of several words", "kind is right isosceles triangle", "kind=right-isosceles-triangle"},
		{"in another order", "kind=isosceles-right-triangle", "kind=right-isosceles-triangle"},
		{"a kind with hyphens", "kind=isosceles-trapezoid", "kind=isosceles-trapezoid"},
		{"a kind without its triangle", "kind=scalene", "kind=scalene-triangle"},
		{"isosceles alone is a triangle", "kind=isosceles", "kind=isosceles-triangle"},
		{"a regular kind", "kind=regular hexagon", "kind=regular-hexagon"},
		{"a regular triangle", "kind=regular triangle", "kind=equilateral-triangle"},
		{"a regular quadrilateral", "kind=regular-quadrilateral", "kind=square"},
		{"a British word", "kind=trapezium", "kind=trapezoid"},
		{"a kind by number", "kind=13-gon", "kind=13-gon"},
		{"a kind by a number that has a word", "kind=6-gon", "kind=hexagon"},
		{"eleven sides", "kind=undecagon", "kind=hendecagon"},
		{"yes", "convex=yes", "convex=yes"},
		{"no", "convex=no", "convex=no"},
		{"true", "regular = true", "regular=yes"},
		{"not yes", "regular!=yes", "regular=no"},
		{"is not no", "equilateral is not no", "equilateral=yes"},
		{"a property alone", "equiangular", "equiangular=yes"},
		{"a property denied", "not convex", "convex=no"},
		{"denied in capitals", "Not Regular", "regular=no"},
		{"an area", "area=4", "area=4"},
		{"an area in halves", "area=7/2", "area=7/2"},
		{"an area with a point", "area>=2.5", "area>=5/2"},
		{"an area with a whole part", "area = 3 1/2", "area=7/2"},
		{"an area with a root", "area=√3/4", "area=√3/4"},
		{"a length with a root", "perimeter<=2√5", "perimeter<=2√5"},
		{"a root in letters", "perimeter<=2sqrt5", "perimeter<=2√5"},
		{"a bound that all areas meet", "area>=-3", "area>=−3"},
		{"corners", "corners=6", "sides=6"},
		{"lines of symmetry", "lines of symmetry=2", "fold-lines=2"},
		{"bands", "bands=1", "bands=1"},
		{"pegs", "pegs-inside=0", "pegs-inside=0"},
		{"turns", "turn-order=2", "turn-order=2"},
		{"pieces", "segments=2", "segments=2"},
		{"the largest count", "sides<=20000", "sides<=20000"},
		{"a floor below the floor", "sides>=0", "sides>=0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := task.ParseCondition(tt.text)
			if err != nil || c.String() != tt.want {
				t.Errorf("ParseCondition(%q) = %s, %v, want %s", tt.text, c, err, tt.want)
			}
		})
	}
}

// Every bad condition is answered with what is wrong and a mend, the nearest
// word where one is near.
func TestParseConditionRefuses(t *testing.T) {
	tests := []struct{ name, text, what, mend string }{
		{"nothing", "", "names no property", "sides=6"},
		{"a value alone", "=6", "names no property", "sides=6"},
		{"a misspelled property", "side=6", `no property "side"`, "did you mean sides?"},
		{"a misspelled property of two words", "fold-linse=1", `no property "fold-linse"`, "did you mean fold-lines?"},
		{"letters left out", "paralel pairs=1", `no property "paralel-pairs"`, "did you mean parallel-pairs?"},
		{"a misspelled yes or no", "convx=yes", `no property "convx"`, "did you mean convex?"},
		{"a property unlike any", "colour=red", `no property "colour"`, "the properties are sides, right-angles"},
		{"a kind where a property belongs", "rhombus", `no property "rhombus"`, "did you mean kind=rhombus?"},
		{"a kind of two words alone", "right triangle", `no property "right-triangle"`, "did you mean kind=right-triangle?"},
		{"concave", "concave", "written through its opposite", "write convex=no"},
		{"concave denied", "not concave", "written through its opposite", "write convex=no"},
		{"no comparison", "sides", "no comparison", "sides>=1"},
		{"no comparison for a kind", "kind", "no comparison", "kind=rhombus"},
		{"no value", "sides=", `"" is not a whole number`, "write it like"},
		{"a count that is no number", "sides=six", `"six" is not a whole number`, "sides>=1"},
		{"a count denied", "not sides", `"no" is not a whole number`, "sides>=1"},
		{"half a side", "sides=6.5", "is not a whole number", "sides>=1"},
		{"a plus", "sides=+6", "is not a whole number", "sides>=1"},
		{"a count below nought", "right-angles=-1", "-1 is out of range", "from 0 to 20000"},
		{"a count beyond all boards", "sides=20001", "out of range", "from 3 to 20000"},
		{"a count beyond all numbers", "sides=99999999999999999999", "is not a whole number", "sides>=1"},
		{"two sides", "sides=2", "sides cannot be less than 3", "from 3 up"},
		{"fewer than three", "sides<3", "sides cannot be less than 3", "from 3 up"},
		{"no turn at all", "turn-order=0", "turn-order cannot be less than 1", "from 1 up"},
		{"no band", "bands=0", "bands cannot be less than 1", "from 1 up"},
		{"a sign the wrong way round", "sides=>6", "is not a whole number", "sides>=1"},
		{"two values", "sides=6=7", "is not a whole number", "sides>=1"},
		{"neither yes nor no", "convex=maybe", `"maybe" is neither yes nor no`, "convex=yes or convex=no"},
		{"more than yes", "regular>=yes", "is not a number, so >= says nothing", "regular=yes"},
		{"more than a rhombus", "kind>rhombus", "is not a number, so > says nothing", "kind=rhombus"},
		{"a misspelled kind", "kind=rombus", `no kind of figure called "rombus"`, "did you mean kind=rhombus?"},
		{"a misspelled kind of two words", "kind=isoceles trapezoid", "no kind of figure", "did you mean kind=isosceles-trapezoid?"},
		{"a kind unlike any", "kind=banana", "no kind of figure", "the kinds are polygon, triangle"},
		{"two sides by name", "kind=2-gon", "no kind of figure", "the kinds"},
		{"an area that is no number", "area=big", "is not a number", "area=4"},
		{"an area over nought", "area=1/0", "is not a number", "area=4"},
		{"no area", "area=0", "area is always more than 0", "area=4"},
		{"less than no area", "area<-1", "area is always more than 0", "area=4"},
		{"less than no way round", "perimeter<=0", "perimeter is always more than 0", "perimeter=4"},
		{"bytes that are no text", "sides=\xff\xfe", "is not a whole number", "sides>=1"},
		{"a property of such bytes", "\xff=1", "no property", "the properties"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := task.ParseCondition(tt.text)
			var bad *task.ConditionError
			if !errors.As(err, &bad) {
				t.Fatalf("ParseCondition(%q) = %s, %v, want a ConditionError", tt.text, c, err)
			}
			if !strings.Contains(bad.What, tt.what) {
				t.Errorf("ParseCondition(%q): %q, want %q in it", tt.text, bad.What, tt.what)
			}
			if !strings.Contains(bad.Mend, tt.mend) {
				t.Errorf("ParseCondition(%q) mends with %q, want %q in it", tt.text, bad.Mend, tt.mend)
			}
		})
	}
}

// What comes from outside is shortened and made valid text in the message.
func TestConditionErrorsAreShort(t *testing.T) {
	for _, text := range []string{strings.Repeat("sides", 1000) + "=6", "kind=" + strings.Repeat("ab", 1000), "sides=" + strings.Repeat("\xff", 500), "area=" + strings.Repeat("9", 5000)} {
		_, err := task.ParseCondition(text)
		if err == nil || len(err.Error()) > 1500 || strings.ToValidUTF8(err.Error(), "") != err.Error() {
			t.Errorf("ParseCondition of %d bytes = %v, want a short sentence", len(text), err)
		}
	}
	_, err := task.ParseCondition("sides=2")
	if want := `condition "sides=2": sides cannot be less than 3; write a number from 3 up`; err == nil || err.Error() != want {
		t.Errorf("Error() = %q, want %q", err, want)
	}
}

// String and ParseCondition are inverse for every property, comparison and
// kind.
func TestConditionsPrintAsTheyAreRead(t *testing.T) {
	var texts []string
	for _, p := range task.Properties() {
		switch p {
		case task.Kind:
			for _, n := range shape.AllNames() {
				texts = append(texts, "kind="+string(n), "kind!="+string(n))
			}
		case task.Convex, task.Equilateral, task.Equiangular, task.Regular:
			texts = append(texts, string(p)+"=yes", string(p)+"=no")
		case task.Area, task.Perimeter:
			for _, v := range []string{"4", "7/2", "√3", "2√5", "3√3/4"} {
				texts = append(texts, string(p)+"="+v, string(p)+"!="+v, string(p)+">="+v, string(p)+"<="+v, string(p)+">"+v, string(p)+"<"+v)
			}
		default:
			for _, c := range []string{"=", "!=", ">=", "<=", ">", "<"} {
				texts = append(texts, string(p)+c+"4")
			}
		}
	}
	for _, text := range texts {
		c, err := task.ParseCondition(text)
		if err != nil {
			t.Errorf("ParseCondition(%q): %v", text, err)
			continue
		}
		again, err := task.ParseCondition(c.String())
		if err != nil || !same(again, c) {
			t.Errorf("ParseCondition(%q) = %v, %v, want %v", c, again, err, c)
		}
	}
}

func same(c, d task.Condition) bool {
	return c.String() == d.String() && c.Property == d.Property && c.Comparison == d.Comparison &&
		c.Count == d.Count && c.Size.Cmp(d.Size) == 0 && c.Yes == d.Yes && c.Kind == d.Kind
}

func FuzzParseCondition(f *testing.F) {
	for _, text := range []string{"sides=6", "fold lines >= 1", "kind is rhombus", "not convex", "kind!=square", "area=3 1/2", "perimeter≤2√5", "kind=13-gon", "sides=\xff", "≠", "not ", " is not "} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := task.ParseCondition(text)
		if err != nil {
			var bad *task.ConditionError
			if !errors.As(err, &bad) || bad.What == "" || bad.Mend == "" {
				t.Errorf("ParseCondition(%q) = %v, want what is wrong and a mend", text, err)
			}
			return
		}
		again, err := task.ParseCondition(c.String())
		if err != nil || !same(again, c) {
			t.Errorf("ParseCondition(%q) = %v, %v, want %v", c.String(), again, err, c)
		}
	})
}

func TestMustParsePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("MustParse(sides=2) does not panic")
		}
	}()
	task.MustParse("sides=2")
}

func TestAboutLines(t *testing.T) {
	tests := []struct {
		conditions string
		want       bool
	}{
		{"sides=4", false},
		{"parallel-pairs=1", false},
		{"segments=2", true},
		{"parallel-pairs=1,segments=2", true},
		{"crossing-pairs=0", true},
		{"meeting-pairs>=1", true},
		{"bands=2", false},
	}
	for _, tt := range tests {
		if got := task.MustParse(splitConditions(tt.conditions)...).AboutLines(); got != tt.want {
			t.Errorf("AboutLines(%s) = %v, want %v", tt.conditions, got, tt.want)
		}
	}
}

func TestWithout(t *testing.T) {
	cs := task.MustParse("sides=4", "bands=1", "bands>=1", "convex")
	if diff := cmp.Diff([]string{"sides=4", "convex=yes"}, cs.Without(task.Bands).Texts()); diff != "" {
		t.Errorf("Without(bands) (-want +got):\n%s", diff)
	}
	if len(cs) != 4 {
		t.Errorf("Without changes its conditions to %v", cs.Texts())
	}
}

// Compile agrees with Holds for every figure of 3×3 and some of other boards,
// whatever the definitions.
func TestCompileAgreesWithHolds(t *testing.T) {
	boards := map[string][]*shape.Polygon{
		"square:3x3":    threeByThree(),
		"triangle:4":    polygons(board.MustParse("triangle:4"), 5),
		"staggered:3x3": polygons(board.MustParse("staggered:3x3"), 5),
		"ring:8":        polygons(board.MustParse("ring:8"), 8),
		"ring:6+centre": polygons(board.MustParse("ring:6+centre"), 7),
	}
	texts := append(propertyTexts(),
		"area=1", "area>=1", "area<5/2", "area!=3/2", "area=√3/4", "area>√3", "area<=√3/2", "area>=0.4330127", "area<0.4330128", "area=√2", "area>1000000", "area<1000001", "area>=2√2",
		"perimeter=4", "perimeter<=6", "perimeter>4√2", "perimeter=6", "perimeter!=3√3", "perimeter<√32", "perimeter>=6.2", "segments=3", "kind=polygon", "kind!=polygon",
	)
	for on, all := range boards {
		b := board.MustParse(on)
		for _, text := range texts {
			c, err := task.ParseCondition(text)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range definitions {
				holds := task.Conditions{c}.Compile(b, d)
				for _, p := range some(all) {
					if got, want := holds(p), c.Holds(p, d); got != want {
						t.Fatalf("%s: Compile(%s) of %v = %v, want %v as Holds", on, c, b.Names(p.Corners()), got, want)
					}
				}
			}
		}
	}
}

// A size condition holds as the exact numbers compare: an area just beside a
// value is not equal to it.
func TestSizesAreExact(t *testing.T) {
	tests := []struct {
		name, board, figure, condition string
		want                           bool
	}{
		{"half a square", "square:3x3", "A1 B1 A2", "area=1/2", true},
		{"a hair more than half", "square:3x3", "A1 B1 A2", "area=0.500000000001", false},
		{"less than a hair more", "square:3x3", "A1 B1 A2", "area<0.500000000001", true},
		{"a perimeter with a root", "square:3x3", "A1 B2 C1", "perimeter=2", false},
		{"below its decimal", "square:3x3", "A1 C1 B2", "perimeter<4.8284271248", true},
		{"above its decimal", "square:3x3", "A1 C1 B2", "perimeter>4.8284271247", true},
		{"round four roots of two", "square:3x3", "B1 C2 B3 A2", "perimeter=4√2", true},
		{"the smallest triangle of the lattice", "triangle:3", "A1 B1 A2", "area=√3/4", true},
		{"to twelve places", "triangle:3", "A1 B1 A2", "area=0.433012701892", false},
		{"a square in a circle", "ring:4", "1 2 3 4", "area=2", true},
		{"its perimeter", "ring:4", "1 2 3 4", "perimeter=4√2", true},
		{"a hexagon in a circle", "ring:6", "1 2 3 4 5 6", "perimeter=6", true},
		{"its area", "ring:12", "1 3 5 7 9 11", "area=3√3/2", true},
		{"a dodecagon in a circle", "ring:12", "1 2 3 4 5 6 7 8 9 10 11 12", "area=3", true},
		{"more than three around", "ring:7", "1 2 3 4 5 6 7", "perimeter>6", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judged(t, tt.board, tt.figure, tt.condition)
			if got := v.Results[0].Holds; got != tt.want {
				t.Errorf("%s of %s = %v, want %v", tt.condition, tt.figure, got, tt.want)
			}
		})
	}
}
