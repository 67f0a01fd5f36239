package rehearse

import (
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/scoring/trace"
)

// importInk reads the traces of an InkML file, keeps those that are not here already,
// and shows the last one. A trace that this program wrote brings its own line; any
// other is set against the line on the cloth.
func (r Room) importInk(doc string) (Room, []place.Effect) {
	inks, err := trace.ReadInk(strings.NewReader(doc))
	if err != nil {
		r.Notice = place.Say("rehearse.no-ink." + noInk(doc))
		return r, nil
	}
	var kept []place.Effect
	here, taps := 0, 0
	for i, k := range inks {
		var e []place.Effect
		switch rec, err := keep.FromInk(k); {
		case pathOf(k.Trace).Length() < minTraceMM:
			taps++
		case r.isHere(rec):
			here++
		case err == nil:
			r, e = r.takeRecord(rec)
		case k.Started > 0:
			r, e = r.laid(r.made(k.Trace, k.Started, nil))
		default:
			r, e = r.laid(r.made(k.Trace, float64(r.NowMS())+float64(i), nil))
		}
		kept = append(kept, e...)
	}
	r.Notice = place.Say("rehearse.imported", len(inks)-taps, here, len(inks)-taps-here)
	return r.fitted(), kept
}

// noInk tells what a file is instead of InkML, as far as its beginning shows,
// and where to take it.
func noInk(doc string) string {
	head := strings.TrimSpace(strings.ToValidUTF8(doc[:min(len(doc), 4096)], ""))
	switch {
	case head == "":
		return "empty"
	case strings.ContainsAny(head, "\x00\x1a\ufffd"): // as the browser reads bytes that are no text
		return "no-text"
	case strings.HasPrefix(head, "{"):
		return "backup"
	case strings.Contains(head, "<svg"):
		return "drawing"
	}
	return "unreadable"
}

// isHere tells whether a record is kept already, by its name or by its samples.
func (r Room) isHere(rec keep.Record) bool {
	digest := rec.Samples.Digest()
	for _, s := range r.Records {
		if s.ID == rec.ID || s.Digest == digest {
			return true
		}
	}
	return false
}

// takeRecord measures a record that came from a file as it was traced, keeps it, and
// lays it on the cloth.
func (r Room) takeRecord(rec keep.Record) (Room, []place.Effect) {
	line, err := rec.GeomLine()
	if err != nil {
		return r, nil // cannot be: FromInk has checked it
	}
	sh := replay.Lay(rec, line, rec.SPM, rec.StitchMM)
	rec = sh.Noted()
	r, effects := r.keep(rec)
	return r.reopened(rec), effects
}
