package exact

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// highPrecision is the number of bits to which sums of roots of unity are
// worked out here; the norm of a non-zero combination of these sizes is at
// least 1, so it cannot come nearer to 0 than about 2^-400.
const highPrecision = 1200

// unitRoots returns the real and imaginary parts of the n-th roots of unity.
// It multiplies one root by itself, which is found by Newton's method on
// x^n = 1, so no sine is worked out by the code under test.
func unitRoots(n int) (re, im []*big.Float) {
	f := func(x float64) *big.Float { return new(big.Float).SetPrec(highPrecision).SetFloat64(x) }
	x, y := f(1), f(0)
	if n > 1 {
		x, y = newtonRoot(n)
	}
	re, im = []*big.Float{f(1)}, []*big.Float{f(0)}
	for k := 1; k < n; k++ {
		a, b := complexMul(re[k-1], im[k-1], x, y)
		re, im = append(re, a), append(im, b)
	}
	return re, im
}

func complexMul(a, b, c, d *big.Float) (re, im *big.Float) {
	mul := func(p, q *big.Float) *big.Float { return new(big.Float).SetPrec(highPrecision).Mul(p, q) }
	return mul(a, c).Sub(mul(a, c), mul(b, d)), mul(a, d).Add(mul(a, d), mul(b, c))
}

// newtonRoot solves z^n = 1 from the float64 value of the first root, by the
// step z ← z·(1 + (1 − z^n)/n).
func newtonRoot(n int) (x, y *big.Float) {
	fx, fy := cosSin(n)
	x = new(big.Float).SetPrec(highPrecision).SetFloat64(fx)
	y = new(big.Float).SetPrec(highPrecision).SetFloat64(fy)
	for range 12 {
		px, py := new(big.Float).SetPrec(highPrecision).SetInt64(1), new(big.Float).SetPrec(highPrecision)
		for range n {
			px, py = complexMul(px, py, x, y)
		}
		by := new(big.Float).SetPrec(highPrecision).SetInt64(int64(n))
		px.Quo(px.Sub(new(big.Float).SetPrec(highPrecision).SetInt64(1), px), by)
		py.Quo(py.Neg(py), by)
		px.Add(px, new(big.Float).SetInt64(1))
		x, y = complexMul(x, y, px, py)
	}
	return x, y
}

// nearZero says whether a combination of roots of unity is 0 to 1,000 bits.
func nearZero(c Cyclotomic, re, im []*big.Float) bool {
	x, y := new(big.Float).SetPrec(highPrecision), new(big.Float).SetPrec(highPrecision)
	for k, m := range c {
		times := new(big.Float).SetPrec(highPrecision).SetInt64(m)
		x.Add(x, new(big.Float).SetPrec(highPrecision).Mul(times, re[k]))
		y.Add(y, new(big.Float).SetPrec(highPrecision).Mul(times, im[k]))
	}
	tiny := func(f *big.Float) bool { return f.Sign() == 0 || f.MantExp(nil) < -1000 }
	return tiny(x) && tiny(y)
}

func TestZeroAgreesWithDigits(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	most := 90
	if testing.Short() {
		most = 40
	}
	for n := 1; n <= most; n++ {
		re, im := unitRoots(n)
		for trial := range 12 {
			c := make(Cyclotomic, n)
			for range 1 + random.IntN(4) {
				c.Add(random.IntN(n), random.Int64N(7)-3)
			}
			if trial%2 == 0 {
				hideZero(c, random)
			}
			if got, want := c.IsZero(), nearZero(c, re, im); got != want {
				t.Fatalf("IsZero(%v) = %v, want %v", c, got, want)
			}
		}
	}
}

// hideZero makes c a sum of turned copies of 1 + ζp + … + ζp^(p−1), each of
// which is 0, with at most one term more.
func hideZero(c Cyclotomic, random *rand.Rand) {
	clear(c)
	n := len(c)
	for p := 2; p <= n; p++ {
		if n%p != 0 {
			continue
		}
		at, m := random.IntN(n), random.Int64N(5)-2
		for k := range p {
			c.Add(at+k*n/p, m)
		}
	}
	if random.IntN(2) == 0 {
		c.Add(random.IntN(n), 1)
	}
}

func TestAllRootsOfUnityAddUpToZero(t *testing.T) {
	if c := (Cyclotomic{1}); c.IsZero() {
		t.Error("IsZero([1]) = true, want false: the only first root of unity is 1")
	}
	for n := 2; n <= 200; n++ {
		c := make(Cyclotomic, n)
		for k := range c {
			c[k] = 1
		}
		if !c.IsZero() {
			t.Errorf("IsZero(sum of all %d-th roots) = false, want true", n)
		}
		for k := range c {
			c[k] = 0
			if c.IsZero() {
				t.Errorf("IsZero(sum of all %d-th roots but number %d) = true, want false", n, k)
			}
			c[k] = 1
		}
	}
}

// The sum of the primitive n-th roots of unity is the Möbius function of n
// (Hardy and Wright, section 16.6; from memory).
func TestPrimitiveRootsAddUpToMoebius(t *testing.T) {
	for n := 1; n <= 200; n++ {
		c := make(Cyclotomic, n)
		for k := range c {
			if GCD(k, n) == 1 {
				c.Add(k, 1)
			}
		}
		mu := int64(1)
		for _, p := range primeFactors(n) {
			mu = -mu
			if n%(p*p) == 0 {
				mu = 0
				break
			}
		}
		c.Add(0, -mu)
		if !c.IsZero() {
			t.Errorf("the primitive %d-th roots do not add up to %d", n, mu)
		}
	}
}

// Gauss: the square of the quadratic sum of p is p or −p, and √2 is ζ8 + ζ8⁻¹.
func TestRootsOfWholeNumbersSquared(t *testing.T) {
	for n := int64(1); n <= 130; n++ {
		if whole, of, _ := Root(n).Single(); whole.RatString() != "1" || of != n {
			continue // not square-free
		}
		root := rootOf(n)
		square := root.Mul(root)
		square.Add(0, -n)
		if !square.IsZero() {
			t.Errorf("rootOf(%d) squared is not %d", n, n)
		}
		if !root.Minus(root.Conj()).IsZero() {
			t.Errorf("rootOf(%d) is not real", n)
		}
		if n < 40 {
			re, _ := unitRoots(len(root))
			value := new(big.Float).SetPrec(highPrecision)
			for k, m := range root {
				value.Add(value, new(big.Float).SetPrec(highPrecision).Mul(re[k], new(big.Float).SetInt64(m)))
			}
			if value.Sign() <= 0 {
				t.Errorf("rootOf(%d) = %v, want the positive root", n, value)
			}
		}
	}
}

func TestCyclotomicArithmetic(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	number := func(n int) Cyclotomic {
		c := make(Cyclotomic, n)
		for k := range c {
			c[k] = random.Int64N(9) - 4
		}
		return c
	}
	same := func(law string, n int, a, b Cyclotomic) {
		t.Helper()
		if !a.Minus(b).IsZero() {
			t.Errorf("order %d: %s does not hold", n, law)
		}
	}
	for _, n := range []int{1, 2, 3, 4, 5, 6, 8, 9, 12, 15, 20, 24, 30, 36} {
		for range 20 {
			a, b, c := number(n), number(n), number(n)
			same("a·b = b·a", n, a.Mul(b), b.Mul(a))
			same("a·(b+c) = a·b + a·c", n, a.Mul(b.Plus(c)), a.Mul(b).Plus(a.Mul(c)))
			same("(a·b)·c = a·(b·c)", n, a.Mul(b).Mul(c), a.Mul(b.Mul(c)))
			same("conj(a·b) = conj(a)·conj(b)", n, a.Mul(b).Conj(), a.Conj().Mul(b.Conj()))
			same("conj(conj(a)) = a", n, a.Conj().Conj(), a)
			same("lift(a)·lift(b) = lift(a·b)", n, a.Lift(3*n).Mul(b.Lift(3*n)), a.Mul(b).Lift(3*n))
			if a.IsZero() != a.Lift(5*n).IsZero() {
				t.Errorf("order %d: IsZero changes when lifted", n)
			}
		}
	}
}

func TestAddTakesAnyExponent(t *testing.T) {
	c := make(Cyclotomic, 5)
	for _, k := range []int{-11, -6, -1, 4, 9, 14} {
		c.Add(k, 1)
	}
	if c[4] != 6 {
		t.Errorf("c[4] = %d, want 6", c[4])
	}
}

func TestGCDAndLCM(t *testing.T) {
	tests := []struct{ a, b, gcd int }{
		{0, 0, 0}, {0, 7, 7}, {7, 0, 7}, {-6, 4, 2}, {6, -4, 2}, {12, 18, 6}, {35, 64, 1},
	}
	for _, tt := range tests {
		if got := GCD(tt.a, tt.b); got != tt.gcd {
			t.Errorf("GCD(%d, %d) = %d, want %d", tt.a, tt.b, got, tt.gcd)
		}
	}
	if got := LCM(144, 140); got != 5040 {
		t.Errorf("LCM(144, 140) = %d, want 5040", got)
	}
}
