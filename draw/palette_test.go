package draw

import (
	"image/color"
	"math"
	"testing"
)

// contrast returns the contrast ratio of two colours as WCAG 2 defines it.
func contrast(a, b color.NRGBA) float64 {
	light, dark := luminance(a), luminance(b)
	if light < dark {
		light, dark = dark, light
	}
	return (light + 0.05) / (dark + 0.05)
}

func luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

func TestContrast(t *testing.T) {
	for _, ground := range []color.NRGBA{Paper, wash} {
		if got := contrast(Ink, ground); got < 4.5 {
			t.Errorf("text has a contrast of %.2f, want 4.5", got)
		}
		for name, c := range map[string]color.NRGBA{"peg": pegInk, "fold line": foldInk, "warning": warning} {
			if got := contrast(c, ground); got < 3 {
				t.Errorf("a %s has a contrast of %.2f, want 3", name, got)
			}
		}
		for i, th := range threads {
			if got := contrast(th.hue, ground); got < 3 {
				t.Errorf("thread %d has a contrast of %.2f, want 3", i+1, got)
			}
		}
	}
}

// Two kinds of colour-blindness as matrices on linear light (Viénot, Brettel
// and Mollon 1999; from memory). Red and green come out alike.
var blind = map[string][3]float64{
	"protan": {0.11238, 0.88762, 0.00401},
	"deutan": {0.29275, 0.70725, -0.02234},
}

// seen returns a colour as a colour-blind eye sees it: yellow and blue.
func seen(c color.NRGBA, m [3]float64) [2]float64 {
	r, g, b := linear(c.R), linear(c.G), linear(c.B)
	yellow, blue := m[0]*r+m[1]*g, b+m[2]*(r-g)
	return [2]float64{math.Cbrt(max(0, yellow)), math.Cbrt(max(0, blue))}
}

// TestThreadsDifferWithoutColour checks that any two threads differ in pattern,
// and that the fold line differs in hue, as colour-blind eyes see it, from the
// first thread, which most figures have alone.
func TestThreadsDifferWithoutColour(t *testing.T) {
	for i, a := range threads {
		for j, b := range threads[:i] {
			if equalDash(a.dash, b.dash) {
				t.Errorf("threads %d and %d have one pattern", j+1, i+1)
			}
		}
		if equalDash(a.dash, foldDash) {
			t.Errorf("thread %d has the pattern of a fold line", i+1)
		}
	}
	for kind, m := range blind {
		a, b := seen(threads[0].hue, m), seen(foldInk, m)
		if d := math.Hypot(a[0]-b[0], a[1]-b[1]); d < 0.2 {
			t.Errorf("a %s eye sees thread and fold line %.2f apart, want 0.2", kind, d)
		}
	}
}

func equalDash(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if math.Abs(a[i]-b[i]) > 0.01 {
			return false
		}
	}
	return true
}
