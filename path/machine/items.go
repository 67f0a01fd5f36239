package machine

import "fmt"

func unknownMethod(m Method) error {
	return fmt.Errorf("method %q is not one of %q, %q and %q", m, WalkingFoot, FreeMotion, RulerFoot)
}

func caution(id, text, reason string, when func(Plan) bool) listed {
	return listed{Item{ID: id, Group: Safety, Text: text, Reason: reason, Caution: true}, when}
}

func item(id string, g Group, text, reason string, when func(Plan) bool) listed {
	return listed{Item{ID: id, Group: g, Text: text, Reason: reason}, when}
}

var cautionItems = []listed{
	caution("power", "Switch the machine off before changing the foot or the needle.",
		"A touch on the pedal would drive the needle through a finger.", nil),
	caution("fingers", "Keep the fingers outside the foot, well away from the needle.",
		"Hands that steer the cloth drift towards the needle when the eyes follow the line.", nil),
	caution("eyes", "Protect the eyes, and stop as soon as the needle knocks or bends.",
		"A needle that is pulled aside or hits a foot or a ruler can break and fly.", nil),
	caution("ruler-foot-only", "Use a ruler with a ruler foot only; with this foot follow a marked line instead.",
		"The rim of another foot is thin and can ride onto the ruler, and the needle breaks on it.", misfit),
	caution("ruler-fit", "Check with the makers of the foot and of the ruler that the two fit, thickness and shank height too.",
		"A ruler that is too thin slips under the foot, one that is too thick may catch on it.", withRuler),
	caution("ruler-hold", "Hold the ruler flat with spread fingers, none over its edge, and stop before moving them.",
		"A ruler that tips lets the foot ride up.", withRuler),
	caution("rest", "Rest and change the posture often; stop when something hurts.",
		"Hours of pushing a heavy quilt tire hands, shoulders and eyes. This is no medical advice.", nil),
}

var setupItems = []listed{
	item("foot-walking", Setup, "Walking foot on, its lever where the manual wants it.",
		"It feeds top and backing at one rate, so that the layers do not creep.", fed),
	item("foot-free", Setup, "Free-motion foot on.",
		"It lets the cloth go when the needle is up, and shows the line.", freely),
	item("foot-ruler", Setup, "Ruler foot on, at the height the manual gives.",
		"Its high rim runs along the ruler at a fixed distance from the needle.", withRuler),
	item("feed-up", Setup, "Feed dogs up.", "They carry the cloth and set the stitch length.", fed),
	item("feed-down", Setup, "Feed dogs down or covered, as the manual says; stitch length at nought where it asks for it.",
		"Only the hands shall move the cloth.", byHand),
	item("foot-down", Setup, "Foot lowered before the first stitch.",
		"With the foot up the top thread has no tension and knots below.", nil),
	item("needle", Setup, "New needle, of the system the manual names and the size for the thread.",
		"A blunt or a thin needle skips stitches, pulls fluff through and bends.", nil),
	item("needle-down", Setup, "Needle set to stop down, if the machine can.",
		"It holds the place at every pivot and every rest.", nil),
	item("plate", Setup, "Wide or straight-stitch plate as the manual advises, fluff brushed out.",
		"Fluff under the plate lifts the bobbin thread's tension and dulls the sound of a fault.", nil),
}

var supplyItems = []listed{
	item("thread", Supply, "Thread enough for top and bobbin, threaded with the foot up.",
		"With the foot up the thread slips between the tension discs.", nil),
	item("bobbin", Supply, "Bobbin of the class the manual names, wound evenly; the next one wound too.",
		"A bobbin of another class can lock in its case; one that is wound loosely runs out unevenly.", nil),
	item("bobbin-place", Supply, "Know the place where the next bobbin is due.",
		"A change at a seam, a corner or a dot hardly shows; one in a curve does.", nil),
	item("bobbin-up", Supply, "Draw the bobbin thread up and hold both ends for the first stitches.",
		"Loose ends are caught below and make a nest.", nil),
}

var placeItems = []listed{
	item("gloves", Body, "Gloves with grip, or something else that holds the cloth, if the hands slip.",
		"Hands that need not press stay loose and move evenly.", byHand),
	item("posture", Body, "Chair high enough that the forearms lie level, shoulders down, sitting in front of the needle.",
		"Arms that are held up tire first and move unevenly.", nil),
	item("light", Room, "Light on the needle from the side.", "The line and the stitches show by their shadow.", nil),
	item("space", Room, "Room for the quilt on the left and behind, so that little hangs.",
		"What hangs pulls the cloth against the needle and shortens stitches.", nil),
	item("bulk", Room, "Roll or bunch ready, loose enough to follow.",
		"A stiff roll in the throat resists the hands.", nil),
}

var tryItems = []listed{
	item("print-scale", Printed, "Measure the test square on the printed template with a ruler.",
		"A printer that fits a page to its paper changes the size.", func(p Plan) bool { return p.Template }),
	item("sandwich", TryOut, "Sew the motif on a practice sandwich of the same cloth, batting and thread.",
		"Tension, stitch length and speed are set on scraps, not on the quilt.", nil),
	item("tension", TryOut, "Look at both sides: no thread of the other side may show as dots or lie straight.",
		"The threads should cross inside the batting.", nil),
}
