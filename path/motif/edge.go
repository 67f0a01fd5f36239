package motif

import (
	"fmt"
	"math"
)

// EdgeToEdge lays rows of the motif over a whole top of w x h mm, whatever is pieced in it,
// as one line: whole repeats from edge to edge, rows in phase at the distance of the figure,
// each row turning into the next. Laid.Repeats
// are those in a row and the rows. It fails for a motif that is no row, and as Fit does.
// Cost that of Fit.
func (m Motif) EdgeToEdge(w, h float64, v Values) (Laid, error) {
	if m.figure == nil {
		return Laid{}, fmt.Errorf("%s: it does not run from edge to edge: take a motif of rows", m.ID)
	}
	s := Shape{Kind: Rectangle, W: w, H: h}
	if err := s.Validate(); err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	all, err := m.complete(s, v)
	if err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	f := newField(s, 0)
	path, err := fitRows(f, all, m.figure())
	if err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	if len(path) > MaxPoints {
		return Laid{}, fmt.Errorf("%s: the line has %d points, too many: take larger measures", m.ID, len(path))
	}
	fig := m.figure()
	fig.pitch = math.Max(closest, fig.pitch*100/all["density"])
	c := course{figure: fig, half: math.Min(all["size"], h) / 2}
	levels := c.levels(f)
	x0, x1 := c.ends(f, levels, len(levels)/2)
	n := c.spread(f, levels[len(levels)/2], x0, x1).n
	return Laid{
		Pieces:  one("edge-to-edge", path),
		Repeats: [2]int{n, len(levels)},
		Stretch: (x1 - x0) / (float64(n) * c.length()),
	}, nil
}
