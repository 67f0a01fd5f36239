package draw

import (
	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// Page holds what the page shows where the lines of a block are drawn.
type Page struct {
	Designs []place.Option `json:"designs"`
	Design  string         `json:"design"`
	Name    string         `json:"name"`
	Shapes  []place.Option `json:"shapes"`
	Shape   string         `json:"shape"`
	WText   string         `json:"widthText"`
	Width   string         `json:"width"`
	Height  string         `json:"height"`
	Oblong  bool           `json:"oblong"`
	Seams   []place.Option `json:"seams"`
	Seam    string         `json:"seam"`
	Pieced  bool           `json:"pieced"`
	Margin  string         `json:"margin"`
	Unit    string         `json:"unit"`
	Scale   string         `json:"scale"`
	// Size is the block's shape and size in short; Wrong says what is wrong with what
	// was typed, by the field that it stands at.
	Size  string  `json:"size"`
	Wrong WrongAt `json:"wrong"`

	Motifs    []MotifRow `json:"motifs"`
	Motif     string     `json:"motifName"`
	MotifNote string     `json:"motifNote"`
	Params    []ParamRow `json:"params"`
	HasMotif  bool       `json:"hasMotif"`
	// MotifOlder tells that the motif has been drawn anew since it was chosen.
	MotifOlder bool `json:"motifOlder"`
	// Greyed says of each motif that does not fit why, GreyedText how many there are.
	Greyed     []place.Option `json:"greyed"`
	GreyedText string         `json:"greyedText"`
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
	// InQuilt says where in the quilt on the table the block lies; HasQuilt that there is one.
	InQuilt  string `json:"inQuilt"`
	HasQuilt bool   `json:"hasQuilt"`

	Lines DrawnLines `json:"lines"`
	Dots  Dots       `json:"dots"`
	Photo PhotoPart  `json:"photo"`

	CanSew bool `json:"canSew"`
}

// MotifRow is a ready motif with its picture, or the head of those of a kind.
type MotifRow struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Path    string `json:"path"`
	Outline string `json:"outline"`
	Chosen  bool   `json:"chosen"`
	Fits    bool   `json:"fits"`
	// Facts are how close its lines lie and how long it takes to sew.
	Facts string `json:"facts"`
	// Head is the name of a kind of motifs; such a row has nothing else.
	Head string `json:"head"`
	// Why says why it does not fit; empty where it does.
	Why string `json:"why"`
}

// ParamRow is one measure of a ready motif: a slider, or a select if it has words.
type ParamRow struct {
	ID      string         `json:"id"`
	Name    string         `json:"name"`
	Value   string         `json:"value"`
	Text    string         `json:"text"`
	Min     string         `json:"min"`
	Max     string         `json:"max"`
	Step    string         `json:"step"`
	Slides  bool           `json:"slides"`
	Chooses bool           `json:"chooses"`
	Words   []place.Option `json:"words"`
}

// Tools tells which tool is in hand.
type Tools struct {
	Pencil bool `json:"pencil"`
	Ruler  bool `json:"ruler"`
	Change bool `json:"change"`
}

// WrongAt says what is wrong with what was typed, by the field; empty for nothing.
type WrongAt struct {
	Size   string `json:"size"`
	Margin string `json:"margin"`
	Pitch  string `json:"pitch"`
	Foot   string `json:"foot"`
	Photo  string `json:"photo"`
}

func (w Wrong) at(b words.Book) WrongAt {
	var out WrongAt
	text := b.Write(w.Said)
	switch w.Field {
	case "width", "height":
		out.Size = text
	case "margin":
		out.Margin = text
	case "pitch":
		out.Pitch = text
	case "foot":
		out.Foot = text
	case "photo-width", "photo-height":
		out.Photo = text
	}
	return out
}

// Page returns what the page shows of the place.
func (r Room) Page() place.Page {
	b, s, inches := r.Board, r.Board.Design.Shape, r.Inches()
	sentence := r.sentence()
	p := Page{
		Design: b.Design.ID, Name: b.Design.Name, Shape: string(s.Kind),
		WText: r.Book().Say("draw.width." + string(s.Kind)), Width: words.Typed(s.W, inches), Height: words.Typed(s.H, inches),
		Oblong: s.Kind == motif.Rectangle, Seam: string(b.Design.Seams), Margin: words.Typed(b.Design.Margin, inches),
		Unit: r.Book().Say("draw.unit", inches), Size: sizeText(s, r.Book()), Wrong: r.Wrong.at(r.Book()), Said: r.Book().Write(b.Said),
		Tools:  Tools{b.Tool == board.Pencil, b.Tool == board.Ruler, b.Tool == board.Change},
		CanSew: len(place.Sewn(b.Work)) > 0, Scale: r.Book().Say("draw.scale", words.Share(r.View.Zoom)),
		Note: r.note(sentence), Lines: r.linesPart(), Dots: r.dotsPart(), Photo: r.photoPart(),
	}
	for _, x := range r.Designs {
		p.Designs = append(p.Designs, place.Option{ID: x.ID, Name: x.Name})
	}
	for _, k := range motif.Shapes() {
		p.Shapes = append(p.Shapes, place.Option{ID: string(k), Name: r.Book().Say("motif.shape." + string(k))})
	}
	for _, k := range s.SeamKinds() {
		p.Seams = append(p.Seams, place.Option{ID: string(k), Name: r.Book().Say("motif.seams." + string(k))})
	}
	p.Pieced = len(p.Seams) > 1
	if q := r.Top.Quilt; q.ID != "" {
		p.HasQuilt = true
		if n := r.Top.Lies(b.Design.ID); n > 0 {
			p.InQuilt = r.Book().Say("draw.in-quilt", n, q.Name)
		}
	}
	if b.HasFitted {
		p.Fitted = fittedText(r.Book(), b)
	}
	r.motifPart(&p)
	steps := place.Steps{Undo: b.CanUndo(), Redo: b.CanRedo(), Sizes: true}
	if r.Zoomed() {
		steps.Whole = r.Book().Say("draw.whole")
	}
	return place.Page{Sentence: sentence, Steps: steps, In: p, Cloth: r.Book().Say("draw.cloth", b.Design.Name, words.Of("motif.shape."+string(s.Kind)), len(b.Design.Lines))}
}

// note is what stands by the tools: what was said last, or what to do with what
// is in hand.
func (r Room) note(sentence string) string {
	b := r.Board
	switch {
	case !r.Notice.None():
		return r.Notice.In(r.Book())
	case !b.Said.None():
		return r.Book().Write(b.Said)
	case b.Trouble != nil:
		return r.Book().Say("draw.too-large")
	case len(b.Chain) > 0 || b.Cornering():
		return sentence
	}
	return ""
}

// sentence says what to do next.
func (r Room) sentence() string {
	b, book := r.Board, r.Book()
	switch {
	case b.Cornering():
		return book.Say("draw.next.corners")
	case b.Tool == board.Ruler && len(b.Chain) > 0:
		return book.Say("draw.next.dot")
	case b.Tool == board.Ruler:
		return book.Say("draw.next.first-dot")
	case b.Tool == board.Change && b.Chosen == board.None:
		return book.Say("draw.next.choose")
	case b.Tool == board.Change && b.Chosen == board.All:
		return book.Say("draw.next.all-chosen")
	case b.Tool == board.Change:
		return book.Say("draw.next.bend")
	case len(place.Sewn(b.Work)) == 0:
		return book.Say("draw.next.begin")
	}
	return book.Say("draw.next.go-on")
}

// fittedText says how far the smoothed line is from the hand's.
func fittedText(book words.Book, b board.Board) string {
	f := b.Fitted
	return book.Say("draw.fitted", words.SmallMM(f.MaxChange), words.SmallMM(f.MeanChange), len(f.Corners), f.Closed)
}

// sizeText is a shape with its finished size: "square, 6 in".
func sizeText(s motif.Shape, b words.Book) string {
	size := any(words.SizeMM(s.W))
	if s.Kind == motif.Rectangle {
		size = words.Of("quilt.size.sides", words.SizeMM(s.W), words.SizeMM(s.H))
	}
	return b.Amount(words.List{words.Of("motif.shape." + string(s.Kind)), size})
}
