package page

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/board"
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// Draw holds what the page shows where the lines of a block are drawn.
type Draw struct {
	Designs []Option `json:"designs"`
	Design  string   `json:"design"`
	Name    string   `json:"name"`
	Shapes  []Option `json:"shapes"`
	Shape   string   `json:"shape"`
	WText   string   `json:"widthText"`
	Width   string   `json:"width"`
	Height  string   `json:"height"`
	Oblong  bool     `json:"oblong"`
	Seams   []Option `json:"seams"`
	Seam    string   `json:"seam"`
	Pieced  bool     `json:"pieced"`
	Margin  string   `json:"margin"`
	Unit    string   `json:"unit"`
	Scale   string   `json:"scale"`
	// Size is the block's shape and size in short; Wrong says what is wrong with what
	// was typed, by the field that it stands at.
	Size  string `json:"size"`
	Wrong Wrong  `json:"wrong"`

	Motifs    []MotifRow `json:"motifs"`
	Outline   string     `json:"outline"`
	Motif     string     `json:"motifName"`
	MotifNote string     `json:"motifNote"`
	Params    []ParamRow `json:"params"`
	HasMotif  bool       `json:"hasMotif"`
	// Greyed says of each motif that does not fit why, GreyedText how many there are.
	Greyed     []Option `json:"greyed"`
	GreyedText string   `json:"greyedText"`
	// Picking tells that the pictures of the motifs are open, PickOpen says the same to
	// a reader of the screen; PickText is the button's word.
	Picking     bool   `json:"picking"`
	PickOpen    string `json:"pickOpen"`
	PickText    string `json:"pickText"`
	MotifWrong  string `json:"motifWrong"`
	MotifFigure string `json:"motifFigure"`

	Tools Tools  `json:"tools"`
	Said  string `json:"said"`
	// Note stands by the tools, in sight while she draws.
	Note   string `json:"note"`
	Fitted string `json:"fitted"`
	Undo   bool   `json:"undo"`
	Redo   bool   `json:"redo"`

	Lines DrawnLines `json:"lines"`
	Dots  Dots       `json:"dots"`
	Photo PhotoPart  `json:"photo"`

	CanSew bool `json:"canSew"`
	// Zoomed tells that a part of the block is shown larger.
	Zoomed bool `json:"zoomed"`
}

// MotifRow is a ready motif with its picture.
type MotifRow struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Path    string `json:"path"`
	Outline string `json:"outline"`
	Chosen  bool   `json:"chosen"`
	Fits    bool   `json:"fits"`
	// Why says why it does not fit; empty where it does.
	Why string `json:"why"`
}

// ParamRow is one measure of a ready motif: a slider, or a select if it has words.
type ParamRow struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	Value   string   `json:"value"`
	Text    string   `json:"text"`
	Min     string   `json:"min"`
	Max     string   `json:"max"`
	Step    string   `json:"step"`
	Slides  bool     `json:"slides"`
	Chooses bool     `json:"chooses"`
	Words   []Option `json:"words"`
}

// Tools tells which tool is in hand.
type Tools struct {
	Pencil bool `json:"pencil"`
	Ruler  bool `json:"ruler"`
	Change bool `json:"change"`
	// InHand tells that a ruler line is in hand and can be finished.
	InHand bool `json:"inHand"`
}

// onBoard fills the page of the place.
func onBoard(p *Page, m game.Model) {
	d := m.Drawing
	b, inches := d.Board, m.Settings.Units == game.Inches
	p.Sentence = boardSentence(m)
	p.Draw = Draw{
		Design: b.Design.ID, Name: b.Design.Name, Shape: string(b.Design.Shape.Kind),
		WText: widthText(b.Design.Shape.Kind), Width: words.Typed(b.Design.Shape.W, inches), Height: words.Typed(b.Design.Shape.H, inches),
		Oblong: b.Design.Shape.Kind == motif.Rectangle, Seam: string(b.Design.Seams), Margin: words.Typed(b.Design.Margin, inches),
		Unit: unitName(inches), Size: sizeText(b.Design.Shape, inches), Wrong: wrongAt(d), Said: b.Said, Undo: b.CanUndo(), Redo: b.CanRedo(),
		Tools:  Tools{b.Tool == board.Pencil, b.Tool == board.Ruler, b.Tool == board.Change, len(b.Chain) > 0},
		CanSew: len(place.Sewn(b.Work)) > 0, Zoomed: d.Zoomed(), Scale: scaleText(m.View.Zoom),
		Outline: board.OutlinePath(b.Design.Shape),
	}
	for _, x := range m.Designs {
		p.Draw.Designs = append(p.Draw.Designs, Option{ID: x.ID, Name: x.Name})
	}
	for _, k := range motif.Shapes() {
		p.Draw.Shapes = append(p.Draw.Shapes, Option{ID: string(k), Name: k.Name()})
	}
	for _, k := range b.Design.Shape.SeamKinds() {
		p.Draw.Seams = append(p.Draw.Seams, Option{ID: string(k), Name: k.Name()})
	}
	p.Draw.Pieced = len(p.Draw.Seams) > 1
	p.Draw.Note = boardNote(m, p.Sentence)
	if b.HasFitted {
		p.Draw.Fitted = fittedText(b)
	}
	motifPart(&p.Draw, m)
	p.Draw.Lines = drawnLines(m)
	p.Draw.Dots = dotsPart(m)
	p.Draw.Photo = photoPart(m)
	p.ClothLabel = fmt.Sprintf("The block %q, %s, %d drawn lines. The tools are below it, its lines are listed beside it.",
		b.Design.Name, b.Design.Shape.Kind.Name(), len(b.Design.Lines))
}

// boardNote is what stands by the tools: what was said last, or what to do with what
// is in hand.
func boardNote(m game.Model, sentence string) string {
	b := m.Drawing.Board
	switch {
	case m.Notice.Text != "":
		return m.Notice.Text
	case b.Said != "":
		return b.Said
	case b.Trouble != "":
		return tooLarge
	case len(b.Chain) > 0 || b.Cornering():
		return sentence
	}
	return ""
}

func unitName(inches bool) string {
	if inches {
		return "inches"
	}
	return "mm"
}

func widthText(k motif.ShapeKind) string {
	switch k {
	case motif.Rectangle:
		return "Finished width"
	case motif.HalfSquare:
		return "Finished short side"
	case motif.SettingTriangle:
		return "Finished long side"
	case motif.Octagon, motif.Circle:
		return "Finished width across"
	}
	return "Finished side"
}

func scaleText(zoom float64) string {
	return fmt.Sprintf("Shown at %s of true size.", words.Percent(zoom))
}

// boardSentence says what to do next.
func boardSentence(m game.Model) string {
	b := m.Drawing.Board
	switch {
	case b.Cornering():
		return "Drag the four rings to the corners of the block in the photo."
	case b.Tool == board.Ruler && len(b.Chain) > 0:
		return "Tap the next dot. Tap the last dot again to finish the line."
	case b.Tool == board.Ruler:
		return "Tap a dot to begin a ruler line, then the dots it runs to."
	case b.Tool == board.Change && b.Chosen == board.None:
		return "Tap a drawn line to choose it."
	case b.Tool == board.Change && b.Chosen == board.All:
		return "All drawn lines are chosen. Drag one to move them all."
	case b.Tool == board.Change:
		return "Drag a point or a handle to bend the line, or the line to move it."
	case len(place.Sewn(b.Work)) == 0:
		return "Choose a ready motif, or draw your own line on the block."
	}
	return "Draw on with the pencil, or plan the route."
}

// fittedText says how far the smoothed line is from the hand's.
func fittedText(b board.Board) string {
	f := b.Fitted
	text := fmt.Sprintf("Smoothed: moved by %s at most, %s on average.", words.Small(f.MaxChange), words.Small(f.MeanChange))
	switch n := len(f.Corners); {
	case n == 1:
		text += " One corner kept."
	case n > 1:
		text += fmt.Sprintf(" %d corners kept.", n)
	}
	if f.Closed {
		text += " The ends were joined."
	}
	return text
}
