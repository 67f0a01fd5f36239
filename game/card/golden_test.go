package card

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"unthreaded/game/softdraw"
	"unthreaded/path/quilt/order"
)

var update = flag.Bool("update", false, "write the pictures anew; look at each one before committing it")

// cards are those that are kept as pictures.
var cards = map[string]func(t *testing.T) (Page, error){
	"card-route":    func(t *testing.T) (Page, error) { return Route(jobOf(t, "crosshatch", "a4")), nil },
	"card-row":      func(t *testing.T) (Page, error) { return Route(jobOf(t, "orange-peel-row", "letter")), nil },
	"card-passes":   func(t *testing.T) (Page, error) { return Passes(outAndBack(t, "letter")) },
	"card-template": func(t *testing.T) (Page, error) { return templatePage(t, 0) },
	"card-sheet":    func(t *testing.T) (Page, error) { return templatePage(t, 2) },
	"card-job": func(t *testing.T) (Page, error) {
		q, d := bedQuilt(false)
		return JobPages(ticked(t, wholeOf(t, q, d, "a4", order.Choices{})))[0], nil
	},
	"card-stage":       stageOf(false, "row-5"),
	"card-stage-point": stageOf(true, "row-7"),
	"card-edge-row":    stageOf(false, "edge-row-6"),
	"card-border-line": stageOf(false, "border-1"),
	"card-ditch":       stageOf(false, "ditch-across"),
}

// templatePage is a page of the template of a crosshatch that takes several sheets.
func templatePage(t *testing.T, n int) (Page, error) {
	return Template(large(t, "crosshatch", "a4", 4))[n], nil
}

func TestPictures(t *testing.T) {
	for name, make := range cards {
		t.Run(name, func(t *testing.T) {
			p, err := make(t)
			if err != nil {
				t.Fatal(err)
			}
			got := softdraw.Draw(p.List, 1)
			path := filepath.Join("..", "..", "testdata", "golden", name+".png")
			if *update {
				write(t, path, got)
				return
			}
			want := read(t, path)
			if got.Bounds() != want.Bounds() {
				t.Fatalf("the picture is %v, was %v", got.Bounds(), want.Bounds())
			}
			// Soft edges may differ by a little from machine to machine.
			if share := differing(got, want); share > 0.0005 {
				failed := filepath.Join(t.ArtifactDir(), name+".png")
				write(t, failed, got)
				t.Errorf("%.2f %% of the pixels differ; compare %s with %s", 100*share, failed, path)
			}
		})
	}
}

// stageOf is the card of a stage of a bed quilt by its id; where that is a line over the top,
// ribbons go from edge to edge within a border of waves.
func stageOf(onPoint bool, id string) func(t *testing.T) (Page, error) {
	return func(t *testing.T) (Page, error) {
		q, d := bedQuilt(onPoint)
		if strings.HasPrefix(id, "edge") || strings.HasPrefix(id, "border") {
			q = lined(q)
		}
		j := wholeOf(t, q, d, "a4", order.Choices{})
		k := slices.IndexFunc(j.Whole.Order.Stages, func(s order.Stage) bool { return s.ID == id })
		if k < 0 {
			return Page{}, fmt.Errorf("no stage %q", id)
		}
		return StagePage(j, k), nil
	}
}

// differing returns the share of pixels that differ by more than a sixth of the
// range in some channel.
func differing(a, b image.Image) float64 {
	n := 0
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			if far(r1, r2) || far(g1, g2) || far(b1, b2) {
				n++
			}
		}
	}
	return float64(n) / float64(r.Dx()*r.Dy())
}

func far(a, b uint32) bool { return max(a, b)-min(a, b) > 65535/6 }

func read(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatalf("%v (go test -update writes it)", err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return img
}

func write(t *testing.T, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}
