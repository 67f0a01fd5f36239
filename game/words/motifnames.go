package words

import (
	"fmt"
	"strconv"
	"strings"
)

// motifNames are the names of the ready motifs by their ID, with how each is sewn.
var motifNames = map[string][2]string{
	"stipple":          {"Stipple", "A meander that wanders over the whole shape, evenly dense, and never crosses itself."},
	"linked-swirls":    {"Linked swirls", "One line: into each swirl, round the middle, out between the lines, over to the next."},
	"double-spiral":    {"Double spiral", "In to the middle and out again between the lines, so that it starts and ends on the outline."},
	"spiral":           {"Spiral", "One line from the outline round and round to the middle, its turns one spacing apart."},
	"loops":            {"Loops", "One line that runs on along the bottom of the row and comes back over itself at the top of each loop."},
	"figure-eights":    {"Figure eights", "Lying eights side by side: out along one half of each, round the last, and home along the other half."},
	"waves":            {"Waves", "One line that swings up and down in rows, without a corner and without a stop."},
	"ribbon":           {"Ribbon", "A ribbon folded to and fro: the turns are wider than the gaps between them."},
	"to-and-fro":       {"To and fro", "Parallel lines sewn without a stop, each joined to the next by half a circle."},
	"pebbles":          {"Pebbles", "Circles that touch: the line goes once round each and crosses to the next where they touch."},
	"feather":          {"Feather", "Plumes up the right side of the spine, one round the top, plumes down the left side, then the spine itself from its foot."},
	"vine":             {"Leaves on a vine", "A winding stem; each leaf is sewn out to its tip and back on the way."},
	"paisley":          {"Paisley with echoes", "Drops that hang from a winding line, each echoed one within the other from the same tip."},
	"flower":           {"Flower of loops", "Petals round the middle, sewn in one go: each crosses its neighbours on the way to the next."},
	"clamshell":        {"Clamshell", "Rows of half circles, each row half a shell further. The top of a shell touches the row above where two shells meet."},
	"fans":             {"Fans of arcs", "Overlapping fans, each of several arcs one within the other, every arc ending on the fan before it."},
	"orange-peel":      {"Orange peel", "Petals along the lines of a grid: of squares, or of triangles in a hexagon."},
	"echo-outline":     {"Echo of the outline", "The outline again and again, each line one spacing further in."},
	"square-spiral":    {"Spiral of the outline", "Ruler lines, round after round, one spacing apart. Stop at each corner with the needle down and turn."},
	"straight-lines":   {"Straight lines", "Ruler lines side by side, one spacing apart."},
	"crosshatch":       {"Crosshatch", "Ruler lines both ways, at right angles: straight, diagonal at 45 degrees, or tilted."},
	"hanging-diamonds": {"Hanging diamonds", "Ruler lines that slope equally to either side and make upright diamonds."},
	"ruler-zigzag":     {"Dot to dot", "Straight lines along the ruler. Stop on each dot with the needle down, turn, and go to the next."},
	"diamonds":         {"Diamonds in rows", "Two zigzags along the ruler in each row that meet at their points: out along one, home along the other."},
	"star-chain":       {"Chains of stars", "Eight-pointed stars of eight ruler lines each, which touch at their points."},
	"sunburst":         {"Sunburst", "A zigzag along the ruler between dots on the outline and dots round the middle."},
}

// motifUnits are what one repeat of a motif is called where it is rehearsed, in the
// plural; the others are rehearsed in "repeats".
var motifUnits = map[string]string{
	"linked-swirls": "swirls", "ruler-zigzag": "points", "loops": "loops", "waves": "waves",
	"figure-eights": "eights", "square-spiral": "turns", "ribbon": "folds", "vine": "leaves",
	"paisley": "drops", "diamonds": "diamonds", "star-chain": "stars",
}

// motifParams are the names of the measures of motifs: that of one motif under
// "motif.measure", that of all others under the measure.
var motifParams = map[string]string{
	"spacing": "spacing of the lines", "stipple.spacing": "spacing between the lines", "echo-outline.spacing": "spacing",
	"count": "how many", "fans.count": "arcs in a fan", "paisley.count": "echoes", "sunburst.count": "rays",
	"echo-outline.count": "most lines", "flower.count": "petals", "ruler-zigzag.count": "points",
	"angle": "slope from the level", "slope": "slope from the level", "ruler-zigzag.angle": "between",
	"feather.angle": "angle of the plumes to the spine",
	"mirror":        "way up", "spiral.mirror": "turning", "double-spiral.mirror": "turning", "square-spiral.mirror": "turning",
	"ruler-zigzag.mirror": "start", "to-and-fro.mirror": "start",
	"inner": "size of the middle", "twist": "twist", "curl": "curl of the drops", "fold": "roundness of the folds",
	"size": "size", "clamshell.size": "width of a shell", "feather.size": "width of a plume, at most", "fans.size": "radius of a fan",
	"orange-peel.size": "length of a petal, at most", "pebbles.size": "size of the largest pebble", "least": "size of the smallest, of that",
	"bend": "bend of the spine", "way": "rows run", "feather.way": "spine",
	"width": "width", "flower.width": "width of the petals", "loops.width": "width of the loops", "vine.width": "width of the leaves",
	"start": "start", "flower.start": "turned by", "grid": "grid", "edge": "edge", "corners": "corners",
	"swell": "height", "figure-eights.swell": "height of the eights", "loops.swell": "height of the loops",
	"ribbon.swell": "height of the folds", "waves.swell": "height of the waves",
	"lean": "lean", "vine.lean": "lean of the leaves",
	"height": "row height, at most", "linked-swirls.height": "size of a swirl, at most", "star-chain.height": "size of a star, at most",
	"length": "length of a repeat, about", "turns": "half turns", "variation": "variation",
}

// motifChoices are the words of choices: those of one motif under
// "motif.measure.choice", those of all others under "measure.choice".
var motifChoices = map[string]string{
	"ruler-zigzag.angle.upright": "the upper and the lower side", "ruler-zigzag.angle.level": "the left and the right side",
	"mirror.upright": "as drawn", "mirror.mirrored": "mirrored top to bottom",
	"mirror.clockwise": "clockwise", "mirror.anticlockwise": "anticlockwise",
	"mirror.left": "at the left", "mirror.right": "at the right",
	"mirror.first": "on the first side", "mirror.second": "on the second side",
	"way.sides": "along the block's sides", "way.level": "level",
	"way.own": "the block's own way", "way.upright": "upright",
	"grid.own": "the block's own", "grid.squares": "squares", "grid.triangles": "triangles",
	"edge.whole": "whole petals", "edge.cut": "petals cut at a sewn edge", "edge.open": "open", "edge.sewn": "sewn round",
	"corners.very-round": "very round", "corners.round": "round", "corners.tight": "tight",
}

// exercises are the exercises of a warm-up.
var exercises = map[string][2]string{
	"corners":   {"corners", "Straight into the corner, needle down, turn, and straight out again."},
	"loops":     {"loops, left and right", "Once round and straight on. Keep the speed in the loop."},
	"left":      {"turning left", "Half turns to the left. Let the hand come round at one speed."},
	"right":     {"turning right", "Half turns to the right. Let the hand come round at one speed."},
	"straights": {"long straights", "Long and level, to and fro. Look ahead of the needle."},
}

// Motif returns the name of a ready motif or an exercise and how it is sewn; both are
// empty for any other ID.
func Motif(id string) (name, note string) {
	if part := strings.Split(id, "-"); len(part) == 3 && part[0] == "exercise" {
		if mm, err := strconv.ParseFloat(part[2], 64); err == nil && exercises[part[1]] != [2]string{} {
			text := exercises[part[1]]
			return fmt.Sprintf("Warm-up: %s (%.0f mm)", text[0], mm), text[1]
		}
	}
	text := motifNames[id]
	return text[0], text[1]
}

// MotifUnit returns what one repeat of a line is called where it is rehearsed, in the
// plural; a line of her own is a part.
func MotifUnit(id string) string {
	if unit := motifUnits[id]; unit != "" {
		return unit
	}
	if _, ready := motifNames[id]; ready {
		return "repeats"
	}
	return "part"
}

// MotifParam returns the name of a measure of a motif.
func MotifParam(motif, param string) string {
	if name := motifParams[motif+"."+param]; name != "" {
		return name
	}
	return motifParams[param]
}

// MotifChoice returns the words of one of the choices of a measure of a motif.
func MotifChoice(motif, param, choice string) string {
	if name := motifChoices[motif+"."+param+"."+choice]; name != "" {
		return name
	}
	return motifChoices[param+"."+choice]
}
