package quilt

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/sketch"
)

func block(k motif.ShapeKind) Design {
	return Design{Schema: DesignSchema, ID: "b", Name: "block", Shape: motif.Shape{Kind: k, W: 120}, Seams: motif.NoSeams,
		Lines: []Line{{Name: "vein", Kind: "sewn", Path: geom.Straight(geom.MustParse("M 10 10 L 110 10"))}}}
}

// n dots on each of k sides, both ends included, share the corners: k(n-1) dots.
// Half a space at the ends shares none: k n dots.
func TestDotsOnSides(t *testing.T) {
	for kind, sides := range map[motif.ShapeKind]int{motif.Square: 4, motif.HalfSquare: 3, motif.Hexagon: 6, motif.Octagon: 8} {
		for spread, want := range map[sketch.Spread]int{sketch.WithEnds: sides * 4, sketch.HalfSpace: sides * 5} {
			d, err := block(kind).WithMark(Mark{On: OnSides, Count: 5, Spread: spread})
			if err != nil {
				t.Fatal(err)
			}
			if got := len(d.DotPlaces()); got != want {
				t.Errorf("%s, %s: %d dots, want %d", kind, spread, got, want)
			}
		}
	}
}

// Round a circle the dots are as far apart along the rim as its length by their
// number: the chord is 2 r sin(pi / n).
func TestDotsRoundACircle(t *testing.T) {
	d, err := block(motif.Circle).WithMark(Mark{On: OnSides, Count: 12, Spread: sketch.FromStart})
	if err != nil {
		t.Fatal(err)
	}
	dots := d.DotPlaces()
	if len(dots) != 12 {
		t.Fatalf("%d dots, want 12", len(dots))
	}
	want := 2 * 60 * math.Sin(math.Pi/12)
	for i := range dots {
		if got := geom.Dist(dots[i], dots[(i+1)%12]); math.Abs(got-want) > 0.05 {
			t.Errorf("dots %d and %d are %.3f mm apart, want %.3f", i, i+1, got, want)
		}
	}
}

// A mark takes the place of the one before, goes with a count of 0, and comes back
// from a document, as does a photo.
func TestMarksAndPhotosAreKept(t *testing.T) {
	d := block(motif.Square)
	for _, m := range []Mark{{OnSides, 5, sketch.WithEnds}, {"line vein", 3, sketch.HalfSpace}, {OnSides, 7, sketch.WithEnds}, {"side 2", 4, sketch.WithEnds}, {"side 2", 0, ""}} {
		var err error
		if d, err = d.WithMark(m); err != nil {
			t.Fatal(err)
		}
	}
	if len(d.Marks) != 2 || d.Marks[1].Count != 7 {
		t.Fatalf("marks %v", d.Marks)
	}
	d.Photo = &Photo{ID: "p", Corners: [4]geom.Point{{X: 1}, {X: 9}, {X: 9, Y: 8.5}, {Y: 8}}, WMM: 120, HMM: 120, Squared: true, Shown: true, Strength: 0.5}
	doc, err := EncodeDesign(d)
	if err != nil {
		t.Fatal(err)
	}
	back, err := DecodeDesign(doc)
	if err != nil {
		t.Fatal(err)
	}
	if len(back.Marks) != 2 || *back.Photo != *d.Photo {
		t.Errorf("came back as %v and %v", back.Marks, back.Photo)
	}
}

// Faults of marks and photos are named by their field.
func TestBrokenMarksAreNamed(t *testing.T) {
	for want, change := range map[string]func(*Design){
		"marks[0].count":  func(d *Design) { d.Marks = []Mark{{OnSides, -1, sketch.WithEnds}} },
		"marks[1].spread": func(d *Design) { d.Marks = []Mark{{OnSides, 3, sketch.WithEnds}, {"side 1", 3, "wide"}} },
		"photo.id":        func(d *Design) { d.Photo = &Photo{WMM: 100, HMM: 100} },
		"photo.size":      func(d *Design) { d.Photo = &Photo{ID: "p", WMM: 1, HMM: 100} },
		"photo.strength":  func(d *Design) { d.Photo = &Photo{ID: "p", WMM: 100, HMM: 100, Strength: 2} },
		"photo.corners_px[2]": func(d *Design) {
			d.Photo = &Photo{ID: "p", WMM: 100, HMM: 100, Corners: [4]geom.Point{{}, {}, {X: math.NaN()}}}
		},
	} {
		d := block(motif.Square)
		change(&d)
		if err := d.Validate(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", want, err)
		}
	}
	if _, err := block(motif.Square).WithMark(Mark{"side 9", 3, sketch.WithEnds}); err == nil {
		t.Error("dots are marked on a side that there is not")
	}
}

// A place of dots is told apart again: each side by its number, each line by its name.
func TestMarkPlacesAreToldApart(t *testing.T) {
	d := block(motif.Square)
	d.Lines = []Line{{Name: "side 2"}, {Name: "7"}}
	want := []string{"0 ", "1 ", "2 ", "3 ", "4 ", "0 side 2", "0 7"}
	for i, on := range d.MarkPlaces() {
		if side, line := MarkPlace(on); fmt.Sprint(side, " ", line) != want[i] {
			t.Errorf("%q is side %d, line %q, want %q", on, side, line, want[i])
		}
	}
}
