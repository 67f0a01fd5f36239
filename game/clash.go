package game

import (
	"fmt"
	"slices"
	"strings"

	"unthreaded/path/quilt"
)

// Shared tells whether a thing of this kind is worked on by hand, so that it must not be
// written over what another tab made of it.
func Shared(kind string) bool { return kind == DesignThing || kind == QuiltThing }

// clashed keeps both: what this tab made goes on as a copy, with all its steps, and what
// the other tab made keeps its name.
func (m Model) clashed(c Clashed) (Model, []Effect) {
	if c.Kind == QuiltThing {
		return m.quiltClashed(c)
	}
	return m, nil
}

// otherTab is how the copy of this tab is called.
func otherTab(name string) string { return strings.TrimSpace(name) + ", this tab" }

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
