package keep

import (
	"strings"
	"testing"

	"unthreaded/scoring/trace"
)

// FuzzSummary: a summary that is read can be written again, and its measures are read or
// refused.
func FuzzSummary(f *testing.F) {
	doc, err := EncodeSummary(Summarise(sample(f)))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"id":"a","print":"p","measured":{"version":1,"seconds":1,"figures":{"spacing":1e308}}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := DecodeSummary(doc)
		if err != nil {
			return
		}
		s.ReadMeasured()
		if _, err := EncodeSummary(s); err != nil {
			t.Fatal(err)
		}
	})
}

// FuzzFromInk: a record that comes of an InkML file can be kept.
func FuzzFromInk(f *testing.F) {
	f.Add(`<ink><annotation type="id">a</annotation><annotation type="spm">600</annotation><trace>0 0, 5 5</trace></ink>`)
	f.Add(`<ink><trace>0 0, 5 5 !</trace></ink>`)
	f.Fuzz(func(t *testing.T, text string) {
		inks, err := trace.ReadInk(strings.NewReader(text))
		if err != nil {
			return
		}
		for _, k := range inks {
			r, err := FromInk(k)
			if err != nil {
				continue
			}
			doc, err := Encode(r)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := Decode(doc); err != nil {
				t.Fatal(err)
			}
		}
	})
}
