package draw

import (
	"fmt"
	"math"
	"regexp"
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
	b, inches := r.Board, r.Inches()
	chosen := ""
	if b.Design.Recipe != nil {
		chosen = b.Design.Recipe.Pattern
	}
	d.Motif = "none"
	outline := place.OutlinePicture(b.Design.Shape)
	d.Picking, d.PickOpen, d.PickText = r.Picking(), "false", "Choose"
	if chosen != "" {
		d.PickText = "Change"
	}
	if d.Picking {
		d.PickOpen, d.PickText = "true", "Fold away"
	}
	for _, pv := range r.gallery.previews {
		p := pv.motif
		name, note := words.Motif(p.ID)
		d.Motifs = append(d.Motifs, MotifRow{ID: p.ID, Name: name, Path: pv.path, Outline: outline, Chosen: p.ID == chosen, Fits: pv.path != "" || !pv.made, Why: inUnit(pv.why, inches)})
		if pv.why != "" {
			d.Greyed = append(d.Greyed, place.Option{ID: p.ID, Name: name + ": " + inUnit(pv.why, inches) + "."})
		}
		if p.ID == chosen {
			d.Motif, d.MotifNote, d.HasMotif, d.MotifOlder = name, note, true, b.Older()
			now, _ := b.Design.Recipe.Motif()
			d.Params = paramRows(now, b.Design.Recipe.Values, b.Design.Shape, inches)
		}
	}
	if n := len(d.Greyed); d.Picking && n > 0 {
		d.GreyedText = greyedText(n)
	}
	if b.Trouble != "" {
		d.MotifWrong = tooLarge + " In detail: " + inUnit(strings.TrimPrefix(b.Trouble, chosen+": "), inches) + "."
	}
	if d.HasMotif && b.Trouble == "" {
		d.MotifFigure = motifFigures(b, inches)
	}
}

// tooLarge says in plain words why nothing is seen of a motif.
const tooLarge = "This motif does not fit the block as it is set: make it smaller, or the block larger."

// inMM finds lengths in mm in a text.
var inMM = regexp.MustCompile(`\d+(\.\d+)? mm`)

// inUnit puts the lengths in a text into the person's unit.
func inUnit(text string, inches bool) string {
	return inMM.ReplaceAllStringFunc(text, func(s string) string {
		mm, err := strconv.ParseFloat(strings.TrimSuffix(s, " mm"), 64)
		if err != nil || !inches {
			return s
		}
		return words.Exact(mm, inches)
	})
}

func greyedText(n int) string {
	if n == 1 {
		return "One motif is grey: it does not fit this block"
	}
	return fmt.Sprintf("%d motifs are grey: they do not fit this block", n)
}

// motifFigures says how long the line is, in how many pieces, and how tight its
// tightest curve.
func motifFigures(b board.Board, inches bool) string {
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
	text := fmt.Sprintf("%s of stitching", words.Length(length, inches))
	if len(pieces) > 1 {
		text += fmt.Sprintf(" in %d lines, whose order the route finds", len(pieces))
	} else {
		text += " in one line"
	}
	if tight > 0 && !math.IsInf(tight, 1) {
		text += fmt.Sprintf("; the tightest curve has a radius of %s", words.Small(tight))
	}
	return text + "."
}

func paramRows(p motif.Motif, v motif.Values, s motif.Shape, inches bool) []ParamRow {
	usual := p.Usual(s)
	var out []ParamRow
	for _, q := range p.Params {
		x, ok := v[q.ID]
		if !ok {
			x = usual[q.ID]
		}
		row := ParamRow{
			ID: q.ID, Name: words.MotifParam(p.ID, q.ID), Value: number(x), Text: paramText(p.ID, q, x, inches),
			Min: number(q.Min), Max: number(q.Max), Step: number(q.Step),
			Slides: len(q.Choices) == 0, Chooses: len(q.Choices) > 0,
		}
		for i, c := range q.Choices {
			row.Words = append(row.Words, place.Option{ID: strconv.Itoa(i), Name: words.MotifChoice(p.ID, q.ID, c)})
		}
		out = append(out, row)
	}
	return out
}

func paramText(id string, q motif.Param, x float64, inches bool) string {
	switch {
	case len(q.Choices) > 0 && int(x) >= 0 && int(x) < len(q.Choices):
		return words.MotifChoice(id, q.ID, q.Choices[int(x)])
	case q.Unit == "mm":
		return words.Length(x, inches)
	case q.Unit == "":
		return number(x)
	}
	return number(x) + " " + q.Unit
}
