package game

import (
	"errors"
	"math"
	"slices"

	"unthreaded/path/quilt"
)

// keepAfter is how long in s a changed design waits to be kept, so that a slider or
// a drag is kept once.
const keepAfter = 0.4

// drawChanged notes a change of the design on the board, to be kept soon.
func (m Model) drawChanged() (Model, []Effect) {
	d := m.Drawing.Board.Design
	i := slices.IndexFunc(m.Designs, func(x quilt.Design) bool { return x.ID == d.ID })
	if i < 0 {
		return m, nil
	}
	if m.Drawing.Board.Steps() != m.Drawing.kept.steps || m.Drawing.Board.Rev != m.Drawing.kept.rev {
		m.Drawing.kept = keptMark{m.Drawing.Board.Steps(), m.Drawing.Board.Rev}
		m.Designs = slices.Clone(m.Designs)
		m.Designs[i] = d
		if m.Drawing.unkept == 0 {
			m.Drawing.unkept = math.Max(m.LastFrame, 1e-9)
		}
	}
	return m, m.wantPhoto()
}

// keptMark tells which state of the board was noted last.
type keptMark struct{ steps, rev int }

// keepDrawing keeps the design on the board if it has changed.
func (m Model) keepDrawing() (Model, []Effect) {
	if m.Drawing.unkept == 0 {
		return m, nil
	}
	m.Drawing.unkept = 0
	return m, m.keeping(m.Drawing.Board.Design)
}

// designKept takes a kept design at the beginning of the visit.
func (m Model) designKept(t Thing) (Model, []Effect) {
	d, err := quilt.DecodeDesign(t.Doc)
	if err != nil {
		m.Notice = Notice{Text: "One of your blocks is damaged and cannot be opened. It was left as it is. In detail: " + err.Error() + "."}
		if errors.Is(err, quilt.ErrNewer) {
			m.Notice.Text = "A block was made by a newer version of this page. Load the page again to get that version; the block was left as it is."
		}
		return m, nil
	}
	m.Designs = slices.DeleteFunc(slices.Clone(m.Designs), func(x quilt.Design) bool { return x.ID == d.ID })
	m.Designs = append([]quilt.Design{d}, m.Designs...)
	return m, nil
}
