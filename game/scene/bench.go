package scene

import (
	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Spoken is a label on a ground of cloth that stays on the screen.
func Spoken(text string, at geom.Point, screen screen.Cloth, pal look.Palette) []Item {
	l := WithinScreen(Text(text, at, pal.Ink), screen)
	p, half := l.Points[0], 0.22*LabelSize*float64(len(text))
	return []Item{Line(22, pal.Cloth, geom.Pt(p.X-half, p.Y), geom.Pt(p.X+half, p.Y)), l}
}
