package place

import (
	"encoding/json"
	"strings"
)

// IsPiece tells a note of a piece that was sewn at the machine from what is sewn so far of a
// quilt: both are kept under the kind SewnThing, which no kept document can lose any more. What
// is damaged is told by its ID: ticks have that of their quilt.
func IsPiece(t Thing) bool {
	var o map[string]json.RawMessage
	if json.Unmarshal(t.Doc, &o) != nil || o == nil {
		ofQuilt := strings.HasPrefix(t.ID, "quilt-") || strings.HasPrefix(t.ID, "demo-")
		return t.Kind == SewnThing && !ofQuilt
	}
	_, counted := o["stitches"]
	return t.Kind == SewnThing && counted
}
