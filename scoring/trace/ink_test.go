package trace

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// What is said of a trace comes back, letter by letter, beside the trace.
func TestNotesComeBack(t *testing.T) {
	text := rapid.StringMatching(`[a-zA-Z0-9äß<>&"' \[\]{},.:_-]{0,40}`)
	rapid.Check(t, func(rt *rapid.T) {
		var all []Ink
		for range rapid.IntRange(1, 3).Draw(rt, "traces") {
			k := Ink{Started: float64(rapid.Int64Range(0, 4e12).Draw(rt, "started"))}
			k.Trace = Trace{Device: Pen, Ending: Interrupted, Samples: []Sample{{P: geom.Pt(1, 2), Pressure: 0.5}, {T: 0.5, P: geom.Pt(3, 4), Pressure: 0.25}}}
			for range rapid.IntRange(0, 4).Draw(rt, "notes") {
				note := Note{Type: "kind" + rapid.StringMatching(`[a-z]{3}`).Draw(rt, "type"), Text: strings.TrimSpace(text.Draw(rt, "text"))}
				k.Notes = append(k.Notes, note)
			}
			all = append(all, k)
		}
		var b bytes.Buffer
		if err := WriteInk(&b, all); err != nil {
			rt.Fatal(err)
		}
		back, err := ReadInk(bytes.NewReader(b.Bytes()), 0)
		if err != nil {
			rt.Fatalf("%v in\n%s", err, b.String())
		}
		if !reflect.DeepEqual(back, all) {
			rt.Fatalf("came back as\n%+v\nwas\n%+v", back, all)
		}
	})
}

// Timestamps as in the Recommendation, section 4.3 on contexts and 6 on time (from
// memory): ms since 1970, a dateTime of XML Schema, or another timestamp and an offset
// in ms. 2001-09-09T01:46:40Z is 1e9 s after 1970 (the well-known billionth second).
func TestTimestamps(t *testing.T) {
	const format = `<inkSource><traceFormat><channel name="X" units="mm"/><channel name="Y" units="mm"/></traceFormat><sampleRate value="50"/></inkSource>`
	for text, want := range map[string]float64{
		`<timestamp time="1000000000000"/>`:                   1e12,
		`<timestamp time="1000000000000.5"/>`:                 1e12 + 0.5,
		`<timestamp timeString="2001-09-09T01:46:40Z"/>`:      1e12,
		`<timestamp timeString="2001-09-09T03:46:40+02:00"/>`: 1e12,
		`<timestamp timestampRef="#a" timeOffset="250"/>`:     1250,
		``: 0,
	} {
		ink := `<ink><definitions><timestamp xml:id="a" time="1000"/></definitions><context>` + format + text + `</context><trace>1 2</trace></ink>`
		got, err := ReadInk(strings.NewReader(ink), 0)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if got[0].Started != want {
			t.Errorf("%s: began at %v ms, want %v", text, got[0].Started, want)
		}
	}
	for _, text := range []string{`<timestamp time="noon"/>`, `<timestamp timeString="yesterday"/>`, `<timestamp timestampRef="#b"/>`} {
		if _, err := ReadInk(strings.NewReader(`<ink><context>`+format+text+`</context></ink>`), 0); err == nil || !strings.Contains(err.Error(), "timestamp is not understood") {
			t.Errorf("%s: error %v", text, err)
		}
	}
}

// Annotations hold for the traces of their group and of groups inside it, not beside
// it; there is a bound.
func TestAnnotationsHoldForTheirGroup(t *testing.T) {
	got, err := ReadInk(strings.NewReader(ink(`<annotation type="a">1</annotation>
		<traceGroup><annotation type="b">2</annotation><trace>1 2</trace><traceGroup><annotation type="a">3</annotation><trace>3 4</trace></traceGroup></traceGroup>
		<traceGroup><annotation type="c">4</annotation><trace>5 6</trace></traceGroup>`)), 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"1 2  ", "3 2  ", "1  4 "} {
		k := got[i]
		if s := k.Of("a") + " " + k.Of("b") + " " + k.Of("c") + " "; s != want {
			t.Errorf("trace %d has the notes %q, want %q", i, s, want)
		}
	}
	many := strings.Repeat(`<annotation type="x">y</annotation>`, maxNotes+1)
	if _, err := ReadInk(strings.NewReader(ink(many)), 0); err == nil {
		t.Error("any number of annotations is taken")
	}
}
