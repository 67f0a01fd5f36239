package machine

import "slices"

// Group gathers the items of a list.
type Group string

// The groups, in the order in which they are gone through.
const (
	Setup   Group = "machine"
	Supply  Group = "thread"
	Room    Group = "place"
	Body    Group = "body"
	Safety  Group = "caution"
	TryOut  Group = "try-out"
	Printed Group = "template"
)

// Item is one thing to check before the first stitch.
type Item struct {
	// ID names the item in records and in the catalogue of words; it never changes.
	ID    string
	Group Group
	// Caution marks what can hurt someone.
	Caution bool
}

// Plan says what the list is for.
type Plan struct {
	// Method is the one she chose, advised or not.
	Method Method
	// Ruler is true where lines are marked for a ruler, Template where a
	// full-size template was printed.
	Ruler, Template bool
}

// listed is an item with the plans it is for; a nil rule takes all.
type listed struct {
	Item
	when func(Plan) bool
}

// Checklist returns the items for a plan in order. It defers to the manual of the
// machine, which this list does not replace.
func Checklist(p Plan) ([]Item, error) {
	if !slices.Contains(Methods(), p.Method) {
		return nil, unknownMethod(p.Method)
	}
	var out []Item
	for _, list := range [][]listed{cautionItems, setupItems, supplyItems, placeItems, tryItems} {
		for _, l := range list {
			if l.when == nil || l.when(p) {
				out = append(out, l.Item)
			}
		}
	}
	return out, nil
}

func fed(p Plan) bool       { return p.Method == WalkingFoot }
func byHand(p Plan) bool    { return p.Method != WalkingFoot }
func freely(p Plan) bool    { return p.Method == FreeMotion }
func withRuler(p Plan) bool { return p.Method == RulerFoot }

// misfit is a plan with ruler lines and a foot that no ruler may touch.
func misfit(p Plan) bool { return p.Ruler && p.Method != RulerFoot }
