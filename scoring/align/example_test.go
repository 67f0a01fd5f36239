package align_test

import (
	"fmt"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
)

// A line that goes out and comes back beside itself, and a hand that keeps its shape 4 mm
// to the right and 3 mm down. The point of the line nearest to the hand would often be on
// the wrong strand; in order, and as a shift of the whole, each place is the right one.
func ExampleFollow() {
	line, err := geom.NewLine(geom.MustParse("M 0 0 L 80 0 L 80 6 L 0 6 L 0 60"))
	if err != nil {
		fmt.Println(err)
		return
	}
	var hand geom.Polyline
	for _, p := range line.Resample(0.5) {
		hand = append(hand, geom.Pt(p.X+4, p.Y+3))
	}
	m, err := align.Follow(line, hand)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s by (%.0f, %.0f) mm\n", m.Fit.Kind, m.Fit.Shift.X, m.Fit.Shift.Y)
	for _, i := range []int{80, 252, 400} {
		fmt.Printf("point %d of the hand: %.0f mm along the line, %.0f mm beside it\n", i, m.Place[i], m.Offset[i])
	}
	// Output:
	// shifted by (4, 3) mm
	// point 80 of the hand: 40 mm along the line, 5 mm beside it
	// point 252 of the hand: 126 mm along the line, -5 mm beside it
	// point 400 of the hand: 200 mm along the line, -5 mm beside it
}

// A hand that stops half way keeps to the first half of the line within 1 mm, though the
// Frechet distance to all of it is half its length.
func ExampleFrechetFrom() {
	line := geom.MustParse("M 0 0 L 100 0")
	hand := geom.MustParse("M 0 1 L 50 1")
	fmt.Printf("%.0f mm; within 1 mm of a part: %v\n", align.Frechet(line, hand, 0.01, 100), align.FrechetFrom(line, hand, 1))
	// Output:
	// 50 mm; within 1 mm of a part: true
}
