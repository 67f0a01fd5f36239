package rehearse

import (
	"errors"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// inking is a file of ink about which something is asked.
type inking struct {
	// doc is a file whose places have no length, wide and tall its ink in units of its own,
	// and width the one in mm that is thought to be true.
	doc               string
	wide, tall, width float64
	// wrong tells why what was typed is no width.
	wrong words.Msg
	// lines are ink without times, in mm: a drawing, which Draw takes.
	lines []geom.Polyline
}

// importInk reads the traces of an InkML file, keeps those that are not here already,
// and shows the last one. A trace that this program wrote brings its own line; any
// other is set against the line on the cloth. Of a file that does not say how large its
// ink is, that is asked; ink without times is offered to Draw.
func (r Room) importInk(doc string) (Room, []place.Effect) { return r.importSized(doc, 0) }

func (r Room) importSized(doc string, unit float64) (Room, []place.Effect) {
	r.inking = inking{}
	inks, err := trace.ReadInk(strings.NewReader(doc), unit)
	var unsized *trace.UnitError
	if errors.As(err, &unsized) && max(unsized.Width, unsized.Height) > 0 {
		r.inking = inking{doc: doc, wide: unsized.Width, tall: unsized.Height, width: unsized.Width * unsized.GuessMM}
		if unsized.Width == 0 { // a line straight down
			r.inking.wide, r.inking.width = unsized.Height, unsized.Height*unsized.GuessMM
		}
		r.Notice = place.Notice{}
		return r, nil
	}
	if err != nil {
		r.Notice = place.Say("rehearse.no-ink." + noInk(doc))
		return r, nil
	}
	var kept []place.Effect
	traces, here, taps := 0, 0, 0
	for _, k := range inks {
		if k.Timeless {
			r.inking.lines = append(r.inking.lines, pathOf(k.Trace))
			continue
		}
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
			r, e = r.laid(r.made(k.Trace, float64(r.NowMS())+float64(traces), nil))
		}
		traces++
		kept = append(kept, e...)
	}
	r.Notice = place.Notice{}
	if traces > 0 || len(r.inking.lines) == 0 {
		r.Notice = place.Say("rehearse.imported", traces-taps, here, traces-taps-here)
	}
	return r.fitted(), kept
}

// inkSized takes the width of the ink that was typed.
func (r Room) inkSized(e control.Event) (Room, []place.Effect) {
	if r.inking.doc == "" {
		return r, nil
	}
	width, err := words.ParseLength(e.Text, r.Inches())
	if err != nil || width < minTraceMM || width > maxInkMM {
		r.inking.wrong = words.Of("rehearse.ink.takes", words.LengthMM(minTraceMM), words.LengthMM(maxInkMM))
		return r, nil
	}
	r.inking.width, r.inking.wrong = width, words.Msg{}
	return r, nil
}

// maxInkMM in mm is the widest that ink from a file is taken: wider than any quilt.
const maxInkMM = 4000

// inkTaken takes the ink in as wide as it is said to be.
func (r Room) inkTaken() (Room, []place.Effect) {
	if r.inking.doc == "" {
		return r, nil
	}
	return r.importSized(r.inking.doc, r.inking.width/r.inking.wide)
}

// inkDrawn takes ink without times to Draw.
func (r Room) inkDrawn() (Room, []place.Effect) {
	lines := r.inking.lines
	r.inking = inking{}
	if lines == nil {
		return r, nil
	}
	return r, []place.Effect{place.Ink{Lines: lines}}
}

// inkLeft lets go of the file.
func (r Room) inkLeft() (Room, []place.Effect) {
	r.inking = inking{}
	return r, nil
}

// InkPage is what the page asks of a file of ink.
type InkPage struct {
	Sizing bool   `json:"sizing"`
	Asked  string `json:"asked"`
	Width  string `json:"width"`
	Wrong  string `json:"wrong"`
	// Drawn tells why ink without times is no trace; it is empty for none.
	Drawn string `json:"drawn"`
}

func (r Room) inkPage() InkPage {
	b, k := r.Book(), r.inking
	var p InkPage
	if k.doc != "" {
		p = InkPage{Sizing: true, Wrong: b.Write(k.wrong), Width: b.Amount(words.ExactMM(k.width)),
			Asked: b.Say("rehearse.ink.asked", words.Decimal{Value: k.wide}, words.Decimal{Value: k.tall})}
	}
	if n := len(k.lines); n > 0 {
		p.Drawn = b.Say("rehearse.ink.timeless", n)
	}
	return p
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
