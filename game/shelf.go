package game

import (
	"errors"
	"slices"
	"strings"

	"unthreaded/game/place"
	"unthreaded/path/quilt"
)

// shelf takes the kept things; those of a kind that this version does not know are
// left as they are. What one of them gives reason to say does not hide what was said
// before.
func (m Model) shelf(s Shelf) (Model, []Effect) {
	var effects []Effect
	m.Backup.known = true
	for _, t := range s.Things {
		var more []Effect
		before := m.Notice
		m.Notice = Notice{}
		switch t.Kind {
		case DesignThing:
			m, more = m.designKept(t)
		case QuiltThing:
			m, more = m.quiltKept(t)
		case BackupThing:
			m = m.careKept(t)
		}
		m.Notice = before.And(m.Notice)
		effects = append(effects, more...)
	}
	l, said := m.ReadPlans(s.Things)
	m.Library, m.Notice = l, m.Notice.And(said)
	m, more := m.ownFirst().demoKept()
	return m, append(effects, more...)
}

// shelved tells the person when a thing could not be kept.
func (m Model) shelved(s Shelved) Model {
	if s.Err != "" {
		m.Notice = place.Say("page.thing-not-kept", s.Err.Said())
	}
	return m
}

// photo says when a photo could not be opened; the place that asked for it hears of it.
func (m Model) photo(p Photo) (Model, []Effect) {
	switch p.Err {
	case "":
	case place.WhyUnkept:
		m.Notice = place.Say("page.photo-unkept")
	default:
		m.Notice = place.Say("page.photo-unread", p.Err.Said())
	}
	return m, nil
}

// designKept takes a kept block.
func (m Model) designKept(t Thing) (Model, []Effect) {
	d, err := quilt.DecodeDesign(t.Doc)
	switch {
	case errors.Is(err, quilt.ErrNewer):
		m.Notice = place.Say("draw.newer-kept")
	case err != nil:
		m.Notice = place.Say("draw.damaged")
	default:
		m.Library = m.WithoutDesign(d.ID).WithDesign(d)
	}
	return m, nil
}

// withDemo shows the cot quilt of the first visit, with its designs, under names in her
// language.
func (m Model) withDemo() Model {
	q, designs := quilt.Demo()
	m.Quilts = []quilt.Quilt{q}
	for _, d := range designs {
		m.Designs = append(m.Designs, d)
	}
	slices.SortFunc(m.Designs, func(a, b quilt.Design) int { return strings.Compare(a.ID, b.ID) })
	return m.demoNamed()
}

// demoNamed names what is shown at the first visit in the language that she reads.
func (m Model) demoNamed() Model {
	demo, designs := quilt.Demo()
	if m.Settings.Visited {
		return m
	}
	b := m.Book()
	m.Quilts, m.Designs = slices.Clone(m.Quilts), slices.Clone(m.Designs)
	for i, q := range m.Quilts {
		if q.ID == demo.ID {
			m.Quilts[i].Name = b.Say("quilt.demo." + q.ID)
		}
		if q.ID == m.Top.Quilt.ID {
			m.Top = m.Top.Renamed(q.ID, m.Quilts[i].Name)
		}
	}
	for i, d := range m.Designs {
		if designs[d.ID].ID != "" {
			m.Designs[i].Name = b.Say("quilt.demo." + d.ID)
		}
	}
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
			effects = append(effects, place.KeepQuilt(own)...)
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

// quiltKept takes a kept document at the beginning of the visit.
func (m Model) quiltKept(t Thing) (Model, []Effect) {
	q, err := quilt.DecodeQuilt(t.Doc)
	switch {
	case errors.Is(err, quilt.ErrNewer):
		m.Notice = place.Say("quilt.newer-kept")
	case err != nil:
		m.Notice = place.Say("quilt.damaged")
	case q.ID == m.Top.Quilt.ID && m.Top.CanUndo():
		// She has changed it already, before the shelf was read: hers is the newer.
	default:
		m.Quilts = append([]quilt.Quilt{q}, slices.DeleteFunc(slices.Clone(m.Quilts), func(x quilt.Quilt) bool { return x.ID == q.ID })...)
	}
	return m, nil
}
