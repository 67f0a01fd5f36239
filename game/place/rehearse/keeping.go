package rehearse

import (
	"math"
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// open brings the place to the front.
func open() place.Effect { return place.Open{Place: place.Rehearse} }

// ask fetches a kept trace, to lie on the cloth or over the one that lies there; asking
// again for the one laid over takes it away.
func (r Room) ask(id string, over bool) (Room, []place.Effect) {
	if over && r.Over != nil && r.Over.Rec.ID == id {
		r.Over = nil
		return r.paced(), nil
	}
	if !over && r.Open != nil && r.Open.Rec.ID == id {
		return r, nil
	}
	return r, []place.Effect{place.Fetch{ID: id, Over: over}}
}

// fetched lays a kept trace on the cloth, or over the one that lies there.
func (r Room) fetched(f place.Fetched) (Room, []place.Effect) {
	switch {
	case f.Top || f.For != place.ToOpen:
		return r, nil // another place asked for it
	case f.ID == r.Learning.wants && f.ID != "" && !f.Over:
		return r.lineCame(f)
	case f.Err != "":
		r.Notice = place.Say("rehearse.unread", f.Err.Said())
		return r, nil
	}
	rec, err := keep.Decode(f.Doc)
	var line geom.Line
	if err == nil {
		line, err = rec.GeomLine()
	}
	if err != nil {
		r.Notice = place.Say("rehearse.damaged")
		return r, nil
	}
	if f.Over {
		r.Over = replay.Lay(rec, line, r.Settings.SPM, r.Settings.StitchMM)
		return r.paced(), nil
	}
	r, kept := r.lost()
	return r.reopened(rec), append(kept, open())
}

// reopened puts a kept trace and its line on the cloth.
func (r Room) reopened(rec keep.Record) Room {
	line, err := rec.GeomLine()
	if err != nil {
		return r
	}
	r.Motif = motifOf(rec, line)
	r.Line, r.Repeats, r.ends = line, rec.Repeats, r.Motif.Ends(rec.Repeats)
	if n := len(r.ends); n > 0 && math.Abs(r.ends[n-1]-line.Length()) > 1 {
		r.ends = nil // the motif was another then
	}
	r.LineRev++
	if r.Over != nil && r.Over.Rec.ID == rec.ID {
		r.Over = nil
	}
	r.Open = replay.Lay(rec, line, r.Settings.SPM, r.Settings.StitchMM)
	r.Stretch = Stretch{}
	r = r.atItsEnd()
	r.Notice = place.Notice{}
	return r.fitted()
}

// atItsEnd has the trace on the cloth lie there whole.
func (r Room) atItsEnd() Room {
	r.Stretch.Ideal = false
	r.Replay = replay.Clock{Rate: r.Replay.Rate}
	r = r.paced()
	r.Replay.T = r.Replay.Length
	return r
}

// motifOf returns the motif of a record: the ready one, or one of the record's own line,
// such as a route that was planned.
func motifOf(rec keep.Record, line geom.Line) motif.Rehearsal {
	if found, ok := lesson.Ready(rec.Motif); ok {
		return found
	}
	name := rec.Name
	if name == "" {
		name = rec.Motif
	}
	return motif.Of(rec.Motif, name, "", line)
}

// keep lists a record among the kept traces and has it saved.
func (r Room) keep(rec keep.Record) (Room, []place.Effect) {
	sum := keep.Summarise(rec)
	doc, err := keep.Encode(rec)
	var sumDoc []byte
	if err == nil {
		sumDoc, err = keep.EncodeSummary(sum)
	}
	if err != nil {
		r.Notice = place.Say("rehearse.unwritten")
		return r, nil
	}
	r.Library = r.WithRecords(sum)
	return r, []place.Effect{place.Save{ID: rec.ID, Doc: doc, Summary: sumDoc}}
}

// removed deletes a kept trace; the notice offers to take that back.
func (r Room) removed(id string) (Room, []place.Effect) {
	rest := slices.DeleteFunc(slices.Clone(r.Records), func(s keep.Summary) bool { return s.ID == id })
	if len(rest) == len(r.Records) {
		return r, nil
	}
	r.Records = rest
	r = r.gone(place.Gone{ID: id})
	r.Notice = place.Say("rehearse.deleted").Offer("undo")
	return r, []place.Effect{place.Delete{ID: id}}
}

// gone takes a trace that was deleted off the cloth, here or in another place, and notes
// it for undo; one that was brought back need not be brought back any more.
func (r Room) gone(g place.Gone) Room {
	known := slices.IndexFunc(r.deleted, func(d deletion) bool { return d.id == g.ID })
	if g.Back {
		if known >= 0 {
			r.deleted = slices.Delete(slices.Clone(r.deleted), known, known+1)
		}
		return r
	}
	if known >= 0 {
		return r
	}
	d := deletion{id: g.ID}
	if r.Open != nil && r.Open.Rec.ID == g.ID {
		d.sheet = r.Open
		r.Open, r.Replay = nil, replay.Clock{Rate: r.Replay.Rate}
	}
	if r.Over != nil && r.Over.Rec.ID == g.ID {
		r.Over = nil
		r = r.paced()
	}
	r.deleted = append(slices.Clip(r.deleted), d)
	return r.fitted()
}

// restored brings the trace deleted last back.
func (r Room) restored() (Room, []place.Effect) {
	n := len(r.deleted) - 1
	if n < 0 {
		return r, nil
	}
	last := r.deleted[n]
	r.deleted = r.deleted[:n]
	if last.sheet != nil && r.Open == nil && r.Live == nil {
		r = r.reopened(last.sheet.Rec)
	}
	r.Notice = place.Say("rehearse.back")
	if n > 0 {
		r.Notice = place.Say("rehearse.back-more", n).Offer("undo")
	}
	return r, []place.Effect{place.Restore{ID: last.id}}
}
