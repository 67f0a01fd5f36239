package run

import (
	"reflect"
	"testing"

	"unthreaded/game/keep"
	"unthreaded/game/work"
)

// The example is made of traces that are read and measured as kept ones are, in their order,
// the same each time, and its hand gets more even.
func TestTheExampleIsPractice(t *testing.T) {
	in := work.ExampleIn{Now: 1_780_000_000_000, Name: "Linked swirls"}
	shares := 0
	out := practised(in, func(float64) { shares++ })
	if len(out.Records) != exampleDays*exampleTraces || len(out.Docs) != len(out.Records) || shares != len(out.Docs) {
		t.Fatalf("%d traces, %d documents, told %d times", len(out.Records), len(out.Docs), shares)
	}
	for i, doc := range out.Docs {
		rec, err := keep.Decode(doc)
		if err != nil {
			t.Fatal(err)
		}
		if sum := keep.Summarise(rec); !reflect.DeepEqual(sum, out.Records[i]) {
			t.Fatalf("trace %d is summed up as %+v, its record as %+v", i, out.Records[i], sum)
		}
		if rec.Started >= in.Now || i > 0 && rec.Started <= out.Records[i-1].Started {
			t.Errorf("trace %d was made at %d", i, rec.Started)
		}
	}
	first, last := out.Records[0].StitchCV, out.Records[len(out.Records)-1].StitchCV
	if first == nil || last == nil || *last > *first/2 {
		t.Errorf("the stitches vary by %v at first, by %v at last", *first, *last)
	}
	if again := practised(in, func(float64) {}); !reflect.DeepEqual(again, out) {
		t.Error("made again it is another")
	}
}
