package game

import (
	"fmt"
	"image"
	"math"
	"slices"
	"strings"

	"unthreaded/game/board"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// drawEntered prepares the place on entering.
func (m Model) drawEntered() (Model, []Effect) {
	m.Drawing = m.Drawing.letGo() // fingers that went down before are lifted elsewhere
	if m.Drawing.Board.Design.ID == "" {
		if len(m.Designs) == 0 {
			return m.newDesign()
		}
		return m.openDesign(m.Designs[0].ID)
	}
	return m, m.wantPhoto()
}

// designControl does what is asked for with whole designs and files.
func (m Model) designControl(c Control) (Model, []Effect, bool) {
	d := &m.Drawing
	var effects []Effect
	switch c.Name {
	case "design":
		m, effects = m.openDesign(c.Value)
	case "new":
		m, effects = m.newDesign()
	case "copy":
		m, effects = m.copyDesign()
	case "delete":
		m, effects = m.deleteDesign()
	case "name":
		d.Board = d.Board.SetName(strings.TrimSpace(c.Value))
		m, effects = m.drawChanged()
	case "open-svg":
		d.Board = d.Board.ImportSVG(c.Value)
		m, effects = m.relaid().drawChanged()
	case "save-svg":
		m, effects = m.saveSVG()
	case "save-design":
		m, effects = m.saveDesign()
	case "open-design":
		m, effects = m.importDesign(c.Value)
	case "route":
		m, effects = m.routeDesign()
	case "rehearse":
		m, effects = m.rehearseDesign()
	default:
		return m, nil, false
	}
	return m, effects, true
}

// openDesign lays a kept design on the board, with its steps of this visit.
func (m Model) openDesign(id string) (Model, []Effect) {
	i := slices.IndexFunc(m.Designs, func(d quilt.Design) bool { return d.ID == id })
	if i < 0 || id == m.Drawing.Board.Design.ID {
		return m, nil
	}
	m, effects := m.keepDrawing()
	m = m.putAside()
	b, known := m.Drawing.boards[id]
	if !known || b.Design.ID != id {
		b = board.Open(m.Designs[i])
	}
	return m.onBoard(b, effects)
}

// putAside keeps the board of this visit with its steps.
func (m Model) putAside() Model {
	boards := map[string]board.Board{}
	for id, b := range m.Drawing.boards {
		boards[id] = b
	}
	if id := m.Drawing.Board.Design.ID; id != "" {
		boards[id] = m.Drawing.Board.SetTool(m.Drawing.Board.Tool)
	}
	m.Drawing.boards = boards
	return m
}

func (m Model) onBoard(b board.Board, effects []Effect) (Model, []Effect) {
	b.Rev = m.Drawing.Board.Rev + 1
	m.Drawing.Board = b
	m.Drawing.zoom, m.Drawing.MarkOn, m.Drawing.picking = 1, quilt.OnSides, asNeeded
	m.Drawing.Pitch, _ = b.Design.Shape.Box()
	return m.relaid(), append(effects, m.wantPhoto()...)
}

// wantPhoto asks for the picture of the board's photo if it is not there.
func (m Model) wantPhoto() []Effect {
	if id := m.Drawing.Board.NeedsPhoto(); id != "" {
		return []Effect{FetchPhoto{ID: id}}
	}
	return nil
}

// blockMM is the finished side of a new block: 6 in, a usual size.
const blockMM = 6 * MMPerInch

// newDesign lays an empty block on the board, of the shape of the last one.
func (m Model) newDesign() (Model, []Effect) {
	shape := m.Drawing.Board.Design.Shape
	if shape.W == 0 {
		shape = motif.Shape{Kind: motif.Square, W: blockMM}
	}
	w, h := shape.Box()
	return m.added(quilt.Design{
		Schema: quilt.DesignSchema, Name: m.freeName("My block"), Shape: shape,
		Margin: math.Min(MMPerInch/4, math.Min(w, h)/8), Seams: motif.NoSeams,
	})
}

// copyDesign lays a copy of the design on the board.
func (m Model) copyDesign() (Model, []Effect) {
	d := m.Drawing.Board.Design
	d.Name = m.freeName(strings.TrimSpace(d.Name) + ", copy")
	return m.added(d)
}

// freeName returns a name that no design has.
func (m Model) freeName(name string) string {
	free := name
	for n := 2; slices.ContainsFunc(m.Designs, func(d quilt.Design) bool { return d.Name == free }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// added puts a new design on the shelf and on the board.
func (m Model) added(d quilt.Design) (Model, []Effect) {
	m, effects := m.keepDrawing()
	m = m.putAside()
	d.ID = m.freshID("block")
	m.Designs = append([]quilt.Design{d}, m.Designs...)
	m, more := m.onBoard(board.Open(d), effects)
	return m, append(more, m.keeping(d)...)
}

// freshID makes an ID of the time of the visit's clock that no design has.
func (m Model) freshID(word string) string {
	for t := int64(m.Origin + 1000*m.LastFrame); ; t++ {
		id := fmt.Sprintf("%s-%d", word, t)
		if !slices.ContainsFunc(m.Designs, func(d quilt.Design) bool { return d.ID == id }) {
			return id
		}
	}
}

// keeping returns the effect that keeps a design.
func (m Model) keeping(d quilt.Design) []Effect {
	doc, err := quilt.EncodeDesign(d)
	if err != nil {
		return nil // a design on the board is valid: its changes are checked
	}
	return []Effect{Keep{Thing: Thing{Kind: DesignThing, ID: d.ID, Doc: doc}}}
}

// deleteDesign takes the design off the shelf; the notice offers to take that back.
func (m Model) deleteDesign() (Model, []Effect) {
	d := m.Drawing.Board.Design
	m.Designs = slices.DeleteFunc(slices.Clone(m.Designs), func(x quilt.Design) bool { return x.ID == d.ID })
	m.Drawing.unkept = 0
	m = m.putAside()
	m.Binned = append(m.Binned[:len(m.Binned):len(m.Binned)], d)
	m.Drawing.Board = board.Board{Rev: m.Drawing.Board.Rev}
	effects := []Effect{Discard{Kind: DesignThing, ID: d.ID}}
	var more []Effect
	if len(m.Designs) > 0 {
		m, more = m.openDesign(m.Designs[0].ID)
	} else {
		m, more = m.newDesign()
	}
	m.Notice = Notice{Text: fmt.Sprintf("%q was deleted.", d.Name), Action: "undo"}
	return m, append(effects, more...)
}

// drawBack takes the last change back: a deleted block, or a change of the block.
func (m Model) drawBack() (Model, []Effect) {
	if n := len(m.Binned); n > 0 && m.Notice.Action == "undo" {
		d := m.Binned[n-1]
		m.Binned = m.Binned[:n-1]
		m.Designs = append([]quilt.Design{d}, m.Designs...)
		m.Notice = Notice{}
		m, effects := m.openDesign(d.ID)
		return m, append(effects, m.keeping(d)...)
	}
	m.Drawing.Board = m.Drawing.Board.Undo()
	return m.relaid().drawChanged()
}

// drawAgain does again what was taken back last.
func (m Model) drawAgain() (Model, []Effect) {
	m.Drawing.Board = m.Drawing.Board.Redo()
	return m.relaid().drawChanged()
}

// drawPhoto takes a photo to draw over, chosen or fetched.
func (m Model) drawPhoto(p Photo) (Model, []Effect) {
	src := &image.RGBA{Pix: p.Pix, Stride: 4 * p.W, Rect: image.Rect(0, 0, p.W, p.H)}
	if p.Name == "draw.photo" {
		m.Drawing.Board = m.Drawing.Board.TakePhoto(p.ID, src)
		return m.drawChanged()
	}
	m.Drawing.Board = m.Drawing.Board.GivePhoto(p.ID, src)
	return m, nil
}
