package keep

import "math"

// sameSize is the share by which two sizes may differ and still train the same
// movement.
const sameSize = 0.01

// Unlike names what keeps two traces from being compared like with like, in the
// order "line", "way", "device", "size", "guide"; none is left for traces that are
// alike. An empty device is not compared: it is not known before the pointer is
// down. The count before the start does not matter: it ends before the movement.
func Unlike(a, b Summary) []string {
	var names []string
	add := func(differs bool, name string) {
		if differs {
			names = append(names, name)
		}
	}
	add(a.otherLine(b), "line")
	add(a.wayUsed() != b.wayUsed(), "way")
	add(a.Device != b.Device && a.Device != "" && b.Device != "", "device")
	add(a.SizeKnown != b.SizeKnown || math.Abs(a.Zoom-b.Zoom) > sameSize*math.Max(a.Zoom, b.Zoom), "size")
	add(a.guideUsed() != b.guideUsed(), "guide")
	return names
}

// otherLine tells whether two traces followed different lines: by their fingerprints,
// or where one has none, which the first summaries lack, by the motif and its number.
func (s Summary) otherLine(o Summary) bool {
	if s.Print != "" && o.Print != "" {
		return s.Print != o.Print
	}
	return s.Motif != o.Motif || s.Repeats != o.Repeats
}

// wayUsed returns the way of moving; it was not in the first summaries, which are
// all of traces made as with a pencil.
func (s Summary) wayUsed() string {
	if s.Way == "" {
		return Pencil
	}
	return s.Way
}

func (s Summary) guideUsed() Guide {
	g := UsualGuide()
	if s.Guide != nil {
		g = s.Guide.Known()
	}
	g.CountIn = false
	return g
}
