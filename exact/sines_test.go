package exact

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

func cosSin(n int) (cos, sin float64) {
	sin, cos = math.Sincos(2 * math.Pi / float64(n))
	return cos, sin
}

// sine returns times·sin(180°·k/m).
func sine(times int64, k, m int) Sines {
	s := NewSines(m)
	s.Add(k, big.NewRat(times, 1))
	return s
}

// The sines of special angles, from any table of exact trigonometric values.
func TestSinesOfSpecialAngles(t *testing.T) {
	half := big.NewRat(1, 2)
	quarter := big.NewRat(1, 4)
	tests := []struct {
		name string
		of   Sines
		want Roots
		text string
	}{
		{"0°", sine(1, 0, 12), Roots{}, "0"},
		{"180°", sine(1, 12, 12), Roots{}, "0"},
		{"360°", sine(1, 24, 12), Roots{}, "0"},
		{"30°", sine(2, 1, 6), Rational(1, 1), "1"},
		{"45°", sine(2, 1, 4), Root(2), "√2"},
		{"60°", sine(2, 1, 3), Root(3), "√3"},
		{"90°", sine(2, 1, 2), Rational(2, 1), "2"},
		{"120°", sine(2, 8, 12), Root(3), "√3"},
		{"150°", sine(2, 10, 12), Rational(1, 1), "1"},
		{"210°", sine(2, 14, 12), Rational(-1, 1), "−1"},
		{"−30°", sine(2, -2, 12), Rational(-1, 1), "−1"},
		{"15°", sine(1, 1, 12), Root(6).Plus(2, big.NewRat(-1, 1)).Over(big.NewRat(4, 1)), "−√2/4 + √6/4"},
		{"75°", sine(1, 5, 12), Root(6).Plus(2, big.NewRat(1, 1)).Over(big.NewRat(4, 1)), "√2/4 + √6/4"},
		{"18°", sine(1, 1, 10), Roots{}.Plus(5, quarter).Plus(1, big.NewRat(-1, 4)), "−1/4 + √5/4"},
		{"54°", sine(1, 3, 10), Roots{}.Plus(5, quarter).Plus(1, quarter), "1/4 + √5/4"},
		{"sin 54° − sin 18°, which is one half", sines(10, 3, 1, 1, -1), Rational(1, 2), "1/2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.of.Cmp(tt.want); got != 0 {
				t.Errorf("Cmp(%s, %s) = %d, want 0", tt.of, tt.want, got)
			}
			if got := tt.of.String(); got != tt.text {
				t.Errorf("String() = %q, want %q", got, tt.text)
			}
			if got := tt.of.Float(); math.Abs(got-tt.want.Float()) > 1e-14 {
				t.Errorf("Float() = %v, want %v", got, tt.want.Float())
			}
			for _, step := range []*big.Rat{half, big.NewRat(1, 1_000_000_000_000)} {
				if got := tt.of.Cmp(tt.want.Plus(1, step)); got != -1 {
					t.Errorf("Cmp(%s, %s + %s) = %d, want -1", tt.of, tt.want, step, got)
				}
				if got := tt.of.Cmp(tt.want.Plus(1, new(big.Rat).Neg(step))); got != 1 {
					t.Errorf("Cmp(%s, %s − %s) = %d, want 1", tt.of, tt.want, step, got)
				}
			}
		})
	}
}

// sines returns a sum of times·sin(180°·k/m), the k and times in pairs.
func sines(m int, pairs ...int) Sines {
	s := NewSines(m)
	for i := 0; i < len(pairs); i += 2 {
		s.Add(pairs[i], big.NewRat(int64(pairs[i+1]), 1))
	}
	return s
}

// Identities that no table of special angles shows.
func TestSinesThatAddUp(t *testing.T) {
	tests := []struct {
		name string
		of   Sines
		want Roots
	}{
		// sin a + sin(60° − a) = sin(60° + a)
		{"sin 10° + sin 50° − sin 70°", sines(18, 1, 1, 5, 1, 7, -1), Roots{}},
		{"sin 20° + sin 40° − sin 80°", sines(9, 1, 1, 2, 1, 4, -1), Roots{}},
		// The Gauss sum of 7: sin 2π/7 + sin 4π/7 − sin 6π/7 = √7/2.
		{"sin 2π/7 + sin 4π/7 − sin 6π/7", sines(7, 2, 1, 4, 1, 6, -1), Root(7).Over(big.NewRat(2, 1))},
		// 1 + 2·Σcos = 0 over a full turn, as sines: sin 90° + 2 sin 18°·… of five.
		{"sin 90° − 2 sin 54° + 2 sin 18°", sines(10, 5, 1, 3, -2, 1, 2), Roots{}},
		// The Gauss sum of 11.
		{"the Gauss sum of 11", sines(11, 2, 1, 6, 1, 8, 1, 10, 1, 18, 1), Root(11).Over(big.NewRat(2, 1))},
		// sin 15° + sin 75° = √6/2
		{"sin 15° + sin 75°", sines(12, 1, 1, 5, 1), Root(6).Over(big.NewRat(2, 1))},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.of.Cmp(tt.want); got != 0 {
				t.Errorf("Cmp(%s, %s) = %d, want 0", tt.of, tt.want, got)
			}
			near := tt.want.Plus(1, big.NewRat(1, 1_000_000_000_000))
			if got := tt.of.Cmp(near); got != -1 {
				t.Errorf("Cmp(%s, %s) = %d, want -1", tt.of, near, got)
			}
		})
	}
}

func TestSinesPrint(t *testing.T) {
	tests := []struct {
		name string
		of   Sines
		want string
	}{
		{"nothing", NewSines(9), "0"},
		{"one sine", sine(1, 2, 9), "sin 40°"},
		{"minus one sine", sine(-1, 2, 9), "−sin 40°"},
		{"a multiple", sine(2, 2, 9), "2 sin 40°"},
		{"a sine past the quarter turn", sine(2, 7, 9), "2 sin 40°"},
		{"an angle with a fraction", sine(2, 1, 7), "2 sin 25 5/7°"},
		{"an angle with a decimal", sine(2, 1, 16), "2 sin 11.25°"},
		{"roots and sines", sines(36, 6, 2, 1, 4, 2, -1), "1 + 4 sin 5° − sin 10°"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.of.String(); got != tt.want {
				t.Errorf("String() = %q, want %q", got, tt.want)
			}
		})
	}
	// "9 sin 40°/2" could be taken for the sine of 20°.
	s := NewSines(9)
	s.Add(2, big.NewRat(9, 2))
	s.Add(1, big.NewRat(-1, 2))
	if got, want := s.String(), "−(1/2) sin 20° + (9/2) sin 40°"; got != want {
		t.Errorf("String() = %q, want %q", got, want)
	}
}

func TestDegreesText(t *testing.T) {
	tests := []struct {
		num, den int64
		want     string
	}{
		{0, 1, "0°"},
		{45, 1, "45°"},
		{45, 2, "22.5°"},
		{45, 4, "11.25°"},
		{45, 8, "5 5/8°"},
		{900, 7, "128 4/7°"},
		{1620, 11, "147 3/11°"},
		{5, 7, "5/7°"},
	}
	for _, tt := range tests {
		if got := DegreesText(big.NewRat(tt.num, tt.den)); got != tt.want {
			t.Errorf("DegreesText(%d/%d) = %q, want %q", tt.num, tt.den, got, tt.want)
		}
	}
}

// Whole numbers and roots near random sums of sines, decided by float64 where
// it stands clear and by 400 bits of another sine where it does not.
func TestSinesCompareAsTheirDigitsDo(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for range 400 {
		m := 3 + random.IntN(40)
		s := NewSines(m)
		for range 1 + random.IntN(5) {
			s.Add(random.IntN(4*m)-2*m, big.NewRat(random.Int64N(13)-6, 1+random.Int64N(3)))
		}
		v := Roots{}.Plus(1+random.Int64N(30), big.NewRat(random.Int64N(13)-6, 1+random.Int64N(3)))
		difference := s.Float() - v.Float()
		if math.Abs(difference) < 1e-9 {
			continue
		}
		want := 1
		if difference < 0 {
			want = -1
		}
		if got := s.Cmp(v); got != want {
			t.Fatalf("Cmp(%s, %s) = %d, want %d", s, v, got, want)
		}
	}
}

// π to 100 decimals, from any table.
func TestPi(t *testing.T) {
	const digits = "3.1415926535897932384626433832795028841971693993751058209749445923078164062862089986280348253421170679"
	want, _, err := big.ParseFloat(digits, 10, 400, big.ToNearestEven)
	if err != nil {
		t.Fatal(err)
	}
	if d := new(big.Float).Sub(bigPi(400), want); d.Sign() != 0 && d.MantExp(nil) > -330 {
		t.Errorf("bigPi(400) is off by %v", d)
	}
	for _, precision := range []uint{64, 100, 1000} {
		got := bigSin(new(big.Float).Quo(bigPi(precision), big.NewFloat(6)), precision)
		if d := new(big.Float).Sub(got, big.NewFloat(0.5)); d.Sign() != 0 && d.MantExp(nil) > 8-int(precision) {
			t.Errorf("bigSin(π/6) at %d bits is off by %v", precision, d)
		}
	}
}

// The best fractions around sin 40° with denominators up to 10¹² differ from it
// in the 24th place. They are found with whole numbers from its polynomial
// 64x⁶ − 96x⁴ + 36x² − 3 (the expansion of 4·sin²120° = 3), so the sign is
// certain.
func TestSinesCompareWhereFloatsMislead(t *testing.T) {
	sign := func(x *big.Rat) int {
		square := new(big.Rat).Mul(x, x)
		value := big.NewRat(64, 1)
		for _, c := range []int64{-96, 36, -3} {
			value.Add(value.Mul(value, square), big.NewRat(c, 1))
		}
		return value.Sign()
	}
	low, high := big.NewRat(3, 5), big.NewRat(2, 3)
	atLow := sign(low)
	if atLow*sign(high) != -1 {
		t.Fatal("sin 40° is not between 3/5 and 2/3")
	}
	s, close := sine(1, 2, 9), 0
	for {
		middle := new(big.Rat).SetFrac(
			new(big.Int).Add(low.Num(), high.Num()), new(big.Int).Add(low.Denom(), high.Denom()))
		if middle.Denom().Cmp(big.NewInt(maxPart)) > 0 {
			break
		}
		want := 1
		if sign(middle) == atLow {
			low = middle
		} else {
			high, want = middle, -1
		}
		if f, _ := middle.Float64(); math.Abs(f-s.Float()) < 2e-16 {
			close++
		}
		if got := s.Cmp(Roots{}.Plus(1, middle)); got != want {
			t.Errorf("Cmp(sin 40°, %s) = %d, want %d", middle, got, want)
		}
	}
	if close < 10 {
		t.Errorf("only %d fractions are within rounding of sin 40°, want 10 or more", close)
	}
}
