package game

import (
	"errors"

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
		case SewnThing:
			m = m.sewnKept(t)
		}
		m.Notice = before.And(m.Notice)
		effects = append(effects, more...)
	}
	m, more := m.shelfRead()
	return m, append(effects, more...)
}

// shelved tells the person when a thing could not be kept.
func (m Model) shelved(s Shelved) Model {
	if s.Err != "" {
		m.Notice = Notice{Text: "This could not be kept: " + s.Err + ". It stays here until you close the page; save it as a file to keep it."}
	}
	return m
}

// photo gives a photo to the place that asked for it.
func (m Model) photo(p Photo) (Model, []Effect) {
	if p.Err != "" {
		m.Notice = Notice{Text: "This photo could not be opened: " + p.Err + "."}
		return m, nil
	}
	if p.Name == "back.photo" {
		return m.backPhoto(p), nil
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
