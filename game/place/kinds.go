package place

import (
	"slices"
	"strings"

	"unthreaded/path/motif"
)

// MotifKinds are the kinds in which a quilter looks for a motif, in the order in which they
// are shown: what fills a ground, what is made with a ruler, and so on.
var MotifKinds = []string{"ground", "curves", "feathers", "ruler", "strips", "edge"}

// kinds holds the kinds of motifs that their group does not tell.
var kinds = map[string][]string{
	"ground":   {"stipple", "meander-loops", "meander-leaves", "pebbles", "clamshell", "fans", "matchstick", "crosshatch", "hanging-diamonds", "echo-outline"},
	"feathers": {"feather", "feather-wreath"},
	"strips":   {"cable", "vine", "ribbon", "wishbone", "loops", "figure-eights", "waves", "piano-keys"},
	"edge":     {"to-and-fro"},
}

// MotifKind returns the kind of a motif: of one that is not listed, that of its group.
func MotifKind(m motif.Motif) string {
	for kind, ids := range kinds {
		if slices.Contains(ids, m.ID) {
			return kind
		}
	}
	switch {
	case strings.Contains(m.ID, "feather"):
		return "feathers"
	case m.Group == motif.Ruled:
		return "ruler"
	}
	return "curves"
}

// ByKind returns motifs sorted by kind, and within it in the order given.
func ByKind(all []motif.Motif) []motif.Motif {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(a, b motif.Motif) int {
		return slices.Index(MotifKinds, MotifKind(a)) - slices.Index(MotifKinds, MotifKind(b))
	})
	return out
}
