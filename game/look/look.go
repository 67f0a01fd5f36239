// Package look holds the colours that the page and the cloth share. They stand in
// tokens.css, which the page links to and this package reads, so that the two
// cannot drift apart.
package look

import (
	_ "embed"
	"image/color"
	"math"
	"strconv"
	"strings"
)

// TokensCSS is the style sheet with the colours.
//
//go:embed tokens.css
var TokensCSS string

// Theme names a set of colours: that of the page, light or dark, or a pair of thread and
// cloth.
type Theme string

// The schemes of the page, each with its own thread and cloth, and the further pairs. Linen
// and Night are the pairs of the schemes, to be had in either.
const (
	Light Theme = "light"
	Dark  Theme = "dark"
	Linen Theme = "linen"
	Night Theme = "night"
	Snow  Theme = "snow"
	Moss  Theme = "moss"
	Rose  Theme = "rose"
)

// Fabrics are the pairs of thread and cloth to choose from.
var Fabrics = []Theme{Linen, Night, Snow, Moss, Rose}

// Palette is the set of colours in which the cloth is drawn.
type Palette struct {
	Paper, Ink, Mute, Cloth, Weave, Chalk, Thread, Over, Long, Short, Line color.NRGBA
}

var palettes = func() map[Theme]Palette {
	all := map[Theme]Palette{}
	for _, f := range Fabrics {
		all[f] = mustRead(TokensCSS, `:root[data-fabric="`+string(f)+`"] .on-cloth`)
	}
	all[Light], all[Dark] = all[Linen], all[Night]
	return all
}()

// Of returns the palette of a theme; anything unknown is Light.
func Of(t Theme) Palette {
	if p, ok := palettes[t]; ok {
		return p
	}
	return palettes[Light]
}

// mustRead takes the colours of one block of the embedded sheet ("--ink: #23272F;"), whose
// head ends with a selector; a missing one is a fault of the program, found by its first test.
func mustRead(css, selector string) Palette {
	found := map[string]color.NRGBA{}
	_, body, any := strings.Cut(css, selector+" {")
	if !any {
		panic("look: tokens.css has no block " + selector)
	}
	body, _, _ = strings.Cut(body, "}")
	for rule := range strings.SplitSeq(body, ";") {
		name, hex, _ := strings.Cut(strings.TrimSpace(rule), ": #")
		if v, err := strconv.ParseUint(hex, 16, 32); err == nil && len(hex) == 6 {
			found[strings.TrimPrefix(name, "--")] = color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
		}
	}
	get := func(name string) color.NRGBA {
		c, ok := found[name]
		if !ok {
			panic("look: tokens.css has no colour --" + name)
		}
		return c
	}
	return Palette{
		Paper: get("paper"), Ink: get("ink"), Mute: get("mute"), Cloth: get("cloth"),
		Weave: get("weave"), Chalk: get("chalk"), Thread: get("thread"), Over: get("over"),
		Long: get("long"), Short: get("short"), Line: get("line"),
	}
}

// Luminance is the relative luminance of a colour, 0 for black and 1 for white, as WCAG 2.2
// (W3C Recommendation, 2023) defines it.
func Luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}
