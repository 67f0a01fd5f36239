package game

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/quilt"
)

// wholeControl does what is asked for with whole quilts and files.
func (m Model) wholeControl(c Control) (Model, []Effect, bool) {
	var effects []Effect
	switch c.Name {
	case "quilt":
		m, effects = m.openQuilt(c.Value)
	case "new":
		m, effects = m.addQuilt(newQuilt(m.freeQuiltName("My quilt")))
	case "copy":
		q := m.Quilting.Top.Quilt
		if q.ID == "" {
			return m, nil, true
		}
		q.Name = m.freeQuiltName(strings.TrimSpace(q.Name) + ", copy")
		m, effects = m.addQuilt(q)
	case "delete":
		m, effects = m.deleteQuilt()
	case "save":
		m, effects = m.saveQuilt()
	case "open":
		m, effects = m.importQuilt(c.Value)
	default:
		return m, nil, false
	}
	return m, effects, true
}

// onTable lays a quilt on the table, with its steps of this visit.
func (m Model) onTable(q quilt.Quilt) Model {
	d := &m.Quilting
	tops := map[string]top.Top{}
	for id, t := range d.tops {
		tops[id] = t
	}
	if id := d.Top.Quilt.ID; id != "" {
		tops[id] = d.Top
	}
	d.tops = tops
	rev := d.Top.Rev
	m.repictured()
	if t, known := tops[q.ID]; known {
		d.Top = t.WithDesigns(m.DesignsByID())
	} else {
		d.Top = top.Open(q, m.DesignsByID())
	}
	d.Top.Rev = max(d.Top.Rev, rev+1)
	d.changes, d.Gap, d.zoom, d.since = d.Top.Changes, -1, 1, m.LastFrame
	d.measuring, d.Finding = false, nil
	return m.relaid()
}

// openQuilt lays a kept quilt on the table.
func (m Model) openQuilt(id string) (Model, []Effect) {
	i := slices.IndexFunc(m.Quilts, func(q quilt.Quilt) bool { return q.ID == id })
	if i < 0 || id == m.Quilting.Top.Quilt.ID {
		return m, nil
	}
	m, effects := m.keepQuilt()
	m, more := m.onTable(m.Quilts[i]).ownThreads()
	return m, append(effects, more...)
}

// newQuilt is a top of three by four blocks of 12 in, a usual size, with nothing in
// them.
func newQuilt(name string) quilt.Quilt {
	return quilt.Quilt{
		Schema: quilt.Schema, Name: name, Setting: quilt.Straight,
		Rows: 4, Cols: 3, BlockMM: 12 * MMPerInch,
	}
}

// freeQuiltName returns a name that no quilt has.
func (m Model) freeQuiltName(name string) string {
	free := name
	for n := 2; slices.ContainsFunc(m.Quilts, func(q quilt.Quilt) bool { return q.Name == free }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// addQuilt puts a new quilt on the shelf and on the table.
func (m Model) addQuilt(q quilt.Quilt) (Model, []Effect) {
	m, effects := m.keepQuilt()
	for t := int64(m.Origin + 1000*m.LastFrame); ; t++ {
		q.ID = fmt.Sprintf("quilt-%d", t)
		if !slices.ContainsFunc(m.Quilts, func(x quilt.Quilt) bool { return x.ID == q.ID }) {
			break
		}
	}
	m.Quilts = append([]quilt.Quilt{q}, m.Quilts...)
	m, more := m.onTable(q).ownThreads()
	return m, append(append(effects, more...), keepingQuilt(q)...)
}

// deleteQuilt takes the quilt off the shelf; the notice offers to take that back.
// Its designs stay.
func (m Model) deleteQuilt() (Model, []Effect) {
	q := m.Quilting.Top.Quilt
	if q.ID == "" {
		return m, nil
	}
	m.Quilts = slices.DeleteFunc(slices.Clone(m.Quilts), func(x quilt.Quilt) bool { return x.ID == q.ID })
	m.BinnedQuilts = append(m.BinnedQuilts[:len(m.BinnedQuilts):len(m.BinnedQuilts)], q)
	m.Quilting.unkept = 0
	if len(m.Quilts) > 0 {
		m = m.onTable(m.Quilts[0])
	} else {
		m = m.onTable(q) // puts it aside with its steps
		m.Quilting.Top = top.Top{Rev: m.Quilting.Top.Rev + 1, Chosen: top.None}
		m = m.relaid()
	}
	m.Notice = Notice{Text: fmt.Sprintf("%q was deleted. Its blocks stay in Draw.", q.Name), Action: "undo"}
	m, effects := m.ownThreads()
	return m, append(effects, Discard{Kind: QuiltThing, ID: q.ID})
}

// saveQuilt hands out the quilt with its designs as a document.
func (m Model) saveQuilt() (Model, []Effect) {
	t := m.Quilting.Top
	if t.Quilt.ID == "" {
		return m, nil
	}
	doc, err := t.Encode()
	if err != nil {
		m.Notice = Notice{Text: "The quilt could not be written: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Download{Name: place.FileName(t.Quilt.Name, "quilt") + ".json", Type: "application/json", Data: doc}}
}

// importQuilt adds a quilt from a document, with those of its designs that are not
// there already. A design that was changed since comes in beside the changed one.
func (m Model) importQuilt(doc string) (Model, []Effect) {
	q, designs, err := top.Decode([]byte(doc))
	if err != nil {
		text := "This file holds no quilt that can be read: " + err.Error() + ". Nothing was changed."
		if errors.Is(err, quilt.ErrNewer) {
			text = "This quilt was saved by a newer version of this page. Load the page again to get that version. Nothing was changed."
		}
		m.Notice = Notice{Text: text}
		return m, nil
	}
	var effects []Effect
	ids := map[string]string{}
	own := m.DesignsByID()
	for _, d := range designs {
		there, known := own[d.ID]
		if known && sameDesign(there, d) {
			continue
		}
		old := d.ID
		if known {
			d.ID, d.Name = m.FreshID("block"), m.FreeName(d.Name)
		}
		ids[old] = d.ID
		m.Designs = append([]quilt.Design{d}, m.Designs...)
		effects = append(effects, place.KeepDesign(d)...)
	}
	q = top.Renamed(q, ids)
	q.Name = m.freeQuiltName(q.Name)
	m, more := m.addQuilt(q)
	m.Notice = Notice{Text: fmt.Sprintf("%q was opened, with %d new blocks for it.", q.Name, len(ids))}
	return m, append(effects, more...)
}

// sameDesign tells whether two designs are the same but for their photos, which do
// not travel with a document.
func sameDesign(a, b quilt.Design) bool {
	a.Photo, b.Photo = nil, nil
	x, errX := quilt.EncodeDesign(a)
	y, errY := quilt.EncodeDesign(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}
