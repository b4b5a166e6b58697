package exact

// Cyclotomic is a whole-number combination of the n-th roots of unity,
// n = len(c): the sum of c[k]·ζ^k with ζ = e^(2πi/n). The zero test is exact,
// so two combinations are equal exactly when their difference IsZero.
//
// The representation is not unique (the n powers of ζ are not independent);
// compare with IsZero, never entry by entry.
type Cyclotomic []int64

// Add adds m·ζ^k to c in place. The exponent may be any whole number.
func (c Cyclotomic) Add(k int, m int64) {
	c[mod(k, len(c))] += m
}

// Plus returns c + d. Both must have the same order.
func (c Cyclotomic) Plus(d Cyclotomic) Cyclotomic {
	out := make(Cyclotomic, len(c))
	for k := range c {
		out[k] = c[k] + d[k]
	}
	return out
}

// Minus returns c − d. Both must have the same order.
func (c Cyclotomic) Minus(d Cyclotomic) Cyclotomic {
	out := make(Cyclotomic, len(c))
	for k := range c {
		out[k] = c[k] - d[k]
	}
	return out
}

// Mul returns the product of c and d. Both must have the same order.
func (c Cyclotomic) Mul(d Cyclotomic) Cyclotomic {
	out := make(Cyclotomic, len(c))
	for j, m := range c {
		if m == 0 {
			continue
		}
		for k, l := range d {
			out[(j+k)%len(c)] += m * l
		}
	}
	return out
}

// Conj returns the complex conjugate of c: the mirror image in the real axis.
func (c Cyclotomic) Conj() Cyclotomic {
	out := make(Cyclotomic, len(c))
	for k, m := range c {
		out[mod(-k, len(c))] = m
	}
	return out
}

// IsZero reports whether c is the number 0.
//
// As a polynomial, c vanishes at ζ exactly when the cyclotomic polynomial Φn
// divides it. The product g of x^(n/p) − 1 over the primes p dividing n is a
// multiple of every other factor of x^n − 1 and has no factor in common with
// Φn, so that happens exactly when c·g is 0 modulo x^n − 1: a few cyclic
// shifts and subtractions, with no division. (Factors of x^n − 1: Ireland and
// Rosen, A Classical Introduction to Modern Number Theory, chapter 13; from
// memory.)
func (c Cyclotomic) IsZero() bool {
	n := len(c)
	f := append(Cyclotomic(nil), c...)
	shifted := make(Cyclotomic, n)
	for _, p := range primeFactors(n) {
		for k := range f {
			shifted[(k+n/p)%n] = f[k]
		}
		for k := range f {
			f[k] = shifted[k] - f[k]
		}
	}
	for _, m := range f {
		if m != 0 {
			return false
		}
	}
	return true
}

// rootOf returns √n as a cyclotomic number of order 8·n, by Gauss's quadratic
// sums; n must be square-free. For an odd prime p the sum of (a/p)·ζp^a is √p, or i√p when p leaves 3 on
// division by 4; √2 is ζ8 + ζ8⁻¹. (Gauss 1811; Ireland and Rosen, chapter 6;
// from memory.)
func rootOf(n int64) Cyclotomic {
	order := int(8 * n)
	out := make(Cyclotomic, order)
	out[0] = 1
	for _, p := range primeFactors(int(n)) {
		out = out.Mul(primeRoot(p, order))
	}
	return out
}

func primeRoot(p, order int) Cyclotomic {
	out := make(Cyclotomic, order)
	if p == 2 {
		out.Add(order/8, 1)
		out.Add(-order/8, 1)
		return out
	}
	turn := 0 // multiplies by −i where the sum is i√p
	if p%4 == 3 {
		turn = -order / 4
	}
	square := make([]bool, p)
	for a := 1; a < p; a++ {
		square[a*a%p] = true
	}
	for a := 1; a < p; a++ {
		sign := int64(-1)
		if square[a] {
			sign = 1
		}
		out.Add(a*order/p+turn, sign)
	}
	return out
}

// Lift writes c with the roots of unity of a larger order, a multiple of len(c).
func (c Cyclotomic) Lift(order int) Cyclotomic {
	out := make(Cyclotomic, order)
	for k, m := range c {
		out[k*(order/len(c))] = m
	}
	return out
}

func primeFactors(n int) []int {
	var out []int
	for p := 2; p*p <= n; p++ {
		if n%p == 0 {
			out = append(out, p)
			for n%p == 0 {
				n /= p
			}
		}
	}
	if n > 1 {
		out = append(out, n)
	}
	return out
}

func mod(k, n int) int {
	return ((k % n) + n) % n
}

// LCM returns the least common multiple of two positive whole numbers.
func LCM(a, b int) int {
	return a / GCD(a, b) * b
}

// GCD returns the greatest common divisor of the magnitudes of a and b;
// GCD(0, 0) is 0.
func GCD[T ~int | ~int32 | ~int64](a, b T) T {
	if a < 0 {
		a = -a
	}
	if b < 0 {
		b = -b
	}
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
