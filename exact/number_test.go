package exact

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestRootsPrintAsATextbookDoes(t *testing.T) {
	one := big.NewRat(1, 1)
	tests := []struct {
		name string
		of   Roots
		want string
	}{
		{"the zero value", Roots{}, "0"},
		{"the root of nothing", Root(0), "0"},
		{"no times a root", Root(5).Over(one).Plus(5, big.NewRat(-1, 1)), "0"},
		{"the root of one", Root(1), "1"},
		{"a whole number", Rational(4, 1), "4"},
		{"a fraction in lowest terms", Rational(6, 4), "3/2"},
		{"a negative fraction", Rational(-3, 2), "−3/2"},
		{"a perfect square", Root(144), "12"},
		{"a square-free root", Root(10), "√10"},
		{"a root with a square in it", Root(20), "2√5"},
		{"a root with two squares in it", Root(72), "6√2"},
		{"half a root", Root(3).Over(big.NewRat(2, 1)), "√3/2"},
		{"minus a root", Roots{}.Minus(Root(7)), "−√7"},
		{"three quarters of a root", Roots{}.Plus(3, big.NewRat(3, 4)), "3√3/4"},
		{"minus three quarters of a root", Roots{}.Plus(3, big.NewRat(-3, 4)), "−3√3/4"},
		{"a perimeter", Rational(4, 1).Plus(20, one), "4 + 2√5"},
		{"a difference", Rational(4, 1).Plus(20, big.NewRat(-1, 1)), "4 − 2√5"},
		{"roots in rising order", Root(5).Plus(2, one).Plus(9, one), "3 + √2 + √5"},
		{"equal roots joined", Root(8).Plus(18, one), "5√2"},
		{"roots that cancel", Root(8).Plus(2, big.NewRat(-2, 1)).Plus(3, one), "√3"},
		{"a negative first term", Roots{}.Plus(2, big.NewRat(-1, 1)).Plus(3, big.NewRat(-5, 2)), "−√2 − 5√3/2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.of.String(); got != tt.want {
				t.Errorf("String() = %q, want %q", got, tt.want)
			}
		})
	}
}

func TestRootsDoNotShareTheirTerms(t *testing.T) {
	a := Root(2).Plus(3, big.NewRat(1, 1))
	b := a.Plus(2, big.NewRat(1, 1))
	c := a.Plus(3, big.NewRat(-1, 1))
	d := a.Plus(5, big.NewRat(1, 1))
	for _, tt := range []struct {
		of   Roots
		want string
	}{{a, "√2 + √3"}, {b, "2√2 + √3"}, {c, "√2"}, {d, "√2 + √3 + √5"}} {
		if got := tt.of.String(); got != tt.want {
			t.Errorf("after further sums: String() = %q, want %q", got, tt.want)
		}
	}
}

func TestRatAndSingle(t *testing.T) {
	tests := []struct {
		name         string
		of           Roots
		rat, single  string
		isRat, isOne bool
		under        int64
	}{
		{"nothing", Roots{}, "0", "0", true, true, 1},
		{"a fraction", Rational(7, 2), "7/2", "7/2", true, true, 1},
		{"a root", Root(12), "", "2", false, true, 3},
		{"a sum", Rational(1, 1).Plus(2, big.NewRat(1, 1)), "", "", false, false, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			q, ok := tt.of.Rat()
			if ok != tt.isRat || ok && q.RatString() != tt.rat {
				t.Errorf("Rat() = %v, %v, want %s, %v", q, ok, tt.rat, tt.isRat)
			}
			q, n, ok := tt.of.Single()
			if ok != tt.isOne || ok && (q.RatString() != tt.single || n != tt.under) {
				t.Errorf("Single() = %v, %d, %v, want %s, %d, %v", q, n, ok, tt.single, tt.under, tt.isOne)
			}
		})
	}
}

func TestParseRoots(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"nothing", "0", "0"},
		{"minus nothing", "-0", "0"},
		{"a whole number", "4", "4"},
		{"a whole number with a zero in front, which is not octal", "010", "10"},
		{"a fraction with a zero in front, which is not octal", "010/4", "5/2"},
		{"a fraction", "7/2", "7/2"},
		{"a fraction not in lowest terms", "6/4", "3/2"},
		{"a mixed number", "7 1/2", "15/2"},
		{"a mixed number below zero", "-7 1/2", "−15/2"},
		{"a decimal", "2.5", "5/2"},
		{"a decimal without a whole part", ".5", "1/2"},
		{"a decimal without places", "3.", "3"},
		{"a minus as keyboards have it", "-3", "−3"},
		{"a minus as books have it", "−3", "−3"},
		{"a root", "√5", "√5"},
		{"a root in letters", "sqrt5", "√5"},
		{"a root of a square", "√16", "4"},
		{"a root to simplify", "√20", "2√5"},
		{"minus a root", "-√5", "−√5"},
		{"a multiple", "2√5", "2√5"},
		{"a multiple with spaces", " 2 sqrt 5 ", "2√5"},
		{"a fraction of a root", "3√3/4", "3√3/4"},
		{"a fraction of a root with spaces", "3√3 / 4", "3√3/4"},
		{"a fraction before a root", "3/4√3", "3√3/4"},
		{"a mixed number before a root", "1 1/2√2", "3√2/2"},
		{"the largest root", "√10000", "100"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := ParseRoots(tt.text)
			if err != nil {
				t.Fatalf("ParseRoots(%q): %v", tt.text, err)
			}
			if got.String() != tt.want {
				t.Errorf("ParseRoots(%q) = %s, want %s", tt.text, got, tt.want)
			}
		})
	}
}

func TestParseRootsRefuses(t *testing.T) {
	tests := []struct{ name, text, says string }{
		{"an empty text", "", "not a number"},
		{"spaces", "   ", "not a number"},
		{"a word", "four", "not a number"},
		{"a sign alone", "-", "not a number"},
		{"two signs", "--4", "not a number"},
		{"a point alone", ".", "not a number"},
		{"two points", "1.2.3", "not a number"},
		{"two numbers", "1 2", "not a number"},
		{"a sum", "4 + 2√5", "not a number"},
		{"a fraction of a fraction", "1/2/3", "not a number"},
		{"a fraction of a decimal", "1.5/2", "not a number"},
		{"a division by zero", "1/0", "not a number"},
		{"a root over zero", "2√5/0", "divides by zero"},
		{"a root over a fraction", "2√5/3/4", "not a number"},
		{"a root over a negative number", "√5/-2", "not a number"},
		{"a root of nothing", "√", "after √"},
		{"a root of zero", "√0", "after √"},
		{"a root of a negative number", "√-4", "after √"},
		{"a root of a decimal", "√2.5", "after √"},
		{"a root too large", "√10001", "after √"},
		{"two roots", "√√5", "after √"},
		{"a number in another base", "0x10", "not a number"},
		{"a fraction in another base", "0b11/2", "not a number"},
		{"an exponent", "1e3", "not a number"},
		{"an exponent that would fill the memory", "1e999999999", "not a number"},
		{"digits in groups", "1_000", "not a number"},
		{"infinity", "Inf", "not a number"},
		{"a number past all boards", "18446744073709551617", "plainer"},
		{"ten thousand digits", strings.Repeat("7", 10_000), "not a number"},
		{"broken text", "\xff", "not a number"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := ParseRoots(tt.text)
			if err == nil {
				t.Fatalf("ParseRoots(%q) = %s, want an error", tt.text, got)
			}
			if !strings.Contains(err.Error(), tt.says) {
				t.Errorf("ParseRoots(%q): %q does not say %q", tt.text, err, tt.says)
			}
			if len(err.Error()) > 250 {
				t.Errorf("ParseRoots of %d bytes: an error of %d bytes", len(tt.text), len(err.Error()))
			}
		})
	}
}

func TestParseRootsReadsWhatStringPrints(t *testing.T) {
	for n := int64(1); n <= 300; n++ {
		for num := int64(-6); num <= 6; num++ {
			for den := int64(1); den <= 6; den++ {
				x := Roots{}.Plus(n, big.NewRat(num, den))
				got, err := ParseRoots(x.String())
				if err != nil || got.Cmp(x) != 0 {
					t.Fatalf("ParseRoots(%q) = %s, %v", x, got, err)
				}
			}
		}
	}
}

func FuzzParseRoots(f *testing.F) {
	for _, seed := range []string{"", "4", "7/2", "3 1/2", "2.5", "2√5", "3√3/4", "-sqrt20/7", "−√9999", "1e9", "010/2", "√√", "\xff", "0.000000000001√9999/999999999999"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		x, err := ParseRoots(text)
		if err != nil {
			return
		}
		again, err := ParseRoots(x.String())
		if err != nil {
			t.Fatalf("ParseRoots(%q) = %s, which does not parse: %v", text, x, err)
		}
		if again.Cmp(x) != 0 || again.String() != x.String() {
			t.Errorf("ParseRoots(%q) = %s, which parses as %s", text, x, again)
		}
		if x.Cmp(Roots{}) != -(Roots{}).Cmp(x) {
			t.Errorf("Cmp(%s, 0) is not the opposite of Cmp(0, %s)", x, x)
		}
	})
}

// bigValue works a sum of roots out to 1,024 bits, term by term, without the
// code under test.
func bigValue(terms map[int64]*big.Rat) *big.Float {
	sum := new(big.Float).SetPrec(1024)
	for n, q := range terms {
		root := new(big.Float).SetPrec(1024).SetInt64(n)
		root.Sqrt(root)
		sum.Add(sum, root.Mul(root, new(big.Float).SetPrec(1024).SetRat(q)))
	}
	return sum
}

func TestRootsCompareAsTheirDigitsDo(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		left, right := Roots{}, Roots{}
		terms := map[int64]*big.Rat{}
		for range 1 + random.IntN(6) {
			n, q := random.Int64N(200), big.NewRat(random.Int64N(41)-20, 1+random.Int64N(8))
			if random.IntN(2) == 0 {
				left = left.Plus(n, q)
			} else {
				right = right.Plus(n, new(big.Rat).Neg(q))
			}
			if terms[n] == nil {
				terms[n] = new(big.Rat)
			}
			terms[n].Add(terms[n], q)
		}
		value := bigValue(terms)
		want := value.Sign()
		if value.MantExp(nil) < -900 {
			want = 0
		}
		if got := left.Cmp(right); got != want {
			t.Fatalf("Cmp(%s, %s) = %d, want %d", left, right, got, want)
		}
		if got := right.Cmp(left); got != -want {
			t.Fatalf("Cmp(%s, %s) = %d, want %d", right, left, got, -want)
		}
		if sum := left.Minus(right); (sum.String() == "0") != (want == 0) {
			t.Fatalf("%s less %s prints %q", left, right, sum)
		}
		float, _ := value.Float64()
		if got := left.Minus(right).Float(); math.Abs(got-float) > 1e-11 {
			t.Fatalf("Float(%s) = %v, want %v", left.Minus(right), got, float)
		}
	}
}

// The pairs differ by less than a float64 can see. They come from solutions
// of Pell's equation and from the continued fraction of √2, so the sign is
// known without working out a root.
func TestRootsCompareWhereFloatsMislead(t *testing.T) {
	roots := func(terms ...int64) Roots {
		r := Roots{}
		for i := 0; i < len(terms); i += 2 {
			r = r.Plus(terms[i+1], big.NewRat(terms[i], 1))
		}
		return r
	}
	tests := []struct {
		name        string
		left, right Roots
		want        int
	}{
		{"665857² = 2·470832² + 1", roots(665857, 1), roots(470832, 2), 1},
		{"1607521² = 2·1136689² − 1", roots(1607521, 1), roots(1136689, 2), -1},
		{"the largest convergent of √2 in 63 bits", roots(6882627592338442563, 1), roots(4866752642924153522, 2), 1},
		{"the one before it", roots(2850877693509864481, 1), roots(2015874949414289041, 2), -1},
		{"√2 + √3 against √(5 + 2√6) worked out", roots(1, 2, 1, 3), Rational(31462643699419723, 10_000_000_000_000_000), 1},
		{"the same a step up", roots(1, 2, 1, 3), Rational(31462643699419724, 10_000_000_000_000_000), -1},
		{"√10 + √11 against √5 + √18", roots(1, 10, 1, 11), roots(1, 5, 1, 18), 1},
		{"equal sums in different order", roots(1, 8, 1, 27, 1, 12), roots(5, 3, 2, 2), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.left.Cmp(tt.right); got != tt.want {
				t.Errorf("Cmp(%s, %s) = %d, want %d", tt.left, tt.right, got, tt.want)
			}
			if got := tt.right.Cmp(tt.left); got != -tt.want {
				t.Errorf("Cmp(%s, %s) = %d, want %d", tt.right, tt.left, got, -tt.want)
			}
		})
	}
}

func TestOver(t *testing.T) {
	x := Rational(3, 1).Plus(5, big.NewRat(2, 1)).Over(big.NewRat(4, 3))
	if got := x.String(); got != "9/4 + 3√5/2" {
		t.Errorf("(3 + 2√5) over 4/3 = %s, want 9/4 + 3√5/2", got)
	}
}
