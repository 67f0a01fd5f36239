package route_test

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// The house of St Nicholas can be drawn in one go from one lower corner to the other;
// back to where it began, one line has to be sewn again.
func ExampleSolve() {
	walls := geom.Polyline{{X: 0, Y: 100}, {X: 100, Y: 100}, {X: 100, Y: 0}, {X: 0, Y: 0}, {X: 0, Y: 100}}
	roof := geom.Polyline{{X: 0, Y: 0}, {X: 50, Y: -50}, {X: 100, Y: 0}}
	cross := []geom.Polyline{{{X: 0, Y: 100}, {X: 100, Y: 0}}, {{X: 0, Y: 0}, {X: 100, Y: 100}}}
	built, err := plane.Build([]plane.Stroke{
		{Name: "walls", Kind: plane.Sewn, Path: walls}, {Name: "roof", Kind: plane.Sewn, Path: roof},
		{Name: "rising", Kind: plane.Sewn, Path: cross[0]}, {Name: "falling", Kind: plane.Sewn, Path: cross[1]},
	}, plane.Options{})
	if err != nil {
		panic(err)
	}
	for _, rule := range []route.EndRule{route.Free, route.Closed} {
		r, err := route.Solve(built.Graph, route.Rules{
			Costs: route.Costs{Retrace: 1, Jump: math.Inf(1)},
			Ends:  route.Ends{Rule: rule, Start: route.Nowhere, Exit: route.Nowhere}, FewestMoves: true,
		})
		if err != nil {
			panic(err)
		}
		fmt.Printf("%s: adds %.0f mm in %d moves, exact: %v\n", rule, r.Added, r.Moves, r.Exact)
	}
	// Output:
	// free: adds 0 mm in 8 moves, exact: true
	// closed: adds 100 mm in 9 moves, exact: true
}
