package quilt

import (
	"math"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/screen"
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

const (
	// margin is the room in pixels round the top on the screen.
	margin = 16.0
	// Shares of true size: the largest at which a part of the top is shown, and the least
	// and largest for the whole.
	mostZoom, leastWhole, mostWhole = 3.0, 0.01, 2.0
)

// Fit lays the top out for the screen.
func (r Room) Fit() place.Room { return r.laid() }

// laid fits the top to the screen.
func (r Room) laid() Room {
	size, s := r.Top.Quilt.Size(), r.Screen
	whole := 1.0
	if size.W > 0 {
		whole = math.Min((s.W-2*margin)/(size.W*s.TrueSize()), (s.H-2*margin)/(size.H*s.TrueSize()))
		whole = math.Max(leastWhole, math.Min(mostWhole, whole))
	}
	r.pane.Size, r.pane.Whole, r.pane.Most = geom.Pt(size.W, size.H), whole, mostZoom/whole
	r.View = r.pane.View(s)
	return r
}

// Sight returns how the top lies on the screen.
func (r Room) Sight() screen.View { return r.View }

// about returns the place that is shown larger: the one in the middle, or of a whole top
// the one that is chosen.
func (r Room) about() geom.Point {
	switch {
	case r.pane.Larger():
		return r.pane.Around
	case r.Top.Chosen != top.None:
		return r.Top.Middle(r.Top.Chosen)
	}
	s := r.Top.Quilt.Size()
	return geom.Pt(s.W/2, s.H/2)
}

// zoomed shows the top larger about the place that is chosen, smaller, or whole.
func (r Room) zoomed(how string) Room {
	r.pane = r.pane.Stepped(how, r.about())
	return r
}

// fromAway shows the top as large as it is to the eye from AwayMM away.
func (r Room) fromAway() Room {
	r.pane.Around = r.about()
	r.pane.Zoom = ArmMM / AwayMM / r.pane.Whole
	return r
}

// showGap leads to a gap of the list: it is shown at a third of the screen, and the place
// in which its middle lies is chosen.
func (r Room) showGap(i int) Room {
	if i < 0 || i >= len(r.Top.Measures.Wide) {
		return r
	}
	g := r.Top.Measures.Wide[i]
	r.Gap, r.Away.Back = i, false
	r.Top = r.Top.Choose(r.Top.CellAt(g.Centre))
	want := math.Min(r.Screen.W, r.Screen.H) / 3 / (g.Width() * r.Screen.TrueSize())
	r.pane.Around = g.Centre
	r.pane = r.pane.At(want / r.pane.Whole)
	return r
}

// Point takes one report of a pointer: a tap chooses a place, a drag moves a top that is
// shown larger than the screen, two fingers move it and make it larger.
func (r Room) Point(p place.Pointer) (place.Room, []place.Effect) {
	pane, tapped := r.pane, false
	if r.hold, pane, tapped = r.hold.Point(p, pane, r.Screen, false); pane != r.pane {
		r.pane = pane
		r = r.laid()
	}
	if tapped {
		r.Top = r.Top.Choose(r.Top.CellAt(r.View.ToCloth(geom.Pt(p.X, p.Y))))
	}
	return r, nil
}

// turned takes a turn of the wheel over the top.
func (r Room) turned(t control.Turn) Room {
	r.pane = place.Turned(r.pane, r.Screen, t)
	return r.laid()
}
