package draw

import (
	"errors"

	"unthreaded/game/place"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// openSVG has the lines of an SVG file read.
func (r Room) openSVG(doc string) (Room, []place.Effect) {
	var effects []place.Effect
	r.Shared, effects = r.Asks(work.SVG, "", work.SVGIn{Doc: doc})
	return r, effects
}

// saveSVG has the block written as an SVG file at true size.
func (r Room) saveSVG() (Room, []place.Effect) {
	name := r.fileName() + ".svg"
	var effects []place.Effect
	r.Shared, effects = r.Asks(work.Save, name, work.SaveIn{Design: r.Board.Design, About: r.Book().Say("draw.svg.about")})
	return r, effects
}

// saveDesign hands out the block as a document that this page opens again.
func (r Room) saveDesign() (Room, []place.Effect) {
	doc, err := quilt.EncodeDesign(r.Board.Design)
	if err != nil {
		r.Notice = place.Say("draw.not-saved")
		return r, nil
	}
	return r, []place.Effect{place.Download{Name: r.fileName() + ".json", Type: "application/json", Data: doc}}
}

func (r Room) fileName() string { return place.FileName(r.Board.Design.Name, "block") }

// imported adds a block from a document. Its photo stays in the browser it was chosen in.
func (r Room) imported(doc string) (Room, []place.Effect) {
	d, err := quilt.DecodeDesign([]byte(doc))
	switch {
	case errors.Is(err, quilt.ErrNewer):
		r.Notice = place.Say("draw.newer-file")
		return r, nil
	case err != nil:
		r.Notice = place.Say("draw.no-block-file")
		return r, nil
	}
	d.Photo = nil
	d.Name = r.FreeName(d.Name)
	return r.added(d)
}

// route asks for a way round the block; said is said of it.
func (r Room) route(said place.Notice) (Room, []place.Effect) {
	if len(place.Sewn(r.Board.Work)) == 0 {
		r.Notice = place.Say("draw.nothing-to-sew")
		return r, nil
	}
	r, effects := r.done()
	return r, append(effects, place.Plan{Drawing: place.DrawingOf(r.Board.Design), Apart: place.Say("draw.apart"), Said: said})
}

// rehearse asks for the block's line to be rehearsed, if it is one line; several need a
// route first.
func (r Room) rehearse() (Room, []place.Effect) {
	r, effects := r.done()
	sewn := place.Sewn(r.Board.Work)
	if len(sewn) != 1 {
		r, more := r.route(place.Say("draw.several-lines"))
		return r, append(effects, more...)
	}
	l, err := r.lineOf(sewn[0])
	if err != nil {
		r.Notice = place.Say("draw.no-rehearsal")
		return r, effects
	}
	d := r.Board.Design
	line := motif.Of(place.LineID(place.BlockPrefix, d.ID, l), d.Name, r.Book().Say("draw.line-of-yours"), l)
	return r, append(effects, place.Trace{Line: line})
}

// lineOf returns the line with its dots: those of a drawn line, the corners of a ready
// one along the ruler.
func (r Room) lineOf(p motif.Piece) (geom.Line, error) {
	if r.Board.Design.Recipe == nil {
		for _, l := range r.Board.Design.Lines {
			if l.Name == p.Name {
				return l.Geom()
			}
		}
	}
	l, err := geom.NewLine(p.Path)
	if err != nil || !p.Ruler {
		return l, err
	}
	return l.WithDots(l.Path().Cumulative())
}
