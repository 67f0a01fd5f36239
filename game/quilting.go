package game

import (
	"unthreaded/game/top"
	"unthreaded/path/geom"
)

// Quilting is the place where the top is laid out.
type Quilting struct {
	Top top.Top
	// tops holds the other quilts of this visit, with their steps for undo, by ID.
	tops map[string]top.Top
	// Pictures are small pictures of the designs by their ID, as path data.
	Pictures map[string]string
	pictured []string // the designs they were made of, as documents

	// Back tells that she steps back to see the whole, Own that it is drawn with her
	// own traces, Threads, by the ID of the design; Best that these are the most even,
	// not the newest.
	Back, Own, Best bool
	Threads         map[string]OwnThread

	// Gap is the gap in the list that was asked for last, -1 for none.
	Gap int
	// Finding is the search for the order of the rows, nil while there is none.
	Finding *top.Ordering
	// measuring tells that the gaps are measured in the next frame; since is when the
	// top changed last.
	measuring bool
	since     float64

	// zoom is how much larger than whole the top is shown, about the place around.
	zoom   float64
	around geom.Point
	press  *press

	// Wrong says what is wrong with the field named by WrongField.
	Wrong, WrongField string
	// changes tells which state of the quilt was noted last, unkept is the time since
	// which it waits to be kept, 0 for none.
	changes int
	unkept  float64
}

func newQuilting() Quilting {
	return Quilting{Top: top.Top{Chosen: top.None}, tops: map[string]top.Top{}, Threads: map[string]OwnThread{}, zoom: 1, Gap: -1}
}

// keepAfter is how long in s a changed quilt waits to be kept, so that a slider is kept
// once.
const keepAfter = 0.4

// measureAfter is how long in s the top rests before its gaps are measured.
const measureAfter = 0.6

// quiltEntered prepares the place on entering.
func (m Model) quiltEntered() (Model, []Effect) {
	d := &m.Quilting
	switch {
	case d.Top.Quilt.ID == "" && len(m.Quilts) > 0:
		m = m.onTable(m.Quilts[0])
	case d.Top.Quilt.ID != "" && m.repictured():
		d.Top = d.Top.WithDesigns(m.DesignsByID())
	default:
		m.repictured()
	}
	d.since = m.LastFrame
	return m.ownThreads()
}

// quiltControl does what a control of the place asks for.
func (m Model) quiltControl(c Control) (Model, []Effect) {
	d := &m.Quilting
	d.Wrong, d.WrongField = "", ""
	if next, effects, done := m.wholeControl(c); done {
		return next, effects
	}
	if d.Top.Quilt.ID == "" {
		return m, nil
	}
	if next, effects, done := m.cellControl(c); done {
		return next, effects
	}
	if next, done := m.topView(c); done {
		return next.ownThreads()
	}
	if set, known := layoutControls[c.Name]; known {
		next, err := set(m, c)
		if err != nil {
			d.Wrong, d.WrongField = err.Error(), c.Name
			return m, nil
		}
		d.Top = next
	}
	return m.relaid().quiltChanged(), nil
}

// quiltChanged notes a change of the quilt, to be kept and measured soon.
func (m Model) quiltChanged() Model {
	d := &m.Quilting
	if d.Top.Changes == d.changes {
		return m
	}
	d.changes, d.Gap, d.since, d.measuring = d.Top.Changes, -1, m.LastFrame, false
	m.Quilts = replaced(m.Quilts, d.Top.Quilt)
	d.unkept = max(m.LastFrame, 1e-9)
	return m
}

// quiltFrame takes the search for an order one step on, else measures what has rested
// long enough. What takes long is said in one frame and done in the next, so that the
// words are seen. A search about a top that has changed since ends there.
func (m Model) quiltFrame(now float64) Model {
	d := &m.Quilting
	if m.Place != QuiltPlan || d.Top.Quilt.ID == "" {
		return m
	}
	switch f := d.Finding; {
	case f != nil && !f.Of(d.Top):
		d.Finding = nil
	case f != nil && f.Done():
		d.Top, d.Finding = d.Top.WithOrder(*f), nil
	case f != nil:
		next := f.Step()
		d.Finding = &next
	case d.measuring:
		d.Top, d.measuring = d.Top.Measure(m.Settings.Ditch), false
	case !d.Top.Measures.Done && now-d.since > measureAfter:
		d.measuring = true
	}
	return m
}

// working tells that the next frame works something out.
func (m Model) working() bool {
	return m.Place == QuiltPlan && (m.Quilting.measuring || m.Quilting.Finding != nil)
}

// quiltBack takes the last change back: a deleted quilt, or a change of the quilt.
func (m Model) quiltBack() (Model, []Effect) {
	if n := len(m.BinnedQuilts); n > 0 && m.Notice.Action == "undo" {
		q := m.BinnedQuilts[n-1]
		m.BinnedQuilts = m.BinnedQuilts[:n-1]
		m.Quilts = append(replaced(nil, q), m.Quilts...)
		m.Notice = Notice{}
		m, effects := m.openQuilt(q.ID)
		return m, append(effects, keepingQuilt(q)...)
	}
	m.Quilting.Top = m.Quilting.Top.Undo()
	return m.relaid().quiltChanged(), nil
}

// quiltAgain does again what was taken back last.
func (m Model) quiltAgain() (Model, []Effect) {
	m.Quilting.Top = m.Quilting.Top.Redo()
	return m.relaid().quiltChanged(), nil
}

// quiltKey takes a key that was pressed on the cloth; its name is c.Value, and c.Item
// is "shift" where that was held.
func (m Model) quiltKey(c Control) (Model, []Effect) {
	d := &m.Quilting
	way, arrow := topArrows[c.Value]
	switch {
	case arrow:
		if c.Item == "shift" {
			d.Top = d.Top.Next(int(way.X + way.Y))
		} else {
			d.Top = d.Top.Toward(way)
		}
		if d.Top.Chosen != top.None && d.zoom > 1 {
			d.around = d.Top.Middle(d.Top.Chosen)
		}
	case c.Value == "Enter":
		return m.chooseDesign(), nil
	case c.Value == "Delete" || c.Value == "Backspace":
		d.Top = d.Top.Give("")
	default:
		return m.topZoomed(c.Value).relaid(), nil
	}
	return m.relaid().quiltChanged(), nil
}

// quiltCancel leads back to the cloth from the designs, or chooses no place.
func (m Model) quiltCancel() Model {
	if m.Quilting.Top.Chosen == top.None {
		return m
	}
	if m.Focus.To == designsFocus {
		return m.focusOn(clothFocus)
	}
	m.Quilting.Top = m.Quilting.Top.Choose(top.None)
	return m
}

// Where the keyboard is led to.
const (
	designsFocus = "quilt-designs"
	clothFocus   = "cloth"
)

var topArrows = map[string]geom.Point{
	"ArrowLeft": {X: -1}, "ArrowRight": {X: 1}, "ArrowUp": {Y: -1}, "ArrowDown": {Y: 1},
}
