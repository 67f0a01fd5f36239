package screen

import (
	"encoding/json"
	"testing"
)

// FuzzScreens: whatever stands in the settings, screens that are read are of a size that
// screens have, and come back as they were written.
func FuzzScreens(f *testing.F) {
	f.Add([]byte(`[{"short":800,"long":1280,"dpr":1,"px_per_mm":3.8}]`))
	f.Add([]byte(`[{"px_per_mm":1e999}]`))
	f.Add([]byte(`{"short":800}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		var s Screens
		if json.Unmarshal(doc, &s) != nil {
			return // no JSON at all
		}
		for _, c := range s {
			if card := c.PxPerMM * CardLongMM; c.PxPerMM != 0 && !(card >= MinCard && card <= MaxCard) {
				t.Fatalf("a card of %v px", card)
			}
		}
		out, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		var again Screens
		if err := json.Unmarshal(out, &again); err != nil || again != s {
			t.Fatalf("%v came back as %v: %v", s, again, err)
		}
	})
}
