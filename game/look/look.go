// Package look holds the colours that the page and the cloth share. They stand in
// tokens.css, which the page links to and this package reads, so that the two
// cannot drift apart.
package look

import (
	_ "embed"
	"fmt"
	"image/color"
	"regexp"
	"strconv"
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
	Light: mustRead(TokensCSS, `:root \{([^}]*)\}`),
	Dark:  mustRead(TokensCSS, `:root\[data-theme="dark"\] \{([^}]*)\}`),
}

// Of returns the palette of a theme; anything but Dark is Light.
func Of(t Theme) Palette {
	if t == Dark {
		return palettes[Dark]
	}
	return palettes[Light]
}

var colourRule = regexp.MustCompile(`--([a-z]+): #([0-9A-Fa-f]{6});`)

// mustRead takes the colours of one block of the embedded sheet; a missing one is
// a fault of the program, found by its first test.
func mustRead(css, block string) Palette {
	found := map[string]color.NRGBA{}
	body := regexp.MustCompile(block).FindStringSubmatch(css)
	if body == nil {
		panic("look: tokens.css has no block " + block)
	}
	for _, m := range colourRule.FindAllStringSubmatch(body[1], -1) {
		v, err := strconv.ParseUint(m[2], 16, 32)
		if err != nil {
			panic(fmt.Sprintf("look: tokens.css: %s: %v", m[1], err))
		}
		found[m[1]] = color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
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
