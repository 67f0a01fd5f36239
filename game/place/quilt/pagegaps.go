package quilt

import (
	"errors"
	"math"
	"strconv"

	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
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
	case ms.Trouble != nil:
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

// OrderPart is about the order of the rows.
type OrderPart struct {
	Asked bool       `json:"asked"`
	Text  string     `json:"text"`
	Rows  []OrderRow `json:"rows"`
	Busy  bool       `json:"busy"`
	Idle  bool       `json:"idle"`
	// Done of Of rows have been gone through; Progress says it in words.
	Done     string `json:"done"`
	Of       string `json:"of"`
	Progress string `json:"progress"`
}

// OrderRow is one row in the order of sewing.
type OrderRow struct {
	ID    string `json:"id"`
	Value string `json:"value"`
}

func orderPart(r Room) OrderPart {
	o, b := r.Top.Order, r.Book()
	find := r.Finding
	p := OrderPart{Asked: o.Done, Busy: find != nil, Idle: find == nil, Of: "1"}
	if find != nil {
		done, of := find.Progress()
		p.Done, p.Of, p.Progress = strconv.Itoa(done), strconv.Itoa(max(1, of)), b.Say("quilt.rows-done", done, of)
	}
	switch {
	case !o.Done:
		return p
	case errors.Is(o.Trouble, route.ErrNothing):
		p.Text = b.Say("quilt.nothing-to-order")
		return p
	case o.Trouble != nil:
		p.Text = b.Say("quilt.no-order")
		return p
	}
	added := o.Route
	p.Text = b.Say("quilt.order", added.RetraceMM > 0.5, words.LengthMM(added.RetraceMM), added.SeamMM > 0.5, words.LengthMM(added.SeamMM), added.Jumps)
	for i, l := range o.Legs {
		p.Rows = append(p.Rows, OrderRow{ID: strconv.Itoa(i + 1), Value: capital(b, words.Of("quilt.leg", r.Top.RowSaid(l.Row), l.Twice, way(l.Begin, l.End), l.Stops > 0))})
	}
	return p
}

// way tells whither a row leads from where it begins.
func way(from, to geom.Point) string {
	d := geom.Pt(to.X-from.X, to.Y-from.Y)
	switch {
	case math.Hypot(d.X, d.Y) < 1:
		return "round"
	case math.Abs(d.X) < math.Abs(d.Y)/3 && d.Y > 0:
		return "down"
	case math.Abs(d.X) < math.Abs(d.Y)/3:
		return "up"
	case d.X > 0:
		return "right"
	}
	return "left"
}
