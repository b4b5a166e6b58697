package draw

import "image/color"

// The colours of the workshop: warm paper, dark ink. Every thread keeps 3:1
// against paper and every text 4.5:1; threads differ in pattern as well, so
// that a black-and-white copy and a colour-blind eye lose nothing.
var (
	Paper = color.NRGBA{0xfb, 0xf6, 0xea, 0xff}
	Ink   = color.NRGBA{0x2b, 0x26, 0x22, 0xff}

	pegInk  = color.NRGBA{0x80, 0x75, 0x68, 0xff}
	rim     = color.NRGBA{0xde, 0xd4, 0xc0, 0xff} // a guide for the eye, carries nothing
	wash    = color.NRGBA{0xef, 0xe8, 0xd8, 0xff}
	foldInk = color.NRGBA{0xa8, 0x3a, 0x16, 0xff} // no thread is red, so that nothing is taken for a fold line
	warning = foldInk
)

// thread is how one band of a figure is told from the others. Dashes are in
// steps; a dash of next to nothing is a dot, since ends are round.
type thread struct {
	hue  color.NRGBA
	dash []float64
}

// threads repeat after the last one.
var threads = []thread{
	{color.NRGBA{0x1d, 0x4b, 0x87, 0xff}, nil},
	{color.NRGBA{0x86, 0x5f, 0x00, 0xff}, []float64{0.26, 0.17}},
	{color.NRGBA{0x00, 0x70, 0x55, 0xff}, []float64{0.02, 0.15}},
	{color.NRGBA{0x7a, 0x2f, 0x78, 0xff}, []float64{0.34, 0.16, 0.02, 0.16}},
	{color.NRGBA{0x3f, 0x3a, 0x36, 0xff}, []float64{0.1, 0.15}},
	{color.NRGBA{0x2a, 0x72, 0x94, 0xff}, []float64{0.3, 0.16, 0.02, 0.16, 0.02, 0.16}},
}

// Sizes, in steps.
const (
	threadWidth  = 0.085
	pegRadius    = 0.085
	cornerRadius = 0.115
	markWidth    = 0.042
	foldWidth    = 0.036
	letterSize   = 0.3
	captionSize  = 0.34
	boxSide      = 0.24
	tickHalf     = 0.15
	tickApart    = 0.1
	headLong     = 0.12
	headHalf     = 0.125
	headApart    = 0.12
	markGap      = 0.09 // between a mark and its neighbours
	foldBeyond   = 0.3
	meetRadius   = 0.24
)

var foldDash = []float64{0.3, 0.13}

// threadStyle returns the style of band number i, from 0.
func threadStyle(i int, step float64) Style {
	t := threads[i%len(threads)]
	return Style{Stroke: t.hue, Width: threadWidth, Dash: t.dash}.scaled(step)
}

func stroke(ink color.NRGBA, width, step float64) Style {
	return Style{Stroke: ink, Width: width * step}
}
