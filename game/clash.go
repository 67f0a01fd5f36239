package game

import (
	"fmt"
	"slices"
	"strings"

	"unthreaded/path/quilt"
)

// Clashed tells that a block or a quilt was not kept, since another tab has changed it in
// the meantime: Theirs is what is kept.
type Clashed struct {
	Kind, ID string
	Theirs   []byte
}

func (Clashed) IsMsg() {}

// Shared tells whether a thing of this kind is worked on by hand, so that it must not be
// written over what another tab made of it.
func Shared(kind string) bool { return kind == DesignThing || kind == QuiltThing }

// clashed keeps both: what this tab made goes on as a copy, with all its steps, and what
// the other tab made keeps its name.
func (m Model) clashed(c Clashed) (Model, []Effect) {
	switch c.Kind {
	case DesignThing:
		return m.designClashed(c)
	case QuiltThing:
		return m.quiltClashed(c)
	}
	return m, nil
}

// otherTab is how the copy of this tab is called.
func otherTab(name string) string { return strings.TrimSpace(name) + ", this tab" }

func (m Model) designClashed(c Clashed) (Model, []Effect) {
	i := slices.IndexFunc(m.Designs, func(d quilt.Design) bool { return d.ID == c.ID })
	theirs, err := quilt.DecodeDesign(c.Theirs)
	if i < 0 || err != nil {
		return m, nil // it was deleted here, or what stands there is damaged and stays
	}
	mine := m.Designs[i]
	mine.ID, mine.Name = m.freshID("block"), m.freeName(otherTab(mine.Name))
	m.Designs = slices.Clone(m.Designs)
	m.Designs[i] = theirs
	m.Designs = append([]quilt.Design{mine}, m.Designs...)
	if m.Drawing.Board.Design.ID == c.ID {
		m.Drawing.Board = m.Drawing.Board.Renamed(mine.ID, mine.Name)
		mine = m.Drawing.Board.Design
		m.Designs[0] = mine
	}
	m.Notice = Notice{Text: fmt.Sprintf("%q was changed in another tab too. Both are kept: what you made here is now %q.", theirs.Name, mine.Name)}
	return m, m.keeping(mine)
}

func (m Model) quiltClashed(c Clashed) (Model, []Effect) {
	i := slices.IndexFunc(m.Quilts, func(q quilt.Quilt) bool { return q.ID == c.ID })
	theirs, err := quilt.DecodeQuilt(c.Theirs)
	if err != nil || i < 0 {
		return m, nil
	}
	mine := m.Quilts[i]
	if m.Quilting.Top.Quilt.ID == c.ID {
		mine = m.Quilting.Top.Quilt
	}
	name := otherTab(mine.Name)
	mine.ID, mine.Name = fmt.Sprintf("%s-%d", c.ID, m.NowMS()), name
	m.Quilts = slices.Clone(m.Quilts)
	m.Quilts[i] = theirs
	m.Quilts = append([]quilt.Quilt{mine}, m.Quilts...)
	if m.Quilting.Top.Quilt.ID == c.ID {
		m.Quilting.Top = m.Quilting.Top.Renamed(mine.ID, mine.Name)
	}
	m.Notice = Notice{Text: fmt.Sprintf("%q was changed in another tab too. Both are kept: what you made here is now %q.", theirs.Name, mine.Name)}
	return m, keepingQuilt(mine)
}
