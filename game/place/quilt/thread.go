package quilt

import (
	"maps"

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
func (r Room) ownThreads() (Room, []place.Effect) {
	if !r.Away.Back || !r.Away.Own {
		return r, nil
	}
	threads := map[string]OwnThread{}
	var effects []place.Effect
	for _, id := range r.Top.OwnDesigns() {
		s, found := r.OwnTrace(id)
		if !found {
			continue
		}
		if t, there := r.Away.Threads[id]; there && t.Record == s.ID {
			threads[id] = t
			continue
		}
		effects = append(effects, place.Fetch{ID: s.ID, Top: true})
	}
	r.Away.Threads = threads
	return r, effects
}

// OwnTrace returns the kept trace of a design that is seen on the top: the newest, or
// the most even of those that follow the whole line, where that is asked for and there
// is one. Warm-ups count for the first only: their tempo is another.
func (r Room) OwnTrace(design string) (keep.Summary, bool) {
	var newest, best keep.Summary
	for _, s := range r.Records {
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
	if r.Away.Best && best.ID != "" {
		return best, true
	}
	return newest, newest.ID != ""
}

// wholeLine is the share of a line from which on a trace is taken to follow all of it;
// the page tells of what is less.
const wholeLine = 0.9

// threadFetched takes a trace that was asked for to be seen on the top.
func (r Room) threadFetched(f place.Fetched) Room {
	rec, err := keep.Decode(f.Doc)
	var prep trace.Prepared
	if err == nil {
		prep, err = trace.Prepare(rec.Trace())
	}
	if f.Err != "" || err != nil {
		r.Notice = place.Say("quilt.trace-unread")
		return r
	}
	own := OwnThread{Record: rec.ID, Started: rec.Started}
	for i, fall := range prep.Falls(r.Settings.SPM) {
		if i == 0 || fall.Gap {
			own.Paths = append(own.Paths, nil)
		}
		last := len(own.Paths) - 1
		own.Paths[last] = append(own.Paths[last], fall.P)
	}
	threads := maps.Clone(r.Away.Threads)
	if threads == nil {
		threads = map[string]OwnThread{}
	}
	for _, x := range r.Designs {
		if s, ok := r.OwnTrace(x.ID); ok && s.ID == rec.ID {
			threads[x.ID] = own
		}
	}
	r.Away.Threads = threads
	r.Top.Rev++
	return r
}
