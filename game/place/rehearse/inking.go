package rehearse

import (
	"fmt"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/words"
	"unthreaded/scoring/trace"
)

// importInk reads the traces of an InkML file, keeps those that are not here already,
// and shows the last one. A trace that this program wrote brings its own line; any
// other is set against the line on the cloth.
func (r Room) importInk(doc string) (Room, []place.Effect) {
	inks, err := trace.ReadInk(strings.NewReader(doc))
	if err != nil {
		r.Notice = place.Notice{Text: noInk(doc, err)}
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
	r.Notice = place.Notice{Text: imported(len(inks)-taps, here)}
	return r.fitted(), kept
}

// noInk says what a file is instead of InkML, as far as its beginning shows, and where
// to take it.
func noInk(doc string, err error) string {
	head := strings.TrimSpace(strings.ToValidUTF8(doc[:min(len(doc), 4096)], ""))
	switch {
	case head == "":
		return "This file is empty. Nothing was changed."
	case strings.ContainsAny(head, "\x00\x1a\ufffd"): // as the browser reads bytes that are no text
		return "This is a picture or another file that holds no text; traces are kept in InkML files. A photo is opened in Draw, or with a note in Look back. Nothing was changed."
	case strings.HasPrefix(head, "{"):
		return "This is no InkML file. A backup is opened under Settings, a block or a quilt in its own place. Nothing was changed."
	case strings.Contains(head, "<svg"):
		return "This is a drawing (SVG). Draw opens it. Nothing was changed."
	}
	return "This file holds no traces that can be read. It should be InkML, as this page saves it (" + err.Error() + "). Nothing was changed."
}

// imported says what came of the traces of a file that are no taps.
func imported(traces, here int) string {
	text := fmt.Sprintf("%s, %d were here already.", words.Count(traces, "trace", "traces"), here)
	switch {
	case traces == 0:
		return "This file holds no trace of a movement longer than a tap. Nothing was changed."
	case traces == 1 && here == 1:
		return "This trace is here already. Nothing was changed."
	case here == traces:
		return text + " Nothing was changed."
	case here > 0:
		return text + " The others are kept now."
	case traces == 1:
		return "The trace was read from the file and is kept now."
	}
	return fmt.Sprintf("%d traces were read from the file and are kept now.", traces)
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
