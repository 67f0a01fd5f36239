package game

import (
	"errors"
	"strings"

	"unthreaded/game/board"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// saveSVG hands out the block as an SVG file at true size.
func (m Model) saveSVG() (Model, []Effect) {
	doc, err := m.Drawing.Board.ExportSVG()
	if err != nil {
		m.Notice = Notice{Text: "The block could not be saved, since a part of it is not in order. In detail: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Download{Name: fileName(m.Drawing.Board.Design.Name) + ".svg", Type: "image/svg+xml", Data: doc}}
}

// saveDesign hands out the block as a document that this page opens again.
func (m Model) saveDesign() (Model, []Effect) {
	d := m.Drawing.Board.Design
	doc, err := quilt.EncodeDesign(d)
	if err != nil {
		m.Notice = Notice{Text: "The block could not be saved, since a part of it is not in order. In detail: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Download{Name: fileName(d.Name) + ".json", Type: "application/json", Data: doc}}
}

// fileName makes a name that every system takes.
func fileName(name string) string {
	keep := func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return '-'
	}
	s := strings.Map(keep, strings.ToLower(name))
	s = strings.Trim(strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == '-' }), "-"), "-")
	if s == "" {
		return "block"
	}
	return s
}

// importDesign adds a block from a document. Its photo stays in the browser it was
// chosen in.
func (m Model) importDesign(doc string) (Model, []Effect) {
	d, err := quilt.DecodeDesign([]byte(doc))
	if err != nil {
		m.Notice = Notice{Text: "This file is no block that was saved from this page, or it is damaged. Nothing was changed. In detail: " + err.Error() + "."}
		if errors.Is(err, quilt.ErrNewer) {
			m.Notice.Text = "This block was saved by a newer version of this page. Load the page again to get that version. Nothing was changed."
		}
		return m, nil
	}
	d.Photo = nil
	d.Name = m.freeName(d.Name)
	return m.added(d)
}

// routeDesign takes the block to the desk where its route is planned.
func (m Model) routeDesign() (Model, []Effect) {
	b := m.Drawing.Board
	if len(place.Sewn(b.Work)) == 0 {
		m.Notice = Notice{Text: "There is nothing to sew in this block yet. Choose a ready motif or draw a line."}
		return m, nil
	}
	m, effects := m.drawDone()
	m, more := m.asked(place.Plan{Drawing: place.DrawingOf(m.Drawing.Board.Design), Apart: Notice{Text: "The lines of this block lie in pieces, so the route stops and starts again between them."}})
	return m, append(effects, more...)
}

// drawDone finishes the line in hand and keeps the block.
func (m Model) drawDone() (Model, []Effect) {
	m.Drawing.Board = m.Drawing.Board.Finish()
	m, effects := m.drawChanged()
	m, more := m.keepDrawing()
	return m, append(effects, more...)
}

// rehearseDesign puts the block's line on the cloth of the rehearsal, if it is one
// line; several need a route first.
func (m Model) rehearseDesign() (Model, []Effect) {
	m, effects := m.drawDone()
	b := m.Drawing.Board
	sewn := place.Sewn(b.Work)
	if len(sewn) != 1 {
		m, more := m.routeDesign()
		if m.Place == RoutePlan && m.Notice.Text == "" {
			m.Notice = Notice{Text: "This block has several lines. Here is a way round them; rehearse it from here."}
		}
		return m, append(effects, more...)
	}
	l, err := lineOf(b, sewn[0])
	if err != nil {
		m.Notice = Notice{Text: "This line cannot be rehearsed: " + err.Error() + "."}
		return m, effects
	}
	m.Motif = motif.Of(place.LineID(place.BlockPrefix, b.Design.ID, l), b.Design.Name, "The line of your block.", l)
	m.Repeats = 0
	m.Open, m.Over, m.Replay = nil, nil, replay.Clock{Rate: m.Replay.Rate}
	m.Place = Rehearse
	m.Notice = Notice{}
	return m.listed(m.Records).relaid(), effects
}

// lineOf returns the line with its dots: those of a drawn line, the corners of a
// ready one along the ruler.
func lineOf(b board.Board, p motif.Piece) (geom.Line, error) {
	if b.Design.Recipe == nil {
		for _, l := range b.Design.Lines {
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
