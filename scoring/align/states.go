package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

const (
	// Step is the spacing in mm of the places on the line among which the
	// search chooses before it refines them; short lines use finer steps.
	Step = 2.0
	// Reach is the distance in mm up to which a point of the movement can belong
	// to a place. Hands stray by 0.5 to 3 mm; at several times that the line was
	// lost.
	Reach = 10.0
)

const (
	// leastCell is the width in mm of the squares by which states are looked up,
	// wider on a line so large that it would take more than maxCells of them side
	// by side. Smaller squares hold fewer states in vain but cost more to fill.
	leastCell = 6.0
	maxCells  = 1000
	// maxStates bounds the states of one line; one longer than 300 m gets coarser
	// steps.
	maxStates = 200_000
)

// states are evenly spaced places on a line and the index to find those near a
// point: square c of the grid holds the states ids[start[c]:start[c+1]],
// ascending, all of those within Reach of any point of the square among them.
type states struct {
	at     geom.Polyline
	way    geom.Polyline // the unit direction of the line there
	step   float64       // mm of arc length between states
	lo     geom.Point
	cell   float64 // mm
	nx, ny int
	start  []int32
	ids    []int32
	work   workspace
}

// newStates spaces the states of a line by Step or a little less.
func newStates(line geom.Line) *states {
	n := min(maxStates, max(50, math.Ceil(line.Length()/Step)))
	return index(line, line.Length()/n)
}

// index places the states step mm apart and enters them into the squares. Cost
// O(states).
func index(line geom.Line, step float64) *states { return indexed(line.Resample(step), step) }

// indexed is index for places that need not lie on a line.
func indexed(at geom.Polyline, step float64) *states {
	st := &states{step: step, at: at, way: ways(at)}
	lo, hi := at.Bounds()
	st.lo = geom.Pt(lo.X-Reach, lo.Y-Reach)
	w, h := hi.X-lo.X+2*Reach, hi.Y-lo.Y+2*Reach
	st.cell = max(leastCell, max(w, h)/maxCells)
	st.nx, st.ny = int(w/st.cell)+1, int(h/st.cell)+1
	// The squares of each state are noted first, those of state k up to end[k], and sorted
	// by counting then.
	across := int(2*Reach/st.cell) + 2
	cells := make([]int32, 0, len(at)*across*across)
	end := make([]int, len(at))
	for k, p := range at {
		cells = st.squares(p, cells)
		end[k] = len(cells)
	}
	st.start = make([]int32, st.nx*st.ny+2)
	for _, c := range cells {
		st.start[c+2]++
	}
	for c := 2; c < len(st.start); c++ {
		st.start[c] += st.start[c-1]
	}
	st.ids = make([]int32, len(cells))
	i := 0
	for k, n := range end {
		for ; i < n; i++ {
			c := cells[i] + 1
			st.ids[st.start[c]] = int32(k)
			st.start[c]++
		}
	}
	st.start = st.start[:len(st.start)-1]
	return st
}

// squares appends the squares of the grid that come within Reach of p.
func (st *states) squares(p geom.Point, cells []int32) []int32 {
	x, y := p.X-st.lo.X, p.Y-st.lo.Y
	x0, x1 := st.square(x-Reach, st.nx), st.square(x+Reach, st.nx)
	y0, y1 := st.square(y-Reach, st.ny), st.square(y+Reach, st.ny)
	for row := y0; row <= y1; row++ {
		dy := outside(y, float64(row)*st.cell, st.cell)
		left := Reach*Reach - dy*dy
		for col := x0; col <= x1; col++ {
			if dx := outside(x, float64(col)*st.cell, st.cell); dx*dx <= left {
				cells = append(cells, int32(row*st.nx+col))
			}
		}
	}
	return cells
}

// outside returns how far v lies outside the range from a to a+width.
func outside(v, a, width float64) float64 { return max(0, max(a-v, v-a-width)) }

// square returns which of n squares in a row holds the place d mm from their beginning.
func (st *states) square(d float64, n int) int { return max(0, min(n-1, int(d/st.cell))) }

// reversed returns the states of the same line from its end to its start.
func (st *states) reversed() *states {
	out := *st
	out.work = workspace{}
	out.at, out.way, out.ids = st.at.Reversed(), st.way.Reversed(), slices.Clone(st.ids)
	for i, w := range out.way {
		out.way[i] = geom.Pt(-w.X, -w.Y)
	}
	last := int32(len(st.at) - 1)
	for c := range len(st.start) - 1 {
		ids := out.ids[st.start[c]:st.start[c+1]]
		slices.Reverse(ids)
		for i, k := range ids {
			ids[i] = last - k
		}
	}
	return &out
}

// near returns the states that may lie within Reach of p, ascending.
func (st *states) near(p geom.Point) []int32 {
	x, y := (p.X-st.lo.X)/st.cell, (p.Y-st.lo.Y)/st.cell
	if !(x >= 0 && y >= 0 && x < float64(st.nx) && y < float64(st.ny)) {
		return nil
	}
	c := int(y)*st.nx + int(x)
	return st.ids[st.start[c]:st.start[c+1]]
}

// ways returns the unit directions of a polyline at its points, from the one before to
// the one after; zero where those lie together.
func ways(pl geom.Polyline) geom.Polyline {
	out := make(geom.Polyline, len(pl))
	for i := range pl {
		d := r2.Sub(pl[min(len(pl)-1, i+1)], pl[max(0, i-1)])
		if n := r2.Norm(d); n > 0 {
			out[i] = r2.Scale(1/n, d)
		}
	}
	return out
}
