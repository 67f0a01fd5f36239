package photo

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/sketch"
)

// camera is a pinhole: focal length in pixels, the middle of its picture, and where it
// stands over the cloth (mm, z up towards it), tilted about the x axis and turned in
// the plane of the cloth.
type camera struct {
	focal, cx, cy float64
	x, y, z       float64
	tilt, turn    float64
}

// ray returns the place on the cloth that a place in the picture shows.
func (c camera) ray(u, v float64) geom.Point {
	dx, dy, dz := (u-c.cx)/c.focal, (v-c.cy)/c.focal, -1.0
	sin, cos := math.Sincos(c.tilt)
	dy, dz = dy*cos+dz*sin, -dy*sin+dz*cos
	sin, cos = math.Sincos(c.turn)
	dx, dy = dx*cos-dy*sin, dx*sin+dy*cos
	s := -c.z / dz
	return geom.Pt(c.x+s*dx, c.y+s*dy)
}

// see returns the place in the picture of a place on the cloth: the same steps
// backwards.
func (c camera) see(p geom.Point) geom.Point {
	x, y, z := p.X-c.x, p.Y-c.y, -c.z
	sin, cos := math.Sincos(-c.turn)
	x, y = x*cos-y*sin, x*sin+y*cos
	sin, cos = math.Sincos(-c.tilt)
	y, z = y*cos+z*sin, -y*sin+z*cos
	return geom.Pt(c.cx-c.focal*x/z, c.cy-c.focal*y/z)
}

// photo takes a picture of a cloth whose brightness is given by place, each pixel the
// mean of 4 x 4 rays.
func (c camera) photo(w, h int, cloth func(p geom.Point) float64) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sum := 0.0
			for k := range 16 {
				sum += cloth(c.ray(float64(x)+(float64(k%4)+0.5)/4, float64(y)+(float64(k/4)+0.5)/4)) / 16
			}
			out.SetRGBA(x, y, color.RGBA{uint8(sum), uint8(sum), uint8(sum), 255})
		}
	}
	return out
}

// edges returns where the brightness along a row (or a column) crosses the middle
// between dark and light, in pixels, to fractions by interpolation.
func edges(img *image.RGBA, at int, column bool) []float64 {
	value := func(i int) float64 {
		if column {
			return float64(img.RGBAAt(at, i).R)
		}
		return float64(img.RGBAAt(i, at).R)
	}
	n := img.Rect.Dx()
	if column {
		n = img.Rect.Dy()
	}
	var out []float64
	for i := 1; i < n; i++ {
		a, b := value(i-1)-127.5, value(i)-127.5
		if a*b < 0 {
			out = append(out, float64(i)-0.5+a/(a-b))
		}
	}
	return out
}

// A checkerboard of 50 mm squares, photographed by a known camera from aside, comes
// out at its true size: edges within 0.5 % of the block's 300 mm (within 0.5 mm of
// their places), also where the photo is much finer than the result.
func TestSquareIsTrueToSize(t *testing.T) {
	checker := func(p geom.Point) float64 {
		if (int(math.Floor(p.X/50))+int(math.Floor(p.Y/50)))%2 == 0 {
			return 20
		}
		return 235
	}
	for name, cam := range map[string]camera{
		"from above":        {600, 320, 256, 150, 150, 400, 0, 0},
		"tilted":            {600, 320, 256, 160, 420, 420, 0.6, 0},
		"tilted and turned": {520, 320, 256, 330, 330, 420, 0.5, -0.7},
	} {
		photo := cam.photo(640, 512, checker)
		quad := [4]geom.Point{cam.see(geom.Pt(0, 0)), cam.see(geom.Pt(300, 0)), cam.see(geom.Pt(300, 300)), cam.see(geom.Pt(0, 300))}
		for _, perMM := range []float64{0.5, 1, 3} {
			out, err := Square(photo, quad, 300, 300, perMM)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			for _, mm := range []float64{25, 125, 275} {
				for _, column := range []bool{false, true} {
					got := edges(out, int(mm*perMM), column)
					if len(got) != 5 {
						t.Errorf("%s at %v pixels a mm: %d edges, expected 5", name, perMM, len(got))
						continue
					}
					for k, e := range got {
						if d := e/perMM - 50*float64(k+1); math.Abs(d) > 0.5 {
							t.Errorf("%s at %v pixels a mm: edge %d is %.2f mm off", name, perMM, k, d)
						}
					}
					if size := (got[4] - got[0]) / perMM; math.Abs(size-200) > 0.005*200 {
						t.Errorf("%s at %v pixels a mm: 200 mm measure %.2f", name, perMM, size)
					}
				}
			}
		}
	}
}

// Seen straight on at the same scale, the picture comes out as it was; shrunk, a fine
// pattern gives its mean and no false one (checker of single pixels: 127.5).
func TestSquareKeepsPixels(t *testing.T) {
	src := image.NewRGBA(image.Rect(5, 7, 69, 71))
	for y := range 64 {
		for x := range 64 {
			src.SetRGBA(5+x, 7+y, color.RGBA{uint8(4 * x), uint8(4 * y), uint8(255 * ((x + y) % 2)), 255})
		}
	}
	quad := [4]geom.Point{geom.Pt(5, 7), geom.Pt(69, 7), geom.Pt(69, 71), geom.Pt(5, 71)}
	same, err := Square(src, quad, 64, 64, 1)
	if err != nil {
		t.Fatal(err)
	}
	for y := range 64 {
		for x := range 64 {
			if got, want := same.RGBAAt(x, y), src.RGBAAt(5+x, 7+y); got != want {
				t.Fatalf("pixel %d, %d is %v, expected %v", x, y, got, want)
			}
		}
	}
	small, err := Square(src, quad, 64, 64, 0.125)
	if err != nil {
		t.Fatal(err)
	}
	for i := 2; i < len(small.Pix); i += 4 {
		if v := int(small.Pix[i]); v < 125 || v > 130 {
			t.Errorf("byte %d of the shrunk checker is %d, expected 127 or 128", i, v)
		}
	}
	wide, err := Square(src, [4]geom.Point{geom.Pt(-60, 7), geom.Pt(69, 7), geom.Pt(69, 71), geom.Pt(-60, 71)}, 129, 64, 1)
	if err != nil || wide.RGBAAt(10, 10).A != 0 || wide.RGBAAt(100, 10).A != 255 {
		t.Errorf("outside the photo: %v, inside: %v (%v)", wide.RGBAAt(10, 10), wide.RGBAAt(100, 10), err)
	}
}

func TestBadQuadsAndSizes(t *testing.T) {
	a, b, c, d := geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(0, 100)
	for _, q := range []struct {
		quad [4]geom.Point
		want string
	}{
		{[4]geom.Point{a, b, geom.Pt(200, 0), d}, "on a line"},
		{[4]geom.Point{a, c, b, d}, "cross"},
		{[4]geom.Point{a, b, geom.Pt(20, 20), d}, "inwards"},
		{[4]geom.Point{a, d, c, b}, "anticlockwise"},
		{[4]geom.Point{a, a, c, d}, "in one place"},
		{[4]geom.Point{a, b, geom.Pt(math.Inf(1), 0), d}, "not a finite place"},
	} {
		err := sketch.CheckQuad(q.quad)
		if err == nil || !strings.Contains(err.Error(), q.want) {
			t.Errorf("%v: error %v, expected one with %q", q.quad, err, q.want)
		}
		if _, err := Square(image.NewRGBA(image.Rect(0, 0, 9, 9)), q.quad, 10, 10, 1); err == nil {
			t.Errorf("%v was squared", q.quad)
		}
	}
	for _, s := range [][3]float64{{0, 10, 1}, {10, -1, 1}, {10, 10, 0}, {5000, 10, 1}, {10, math.NaN(), 1}, {10, 10, math.Inf(1)}} {
		if _, err := Square(image.NewRGBA(image.Rect(0, 0, 9, 9)), [4]geom.Point{a, b, c, d}, s[0], s[1], s[2]); err == nil {
			t.Errorf("a picture of %v was made", s)
		}
	}
}

func BenchmarkSquare(b *testing.B) {
	src := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	quad := [4]geom.Point{geom.Pt(900, 400), geom.Pt(3000, 350), geom.Pt(3600, 2700), geom.Pt(300, 2800)}
	for b.Loop() {
		if _, err := Square(src, quad, 300, 300, 3); err != nil {
			b.Fatal(err)
		}
	}
}
