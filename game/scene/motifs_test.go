package scene_test

import (
	"image/color"
	"testing"

	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Every ready motif in every shape of block, on one sheet for each shape, with the
// measures that the page begins with.
func TestMotifSheets(t *testing.T) {
	const cell, gap, cols = 150.0, 24.0, 7
	ink, rim := color.NRGBA{122, 31, 61, 255}, color.NRGBA{91, 95, 103, 255}
	for _, kind := range []motif.ShapeKind{motif.Square, motif.SettingTriangle, motif.Hexagon, motif.Circle} {
		t.Run(string(kind), func(t *testing.T) {
			shape := motif.Shape{Kind: kind, W: 150}
			if kind == motif.Hexagon {
				shape.W = 75
			}
			all := motif.Ready()
			items := []scene.Item{{Shape: scene.Fill, Colour: color.NRGBA{237, 228, 211, 255}, Points: geom.MustParse("M 0 0 L 1300 0 L 1300 1020 L 0 1020")}}
			for i, p := range all {
				at := geom.Pt(gap+float64(i%cols)*(cell+gap), gap+float64(i/cols)*(cell+2*gap))
				put := func(pl geom.Polyline, width float64, c color.NRGBA) {
					moved := pl.Map(func(q geom.Point) geom.Point { return geom.Pt(q.X+at.X, q.Y+at.Y) })
					items = append(items, scene.Item{Shape: scene.Stroke, Points: moved, Width: width, Colour: c})
				}
				put(shape.Outline(), 1, rim)
				if p.Lack(shape) != "" {
					continue
				}
				pieces, err := p.Fit(shape, 5, p.Usual(shape))
				if err != nil {
					t.Errorf("%s: %v", p.ID, err)
				}
				for _, piece := range pieces {
					put(piece.Path, 1.2, ink)
				}
				items = append(items, scene.Item{Shape: scene.Label, Text: name(p), Width: 13, Colour: rim, Points: []geom.Point{geom.Pt(at.X+cell/2, at.Y+cell+12)}})
			}
			compare(t, "motifs-"+string(kind), softdraw.Draw(scene.List{W: 1300, H: 1020, Layers: []scene.Layer{{Items: items}}}, 1))
		})
	}
}

func name(m motif.Motif) string {
	name, _ := words.Motif(m.ID)
	return name
}
