package machine

import "fmt"

func unknownMethod(m Method) error {
	return fmt.Errorf("method %q is not one of %q, %q and %q", m, WalkingFoot, FreeMotion, RulerFoot)
}

func caution(id string, when func(Plan) bool) listed {
	return listed{Item{ID: id, Group: Safety, Caution: true}, when}
}

func item(id string, g Group, when func(Plan) bool) listed {
	return listed{Item{ID: id, Group: g}, when}
}

var cautionItems = []listed{
	caution("power", nil),
	caution("fingers", nil),
	caution("eyes", nil),
	caution("ruler-foot-only", misfit),
	caution("ruler-fit", withRuler),
	caution("ruler-hold", withRuler),
	caution("rest", nil),
}

var setupItems = []listed{
	item("foot-walking", Setup, fed),
	item("foot-free", Setup, freely),
	item("foot-ruler", Setup, withRuler),
	item("feed-up", Setup, fed),
	item("feed-down", Setup, byHand),
	item("foot-down", Setup, nil),
	item("needle", Setup, nil),
	item("needle-down", Setup, nil),
	item("plate", Setup, nil),
}

var supplyItems = []listed{
	item("thread", Supply, nil),
	item("bobbin", Supply, nil),
	item("bobbin-place", Supply, nil),
	item("bobbin-up", Supply, nil),
}

var placeItems = []listed{
	item("gloves", Body, byHand),
	item("posture", Body, nil),
	item("light", Room, nil),
	item("space", Room, nil),
	item("bulk", Room, nil),
}

var tryItems = []listed{
	item("print-scale", Printed, func(p Plan) bool { return p.Template }),
	item("sandwich", TryOut, nil),
	item("tension", TryOut, nil),
}
