package quilt

import (
	"fmt"
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
	Wrong     string         `json:"wrong"`

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

	Undo bool `json:"undo"`
	Redo bool `json:"redo"`
}

// BorderRow is one border, counted from the inside.
type BorderRow struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Width   string `json:"width"`
	Corners bool   `json:"corners"`
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
	Ready   bool        `json:"ready"`
	Name    string      `json:"name"`
	Kind    string      `json:"kind"`
	All     bool        `json:"all"`
	One     bool        `json:"one"`
	AllText string      `json:"allText"`
	Designs []DesignRow `json:"designs"`
	Filled  bool        `json:"filled"`
	CanTurn bool        `json:"canTurn"`
	Turn    string      `json:"turn"`
	Draw    string      `json:"draw"`
}

// Page returns what the page shows of the place.
func (r Room) Page() place.Page {
	t, inches := r.Top, r.Inches()
	q := t.Quilt
	p := Page{
		Quilt: q.ID, Any: q.ID != "", None: q.ID == "", Name: q.Name, Unit: unitName(inches),
		Wrong: r.Wrong.Text, Undo: t.CanUndo(), Redo: t.CanRedo(),
	}
	for _, x := range r.Quilts {
		p.Quilts = append(p.Quilts, place.Option{ID: x.ID, Name: x.Name})
	}
	if q.ID == "" {
		return place.Page{Sentence: topSentence(r), Cloth: "No quilt is laid out yet.", In: p}
	}
	layoutPart(&p, q, inches)
	p.Totals = totals(q, r.say)
	if s := t.Want; s.W > 0 {
		p.WantWidth = words.Typed(s.W, inches)
	}
	if s := t.Want; s.H > 0 {
		p.WantHeight = words.Typed(s.H, inches)
	}
	p.Fit = t.FitMessage(r.say)
	p.Place, p.Gaps, p.Order, p.Away = placePart(r), gapPart(r), orderPart(r), awayPart(r)
	p.Misfit = misfits(r)
	p.Amiss = len(p.Misfit) > 0
	return place.Page{Sentence: topSentence(r), In: p, Cloth: fmt.Sprintf("The top of %q, %d places. Arrow keys go from place to place, with shift in the order of sewing; Enter opens the designs. %s",
		q.Name, len(t.Laying.Cells), chosenText(r))}
}

// layoutPart fills what can be typed of the layout.
func layoutPart(p *Page, q quilt.Quilt, inches bool) {
	p.Rows, p.Cols = strconv.Itoa(q.Rows), strconv.Itoa(q.Cols)
	p.Settings = []place.Option{{ID: string(quilt.Straight), Name: "straight"}, {ID: string(quilt.OnPoint), Name: "on point"}}
	p.Setting, p.Block = string(q.Setting), words.Typed(q.BlockMM, inches)
	p.Ways = []place.Option{
		{ID: string(quilt.AllAlike), Name: "all blocks alike"},
		{ID: string(quilt.Checkerboard), Name: "every other block another"},
		{ID: string(quilt.ByRow), Name: "every other row another"},
	}
	p.Alternate = string(q.Alternate)
	p.Sashing, p.Sashed = words.Typed(q.Sashing.WidthMM, inches), q.Sashing.WidthMM > 0
	p.Stones, p.Round, p.CanRound = q.Sashing.Cornerstones, q.Sashing.Round, p.Sashed && q.Setting == quilt.Straight
	if q.Setting == quilt.OnPoint {
		p.RowsNote = fmt.Sprintf("On point these are the full rows; %d more blocks stand between them.", (q.Rows-1)*(q.Cols-1))
	}
	for i, b := range q.Borders {
		name := "Border"
		if len(q.Borders) > 1 {
			name = fmt.Sprintf("Border %d", i+1)
		}
		p.Borders = append(p.Borders, BorderRow{strconv.Itoa(i), name, words.Typed(b.WidthMM, inches), b.Corners})
	}
}

// placePart tells of the place chosen and offers the designs for it.
func placePart(r Room) PlacePart {
	t := r.Top
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
		Chosen: true, Ready: !r.Away.Back, Name: capital(c.Name), Kind: fmt.Sprintf("%s, %s", c.Kind.Name(), shapeText(c.Shape, r.say)),
		All: t.Scope == top.AllOfKind, One: t.Scope == top.OnlyThis, Filled: choice.Design != "",
		CanTurn: t.CanTurn(), Turn: "Turn by a quarter", Draw: "Draw this block",
	}
	p.AllText = fmt.Sprintf("All of its kind (%d)", same)
	if c.Shape.Kind == motif.Rectangle {
		p.Turn = "Turn round"
	}
	if c.Kind != quilt.Block && c.Kind != quilt.Alternate {
		p.Draw = "Draw for this place"
	}
	p.Designs = designRows(r, c.Shape.Kind, choice.Design)
	return p
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
	t := r.Top
	known := map[string]bool{}
	for _, d := range r.Designs {
		known[d.ID] = true
	}
	var out []MisfitRow
	for _, f := range t.Laying.Misfits {
		i := slices.IndexFunc(t.Laying.Cells, func(c quilt.Cell) bool { return c.ID == f.Cell })
		text := capital(f.Err.Error()) + "."
		if !known[t.Quilt.Choice(t.Laying.Cells[i]).Design] {
			text = capital(t.Laying.Cells[i].Name) + ": its design was deleted. Choose another."
		}
		out = append(out, MisfitRow{f.Cell, text})
		if len(out) == mostMisfits {
			break
		}
	}
	return out
}

// mostMisfits is how many are listed: what is wrong in one place of a kind is wrong
// in all of them.
const mostMisfits = 6

func unitName(inches bool) string {
	if inches {
		return "inches"
	}
	return "mm"
}
