// Package look holds the colours that the page and the cloth share. They stand in
// tokens.css, which the page links to and this package reads, so that the two
// cannot drift apart.
package look

import (
	_ "embed"
	"image/color"
	"strconv"
	"strings"
)

// TokensCSS is the style sheet with the colours.
//
//go:embed tokens.css
var TokensCSS string

// Theme is light or dark.
type Theme string

// The themes.
const (
	Light Theme = "light"
	Dark  Theme = "dark"
)

// Palette is the set of colours in which the cloth is drawn.
type Palette struct {
	Paper, Ink, Mute, Cloth, Weave, Chalk, Thread, Over, Long, Short, Line color.NRGBA
}

var palettes = map[Theme]Palette{
	Light: mustRead("\n"+TokensCSS, ":root"),
	Dark:  mustRead("\n"+TokensCSS, `:root[data-theme="dark"]`),
}

// Of returns the palette of a theme; anything but Dark is Light.
func Of(t Theme) Palette {
	if t == Dark {
		return palettes[Dark]
	}
	return palettes[Light]
}

// mustRead takes the colours of one block of the embedded sheet ("--ink: #23272F;"), which
// begins with a selector; a missing one is a fault of the program, found by its first test.
func mustRead(css, selector string) Palette {
	found := map[string]color.NRGBA{}
	_, body, any := strings.Cut(css, "\n"+selector+" {")
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
