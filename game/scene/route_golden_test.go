package scene_test

import (
	"image"
	"image/color"
	"image/draw"
	"testing"

	"unthreaded/game"
	"unthreaded/game/softdraw"
	"unthreaded/game/worktest"
	"unthreaded/path/quilt"
)

// sizes are the cloth of a laptop, a tablet held upright and a phone.
var sizes = []game.Resized{
	{W: 1026, H: 656, Strip: 112, DPR: 1}, {W: 820, H: 640, Strip: 112, DPR: 1}, {W: 390, H: 430, Strip: 92, DPR: 1},
}

// routed returns the place Route at a size after some controls were used.
func routed(size game.Resized, controls ...game.Control) game.Model {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 1e12), size)
	m, _ = worktest.Update(m, game.Shelf{})
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	return m
}

// Routes of real density at three sizes, and the first in grey: where they begin and where
// the fifth move goes has to be seen. A dense row of 17 places, orange peel, clamshell and
// crosshatch.
func TestRouteSheets(t *testing.T) {
	open := game.Control{Name: "place", Value: "route"}
	q, _ := quilt.Demo()
	for name, controls := range map[string][]game.Control{
		"route-row": {
			{Name: "place", Value: "quilt"}, {Name: "quilt.rows", Value: "1"}, {Name: "quilt.cols", Value: "9"}, open,
			{Name: "drawing", Value: q.ID + "-row-1"},
		},
		"route-peel":      {open, {Name: "drawing", Value: "orange-peel"}},
		"route-clamshell": {open, {Name: "drawing", Value: "clamshell"}},
		"route-hatch":     {open, {Name: "drawing", Value: "crosshatch"}},
	} {
		t.Run(name, func(t *testing.T) {
			sheet := image.NewRGBA(image.Rect(0, 0, 1026+820, 656+640))
			draw.Draw(sheet, sheet.Bounds(), image.White, image.Point{}, draw.Src)
			for i, at := range []image.Point{{0, 0}, {1026, 0}, {1026, 656}} {
				var st stage
				img := softdraw.Draw(st.Of(routed(sizes[i], controls...)), 1)
				draw.Draw(sheet, img.Bounds().Add(at), img, image.Point{}, draw.Src)
				if i == 0 {
					draw.Draw(sheet, img.Bounds().Add(image.Pt(0, 656)), grey(img), image.Point{}, draw.Src)
				}
			}
			compare(t, name, sheet)
		})
	}
}

// grey returns a picture without its colours.
func grey(img image.Image) image.Image {
	out := image.NewGray(img.Bounds())
	for y := out.Rect.Min.Y; y < out.Rect.Max.Y; y++ {
		for x := out.Rect.Min.X; x < out.Rect.Max.X; x++ {
			out.Set(x, y, color.GrayModel.Convert(img.At(x, y)))
		}
	}
	return out
}
