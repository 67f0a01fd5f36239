package draw

import (
	"testing"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// While the marking list speaks of sides their numbers stand inside the block, and the one it
// is for is lit: of every side the first.
func TestSidesAreMarkedWhereTheyAreSpokenOf(t *testing.T) {
	r := New().With(place.Shared{Settings: place.DefaultSettings(), Screen: screen.Cloth{W: 900, H: 700, DPR: 1, PxPerMM: 96 / 25.4}}).(Room)
	made, _, err := r.Control(control.Sent{Name: "new"})
	if err != nil {
		t.Fatal(err)
	}
	r = made.(Room).Fit().(Room)
	pal := r.Palette()
	if len(r.sides(pal)) > 0 {
		t.Error("numbers stand at sides that nothing is said of")
	}
	lit := func(r Room) (numbers []string, on int) {
		for _, it := range r.sides(pal) {
			if it.Text != "" {
				numbers = append(numbers, it.Text)
				if it.Colour == pal.Ink {
					on = len(numbers)
				}
				if p := r.View.ToCloth(it.Points[0]); !r.Board.Design.Shape.Contains(p) {
					t.Errorf("number %s stands outside", it.Text)
				}
			}
		}
		return
	}
	r.Ruler.MarkOn = "side 3"
	if numbers, on := lit(r); len(numbers) != 4 || on != 3 {
		t.Errorf("sides %v, lit is %d", numbers, on)
	}
	r.Ruler.MarkOn = quilt.OnSides
	r.Board = r.Board.SetMark(quilt.OnSides, 5, sketch.WithEnds)
	if numbers, on := lit(r); len(numbers) != 4 || on != 1 {
		t.Errorf("with dots on every side %v, lit is %d", numbers, on)
	}

	// A strip that is narrow on a phone: no two numbers lie on each other.
	r.Ruler.MarkOn = "side 3"
	r.Screen = screen.Cloth{W: 390, H: 430, DPR: 3, PxPerMM: 96 / 25.4}
	r.Board.Design.Shape = motif.Shape{Kind: motif.Rectangle, W: 150, H: 15}
	var at []geom.Point
	for _, it := range r.Fit().(Room).sides(pal) {
		if it.Text == "" {
			continue
		}
		for _, q := range at {
			if geom.Dist(q, it.Points[0]) < 20 {
				t.Errorf("number %s lies on another", it.Text)
			}
		}
		at = append(at, it.Points[0])
	}
}
