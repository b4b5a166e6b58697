package exact

import (
	"math"
	"math/big"
	"strconv"
)

// Sines is a sum of rational multiples of sines of rational parts of a turn:
// the sum of times[k]·sin(180°·k/m). It is what lengths and areas on a ring
// of pegs are made of: a chord over d of N steps is 2·sin(180°·d/N).
type Sines struct {
	m     int
	times []*big.Rat // index k = 0..m; the sines repeat after that
}

// NewSines returns the number 0 as a sum of sines of multiples of 180°/m.
func NewSines(m int) Sines {
	s := Sines{m: m, times: make([]*big.Rat, m+1)}
	for k := range s.times {
		s.times[k] = new(big.Rat)
	}
	return s
}

// Add adds q·sin(180°·k/m) to s in place; k may be any whole number. Sines of
// angles past the quarter turn are folded back to it.
func (s Sines) Add(k int, q *big.Rat) {
	k = mod(k, 2*s.m)
	if k > s.m {
		k, q = k-s.m, new(big.Rat).Neg(q)
	}
	if 2*k > s.m {
		k = s.m - k
	}
	s.times[k].Add(s.times[k], q)
}

// Float returns s as a float64.
func (s Sines) Float() float64 {
	sum := 0.0
	for k, q := range s.times {
		f, _ := q.Float64()
		sum += f * math.Sin(math.Pi*float64(k)/float64(s.m))
	}
	return sum
}

// Cmp compares s with v, exactly: equality in the cyclotomic numbers, and when
// they differ the sign of the difference to as many bits as it takes. The
// numerators and denominators of v must be at most those that ParseRoots takes.
func (s Sines) Cmp(v Roots) int {
	if s.minus(v).IsZero() {
		return 0
	}
	return signOf(max(s.size(), v.size()), func(precision uint) *big.Float {
		return new(big.Float).Sub(s.big(precision), v.big(precision))
	})
}

// size bounds the terms of s: each is less than 2^size.
func (s Sines) size() int {
	most := 0
	for _, q := range s.times {
		most = max(most, ratSize(q))
	}
	return most
}

// minus returns a whole multiple of s − v as a cyclotomic number. With ζ of
// order 4m, 2·sin(180°·k/m) is ζ^(m−2k) + ζ^(2k−m).
func (s Sines) minus(v Roots) Cyclotomic {
	order := 4 * s.m
	scale := big.NewInt(1)
	for _, q := range s.times {
		scale = bigLCM(scale, q.Denom())
	}
	for _, t := range v.terms {
		order = LCM(order, int(8*t.of))
		scale = bigLCM(scale, t.times.Denom())
	}
	out := make(Cyclotomic, order)
	for k, q := range s.times {
		c := scaled(q, scale)
		step := (s.m - 2*k) * (order / (4 * s.m))
		out.Add(step, c)
		out.Add(-step, c)
	}
	for _, t := range v.terms {
		c := 2 * scaled(t.times, scale)
		for k, l := range rootOf(t.of).Lift(order) {
			out[k] -= c * l
		}
	}
	return out
}

func scaled(q *big.Rat, scale *big.Int) int64 {
	return new(big.Rat).Mul(q, new(big.Rat).SetInt(scale)).Num().Int64()
}

func bigLCM(a, b *big.Int) *big.Int {
	g := new(big.Int).GCD(nil, nil, a, b)
	return new(big.Int).Mul(a, new(big.Int).Div(b, g))
}

func (s Sines) big(precision uint) *big.Float {
	sum := new(big.Float).SetPrec(precision)
	pi := bigPi(precision + 16)
	for k, q := range s.times {
		if q.Sign() == 0 || k == 0 {
			continue
		}
		x := new(big.Float).SetPrec(precision + 16).SetRat(big.NewRat(int64(k), int64(s.m)))
		term := bigSin(x.Mul(x, pi), precision+16)
		times := new(big.Float).SetPrec(precision).SetRat(q)
		sum.Add(sum, times.Mul(times, term))
	}
	return sum
}

// bigSin sums the sine's power series; x must be small (here at most π).
func bigSin(x *big.Float, precision uint) *big.Float {
	square := new(big.Float).SetPrec(precision).Mul(x, x)
	term := new(big.Float).SetPrec(precision).Set(x)
	sum := new(big.Float).SetPrec(precision).Set(x)
	for n := int64(2); term.Sign() != 0 && term.MantExp(nil) > -int(precision); n += 2 {
		term.Mul(term, square)
		term.Quo(term, new(big.Float).SetInt64(-n*(n+1)))
		sum.Add(sum, term)
	}
	return sum
}

// bigPi returns π by Machin's formula, 16·arctan(1/5) − 4·arctan(1/239).
func bigPi(precision uint) *big.Float {
	a, b := arctanOfInverse(5, precision), arctanOfInverse(239, precision)
	a.Mul(a, new(big.Float).SetInt64(16))
	b.Mul(b, new(big.Float).SetInt64(4))
	return a.Sub(a, b)
}

func arctanOfInverse(n int64, precision uint) *big.Float {
	power := new(big.Float).SetPrec(precision + 8)
	power.Quo(power.SetInt64(1), new(big.Float).SetInt64(n))
	square := new(big.Float).SetInt64(n * n)
	sum := new(big.Float).SetPrec(precision + 8)
	for k := int64(0); power.MantExp(nil) > -int(precision)-8; k++ {
		term := new(big.Float).SetPrec(precision+8).Quo(power, new(big.Float).SetInt64(2*k+1))
		if k%2 == 1 {
			term.Neg(term)
		}
		sum.Add(sum, term)
		power.Quo(power, square)
	}
	return sum
}

// String prints s with roots where the sine has a simple one (30°, 45°, 60°,
// 90°, and 15°, 75°, 18°, 54°) and "sin 40°" elsewhere: "3√3/2", "2 sin 40°",
// "(9/2) sin 40°".
func (s Sines) String() string {
	roots := Roots{}
	var sines []string
	for k, q := range s.times {
		if q.Sign() == 0 || k == 0 {
			continue
		}
		if known, ok := knownSine(k, s.m); ok {
			for _, t := range known.terms {
				roots = roots.Plus(t.of, new(big.Rat).Mul(t.times, q))
			}
			continue
		}
		sines = append(sines, sineText(q, k, s.m))
	}
	parts := make([]string, 0, len(roots.terms)+len(sines))
	for _, t := range roots.terms {
		parts = append(parts, product(t.times, rootText(t.of)))
	}
	return sum(append(parts, sines...))
}

// sineText keeps a fraction in brackets and in front, so that nobody takes half
// a sine for the sine of half the angle.
func sineText(q *big.Rat, k, m int) string {
	sine := "sin " + DegreesText(big.NewRat(int64(180*k), int64(m)))
	switch {
	case !q.IsInt() && q.Sign() < 0:
		return "-(" + new(big.Rat).Neg(q).RatString() + ") " + sine
	case !q.IsInt():
		return "(" + q.RatString() + ") " + sine
	case new(big.Rat).Abs(q).Cmp(big.NewRat(1, 1)) == 0:
		return product(q, sine)
	}
	return q.RatString() + " " + sine
}

// DegreesText prints a number of degrees exactly: "45°", "22.5°", "128 4/7°".
func DegreesText(d *big.Rat) string {
	if d.IsInt() {
		return d.RatString() + "°"
	}
	if hundredfold := new(big.Rat).Mul(d, big.NewRat(100, 1)); hundredfold.IsInt() {
		f, _ := d.Float64()
		return strconv.FormatFloat(f, 'f', -1, 64) + "°"
	}
	whole, rest := new(big.Int).QuoRem(d.Num(), d.Denom(), new(big.Int))
	if whole.Sign() == 0 {
		return d.RatString() + "°"
	}
	return whole.String() + " " + new(big.Rat).SetFrac(rest, d.Denom()).RatString() + "°"
}

// knownSine returns sin(180°·k/m) where it is a sum of square roots.
func knownSine(k, m int) (Roots, bool) {
	g := GCD(k, m)
	switch [2]int{k / g, m / g} {
	case [2]int{1, 2}:
		return Rational(1, 1), true
	case [2]int{1, 6}:
		return Rational(1, 2), true
	case [2]int{1, 4}:
		return Root(2).Over(big.NewRat(2, 1)), true
	case [2]int{1, 3}:
		return Root(3).Over(big.NewRat(2, 1)), true
	case [2]int{1, 12}:
		return Root(6).Minus(Root(2)).Over(big.NewRat(4, 1)), true
	case [2]int{5, 12}:
		return Root(6).Plus(2, big.NewRat(1, 1)).Over(big.NewRat(4, 1)), true
	case [2]int{1, 10}:
		return Root(5).Minus(Rational(1, 1)).Over(big.NewRat(4, 1)), true
	case [2]int{3, 10}:
		return Root(5).Plus(1, big.NewRat(1, 1)).Over(big.NewRat(4, 1)), true
	}
	return Roots{}, false
}
