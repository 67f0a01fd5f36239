package rehearse

import (
	"slices"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// inking is a file of ink that is read, or about which something is asked.
type inking struct {
	// doc is the file, unit the size in mm of its places that have none, 0 while that is
	// not known; reading tells that its traces are worked out beside the page.
	doc     string
	unit    float64
	reading bool
	// wide and tall is its ink in units of its own where those have no length, and width
	// the one in mm that is thought to be true.
	wide, tall, width float64
	// wrong tells why what was typed is no width.
	wrong words.Msg
	// lines are ink without times, in mm: a drawing, which Draw takes.
	lines []geom.Polyline
}

// sizing tells that she is asked how large the ink is.
func (k inking) sizing() bool { return k.wide > 0 && !k.reading }

const (
	// atOnce is how many traces of a file are kept between two frames.
	atOnce = 16
	// mostShown is how many samples a trace may have to be laid on the cloth unasked, which
	// takes a moment.
	mostShown = 40_000
)

// importInk has the traces of an InkML file read and measured beside the page. A trace that
// this program wrote brings its own line; any other is set against the line on the cloth.
// Of a file that does not say how large its ink is, that is asked; ink without times is
// offered to Draw.
func (r Room) importInk(doc string) (Room, []place.Effect) { return r.importSized(doc, 0) }

func (r Room) importSized(doc string, unit float64) (Room, []place.Effect) {
	r.inking = inking{doc: doc, unit: unit, reading: true}
	r.Notice = place.Notice{}
	return r.askInk()
}

// readsInk has a file read whose reading was stopped, once she wants it after all.
func (r Room) readsInk() (Room, []place.Effect) {
	if !r.inking.reading || !r.Working.Open(work.Ink, "") {
		return r, nil
	}
	return r.askInk()
}

func (r Room) askInk() (Room, []place.Effect) {
	var effects []place.Effect
	r.Shared, effects = r.Asks(work.Ink, "", work.InkIn{
		Doc: r.inking.doc, Unit: r.inking.unit, LeastMM: minTraceMM, Bare: r.newRecord(trace.Trace{}, float64(r.NowMS())),
	})
	return r, effects
}

// inked takes what a file was found to hold: keeps the traces that are not here already and
// shows the last one, unless a hand is tracing or a lesson leads.
func (r Room) inked(w place.Worked) (Room, []place.Effect) {
	out, ok := w.Out.(work.InkOut)
	if !ok || !r.inking.reading {
		return r, nil // it was lost, which is said
	}
	doc := r.inking.doc
	r.inking = inking{lines: out.Lines}
	r.Notice = place.Notice{}
	switch {
	case out.Unreadable:
		r.Notice = place.Say("rehearse.no-ink." + noInk(doc))
		return r, nil
	case out.Unsized != nil:
		u := out.Unsized
		r.inking = inking{doc: doc, wide: u.Width, tall: u.Height, width: u.Width * u.GuessMM}
		if u.Width == 0 { // a line straight down
			r.inking.wide, r.inking.width = u.Height, u.Height*u.GuessMM
		}
		return r, nil
	}
	fresh := r.notHere(out.Kept)
	r.incoming = slices.Concat(r.incoming, fresh)
	if n := len(fresh); n > 0 && fresh[n-1].Samples <= mostShown && r.Live == nil && !r.Leading() {
		if rec, err := keep.Decode(fresh[n-1].Doc); err == nil {
			r = r.reopened(rec)
		}
	}
	if len(out.Kept)+out.Taps > 0 || len(out.Lines) == 0 {
		r.Notice = place.Say("rehearse.imported", len(out.Kept), len(out.Kept)-len(fresh), len(fresh))
	}
	most := atOnce
	if r.Place != place.Rehearse {
		most = len(r.incoming) // no frame of this place will keep the others
	}
	r, effects := r.takeInk(most)
	return r.fitted(), effects
}

// notHere returns the traces that are not kept already, by name or by samples.
func (r Room) notHere(found []work.InkKept) (fresh []work.InkKept) {
	here := map[string]bool{}
	for _, s := range r.Records {
		here[s.ID], here[s.Digest] = true, true
	}
	for _, k := range r.incoming {
		here[k.ID], here[k.Digest] = true, true
	}
	for _, k := range found {
		if !here[k.ID] && !here[k.Digest] {
			fresh = append(fresh, k)
		}
		here[k.ID], here[k.Digest] = true, true
	}
	return fresh
}

// takeInk keeps at most so many of the traces that files brought.
func (r Room) takeInk(most int) (Room, []place.Effect) {
	n := min(most, len(r.incoming))
	if n == 0 {
		return r, nil
	}
	var effects []place.Effect
	var sums []keep.Summary
	for _, k := range r.incoming[:n] {
		sum, err := keep.DecodeSummary(k.Summary)
		if err != nil {
			continue // cannot be: it was just written
		}
		sums = append(sums, sum)
		effects = append(effects, place.Save{ID: k.ID, Doc: k.Doc, Summary: k.Summary})
	}
	r.Library = r.WithRecords(sums...)
	if r.incoming = r.incoming[n:]; len(r.incoming) == 0 {
		r.incoming = nil
	}
	return r, effects
}

// inkSized takes the width of the ink that was typed.
func (r Room) inkSized(e control.Event) (Room, []place.Effect) {
	if !r.inking.sizing() {
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
	if !r.inking.sizing() {
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
	if k.sizing() {
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
