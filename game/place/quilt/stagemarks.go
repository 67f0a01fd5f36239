package quilt

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
	"unthreaded/path/quilt/order"
)

// stageMarks number the stages where each is begun; what is sewn has a tick beside its
// number, and of the stage that is looked at the needle's way is seen.
func stageMarks(r Room, pal look.Palette) []scene.Item {
	if !r.Top.Plan.Any() {
		return nil
	}
	o, sewn := r.Top.Plan.Order, r.Top.Plan.Sewn
	var items, numbers []scene.Item
	var taken []geom.Point
	for i, s := range o.Stages {
		if len(s.Legs) == 0 {
			continue
		}
		if s.ID == r.Stages.Open {
			items = append(items, stageWay(r, i, pal)...)
		}
		l := s.Legs[0]
		at := freeOf(r.View.ToScreen(l.Where.Apply(o.Programs[l.Program].Start)), taken)
		taken = append(taken, at)
		numbers = append(numbers, scene.Number(i+1, at, pal)...)
		if _, done := sewnDay(o, sewn, i); done {
			numbers = append(numbers, tickMark(r2.Add(at, geom.Pt(0, -14)), pal)...)
		}
	}
	return append(items, numbers...)
}

// apartPx is how far in pixels two numbers of stages stand apart at least.
const apartPx = 22.0

// freeOf returns a place for a number near the one given, beside those taken.
func freeOf(at geom.Point, taken []geom.Point) geom.Point {
	for {
		clash := false
		for _, t := range taken {
			if d := r2.Sub(at, t); d.X*d.X+d.Y*d.Y < apartPx*apartPx {
				at.X, clash = t.X+apartPx, true
			}
		}
		if !clash {
			return at
		}
	}
}

// stageWay is the way of the needle through a stage: along its seams, or through the middles
// of its places.
func stageWay(r Room, i int, pal look.Palette) []scene.Item {
	o := r.Top.Plan.Order
	s := o.Stages[i]
	var items []scene.Item
	var way geom.Polyline
	flush := func() {
		if len(way) > 1 {
			path := scene.OnScreen(way.Compact(), r.View)
			items = append(items, scene.Line(6, pal.Paper, path...), scene.Line(2.6, pal.Thread, path...))
			items = append(items, arrowHead(path, pal)...)
		}
		way = nil
	}
	for _, l := range s.Legs {
		p := o.Programs[l.Program]
		if l.Come.Stop {
			flush()
			items = append(items, scene.Dashes(scene.OnScreen(l.Come.Path, r.View), 3, 5, 2.4, pal.Short)...)
		}
		if s.Line {
			items = append(items, lineWay(o, l, r, pal)...)
			continue
		}
		way = append(way, l.Where.Apply(p.Start))
		if s.Kind != order.Ditch {
			for k, c := range r.Top.Laying.Cells {
				if c.ID == l.Cell {
					way = append(way, r.Top.Middle(k))
				}
			}
		}
		way = append(way, l.Where.Apply(p.End))
	}
	flush()
	return items
}

// lineWay is a line that lies over the top, as it is sewn.
func lineWay(o order.Order, l order.Leg, r Room, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, path := range o.Programs[l.Program].Paths {
		on := scene.OnScreen(l.Where.Path(path.Thinned(topPixel/r.View.Scale)), r.View)
		items = append(items, scene.Line(2.6, pal.Thread, on...))
	}
	return items
}

// tickMark is the tick beside the number of what is sewn.
func tickMark(at geom.Point, pal look.Palette) []scene.Item {
	path := []geom.Point{r2.Add(at, geom.Pt(-4, 0)), r2.Add(at, geom.Pt(-1, 4)), r2.Add(at, geom.Pt(5, -5))}
	return []scene.Item{scene.Line(6, pal.Cloth, path...), scene.Line(2.6, pal.Thread, path...)}
}
