package game

import (
	"math"

	"unthreaded/game/top"
	"unthreaded/path/geom"
)

// ArmMM is how far away in mm a screen is taken to stand: arm's length. AwayMM is
// from where one looks at a whole quilt on a wall or a bed (common practice).
const (
	ArmMM  = 600.0
	AwayMM = 2000.0
)

// AwayOf returns from how far away in mm a quilt is as large to the eye as it is on
// the screen at a share of true size: by similar triangles.
func AwayOf(zoom float64) float64 { return ArmMM / zoom }

// topMargin is the room in pixels round the top on the screen.
const topMargin = 16.0

// fitted returns the share of true size at which the whole top fits the screen.
func (m Model) fitted() float64 {
	s := m.Quilting.Top.Quilt.Size()
	if s.W == 0 {
		return 1
	}
	z := math.Min((m.Screen.W-2*topMargin)/(s.W*m.Screen.TrueSize()), (m.Screen.H-2*topMargin)/(s.H*m.Screen.TrueSize()))
	return math.Max(0.01, math.Min(2, z))
}

// quiltLaid fits the top to the screen.
func (m Model) quiltLaid() Model {
	d := &m.Quilting
	s := d.Top.Quilt.Size()
	zoom := m.fitted() * d.zoom
	at := geom.Pt(s.W/2, s.H/2)
	if d.zoom > 1 {
		at = geom.Pt(math.Max(0, math.Min(s.W, d.around.X)), math.Max(0, math.Min(s.H, d.around.Y)))
	}
	m.View = View{Scale: m.Screen.TrueSize() * zoom, Zoom: zoom, TrueSize: m.Screen.TrueSize(), SizeKnown: m.Screen.SizeKnown}
	m.View.Origin = geom.Pt(m.Screen.W/2-m.View.Scale*at.X, m.Screen.H/2-m.View.Scale*at.Y)
	return m
}

// topZoomed shows the top larger about the place that is chosen, smaller, or whole.
func (m Model) topZoomed(how string) Model {
	d := &m.Quilting
	if d.zoom <= 1 {
		s := d.Top.Quilt.Size()
		d.around = geom.Pt(s.W/2, s.H/2)
		if d.Top.Chosen != top.None {
			d.around = d.Top.Middle(d.Top.Chosen)
		}
	}
	switch how {
	case "+":
		d.zoom = math.Max(d.zoom, math.Min(d.zoom*1.5, mostZoom/m.fitted()))
	case "-":
		d.zoom = math.Max(1, d.zoom/1.5)
	case "0":
		d.zoom = 1
	}
	return m
}

// mostZoom is the largest share of true size at which the top is shown.
const mostZoom = 3.0

// fromAway shows the top as large as it is to the eye from AwayMM away.
func (m Model) fromAway() Model {
	m = m.topZoomed("")
	m.Quilting.zoom = ArmMM / AwayMM / m.fitted()
	return m
}

// showGap leads to a gap of the list: it is shown at a third of the screen, and the
// place in which its middle lies is chosen.
func (m Model) showGap(i int) Model {
	d := &m.Quilting
	if i < 0 || i >= len(d.Top.Measures.Wide) {
		return m
	}
	g := d.Top.Measures.Wide[i]
	d.Gap, d.Back = i, false
	d.Top = d.Top.Choose(d.Top.CellAt(g.Centre))
	d.around = g.Centre
	want := math.Min(m.Screen.W, m.Screen.H) / 3 / (g.Width() * m.Screen.TrueSize())
	d.zoom = math.Max(1, math.Min(want, mostZoom)/m.fitted())
	return m
}
