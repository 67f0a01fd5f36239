package game

import (
	"errors"
	"slices"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/quilt"
)

// withDemo shows the cot quilt of the first visit, with its designs.
func (m Model) withDemo() Model {
	q, designs := quilt.Demo()
	m.Quilts = []quilt.Quilt{q}
	for _, d := range designs {
		m.Designs = append(m.Designs, d)
	}
	slices.SortFunc(m.Designs, func(a, b quilt.Design) int { return strings.Compare(a.ID, b.ID) })
	return m
}

// demoKept keeps what is left of the demo once it is known what the shelf holds, and
// notes that it has been shown, so that it never comes back.
func (m Model) demoKept() (Model, []Effect) {
	if m.Settings.Visited {
		return m, nil
	}
	var effects []Effect
	q, designs := quilt.Demo()
	for _, own := range m.Quilts {
		if own.ID == q.ID {
			effects = append(effects, keepingQuilt(own)...)
		}
	}
	for _, own := range m.Designs {
		if _, ok := designs[own.ID]; ok {
			effects = append(effects, place.KeepDesign(own)...)
		}
	}
	m.Settings.Visited = true
	return m, append(effects, SaveSettings{Doc: m.Settings.Encode()})
}

// ownFirst puts the designs and quilts that came with the program behind her own.
func (m Model) ownFirst() Model {
	q, designs := quilt.Demo()
	m.Designs = slices.Clone(m.Designs)
	slices.SortStableFunc(m.Designs, func(a, b quilt.Design) int {
		return order(designs[a.ID].ID != "", designs[b.ID].ID != "")
	})
	m.Quilts = slices.Clone(m.Quilts)
	slices.SortStableFunc(m.Quilts, func(a, b quilt.Quilt) int { return order(a.ID == q.ID, b.ID == q.ID) })
	return m
}

// order puts what is false first.
func order(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// replaced returns the quilts with one in the place of that of the same ID, or at
// the end.
func replaced(all []quilt.Quilt, q quilt.Quilt) []quilt.Quilt {
	all = slices.Clone(all)
	if i := slices.IndexFunc(all, func(x quilt.Quilt) bool { return x.ID == q.ID }); i >= 0 {
		all[i] = q
		return all
	}
	return append(all, q)
}

// keepingQuilt returns the effect that keeps a quilt.
func keepingQuilt(q quilt.Quilt) []Effect {
	doc, err := quilt.EncodeQuilt(q)
	if err != nil {
		return nil // a quilt on the table is valid: its changes are checked
	}
	return []Effect{Keep{Thing: Thing{Kind: QuiltThing, ID: q.ID, Doc: doc}}}
}

// keepQuilt keeps the quilt on the table if it has changed.
func (m Model) keepQuilt() (Model, []Effect) {
	if m.Quilting.unkept == 0 {
		return m, nil
	}
	m.Quilting.unkept = 0
	return m, keepingQuilt(m.Quilting.Top.Quilt)
}

// quiltKept takes a kept document at the beginning of the visit.
func (m Model) quiltKept(t Thing) (Model, []Effect) {
	q, err := quilt.DecodeQuilt(t.Doc)
	switch {
	case errors.Is(err, quilt.ErrNewer):
		m.Notice = Notice{Text: "A quilt was made by a newer version of this page. Load the page again to get that version; the quilt was left as it is."}
	case err != nil:
		m.Notice = Notice{Text: "A quilt could not be read and was left as it is: " + err.Error() + "."}
	case q.ID == m.Quilting.Top.Quilt.ID && m.Quilting.Top.CanUndo():
		// She has changed it already, before the shelf was read: hers is the newer.
	default:
		m.Quilts = append([]quilt.Quilt{q}, slices.DeleteFunc(slices.Clone(m.Quilts), func(x quilt.Quilt) bool { return x.ID == q.ID })...)
	}
	return m, nil
}

// shelfRead brings the place up to date once the shelf is read.
func (m Model) shelfRead() (Model, []Effect) {
	m = m.ownFirst()
	m, effects := m.demoKept()
	if m.Quilting.Top.CanUndo() {
		return m, effects
	}
	m.Quilting.Top, m.Quilting.Finding = top.Top{Rev: m.Quilting.Top.Rev, Chosen: top.None}, nil
	if m.Place == QuiltPlan {
		m, more := m.quiltEntered()
		return m.relaid(), append(effects, more...)
	}
	return m, effects
}

// repictured makes the pictures of the designs anew and tells whether some design
// has changed since they were made.
func (m *Model) repictured() bool {
	d := &m.Quilting
	docs := make([]string, len(m.Designs))
	for i, x := range m.Designs {
		if doc, err := quilt.EncodeDesign(x); err == nil {
			docs[i] = string(doc)
		}
	}
	if slices.Equal(docs, d.pictured) {
		return false
	}
	before, old := d.pictured, d.Pictures
	d.pictured, d.Pictures = docs, map[string]string{}
	for i, x := range m.Designs {
		path, known := old[x.ID]
		if !known || !slices.Contains(before, docs[i]) {
			path = place.DesignPicture(x)
		}
		d.Pictures[x.ID] = path
	}
	return true
}
