// Package exact holds the numbers that lengths and areas on a pegboard are
// made of, known exactly: sums of square roots on the square and triangular
// boards (Roots), sums of sines on the ring (Sines), and under both the
// whole-number combinations of roots of unity (Cyclotomic).
//
// Each can be printed as a textbook would print it, turned into a float64 for
// showing, and compared without any tolerance. Which number belongs to which
// figure is decided elsewhere; start reading at Number.
package exact

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"math/bits"
	"slices"
	"strconv"
	"strings"
)

// Number is a real number known exactly.
type Number interface {
	// String prints the number as a textbook does: "4 + 2√5", "3√3/4".
	String() string
	// Float returns the nearest float64, or one beside it.
	Float() float64
	// Cmp returns −1, 0 or +1 as the number is less than, equal to or
	// greater than v. It is exact.
	Cmp(v Roots) int
}

// Roots is a sum of rational multiples of square roots, a·√m + b·√n + …, with
// different square-free m, n, … in rising order (the rational part is the
// multiple of √1). The zero value is the number 0.
//
// Square roots of different square-free numbers are independent over the
// rationals (Besicovitch, J. London Math. Soc. 15, 1940; from memory), so two
// sums are equal exactly when their terms are.
type Roots struct {
	terms []rootTerm
}

type rootTerm struct {
	times *big.Rat
	of    int64
}

// Rational returns the fraction a/b as a number; b must not be 0.
func Rational(a, b int64) Roots {
	return Roots{}.Plus(1, big.NewRat(a, b))
}

// Root returns √n for n ≥ 0, simplified: Root(20) is 2√5.
func Root(n int64) Roots {
	return Roots{}.Plus(n, big.NewRat(1, 1))
}

// Plus returns r + times·√n for n ≥ 0.
func (r Roots) Plus(n int64, times *big.Rat) Roots {
	whole, of := int64(1), n
	for f := int64(2); f*f <= of; f++ {
		for of%(f*f) == 0 {
			of /= f * f
			whole *= f
		}
	}
	term := new(big.Rat).Mul(times, big.NewRat(whole, 1))
	if n == 0 || term.Sign() == 0 {
		return r
	}
	at, found := slices.BinarySearchFunc(r.terms, of, func(t rootTerm, of int64) int { return cmp.Compare(t.of, of) })
	terms := slices.Clone(r.terms)
	if !found {
		return Roots{slices.Insert(terms, at, rootTerm{term, of})}
	}
	terms[at].times = new(big.Rat).Add(terms[at].times, term)
	if terms[at].times.Sign() == 0 {
		terms = slices.Delete(terms, at, at+1)
	}
	return Roots{terms}
}

// Minus returns r − v.
func (r Roots) Minus(v Roots) Roots {
	for _, t := range v.terms {
		r = r.Plus(t.of, new(big.Rat).Neg(t.times))
	}
	return r
}

// Times returns r·a/b; b must not be 0.
func (r Roots) Times(a, b int64) Roots {
	out := Roots{}
	for _, t := range r.terms {
		out = out.Plus(t.of, new(big.Rat).Mul(t.times, big.NewRat(a, b)))
	}
	return out
}

// Over returns r divided by a fraction, which must not be 0.
func (r Roots) Over(q *big.Rat) Roots {
	out := Roots{}
	for _, t := range r.terms {
		out = out.Plus(t.of, new(big.Rat).Quo(t.times, q))
	}
	return out
}

// Rat returns r as a fraction, and whether it is one.
func (r Roots) Rat() (*big.Rat, bool) {
	switch {
	case len(r.terms) == 0:
		return new(big.Rat), true
	case len(r.terms) == 1 && r.terms[0].of == 1:
		return r.terms[0].times, true
	}
	return nil, false
}

// Single returns the factor q and the square-free n of a number q·√n, and
// whether r is one; 0 is 0·√1.
func (r Roots) Single() (q *big.Rat, n int64, ok bool) {
	switch len(r.terms) {
	case 0:
		return new(big.Rat), 1, true
	case 1:
		return r.terms[0].times, r.terms[0].of, true
	}
	return nil, 0, false
}

// Float returns r as a float64.
func (r Roots) Float() float64 {
	sum := 0.0
	for _, t := range r.terms {
		f, _ := t.times.Float64()
		sum += f * math.Sqrt(float64(t.of))
	}
	return sum
}

// Cmp compares r with v, exactly.
func (r Roots) Cmp(v Roots) int {
	d := r.Minus(v)
	if len(d.terms) == 0 {
		return 0
	}
	return signOf(d.size(), d.big)
}

// size bounds the terms of r: each is less than 2^size.
func (r Roots) size() int {
	most := 0
	for _, t := range r.terms {
		most = max(most, ratSize(t.times)+bits.Len64(uint64(t.of))/2+1)
	}
	return most
}

// ratSize returns a number s ≥ 0 with |q| < 2^s.
func ratSize(q *big.Rat) int {
	return max(0, q.Num().BitLen()-q.Denom().BitLen()+1)
}

func (r Roots) big(precision uint) *big.Float {
	sum := new(big.Float).SetPrec(precision)
	for _, t := range r.terms {
		root := new(big.Float).SetPrec(precision).SetInt64(t.of)
		root.Sqrt(root)
		times := new(big.Float).SetPrec(precision).SetRat(t.times)
		sum.Add(sum, times.Mul(times, root))
	}
	return sum
}

// signOf returns the sign of a number that is known not to be 0, given a way
// to work it out to any precision as a sum of terms less than 2^size: it asks
// for more and more bits until the value stands clear of the rounding.
func signOf(size int, approximate func(precision uint) *big.Float) int {
	for precision := uint(64); ; precision *= 2 {
		x := approximate(precision)
		if x.Sign() != 0 && x.MantExp(nil) > size-int(precision)/2 {
			return x.Sign()
		}
	}
}

// String prints r, the rational part first: "4 + 2√5", "5/2", "3√3/4".
func (r Roots) String() string {
	parts := make([]string, len(r.terms))
	for i, t := range r.terms {
		parts[i] = product(t.times, rootText(t.of))
	}
	return sum(parts)
}

func rootText(n int64) string {
	if n == 1 {
		return ""
	}
	return "√" + strconv.FormatInt(n, 10)
}

// product prints a fraction times a symbol, which may be empty.
func product(q *big.Rat, symbol string) string {
	if symbol == "" {
		return q.RatString()
	}
	num, den := q.Num().String(), q.Denom().String()
	switch num {
	case "1":
		num = ""
	case "-1":
		num = "-"
	}
	if den == "1" {
		return num + symbol
	}
	return num + symbol + "/" + den
}

// sum joins printed terms with their signs; no terms are 0.
func sum(parts []string) string {
	if len(parts) == 0 {
		return "0"
	}
	out := parts[0]
	for _, p := range parts[1:] {
		if rest, negative := strings.CutPrefix(p, "-"); negative {
			out += " − " + rest
		} else {
			out += " + " + p
		}
	}
	return strings.Replace(out, "-", "−", 1)
}

// The bounds of what ParseRoots takes: far more than a condition needs, and
// small enough for every comparison with a ring's sines.
const (
	maxRadicand = 10_000
	maxPart     = 1_000_000_000_000 // of a numerator or denominator
	maxDigits   = 24
)

// tight removes the spaces that do not part a mixed number.
var tight = strings.NewReplacer(" / ", "/", " /", "/", "/ ", "/", " √ ", "√", " √", "√", "√ ", "√", "- ", "-")

// ParseRoots reads a number written as a fraction, a mixed number, a decimal,
// a root or a fraction of a root: "4", "7/2", "3 1/2", "2.5", "2√5", "3√3/4",
// with "sqrt" for √. It reads what String prints of a number of one term.
func ParseRoots(text string) (Roots, error) {
	t := strings.NewReplacer("sqrt", "√", "−", "-").Replace(text)
	t = tight.Replace(strings.Join(strings.Fields(t), " "))
	before, after, rooted := strings.Cut(t, "√")
	inside, below, divided := strings.Cut(after, "/")
	if !divided {
		below = "1"
	}
	switch {
	case !rooted:
		inside = "1"
	case before == "" || before == "-":
		before += "1"
	}
	q, ok := parseMixed(before)
	d, wholeBelow := parseDigits(below)
	n, wholeInside := parseDigits(inside)
	switch {
	case !ok || !wholeBelow:
		return Roots{}, fmt.Errorf("%q is not a number: write one such as 4, 7/2, 2.5 or 2√5", clip(text))
	case !wholeInside || n.Cmp(big.NewRat(1, 1)) < 0 || n.Cmp(big.NewRat(maxRadicand, 1)) > 0:
		return Roots{}, fmt.Errorf("%q is not a number: after √ write a whole number from 1 to %d", clip(text), maxRadicand)
	case d.Sign() == 0:
		return Roots{}, fmt.Errorf("%q divides by zero", clip(text))
	}
	out := Roots{}.Plus(n.Num().Int64(), q.Quo(q, d))
	times, _, _ := out.Single()
	if most := big.NewInt(maxPart); times.Num().CmpAbs(most) > 0 || times.Denom().Cmp(most) > 0 {
		return Roots{}, fmt.Errorf("%q is not a number Pegwright can use: write a plainer one such as 4, 7/2 or 2√5", clip(text))
	}
	return out, nil
}

// parseMixed reads "4", "2.5", "7/2" or "3 1/2", with an optional minus.
func parseMixed(t string) (*big.Rat, bool) {
	t, negative := strings.CutPrefix(t, "-")
	whole, fraction, mixed := strings.Cut(t, " ")
	if !mixed {
		whole, fraction = "0", t
	}
	above, below, divided := strings.Cut(fraction, "/")
	switch {
	case mixed && !divided:
		return nil, false
	case !divided:
		below = "1"
	}
	w, ok := parseDigits(whole)
	d, wholeBelow := parseDigits(below)
	n, ok2 := parseDecimal(above, !divided)
	if !ok || !ok2 || !wholeBelow || d.Sign() == 0 {
		return nil, false
	}
	q := w.Add(w, n.Quo(n, d))
	if negative {
		q.Neg(q)
	}
	return q, true
}

// parseDecimal reads digits with, where it may have one, a decimal point.
func parseDecimal(t string, point bool) (*big.Rat, bool) {
	whole, places, pointed := strings.Cut(t, ".")
	if pointed && !point || whole+places == "" {
		return nil, false
	}
	q, ok := parseDigits(whole + places)
	if !ok {
		return nil, false
	}
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(places))), nil)
	return q.Quo(q, new(big.Rat).SetInt(scale)), true
}

// parseDigits reads decimal digits and nothing else.
func parseDigits(t string) (*big.Rat, bool) {
	if t == "" || len(t) > maxDigits || strings.Trim(t, "0123456789") != "" {
		return nil, false
	}
	n, ok := new(big.Int).SetString(t, 10)
	return new(big.Rat).SetInt(n), ok
}

// clip shortens text that came from outside, for use in a message.
func clip(text string) string {
	const most = 40
	runes := []rune(strings.ToValidUTF8(text, "\uFFFD"))
	if len(runes) <= most {
		return string(runes)
	}
	return string(runes[:most]) + "…"
}
