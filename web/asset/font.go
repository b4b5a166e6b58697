package asset

import (
	"encoding/binary"
	"errors"
	"slices"

	"golang.org/x/image/font/sfnt"
)

// letters returns the letters that the typeface keeps on screens: those of
// European languages, punctuation, and the signs in the sentences of readings.
func letters() []rune {
	var out []rune
	for _, span := range [][2]rune{{' ', '~'}, {0xa0, 0x17f}, {0x2010, 0x2026}} {
		for r := span[0]; r <= span[1]; r++ {
			out = append(out, r)
		}
	}
	return append(out, '√', '−', '≤', '≥', '≠', '→', '←', '↑', '↓', '∠', '⅓', '€', '•')
}

// kept are the tables that a browser needs to draw with; hints, which tell
// old screens how to fit letters to their dots, are left behind.
var kept = []string{"OS/2", "cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name", "post"}

var errFont = errors.New("asset: not a TrueType font that can be cut")

// cut returns a font without the outlines of letters that are not wanted. All
// numbers of glyphs stay as they were, so every other table stays right.
func cut(ttf []byte, wanted []rune) ([]byte, error) {
	tables, err := tablesOf(ttf)
	if err != nil {
		return nil, err
	}
	keep, err := glyphsOf(ttf, wanted)
	if err != nil {
		return nil, err
	}
	if err := thin(tables, keep); err != nil {
		return nil, err
	}
	return join(tables), nil
}

func tablesOf(ttf []byte) (map[string][]byte, error) {
	if len(ttf) < 12 {
		return nil, errFont
	}
	out := map[string][]byte{}
	for i := range int(binary.BigEndian.Uint16(ttf[4:])) {
		entry := ttf[12+16*i:]
		from, size := binary.BigEndian.Uint32(entry[8:]), binary.BigEndian.Uint32(entry[12:])
		if name := string(entry[:4]); slices.Contains(kept, name) {
			out[name] = slices.Clone(ttf[from : from+size])
		}
	}
	if len(out) != len(kept) {
		return nil, errFont
	}
	return out, nil
}

func glyphsOf(ttf []byte, wanted []rune) (map[int]bool, error) {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, err
	}
	keep, buf := map[int]bool{0: true}, &sfnt.Buffer{}
	for _, r := range wanted {
		g, err := f.GlyphIndex(buf, r)
		if err != nil {
			return nil, err
		}
		keep[int(g)] = true
	}
	return keep, nil
}

// thin writes the tables of outlines again with the kept glyphs only, in long
// offsets, and without instructions.
func thin(tables map[string][]byte, keep map[int]bool) error {
	glyf, loca, head := tables["glyf"], tables["loca"], tables["head"]
	long := binary.BigEndian.Uint16(head[50:]) == 1
	offset := func(i int) int {
		if long {
			return int(binary.BigEndian.Uint32(loca[4*i:]))
		}
		return 2 * int(binary.BigEndian.Uint16(loca[2*i:]))
	}
	outline := func(i int) []byte { return glyf[offset(i):offset(i+1)] }
	for g := range keep {
		follow(g, outline, keep)
	}
	n := int(binary.BigEndian.Uint16(tables["maxp"][4:]))
	var out, offsets []byte
	for g := range n {
		offsets = binary.BigEndian.AppendUint32(offsets, uint32(len(out)))
		if keep[g] {
			out = append(out, unhinted(outline(g))...)
			out = append(out, make([]byte, -len(out)&3)...)
		}
	}
	tables["glyf"] = out
	tables["loca"] = binary.BigEndian.AppendUint32(offsets, uint32(len(out)))
	binary.BigEndian.PutUint16(head[50:], 1)
	// Version 3 of this table has no names of glyphs.
	tables["post"] = slices.Clone(tables["post"][:32])
	binary.BigEndian.PutUint32(tables["post"], 0x00030000)
	return nil
}

// The bits of a part of a glyph that is made of others.
const (
	wordArgs     = 1 << 0
	oneScale     = 1 << 3
	moreParts    = 1 << 5
	twoScales    = 1 << 6
	fourScales   = 1 << 7
	instructions = 1 << 8
)

// parts calls f with the place of every part of a glyph made of others and
// returns where the last part ends; 0 for a glyph with an outline of its own.
func parts(glyph []byte, f func(at int)) (end int) {
	if len(glyph) < 10 || int16(binary.BigEndian.Uint16(glyph)) >= 0 {
		return 0
	}
	for at := 10; ; {
		f(at)
		flags := binary.BigEndian.Uint16(glyph[at:])
		at += 6
		if flags&wordArgs != 0 {
			at += 2
		}
		switch {
		case flags&oneScale != 0:
			at += 2
		case flags&twoScales != 0:
			at += 4
		case flags&fourScales != 0:
			at += 8
		}
		if flags&moreParts == 0 {
			return at
		}
	}
}

// follow keeps the glyphs that a glyph is made of.
func follow(g int, outline func(int) []byte, keep map[int]bool) {
	glyph := outline(g)
	parts(glyph, func(at int) {
		part := int(binary.BigEndian.Uint16(glyph[at+2:]))
		keep[part] = true
		follow(part, outline, keep)
	})
}

// unhinted returns a glyph without its instructions.
func unhinted(glyph []byte) []byte {
	if len(glyph) < 10 {
		return nil
	}
	out := slices.Clone(glyph)
	if end := parts(out, func(at int) { out[at] &^= instructions >> 8 }); end > 0 {
		return out[:end]
	}
	at := 10 + 2*int(binary.BigEndian.Uint16(out))
	size := int(binary.BigEndian.Uint16(out[at:]))
	binary.BigEndian.PutUint16(out[at:], 0)
	return slices.Delete(out, at+2, at+2+size)
}

// join writes tables as a font file.
func join(tables map[string][]byte) []byte {
	out := []byte{0, 1, 0, 0, 0, byte(len(kept)), 0, 128, 0, 3, 0, byte(16*len(kept) - 128)}
	at := len(out) + 16*len(kept)
	var bodies []byte
	for _, name := range kept {
		t := tables[name]
		if name == "head" {
			binary.BigEndian.PutUint32(t[8:], 0)
		}
		padded := append(slices.Clone(t), make([]byte, -len(t)&3)...)
		out = append(out, name...)
		out = binary.BigEndian.AppendUint32(out, sum(padded))
		out = binary.BigEndian.AppendUint32(out, uint32(at+len(bodies)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(t)))
		bodies = append(bodies, padded...)
	}
	font := append(out, bodies...)
	head := int(binary.BigEndian.Uint32(font[12+16*slices.Index(kept, "head")+8:]))
	binary.BigEndian.PutUint32(font[head+8:], 0xB1B0AFBA-sum(font))
	return font
}

func sum(b []byte) (s uint32) {
	for i := 0; i < len(b); i += 4 {
		s += binary.BigEndian.Uint32(b[i:])
	}
	return s
}
