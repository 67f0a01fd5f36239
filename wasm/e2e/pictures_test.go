package e2e

import (
	"flag"
	"math"
	"path/filepath"
	"testing"

	"unthreaded/game/handtest"
	"unthreaded/wasm/e2e/browser"
	"unthreaded/wasm/serve/build"
)

var pictures = flag.Bool("pictures", false, "write the pictures of the README anew; look at them before committing")

// hand is a hand as many are: it swings between slow and fast and wanders a little.
var hand = handtest.Hand{
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
	if ink := browser.Eval[int](d.Page, inkedPixels); ink < 500 {
		t.Errorf("only %d pixels of the cloth show thread, want hundreds", ink)
	}
	if *pictures {
		d.Screenshot(filepath.Join(root, "testdata", "pictures", "rehearse.png"))
	}
}

// inkedPixels counts the pixels of the canvas that are not of the cloth's own hue:
// thread, short and long stitches.
const inkedPixels = `new Promise(resolve => {
	// The canvas can be read only in the frame in which it was drawn.
	const look = tries => { unthreaded.resized(); requestAnimationFrame(() => {
		const canvas = document.querySelector('#cloth canvas');
		const pick = document.createElement('canvas'); pick.width = canvas.width; pick.height = canvas.height;
		const c = pick.getContext('2d'); c.drawImage(canvas, 0, 0);
		const px = c.getImageData(0, 0, pick.width, pick.height).data;
		let n = 0;
		for (let i = 0; i < px.length; i += 4) if (Math.max(px[i], px[i+1], px[i+2]) - Math.min(px[i], px[i+1], px[i+2]) > 60) n++;
		if (n > 0 || tries === 0) resolve(n); else look(tries - 1);
	}); };
	look(20);
})`
