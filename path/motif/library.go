package motif

import (
	"cmp"
	"slices"
)

// Group is a kind of motif, by how it is sewn.
type Group string

// The groups in the order in which they are offered: lines that flow over a block,
// figures, and ruler work.
const (
	Flowing Group = "flowing"
	Figures Group = "figures"
	Ruled   Group = "ruled"
)

var groups = []Group{Flowing, Figures, Ruled}

// library is filled by add, from the file of each motif.
var library []Motif

// add puts a motif into the library, at a place in its group.
func add(g Group, at int, m Motif) Motif {
	m.Group, m.at = g, at
	m.number()
	library = append(library, m)
	return m
}

// number gives the motif, and those before it, their versions.
func (m *Motif) number() {
	m.Version = 1
	if m.before != nil {
		m.before.number()
		m.Version = m.before.Version + 1
	}
}

// without returns a motif that from now on is not offered for some more shapes; what was kept
// in them keeps its lines.
func (m Motif) without(more lacks) Motif {
	before := m
	m.before, m.lacks = &before, m.lacks.and(more)
	return m
}

// Ready returns the library in the order in which it is offered for a block.
func Ready() []Motif {
	out := slices.Clone(library)
	slices.SortFunc(out, func(a, b Motif) int {
		return cmp.Or(
			cmp.Compare(slices.Index(groups, a.Group), slices.Index(groups, b.Group)),
			cmp.Compare(a.at, b.at), cmp.Compare(a.ID, b.ID))
	})
	return out
}

// Find returns the motif with the given ID, or one it had formerly.
func Find(id string) (Motif, bool) {
	i := slices.IndexFunc(library, func(m Motif) bool { return m.ID == id || slices.Contains(m.Former, id) })
	if i < 0 {
		return Motif{}, false
	}
	return library[i], true
}
