package softdraw

import (
	"image/color"
	"math"
	"testing"

	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

var black = color.NRGBA{A: 255}

// ink sums the coverage of a picture in pixels.
func ink(items ...scene.Item) float64 {
	img := Draw(scene.List{W: 200, H: 200, Layers: []scene.Layer{{Items: items}}}, 1)
	var sum float64
	for i := 3; i < len(img.Pix); i += 4 {
		sum += float64(img.Pix[i]) / 255
	}
	return sum
}

// Areas by elementary geometry: a stroke of width w and length l with round ends
// covers w*l + pi*w^2/4; a disc pi*w^2/4; a triangle half base times height.
func TestAreas(t *testing.T) {
	for _, c := range []struct {
		name string
		item scene.Item
		want float64
	}{
		{"stroke", scene.Item{Shape: scene.Stroke, Points: []geom.Point{geom.Pt(30, 40), geom.Pt(110, 100)}, Width: 6, Colour: black}, 6*100 + math.Pi*9},
		{"bent stroke", scene.Item{Shape: scene.Stroke, Points: geom.MustParse("M 20 20 L 120 20 L 120 90"), Width: 4, Colour: black}, 4*170 + math.Pi*4 - (4 - math.Pi)},
		{"disc", scene.Item{Shape: scene.Stroke, Points: []geom.Point{geom.Pt(100, 100)}, Width: 30, Colour: black}, math.Pi * 225},
		{"disc of two equal points", scene.Item{Shape: scene.Stroke, Points: []geom.Point{geom.Pt(100, 100), geom.Pt(100, 100)}, Width: 30, Colour: black}, math.Pi * 225},
		{"stroke with a point twice", scene.Item{Shape: scene.Stroke, Points: geom.MustParse("M 20 20 L 70 20 L 70 20 L 120 20"), Width: 4, Colour: black}, 400 + math.Pi*4},
		{"triangle", scene.Item{Shape: scene.Fill, Points: geom.MustParse("M 10 10 L 90 10 L 10 70"), Colour: black}, 2400},
	} {
		if got := ink(c.item); math.Abs(got-c.want) > c.want*0.01+1 {
			t.Errorf("%s covers %.1f pixels, want %.1f", c.name, got, c.want)
		}
	}
}

// A label keeps the same place and twice the size at twice the scale, and its
// alignment moves it by its own width.
func TestLabels(t *testing.T) {
	box := func(scale float64, a scene.Align) (lo, hi float64) {
		list := scene.List{W: 200, H: 40, Moving: []scene.Item{{Shape: scene.Label, Text: "HHHH", Points: []geom.Point{geom.Pt(100, 20)}, Width: 16, Colour: black, Align: a}}}
		img := Draw(list, scale)
		lo, hi = math.Inf(1), math.Inf(-1)
		for y := 0; y < img.Rect.Dy(); y++ {
			for x := 0; x < img.Rect.Dx(); x++ {
				if img.RGBAAt(x, y).A > 128 {
					lo, hi = math.Min(lo, float64(x)/scale), math.Max(hi, float64(x+1)/scale)
				}
			}
		}
		return lo, hi
	}
	lo, hi := box(1, scene.Centre)
	if math.Abs((lo+hi)/2-100) > 1.5 || hi-lo < 30 {
		t.Errorf("centred label spans %.1f to %.1f, want about 100 in the middle", lo, hi)
	}
	if l2, h2 := box(2, scene.Centre); math.Abs(l2-lo) > 1.5 || math.Abs(h2-hi) > 1.5 {
		t.Errorf("at twice the scale the label spans %.1f to %.1f, was %.1f to %.1f", l2, h2, lo, hi)
	}
	if l, _ := box(1, scene.Left); math.Abs(l-100) > 3 {
		t.Errorf("left-aligned label starts at %.1f, want 100", l)
	}
	if _, h := box(1, scene.Right); math.Abs(h-100) > 3 {
		t.Errorf("right-aligned label ends at %.1f, want 100", h)
	}
}
