package plane_test

import (
	"fmt"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// A cross whose upright was drawn a hair short of the bar: the ends are joined, the bar
// is cut in two, and each piece knows its place along its stroke.
func ExampleBuild() {
	built, err := plane.Build([]plane.Stroke{
		{Name: "bar", Kind: plane.Sewn, Path: geom.Polyline{geom.Pt(0, 0), geom.Pt(40, 0)}},
		{Name: "upright", Kind: plane.Sewn, Path: geom.Polyline{geom.Pt(10, 30), geom.Pt(10, 0.2)}},
	}, plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		panic(err)
	}
	for _, e := range built.Edges {
		fmt.Printf("%s from %.0f to %.0f mm\n", e.Stroke, e.From, e.To)
	}
	for _, s := range built.Snapped {
		fmt.Printf("joined %s, moved %.1f mm\n", s.Joint, s.Moved)
	}
	// Output:
	// bar from 0 to 10 mm
	// bar from 10 to 40 mm
	// upright from 0 to 30 mm
	// joined end-to-line, moved 0.2 mm
}
