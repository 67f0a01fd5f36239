package quilt

import (
	"fmt"
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
	t, ms := r.Top, r.Top.Measures
	p := GapPart{Ditch: r.Settings.Ditch}
	if t.Quilt.GapMM > 0 {
		p.Limit = words.Typed(t.Quilt.GapMM, r.Inches())
	}
	switch {
	case !ms.Done:
		p.Text = "Measuring the gaps."
		return p
	case ms.Trouble != "":
		p.Text = "The gaps could not be measured: " + ms.Trouble + "."
		return p
	}
	p.Text = gapText(r)
	for i, g := range ms.Wide {
		p.Wide = append(p.Wide, GapRow{strconv.Itoa(i + 1), wideText(g, t.Quilt.GapMM, r.say) + " wide, " + placeText(t, g.Centre), i == r.Gap})
	}
	p.Has = len(p.Wide) > 0
	p.Spread = spreadText(t, r.say)
	for i, k := range ms.Kinds {
		p.Kinds = append(p.Kinds, KindRow{ID: strconv.Itoa(i), Name: fmt.Sprintf("%s in %s", k.Design, k.Kind.Name()), Value: apartText(k.Spread, r.say),
			Note: fmt.Sprintf("varies by %s within it", words.Percent(k.Spread.CV))})
	}
	return p
}

// wideText says how wide a gap is that is wider than the limit: where both read the
// same, a little over it.
func wideText(g plane.Gap, limit float64, say top.Say) string {
	if say(g.Width()) == say(limit) {
		return "a little over " + say(limit)
	}
	return say(g.Width())
}

// gapText sets the widest gap against the batting's limit.
func gapText(r Room) string {
	t, ms := r.Top, r.Top.Measures
	widest := fmt.Sprintf("The widest place without stitching is %s across, %s.", r.say(ms.Largest.Width()), placeText(t, ms.Largest.Centre))
	switch limit := t.Quilt.GapMM; {
	case limit == 0:
		return widest + " Type the limit of your batting to compare."
	case len(ms.Wide) == 0:
		return widest + fmt.Sprintf(" Your batting allows %s: it holds.", r.say(limit))
	case ms.More:
		return widest + fmt.Sprintf(" Your batting allows %s. More than %d places are wider; the widest are below.", r.say(limit), top.MostGaps)
	default:
		return widest + fmt.Sprintf(" Your batting allows %s. %s wider.", r.say(limit), plural(len(ms.Wide), "place is", "places are"))
	}
}

// placeText says where on the top a point lies.
func placeText(t top.Top, p geom.Point) string {
	i := t.CellAt(p)
	if i == top.None {
		return "at the edge"
	}
	return "in " + t.Laying.Cells[i].Name
}

// The variation of the density from window to window up to which a top is called
// even, and fairly even. Our own words for a scale that no standard sets.
const evenCV, fairCV = 0.25, 0.5

// spreadText says how far apart the lines lie on average over the top, and how much
// that varies from hand's breadth to hand's breadth.
func spreadText(t top.Top, say top.Say) string {
	s := t.Measures.Spread
	if s.Mean == 0 {
		return "Nothing is stitched yet."
	}
	middle := func(w plane.Window) geom.Point { return geom.Lerp(w.Lo, w.Hi, 0.5) }
	how := "uneven: cloth can ripple between the dense and the thin places"
	switch {
	case s.CV < evenCV:
		how = "even"
	case s.CV < fairCV:
		how = "fairly even"
	}
	return fmt.Sprintf("Over the top %s. From one hand's breadth to the next that varies by %s: %s. Densest %s, thinnest %s.",
		apartText(s, say), words.Percent(s.CV), how, placeText(t, middle(s.Densest)), placeText(t, middle(s.Sparsest)))
}

// apartText turns a density into how far apart the lines lie: an area over the
// length in it.
func apartText(s plane.Evenness, say top.Say) string {
	if s.Mean == 0 {
		return "no lines"
	}
	return "lines lie " + say(1/s.Mean) + " apart on average"
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
	o := r.Top.Order
	find := r.Finding
	p := OrderPart{Asked: o.Done, Busy: find != nil, Idle: find == nil, Of: "1"}
	if find != nil {
		done, of := find.Progress()
		p.Done, p.Of, p.Progress = strconv.Itoa(done), strconv.Itoa(max(1, of)), fmt.Sprintf("%d of %s", done, plural(of, "row", "rows"))
	}
	if !o.Done {
		return p
	}
	if p.Text = o.Trouble; p.Text != "" {
		return p
	}
	p.Text = orderText(o.Route, r.say) + " The numbers on the cloth stand where each row is begun."
	for i, l := range o.Legs {
		p.Rows = append(p.Rows, OrderRow{ID: strconv.Itoa(i + 1), Value: capital(l.Name) + ", " + legText(l)})
	}
	return p
}

// orderText says what the way round the whole top adds.
func orderText(r route.Route, say top.Say) string {
	text := "Nothing is sewn twice"
	if r.RetraceMM > 0.5 {
		text = say(r.RetraceMM) + " is sewn twice"
	}
	if r.SeamMM > 0.5 {
		text += ", " + say(r.SeamMM) + " is travelled in the ditch"
	}
	return text + ", with " + plural(r.Jumps, "stop-and-start", "stop-and-starts") + "."
}

// legText says how a row is sewn and how the needle comes to it.
func legText(l top.Leg) string {
	text := "one way, " + wayText(l.Begin, l.End)
	if l.Twice {
		text = "out and back"
	}
	if l.Stops > 0 {
		text += ", after a stop-and-start"
	}
	return text
}

func wayText(from, to geom.Point) string {
	d := geom.Pt(to.X-from.X, to.Y-from.Y)
	switch {
	case math.Hypot(d.X, d.Y) < 1:
		return "round and back to its beginning"
	case math.Abs(d.X) < math.Abs(d.Y)/3 && d.Y > 0:
		return "downwards"
	case math.Abs(d.X) < math.Abs(d.Y)/3:
		return "upwards"
	case d.X > 0:
		return "from left to right"
	}
	return "from right to left"
}
