package quilt

import (
	"strconv"

	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// GapPart is about the gaps between the lines and how evenly they lie.
type GapPart struct {
	Limit  string    `json:"limit"`
	Ditch  bool      `json:"ditch"`
	Text   string    `json:"text"`
	Wide   []GapRow  `json:"wide"`
	Has    bool      `json:"has"`
	Spread string    `json:"spread"`
	Kinds  []KindRow `json:"kinds"`
}

// KindRow tells how far apart the lines of a design lie in a kind of place.
type KindRow struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Value string `json:"value"`
	Note  string `json:"note"`
}

// GapRow is a gap wider than the batting allows.
type GapRow struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	On   bool   `json:"on"`
}

func gapPart(r Room) GapPart {
	t, ms, b := r.Top, r.Top.Measures, r.Book()
	p := GapPart{Ditch: r.Settings.Ditch}
	if t.Quilt.GapMM > 0 {
		p.Limit = words.Typed(t.Quilt.GapMM, r.Inches())
	}
	switch {
	case !ms.Done:
		p.Text = b.Say("quilt.measuring")
		return p
	case ms.Failed:
		p.Text = b.Say("quilt.unmeasured")
		return p
	}
	p.Text = gapText(r)
	for i, g := range ms.Wide {
		p.Wide = append(p.Wide, GapRow{strconv.Itoa(i + 1), b.Write(wideText(r, g)), i == r.Gap})
	}
	p.Has = len(p.Wide) > 0
	p.Spread = b.Write(spreadText(t))
	for i, k := range ms.Kinds {
		p.Kinds = append(p.Kinds, KindRow{ID: strconv.Itoa(i), Name: b.Say("quilt.design-in", k.Design, top.KindName(k.Kind)), Value: b.Write(apartText(k.Spread)),
			Note: b.Say("quilt.varies-within", words.Share(k.Spread.CV))})
	}
	return p
}

// wideText says how wide a gap is that is wider than the limit, and where: where both read
// the same, a little over it.
func wideText(r Room, g plane.Gap) words.Msg {
	limit := r.Top.Quilt.GapMM
	same := r.say(g.Width()) == r.say(limit)
	return words.Of("quilt.wide", same, words.LengthMM(g.Width()), placeText(r.Top, g.Centre))
}

// gapText sets the widest gap against the batting's limit.
func gapText(r Room) string {
	t, ms := r.Top, r.Top.Measures
	limit, verdict := words.LengthMM(t.Quilt.GapMM), words.Msg{}
	switch {
	case limit == 0:
		verdict = words.Of("quilt.no-limit")
	case len(ms.Wide) == 0:
		verdict = words.Of("quilt.holds", limit)
	case ms.More:
		verdict = words.Of("quilt.wider-than-listed", limit, top.MostGaps)
	default:
		verdict = words.Of("quilt.wider", limit, len(ms.Wide))
	}
	return r.Book().Say("quilt.widest", words.LengthMM(ms.Largest.Width()), placeText(t, ms.Largest.Centre), verdict)
}

// placeText says where on the top a point lies.
func placeText(t top.Top, p geom.Point) words.Msg {
	i := t.CellAt(p)
	if i == top.None {
		return words.Of("quilt.at-edge")
	}
	return words.Of("quilt.in", top.SpotName(t.Laying.Cells[i].Spot))
}

// The variation of the density from window to window up to which a top is called
// even, and fairly even. Our own words for a scale that no standard sets.
const evenCV, fairCV = 0.25, 0.5

// spreadText says how far apart the lines lie on average over the top, and how much
// that varies from hand's breadth to hand's breadth.
func spreadText(t top.Top) words.Msg {
	s := t.Measures.Spread
	if s.Mean == 0 {
		return words.Of("quilt.unstitched")
	}
	middle := func(w plane.Window) geom.Point { return geom.Lerp(w.Lo, w.Hi, 0.5) }
	how := "uneven"
	switch {
	case s.CV < evenCV:
		how = "even"
	case s.CV < fairCV:
		how = "fair"
	}
	return words.Of("quilt.spread", apartText(s), words.Share(s.CV), how, placeText(t, middle(s.Densest)), placeText(t, middle(s.Sparsest)))
}

// apartText turns a density into how far apart the lines lie: an area over the
// length in it.
func apartText(s plane.Evenness) words.Msg {
	if s.Mean == 0 {
		return words.Of("quilt.no-lines")
	}
	return words.Of("quilt.apart", words.LengthMM(1/s.Mean))
}
