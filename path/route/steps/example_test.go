package steps_test

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Two blocks side by side, each with two level lines from seam to seam, are sewn block by
// block: every line whole, the first block before the second.
func ExamplePlanRow() {
	var strokes []plane.Stroke
	add := func(name, block string, kind plane.Kind, path ...geom.Point) {
		strokes = append(strokes, plane.Stroke{Name: name, Block: block, Kind: kind, Path: path})
	}
	for i, block := range []string{"0", "1"} {
		x := 90 * float64(i)
		add("top", block, plane.Seam, geom.Pt(x, 0), geom.Pt(x+90, 0))
		add("right", block, plane.Seam, geom.Pt(x+90, 0), geom.Pt(x+90, 90))
		add("bottom", block, plane.Seam, geom.Pt(x, 90), geom.Pt(x+90, 90))
		if i == 0 {
			add("left", block, plane.Seam, geom.Pt(0, 0), geom.Pt(0, 90))
		}
		for k := 1; k <= 2; k++ {
			add(fmt.Sprint("line ", k), block, plane.Sewn, geom.Pt(x, 30*float64(k)), geom.Pt(x+90, 30*float64(k)))
		}
	}
	built, err := plane.Build(strokes, plane.Options{})
	if err != nil {
		panic(err)
	}
	row := make([]route.Block, 2)
	for e, edge := range built.Edges {
		k := 0
		if edge.Block == "1" {
			k = 1
		}
		row[k].Edges = append(row[k].Edges, e)
	}
	for v, p := range built.Nodes {
		switch p {
		case geom.Pt(0, 0):
			row[0].Left = v
		case geom.Pt(90, 0):
			row[0].Right, row[1].Left = v, v
		case geom.Pt(180, 0):
			row[1].Right = v
		}
	}
	rules := route.Rules{
		Costs: route.Costs{Retrace: 1, Seam: 0.2, Jump: math.Inf(1)},
		Ends:  route.Ends{Rule: route.Fixed, Start: row[0].Left, Exit: row[1].Right},
	}
	plan, err := steps.PlanRow(built.Graph, row, rules, route.OnePass)
	if err != nil {
		panic(err)
	}
	for _, v := range plan.Visits {
		fmt.Println("block", v.Cell+1)
		for _, m := range steps.Moves(built.Graph, plan.Steps[v.First:v.After]) {
			fmt.Printf("  %s %s %s %.0f mm\n", m.Kind, m.Form, m.Heading, m.Length)
		}
	}
	fmt.Printf("adds %.0f mm, no route less than %.0f\n", plan.Added, plan.Least)
	// Output:
	// block 1
	//   ditch straight right 90 mm
	//   ditch straight down 30 mm
	//   sew straight left 90 mm
	//   ditch straight down 30 mm
	//   sew straight right 90 mm
	// block 2
	//   sew straight right 90 mm
	//   ditch straight up 30 mm
	//   sew straight left 90 mm
	//   ditch straight up 30 mm
	//   ditch straight right 90 mm
	// adds 60 mm, no route less than 48
}
