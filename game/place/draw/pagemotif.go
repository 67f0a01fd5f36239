package draw

import (
	"math"
	"strconv"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// motifPart fills what is said of ready motifs.
func (r Room) motifPart(d *Page) {
	b := r.Board
	chosen := ""
	if b.Design.Recipe != nil {
		chosen = b.Design.Recipe.Pattern
	}
	d.Motif = r.Book().Say("draw.motif.none")
	outline := place.OutlinePicture(b.Design.Shape)
	d.Picking, d.PickOpen, d.PickText = r.Picking(), "false", r.Book().Say("draw.pick.choose")
	if chosen != "" {
		d.PickText = r.Book().Say("draw.pick.change")
	}
	if d.Picking {
		d.PickOpen, d.PickText = "true", r.Book().Say("draw.pick.fold")
	}
	head, hard := "", motif.Hardness{}
	for _, pv := range r.gallery.previews {
		p := pv.motif
		if kind := place.MotifKind(p); kind != head {
			head = kind
			d.Motifs = append(d.Motifs, MotifRow{ID: "kind-" + kind, Head: r.Book().Say("draw.motifs." + kind), Fits: true})
		}
		name, note := r.Book().Motif(p.ID)
		d.Motifs = append(d.Motifs, MotifRow{ID: p.ID, Name: name, Path: pv.path, Outline: outline, Chosen: p.ID == chosen, Fits: pv.path != "" || !pv.made, Facts: r.motifFacts(pv), Why: r.Book().Write(place.MotifWhy(pv.why))})
		if pv.why != nil {
			d.Greyed = append(d.Greyed, place.Option{ID: p.ID, Name: r.Book().Say("draw.greyed-why", name, place.MotifWhy(pv.why))})
		}
		if p.ID == chosen {
			d.Motif, d.MotifNote, d.HasMotif, d.MotifOlder = name, note, true, b.Older()
			hard = pv.effort.Hard(r.Settings.HandSpeed())
			now, _ := b.Design.Recipe.Motif()
			d.Params = paramRows(now, b.Design.Recipe.Values, b.Design.Shape, r.Book())
		}
	}
	if n := len(d.Greyed); d.Picking && n > 0 {
		d.GreyedText = r.Book().Say("draw.greyed", n)
	}
	if b.Trouble != nil {
		d.MotifWrong = r.Book().Say("draw.too-large-detail", place.MotifWhy(b.Trouble))
	}
	if d.HasMotif && b.Trouble == nil {
		d.MotifFigure = strings.TrimSpace(motifFigures(r.Book(), b) + " " + hardText(r.Book(), hard))
	}
}

// motifFacts says how hard a motif is, how close its lines lie, and how long it takes to sew
// at the speed of hand that is set.
func (r Room) motifFacts(pv preview) string {
	if pv.effort.Length == 0 {
		return ""
	}
	hand := r.Settings.HandSpeed()
	hard := words.Of("draw.hard." + strconv.Itoa(pv.effort.Hard(hand).Level))
	return r.Book().Say("draw.motif-facts", hard, words.SmallMM(pv.effort.Spacing), words.RoughS(pv.effort.Length/hand))
}

// hardText says how hard a motif is as it is usually set, and what makes it so; nothing of
// no lines. To measure it as it is set now would take too long for each page.
func hardText(b words.Book, h motif.Hardness) string {
	if h.Level == 0 {
		return ""
	}
	var why words.And
	for _, d := range h.Demands {
		why = append(why, words.Of("draw.demand."+string(d)))
	}
	return b.Say("draw.hard-why", words.Of("draw.hard."+strconv.Itoa(h.Level)), len(why), why)
}

// motifFigures says how long the line is, in how many pieces, and how tight its
// tightest curve.
func motifFigures(book words.Book, b board.Board) string {
	ready := quilt.Design{Shape: b.Design.Shape, Margin: b.Design.Margin, Recipe: b.Design.Recipe}
	pieces, err := ready.Work()
	if err != nil {
		return ""
	}
	length, tight := 0.0, 0.0
	for _, p := range pieces {
		length += p.Path.Length()
		if r := p.Curvature().Radius; !p.Ruler && (tight == 0 || r < tight) {
			tight = r
		}
	}
	if tight == 0 || math.IsInf(tight, 1) {
		return book.Say("draw.figures-straight", words.LengthMM(length), len(pieces))
	}
	return book.Say("draw.figures", words.LengthMM(length), len(pieces), words.SmallMM(tight))
}

func paramRows(p motif.Motif, v motif.Values, s motif.Shape, b words.Book) []ParamRow {
	usual := p.Usual(s)
	var out []ParamRow
	for _, q := range p.Params {
		x, ok := v[q.ID]
		if !ok {
			x = usual[q.ID]
		}
		row := ParamRow{
			ID: q.ID, Name: b.MotifParam(p.ID, q.ID), Value: number(x), Text: paramText(p.ID, q, x, b),
			Min: number(q.Min), Max: number(q.Max), Step: number(q.Step),
			Slides: len(q.Choices) == 0, Chooses: len(q.Choices) > 0,
		}
		for i, c := range q.Choices {
			row.Words = append(row.Words, place.Option{ID: strconv.Itoa(i), Name: b.MotifChoice(p.ID, q.ID, c)})
		}
		out = append(out, row)
	}
	return out
}

func paramText(id string, q motif.Param, x float64, b words.Book) string {
	switch {
	case len(q.Choices) > 0 && int(x) >= 0 && int(x) < len(q.Choices):
		return b.MotifChoice(id, q.ID, q.Choices[int(x)])
	case q.Unit == "mm":
		return b.Amount(words.LengthMM(x))
	case q.Unit != "degrees":
		return number(x)
	}
	return b.Say("draw.degrees", x)
}
