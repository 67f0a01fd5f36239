package game

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/record"
	"unthreaded/game/top"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// OwnThread is her newest trace of a design's line, in the design's own mm.
type OwnThread struct {
	// Record is the ID of the trace, Started its time in ms since 1970.
	Record  string
	Started int64
	// Paths are the stitches in a row, from hole to hole.
	Paths []geom.Polyline
}

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

// tapSlack is how far in pixels a pointer may move and still be a tap.
const tapSlack = 8.0

// quiltPoint takes one report of a pointer: a tap chooses a place, a drag moves a top
// that is shown larger than the screen.
func (m Model) quiltPoint(p Pointer) (Model, []Effect) {
	d := &m.Quilting
	at := geom.Pt(p.X, p.Y)
	switch {
	case p.Kind == Down && d.press == nil:
		d.press = &press{pointer: p.ID, from: at, around: m.View.ToCloth(geom.Pt(m.Screen.W/2, m.Screen.H/2))}
	case d.press == nil || d.press.pointer != p.ID:
	case p.Kind == Move:
		moved := *d.press
		moved.moved = moved.moved || geom.Dist(at, moved.from) > tapSlack
		d.press = &moved
		if moved.moved && d.zoom > 1 {
			d.around = r2.Add(moved.around, r2.Scale(1/m.View.Scale, r2.Sub(moved.from, at)))
			m = m.relaid()
		}
	case p.Kind == Up && !d.press.moved:
		d.press = nil
		d.Top = d.Top.Choose(d.Top.CellAt(m.View.ToCloth(at)))
	default:
		d.press = nil
	}
	return m, nil
}

// ownThreads asks for her newest traces of the designs in the top, as far as they
// are wanted and not there yet.
func (m Model) ownThreads() (Model, []Effect) {
	d := &m.Quilting
	if !d.Back || !d.Own {
		return m, nil
	}
	threads := map[string]OwnThread{}
	var effects []Effect
	for _, id := range d.Top.OwnDesigns() {
		s, found := m.newestTrace(id)
		if !found {
			continue
		}
		if t, there := d.Threads[id]; there && t.Record == s.ID {
			threads[id] = t
			continue
		}
		effects = append(effects, Fetch{ID: s.ID, Top: true})
	}
	d.Threads = threads
	return m, effects
}

// newestTrace returns the newest kept trace of a line of a design.
func (m Model) newestTrace(design string) (record.Summary, bool) {
	for _, s := range m.all {
		if ofDesign(s.Motif, design) {
			return s, true
		}
	}
	return record.Summary{}, false
}

// ofDesign tells whether a line's ID, as lineID makes it, is one of a design.
func ofDesign(line, design string) bool {
	for _, prefix := range []string{blockPrefix, routePrefix} {
		if rest, ok := strings.CutPrefix(line, prefix+design+"-"); ok && len(rest) == hashDigits && !strings.Contains(rest, "-") {
			return true
		}
	}
	return false
}

// threadFetched takes a trace that was asked for to be seen on the top.
func (m Model) threadFetched(f Fetched) Model {
	rec, err := record.Decode(f.Doc)
	var prep trace.Prepared
	if err == nil {
		prep, err = trace.Prepare(rec.Trace())
	}
	if f.Err != "" || err != nil {
		m.Notice = Notice{Text: "One of your traces could not be read for the top and was left as it is."}
		return m
	}
	own := OwnThread{Record: rec.ID, Started: rec.Started}
	for i, fall := range prep.Falls(m.Settings.SPM) {
		if i == 0 || fall.Gap {
			own.Paths = append(own.Paths, nil)
		}
		last := len(own.Paths) - 1
		own.Paths[last] = append(own.Paths[last], fall.P)
	}
	threads := map[string]OwnThread{}
	for id, t := range m.Quilting.Threads {
		threads[id] = t
	}
	for _, x := range m.Designs {
		if ofDesign(rec.Motif, x.ID) {
			threads[x.ID] = own
		}
	}
	m.Quilting.Threads = threads
	m.Quilting.Top.Rev++
	return m
}

// NamesOf returns the names of designs, in the order of the person's list.
func (m Model) NamesOf(ids []string) []string {
	var out []string
	byID := m.designsByID()
	for _, id := range ids {
		if d, ok := byID[id]; ok {
			out = append(out, d.Name)
		}
	}
	return out
}
