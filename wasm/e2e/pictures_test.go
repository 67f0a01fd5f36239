package e2e

import (
	"flag"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/wasm/e2e/browser"
	"unthreaded/wasm/serve/build"
)

var pictures = flag.Bool("pictures", false, "write the pictures of the README anew; look at them before committing")

// hand is a hand as many are: it swings between slow and fast and wanders a little.
var hand = synth.Hand{
	Hz:     120,
	Speed:  func(s float64) float64 { return inchPerSecond * (1 + 0.32*math.Sin(s/17) + 0.12*math.Sin(s/5)) },
	Beside: func(s float64) float64 { return 0.5*math.Sin(s/11) + 0.3*math.Sin(s/4.3) },
}

// TestReadmePictures makes the pictures of the README from the page itself; without
// the flag it goes through the same steps at the smallest size and checks that the
// cloth is not blank.
func TestReadmePictures(t *testing.T) {
	view := brief
	if *pictures {
		view = desk
	}
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	d := sit(t, view, "")
	d.draw(browser.Pen, hand)
	d.Steady()
	file := filepath.Join(t.TempDir(), "rehearse.png")
	if *pictures {
		file = filepath.Join(root, "testdata", "pictures", "rehearse.png")
	}
	d.Screenshot(file)
	if ink := inkedPixels(t, file); ink < 500 {
		t.Errorf("only %d pixels of the page are thread, want hundreds", ink)
	}
}

// inkedPixels counts the strongly coloured pixels of a picture file: thread, short
// and long stitches.
func inkedPixels(t *testing.T, file string) int {
	t.Helper()
	return pixelsOf(t, file, func(r, g, b int) bool { return max(r, g, b)-min(r, g, b) > 60 })
}

// pixelsOf counts the pixels of a picture file whose colour, each part up to 255, is
// as asked for.
func pixelsOf(t *testing.T, file string, is func(r, g, b int) bool) int {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			if is(int(r>>8), int(g>>8), int(b>>8)) {
				n++
			}
		}
	}
	return n
}
