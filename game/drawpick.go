package game

// picking is whether the pictures of the ready motifs are open: as long as the
// block is empty, unless the person has said otherwise.
type picking int

const (
	asNeeded picking = iota
	opened
	folded
)

// Picking tells whether the pictures of the ready motifs are open.
func (d Drawing) Picking() bool {
	if d.picking == asNeeded {
		return d.Board.Design.Recipe == nil && len(d.Board.Design.Lines) == 0
	}
	return d.picking == opened
}
