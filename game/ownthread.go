package game

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// OwnThread is a trace of hers of a design's line, in the design's own mm.
type OwnThread struct {
	// Record is the ID of the trace, Started its time in ms since 1970.
	Record  string
	Started int64
	// Paths are the stitches in a row, from hole to hole.
	Paths []geom.Polyline
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
		s, found := m.OwnTrace(id)
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

// OwnTrace returns the kept trace of a design that is seen on the top: the newest, or
// the most even of those that follow the whole line, where that is asked for and there
// is one. Warm-ups count for the first only: their tempo is another.
func (m Model) OwnTrace(design string) (keep.Summary, bool) {
	var newest, best keep.Summary
	for _, s := range m.Records {
		if !place.OfDesign(s.Motif, design) {
			continue
		}
		if newest.ID == "" {
			newest = s
		}
		whole := s.Coverage != nil && *s.Coverage >= wholeLine
		if whole && !s.WarmUp && s.StitchCV != nil && (best.ID == "" || *s.StitchCV < *best.StitchCV) {
			best = s
		}
	}
	if m.Quilting.Best && best.ID != "" {
		return best, true
	}
	return newest, newest.ID != ""
}

// wholeLine is the share of a line from which on a trace is taken to follow all of it;
// the page tells of what is less.
const wholeLine = 0.9

// threadFetched takes a trace that was asked for to be seen on the top.
func (m Model) threadFetched(f Fetched) Model {
	rec, err := keep.Decode(f.Doc)
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
		if s, ok := m.OwnTrace(x.ID); ok && s.ID == rec.ID {
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
	byID := m.DesignsByID()
	for _, id := range ids {
		if d, ok := byID[id]; ok {
			out = append(out, d.Name)
		}
	}
	return out
}
