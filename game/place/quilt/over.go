package quilt

import (
	"maps"
	"math"
	"strconv"
	"sync"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// OverPart is about the rows that run from edge to edge over the whole top.
type OverPart struct {
	// Any tells that there are some, CanWithin that there is a border to keep out of.
	Any       bool        `json:"any"`
	Motifs    []DesignRow `json:"motifs"`
	Size      string      `json:"size"`
	Within    bool        `json:"within"`
	CanWithin bool        `json:"canWithin"`
	Text      string      `json:"text"`
	// Now tells in a word what lies over the top.
	Now   string `json:"now"`
	Wrong string `json:"wrong"`
}

func overPart(r Room) OverPart {
	q, b := r.Top.Quilt, r.Book()
	p := OverPart{Any: q.Overall != nil, CanWithin: q.Overall != nil && len(q.Borders) > 0}
	for _, m := range motif.FromEdgeToEdge() {
		name, _ := b.Motif(m.ID)
		p.Motifs = append(p.Motifs, DesignRow{
			ID: m.ID, Name: name, Path: rowPictures()[m.ID], Outline: place.OutlinePicture(rowShape),
			Chosen: q.Overall != nil && q.Overall.Pattern == m.ID,
		})
	}
	p.Now = b.Say("quilt.over.none")
	if q.Overall == nil {
		return p
	}
	p.Now, _ = b.Motif(q.Overall.Pattern)
	p.Within, p.Size = q.Overall.Within, words.Typed(rowSize(q), b.Inches)
	p.Text, p.Wrong = overSaid(r, -1)
	if p.Text != "" && r.Top.Plan.Choices.NoDitch {
		p.Text += " " + b.Say("quilt.over.no-ditch")
	}
	return p
}

// overSaid tells how a line lies over the top, or what is wrong with it; border counts from
// 0, -1 for the rows from edge to edge.
func overSaid(r Room, border int) (said, wrong string) {
	b := r.Book()
	for _, f := range r.Top.Laying.OverMisfits {
		if f.Border == border {
			return "", b.Say("quilt.over.unfit", border >= 0)
		}
	}
	for _, o := range r.Top.Laying.Overs {
		if o.Border != border {
			continue
		}
		off := math.Abs(o.Stretch - 1)
		stretched := words.Of("quilt.over.stretched", off >= 0.005, words.Share(off), o.Stretch > 1)
		if border >= 0 {
			return b.Say("quilt.over.round", o.Repeats[0], o.Repeats[1], stretched), ""
		}
		return b.Say("quilt.over.rows", o.Repeats[1], o.Repeats[0], stretched), ""
	}
	return "", ""
}

// rowShape is the block in which rows from edge to edge are pictured.
var rowShape = motif.Shape{Kind: motif.Square, W: 300}

// rowPictures are small pictures of the motifs of rows.
var rowPictures = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	for _, m := range motif.FromEdgeToEdge() {
		if l, err := m.EdgeToEdge(rowShape.W, rowShape.W, motif.Values{"size": rowShape.W / 4}); err == nil {
			out[m.ID] = place.Picture(rowShape, l.Pieces)
		}
	}
	return out
})

// rowSize is the height in mm of the rows from edge to edge: hers, or the usual one.
func rowSize(q quilt.Quilt) float64 {
	if v, set := q.Overall.Values["size"]; set {
		return v
	}
	s := q.Size()
	if q.Overall.Within {
		s = q.Inner()
	}
	m, _ := q.Overall.Motif()
	return m.Usual(motif.Shape{Kind: motif.Rectangle, W: s.W, H: s.H})["size"]
}

// overall lays rows of a motif from edge to edge, or takes them away for "".
func (r Room) overall(id string) (top.Top, error) {
	m, known := motif.Find(id)
	if !known || !m.RunsEdgeToEdge() {
		return r.Top.SetOverall(nil)
	}
	o := quilt.Overall{Recipe: quilt.Recipe{Pattern: id, Version: m.Version}}
	if old := r.Top.Quilt.Overall; old != nil {
		o.Within, o.Values = old.Within, old.Values
	} else if r.Inches() {
		// The usual height as a ruler has it.
		q := r.Top.Quilt
		q.Overall = &o
		o.Values = motif.Values{"size": math.Round(rowSize(q)/eighth) * eighth}
	}
	return r.Top.SetOverall(&o)
}

// eighth is 1/8 in, in mm.
const eighth = 25.4 / 8

// overallSize sets the height of the rows, 0 for the usual one.
func (r Room) overallSize(mm float64) (top.Top, error) {
	old := r.Top.Quilt.Overall
	if old == nil {
		return r.Top, nil
	}
	o := *old
	o.Values = maps.Clone(o.Values)
	if o.Values == nil {
		o.Values = motif.Values{}
	}
	delete(o.Values, "size")
	if mm > 0 {
		if least, most := motif.RowHeights(); mm < least || mm > most {
			return r.Top, words.Refuse("quilt.takes.row-height", words.LengthMM(least), words.LengthMM(most))
		}
		o.Values["size"] = mm
	}
	return r.Top.SetOverall(&o)
}

// overallWithin keeps the rows within the borders, or lays them over all.
func (r Room) overallWithin(on bool) (top.Top, error) {
	old := r.Top.Quilt.Overall
	if old == nil {
		return r.Top, nil
	}
	o := *old
	o.Within = on
	return r.Top.SetOverall(&o)
}

// borderLine sews a border all round as one line of a motif, or each side for itself for "".
func (r Room) borderLine(item, id string) (top.Top, error) {
	m, known := motif.Find(id)
	return r.border(item, func(b *quilt.Border) {
		b.Line = nil
		if known && m.GoesRound() {
			b.Line = &quilt.Recipe{Pattern: id, Version: m.Version}
		}
	})
}

// lineOptions are the motifs that can go round a border, after the choice of none.
func lineOptions(b words.Book) []place.Option {
	out := []place.Option{{ID: "", Name: b.Say("quilt.over.sides")}}
	for _, m := range motif.Borders() {
		name, _ := b.Motif(m.ID)
		out = append(out, place.Option{ID: m.ID, Name: name})
	}
	return out
}

// borderRow is a border of the list.
func borderRow(r Room, i int) BorderRow {
	b, border := r.Book(), r.Top.Quilt.Borders[i]
	row := BorderRow{ID: strconv.Itoa(i), Name: b.Say("quilt.the-border"), Width: words.Typed(border.WidthMM, b.Inches), Corners: border.Corners, Lines: lineOptions(b)}
	if len(r.Top.Quilt.Borders) > 1 {
		row.Name = capital(b, top.KindName(quilt.BorderKind(i)))
	}
	if border.Line == nil {
		return row
	}
	row.Line = border.Line.Pattern
	if row.Text, row.Wrong = overSaid(r, i); row.Text == "" && row.Wrong == "" {
		row.Text = b.Say("quilt.over.under-rows")
	}
	return row
}
