package quilt

import (
	"slices"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// Page holds what the page shows where the top is laid out.
type Page struct {
	Quilts []place.Option `json:"quilts"`
	Quilt  string         `json:"quilt"`
	// Any tells that there is a quilt, None that there is none yet.
	Any  bool   `json:"any"`
	None bool   `json:"none"`
	Name string `json:"name"`
	Unit string `json:"unit"`
	// LayoutNow and SizeNow tell in a line how the top is laid out and how large it gets.
	LayoutNow string `json:"layoutNow"`
	SizeNow   string `json:"sizeNow"`

	Rows      string         `json:"rows"`
	Cols      string         `json:"cols"`
	RowsNote  string         `json:"rowsNote"`
	Settings  []place.Option `json:"settings"`
	Setting   string         `json:"setting"`
	Block     string         `json:"block"`
	Alternate string         `json:"alternate"`
	Ways      []place.Option `json:"ways"`
	Sashing   string         `json:"sashing"`
	Sashed    bool           `json:"sashed"`
	Stones    bool           `json:"stones"`
	Round     bool           `json:"round"`
	CanRound  bool           `json:"canRound"`
	Borders   []BorderRow    `json:"borders"`
	Over      OverPart       `json:"over"`
	Wrongs    Wrongs         `json:"wrongs"`

	Totals     []place.Row `json:"totals"`
	WantWidth  string      `json:"wantWidth"`
	WantHeight string      `json:"wantHeight"`
	Fit        string      `json:"fit"`

	Place  PlacePart   `json:"place"`
	Gaps   GapPart     `json:"gaps"`
	Order  OrderPart   `json:"order"`
	Away   AwayPart    `json:"away"`
	Misfit []MisfitRow `json:"misfits"`
	Amiss  bool        `json:"amiss"`
}

// Wrongs is what is wrong with what was typed, beside the field in which it stands; Other is
// about no field that has a place of its own.
type Wrongs struct {
	Rows     string `json:"rows"`
	Cols     string `json:"cols"`
	Block    string `json:"block"`
	Sashing  string `json:"sashing"`
	Border   string `json:"border"`
	OverSize string `json:"overSize"`
	Gap      string `json:"gap"`
	Width    string `json:"width"`
	Height   string `json:"height"`
	Other    string `json:"other"`
}

func (r Room) wrongs(b words.Book) (w Wrongs) {
	said := b.Write(r.Wrong.Said)
	switch r.Wrong.Field {
	case "rows":
		w.Rows = said
	case "cols":
		w.Cols = said
	case "block":
		w.Block = said
	case "sashing", "stones", "round":
		w.Sashing = said
	case "border-add", "border-width", "border-corners", "border-drop":
		w.Border = said
	case "overall-size":
		w.OverSize = said
	case "gap":
		w.Gap = said
	case "want-width":
		w.Width = said
	case "want-height":
		w.Height = said
	default:
		w.Other = said
	}
	return w
}

// BorderRow is one border, counted from the inside.
type BorderRow struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Width   string `json:"width"`
	Corners bool   `json:"corners"`
	// Line is the motif that is sewn all round it, of Lines; Text and Wrong tell how it
	// lies.
	Line  string         `json:"line"`
	Lines []place.Option `json:"lines"`
	Text  string         `json:"text"`
	Wrong string         `json:"wrong"`
}

// MisfitRow is a place whose design cannot lie in it.
type MisfitRow struct {
	ID   string `json:"id"`
	Text string `json:"text"`
}

// PlacePart is about the place that is chosen.
type PlacePart struct {
	Chosen bool `json:"chosen"`
	// Ready tells that a design can be chosen on the cloth as it is seen.
	Ready   bool   `json:"ready"`
	Name    string `json:"name"`
	Kind    string `json:"kind"`
	All     bool   `json:"all"`
	One     bool   `json:"one"`
	AllText string `json:"allText"`
	// Under says that a line lies over it.
	Under   string      `json:"under"`
	Designs []DesignRow `json:"designs"`
	Filled  bool        `json:"filled"`
	CanTurn bool        `json:"canTurn"`
	Turn    string      `json:"turn"`
	Draw    string      `json:"draw"`
	// Motifs are the ready motifs that can be laid here.
	Motifs []place.Option `json:"motifs"`
}

// Page returns what the page shows of the place.
func (r Room) Page() place.Page {
	t, inches, b := r.Top, r.Inches(), r.Book()
	q := t.Quilt
	p := Page{
		Quilt: q.ID, Any: q.ID != "", None: q.ID == "", Name: q.Name, Unit: b.Say("draw.unit", inches),
		Wrongs: r.wrongs(b),
	}
	for _, x := range r.Quilts {
		p.Quilts = append(p.Quilts, place.Option{ID: x.ID, Name: x.Name})
	}
	steps := place.Steps{Undo: t.CanUndo(), Redo: t.CanRedo(), Sizes: p.Any}
	if q.ID == "" {
		return place.Page{Sentence: topSentence(r), Steps: steps, Cloth: b.Say("quilt.none-yet"), In: p}
	}
	layoutPart(&p, q, b)
	for i := range q.Borders {
		p.Borders = append(p.Borders, borderRow(r, i))
	}
	p.Over = overPart(r)
	p.Totals = totals(q, b)
	p.SizeNow = p.Totals[0].Value
	if s := t.Want; s.W > 0 {
		p.WantWidth = words.Typed(s.W, inches)
	}
	if s := t.Want; s.H > 0 {
		p.WantHeight = words.Typed(s.H, inches)
	}
	p.Fit = fitText(t, b)
	p.Place, p.Gaps, p.Order, p.Away = placePart(r), gapPart(r), orderPart(r), awayPart(r)
	p.Misfit = misfits(r)
	p.Amiss = len(p.Misfit) > 0
	if r.pane.Larger() && !r.Away.Back {
		steps.Whole = b.Say("quilt.whole")
	}
	return place.Page{Sentence: topSentence(r), Steps: steps, In: p, Cloth: b.Say("quilt.cloth", q.Name, len(t.Laying.Cells), chosenText(r))}
}

// layoutPart fills what can be typed of the layout.
func layoutPart(p *Page, q quilt.Quilt, b words.Book) {
	inches := b.Inches
	p.LayoutNow = b.Say("quilt.layout-now", q.Rows, q.Cols, words.SizeMM(q.BlockMM), len(q.Borders))
	p.Rows, p.Cols = strconv.Itoa(q.Rows), strconv.Itoa(q.Cols)
	for _, s := range []quilt.Setting{quilt.Straight, quilt.OnPoint} {
		p.Settings = append(p.Settings, place.Option{ID: string(s), Name: b.Say("quilt.setting." + string(s))})
	}
	p.Setting, p.Block = string(q.Setting), words.Typed(q.BlockMM, inches)
	p.Ways = []place.Option{{ID: string(quilt.AllAlike), Name: b.Say("quilt.all-alike")}}
	for _, a := range []quilt.Alternation{quilt.Checkerboard, quilt.ByRow} {
		p.Ways = append(p.Ways, place.Option{ID: string(a), Name: b.Say("quilt.alternate." + string(a))})
	}
	p.Alternate = string(q.Alternate)
	p.Sashing, p.Sashed = words.Typed(q.Sashing.WidthMM, inches), q.Sashing.WidthMM > 0
	p.Stones, p.Round, p.CanRound = q.Sashing.Cornerstones, q.Sashing.Round, p.Sashed && q.Setting == quilt.Straight
	if q.Setting == quilt.OnPoint {
		p.RowsNote = b.Say("quilt.rows-note", (q.Rows-1)*(q.Cols-1))
	}
}

// placePart tells of the place chosen and offers the designs for it.
func placePart(r Room) PlacePart {
	t, b := r.Top, r.Book()
	c, ok := t.Cell()
	if !ok {
		return PlacePart{}
	}
	choice := t.Choice()
	same := 0
	for _, x := range t.Laying.Cells {
		if x.Kind == c.Kind {
			same++
		}
	}
	p := PlacePart{
		Chosen: true, Ready: !r.Away.Back, Name: capital(b, top.SpotName(c.Spot)), Kind: b.Amount(words.List{top.KindName(c.Kind), top.ShapeSize(c.Shape)}),
		All: t.Scope == top.AllOfKind, One: t.Scope == top.OnlyThis, Filled: choice.Design != "",
		CanTurn: t.CanTurn(), Turn: b.Say("quilt.turn-quarter"), Draw: b.Say("quilt.draw-block"),
	}
	p.AllText = b.Say("quilt.all-of-kind", same)
	if c.Shape.Kind == motif.Rectangle {
		p.Turn = b.Say("quilt.turn-round")
	}
	if c.Kind != quilt.Block && c.Kind != quilt.Alternate {
		p.Draw = b.Say("quilt.draw-place")
	}
	if choice.Design != "" {
		n := t.Lies(choice.Design)
		p.Draw = b.Say("quilt.edit-lines", n, n > 1 && t.Scope == top.OnlyThis)
	}
	if t.Quilt.Covered(c) {
		p.Under = b.Say("quilt.over.covered")
	}
	p.Motifs = motifOptions(b)
	p.Designs = designRows(r, c.Shape.Kind, choice.Design)
	return p
}

// motifOptions are the ready motifs by name, after the choice of none.
func motifOptions(b words.Book) []place.Option {
	out := []place.Option{{ID: "", Name: b.Say("quilt.motif-choose")}}
	for _, m := range motif.Ready() {
		name, _ := b.Motif(m.ID)
		out = append(out, place.Option{ID: m.ID, Name: name})
	}
	return out
}

// DesignRow is a design with its picture.
type DesignRow struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Path    string `json:"path"`
	Outline string `json:"outline"`
	Chosen  bool   `json:"chosen"`
}

// designRows are the person's designs: those of the place's own shape come first, as
// they lie in it as they are.
func designRows(r Room, kind motif.ShapeKind, chosen string) []DesignRow {
	var own, others []DesignRow
	for _, d := range r.Designs {
		row := DesignRow{
			ID: d.ID, Name: d.Name, Path: r.pictures.paths[d.ID], Outline: place.OutlinePicture(d.Shape),
			Chosen: d.ID == chosen,
		}
		if d.Shape.Kind == kind {
			own = append(own, row)
		} else {
			others = append(others, row)
		}
	}
	return append(own, others...)
}

// misfits are the places whose design cannot lie in them, with why.
func misfits(r Room) []MisfitRow {
	var out []MisfitRow
	cells := r.Top.Laying.Cells
	for _, f := range r.Top.Laying.Misfits {
		i := slices.IndexFunc(cells, func(c quilt.Cell) bool { return c.ID == f.Cell })
		out = append(out, MisfitRow{f.Cell, capital(r.Book(), misfitText(f, cells[i]))})
		if len(out) == mostMisfits {
			break
		}
	}
	return out
}

// mostMisfits is how many are listed: what is wrong in one place of a kind is wrong
// in all of them.
const mostMisfits = 6

// misfitText says why a design cannot lie in a place.
func misfitText(f quilt.Misfit, c quilt.Cell) words.Msg {
	at := top.SpotName(c.Spot)
	switch f.Why {
	case quilt.OtherShape:
		return words.Of("quilt.misfit.other-shape", at, f.Design, top.ShapeName(f.Drawn), top.ShapeName(c.Shape.Kind))
	case quilt.HalfTurns:
		return words.Of("quilt.misfit.half-turns", at)
	case quilt.Turned:
		return words.Of("quilt.misfit.turned", at)
	case quilt.Unmade:
		return words.Of("quilt.misfit.unmade", at, f.Design)
	}
	return words.Of("quilt.misfit.gone", at)
}
