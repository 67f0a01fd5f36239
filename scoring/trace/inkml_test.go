package trace

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func read(t *testing.T, text string) []Trace {
	t.Helper()
	traces, err := readInkML(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return traces
}

// ink wraps traces of channels X and Y in mm at 100 Hz.
func ink(inner string) string {
	return `<?xml version="1.0"?><ink xmlns="http://www.w3.org/2003/InkML"><context><inkSource><traceFormat>` +
		`<channel name="X" type="decimal" units="mm"/><channel name="Y" type="decimal" units="mm"/>` +
		`</traceFormat><sampleRate value="100"/></inkSource></context>` + inner + `</ink>`
}

func coords(tr Trace) string {
	var b strings.Builder
	for _, s := range tr.Samples {
		fmt.Fprintf(&b, "%g %g, ", s.P.X, s.P.Y)
	}
	return strings.TrimSuffix(b.String(), ", ")
}

// The worked example of the Recommendation, section 3.2.1, with first and second
// differences (its text and table from memory; the values follow from the
// differences by hand: 1125+23, +30, +33, ...).
func TestDifferencesAsInTheRecommendation(t *testing.T) {
	got := read(t, ink(`<trace>1125 18432,'23'43,"7"-8,3-5,7 -3,6 2,6 8,3 6</trace>`))
	want := "1125 18432, 1148 18475, 1178 18510, 1211 18540, 1251 18567, 1297 18596, 1349 18633, 1404 18676"
	if c := coords(got[0]); c != want {
		t.Errorf("read %s\nwant %s", c, want)
	}
}

func TestNotationsOfPoints(t *testing.T) {
	for text, want := range map[string]string{
		"1 2,3 4":         "1 2, 3 4",
		"1-2,-3-4,":       "1 -2, -3 -4",
		" 1e1 2.5e-1 ":    "10 0.25",
		"1 2,* 5,*6":      "1 2, 1 5, 1 6",
		"1 2,'1'1,**,!7*": "1 2, 2 3, 3 4, 7 5",
		"#ff #10":         "255 16",
	} {
		if got := coords(read(t, ink("<trace>"+text+"</trace>"))[0]); got != want {
			t.Errorf("%q read as %s, want %s", text, got, want)
		}
	}
}

// 1 in = 25.4 mm (international yard and pound agreement, 1959); 1 pt = 1/72 in
// and 1 pc = 12 pt as in CSS. Device units need a resolution.
func TestUnits(t *testing.T) {
	channel := `<channel name="X" type="decimal" units="%s"/><channel name="Y" type="decimal" units="%s" orientation="-ve"/><channel name="T" units="%s"/><channel name="F" max="1024"/>`
	for _, c := range []struct {
		unit, time, property string
		mm, s                float64
	}{
		{"in", "s", "", 25.4, 1},
		{"pt", "ms", "", 25.4 / 72, 0.001},
		{"pc", "", "", 25.4 / 6, 0.001},
		{"cm", "ms", "", 10, 0.001},
		{"dev", "ms", `<channelProperty channel="X" name="resolution" value="1000" units="1/cm"/><channelProperty channel="Y" name="resolution" value="1000" units="1/cm"/>`, 0.01, 0.001},
	} {
		text := `<ink><context><inkSource><traceFormat>` + fmt.Sprintf(channel, c.unit, c.unit, c.time) +
			`</traceFormat><channelProperties>` + c.property + `</channelProperties></inkSource></context><trace>3 4 100 512, 5 6 108 1024</trace></ink>`
		s := read(t, text)[0].Samples
		near(t, c.unit+": x", s[1].P.X, 5*c.mm, 1e-12)
		near(t, c.unit+": y", s[1].P.Y, -6*c.mm, 1e-12)
		near(t, c.unit+": t", s[1].T, 108*c.s, 1e-12)
		near(t, c.unit+": pressure", s[0].Pressure, 0.5, 1e-12)
	}
}

// Contexts, groups and references: what a trace or its group refers to holds.
func TestReferences(t *testing.T) {
	got := read(t, `<ink xmlns="http://www.w3.org/2003/InkML"><definitions>
		<traceFormat xml:id="f"><channel name="X" units="mm"/><channel name="Y" units="mm"/><channel name="T" units="s"/></traceFormat>
		<inkSource xml:id="s" description="pen"><traceFormat><channel name="Y" units="cm"/><channel name="X" units="cm"/></traceFormat><sampleRate value="50"/></inkSource>
		<context xml:id="a" traceFormatRef="#f"/><context xml:id="b" inkSourceRef="#s"/></definitions>
		<trace contextRef="#a">1 2 3</trace>
		<traceGroup contextRef="#b"><annotation type="ending">interrupted</annotation><trace>1 2, 3 4</trace><trace type="penUp">9 9</trace><traceGroup><trace contextRef="#a">7 8 9</trace></traceGroup></traceGroup></ink>`)
	want := []Trace{
		{Ending: Lifted, Samples: []Sample{{T: 3, P: geom.Pt(1, 2), Pressure: 0.5}}},
		{Ending: Interrupted, Device: Pen, Samples: []Sample{{P: geom.Pt(20, 10), Pressure: 0.5}, {T: 0.02, P: geom.Pt(40, 30), Pressure: 0.5}}},
		{Ending: Interrupted, Samples: []Sample{{T: 9, P: geom.Pt(7, 8), Pressure: 0.5}}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("read %+v\nwant %+v", got, want)
	}
}

func TestBrokenInkNamesThePlace(t *testing.T) {
	deep := strings.Repeat("<traceGroup>", 40)
	wide := strings.Repeat(`<channel name="Z"/>`, 100)
	for text, want := range map[string]string{
		``:                              "there is no element ink",
		`<svg/>`:                        `the file is no InkML: it begins with "svg"`,
		`<ink><trace>1 2</trace></ink>`: "the places have no unit of length: the ink is 0 x 0 units large",
		ink(`<trace>1 2, 3</trace>`):    "trace 0, point 1: 1 values, need 2",
		ink(`<trace>1 2</trace><trace>1 x</trace>`):                `trace 1, point 0: channel Y: "x" is no number`,
		ink(`<trace>1 2, 3 4 5</trace>`):                           "trace 0, point 1: more than 2 values",
		ink(`<trace>1 ?</trace>`):                                  "trace 0, point 0: the place is not known",
		ink(`<trace>1 1e999</trace>`):                              `trace 0, point 0: channel Y: "1e999" is no number`,
		ink(`<trace></trace>`):                                     "trace 0: the trace has no samples",
		ink(`<trace contextRef="#no">1 2</trace>`):                 `trace 0: context "#no" is not defined before it is used`,
		ink(`<trace continuation="end">1 2</trace>`):               "trace 0: it continues another, but none stands before it",
		ink(`<trace continuation="end" priorRef="#a">1 2</trace>`): `trace 0: it continues "#a", which does not stand before it`,
		ink(deep):         "groups nest deeper than 32",
		ink(`<trace>1 2`): "syntax error",
		`<ink><context><traceFormat><channel name="X" units="mm"/><channel name="Y" units="kg"/></traceFormat></context><trace>1 2</trace></ink>`: `channel Y: unit "kg" is no length`,
		`<ink><context><traceFormat>` + wide + `</traceFormat></context></ink>`:                                                                   "more than 64 channels",
	} {
		if _, err := readInkML(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.80s: error %v, want %q", text, err, want)
		}
	}
}

// What is written is read back the same, to the last bit.
func TestInkMLRoundTrip(t *testing.T) {
	coord, unit := rapid.Float64Range(-1e4, 1e4), rapid.Float64Range(0, 1)
	rapid.Check(t, func(rt *rapid.T) {
		var traces []Trace
		for range rapid.IntRange(1, 3).Draw(rt, "traces") {
			tr := Trace{
				Device:  rapid.SampledFrom([]Device{Mouse, Pen, Touch}).Draw(rt, "device"),
				Ending:  rapid.SampledFrom([]Ending{Lifted, Interrupted}).Draw(rt, "ending"),
				PixelMM: rapid.SampledFrom([]float64{0, 0.26}).Draw(rt, "pixel"), ClockStep: unit.Draw(rt, "clock"),
			}
			for range rapid.IntRange(1, 5).Draw(rt, "samples") {
				tr.Samples = append(tr.Samples, Sample{
					T: coord.Draw(rt, "t"), P: geom.Pt(coord.Draw(rt, "x"), coord.Draw(rt, "y")), Pressure: unit.Draw(rt, "f"),
				})
			}
			traces = append(traces, tr)
		}
		var b bytes.Buffer
		if err := writeInkML(&b, traces); err != nil {
			rt.Fatal(err)
		}
		got, err := readInkML(&b)
		if err != nil || !reflect.DeepEqual(got, traces) {
			rt.Fatalf("wrote %+v, read %+v (%v)", traces, got, err)
		}
	})
}

// The holds of a trace are continuations at their true times, and come back as holds.
func TestHoldsAreContinuations(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		tr := Trace{Device: Mouse, Ending: Lifted, Samples: []Sample{{Pressure: 0.5}}}
		away := 0.0
		for range rapid.IntRange(1, 5).Draw(rt, "holds") {
			for range rapid.IntRange(1, 4).Draw(rt, "samples") {
				last := tr.Samples[len(tr.Samples)-1]
				last.T, last.P.X = last.T+0.008, last.P.X+rapid.Float64Range(-3, 3).Draw(rt, "x")
				tr.Samples = append(tr.Samples, last)
			}
			h := Hold{tr.Samples[len(tr.Samples)-1].T, rapid.Float64Range(0.001, 4000).Draw(rt, "pause")}
			tr.Holds, away = append(tr.Holds, h), away+h.Pause
		}
		tr.Samples = append(tr.Samples, Sample{T: tr.Samples[len(tr.Samples)-1].T + 0.008, P: geom.Pt(9, 9), Pressure: 0.5})
		var b bytes.Buffer
		if err := writeInkML(&b, []Trace{tr, tr}); err != nil {
			rt.Fatal(err)
		}
		if n := strings.Count(b.String(), `continuation="middle"`); n != 2*(len(tr.Holds)-1) {
			rt.Errorf("%d continuations in the middle for twice %d holds", n, len(tr.Holds))
		}
		if last := plain(tr.Samples[len(tr.Samples)-1].T + away); !strings.Contains(b.String(), ", 9 9 "+last) {
			rt.Errorf("the last sample does not stand at its true time, %s s", last)
		}
		got, err := readInkML(&b)
		if err != nil || len(got) != 2 || len(got[1].Samples) != len(tr.Samples) || len(got[1].Holds) != len(tr.Holds) {
			rt.Fatalf("wrote %+v, read %+v (%v)", tr, got, err)
		}
		for i, s := range got[1].Samples {
			near(rt, "time", s.T, tr.Samples[i].T, 1e-9)
			near(rt, "place", s.P.X, tr.Samples[i].P.X, 0)
		}
		for i, h := range got[1].Holds {
			near(rt, "hold", h.T, tr.Holds[i].T, 1e-9)
			near(rt, "pause", h.Pause, tr.Holds[i].Pause, 1e-9)
		}
	})
}

// A continuation is joined to what it refers to, or to the trace before it; one that
// goes on from another place is no new hold.
func TestContinuations(t *testing.T) {
	got := read(t, ink(`<trace xml:id="a" continuation="begin">1 1, 2 2</trace><trace>7 7</trace>`+
		`<trace xml:id="b" continuation="middle" priorRef="#a">3 3</trace><trace continuation="end" priorRef="#b">4 4</trace>`+
		`<trace continuation="end">8 8</trace>`))
	if len(got) != 2 || coords(got[0]) != "1 1, 2 2, 3 3, 4 4" || got[0].Holds != nil {
		t.Errorf("read %+v", got)
	}
	if coords(got[1]) != "7 7, 8 8" {
		t.Errorf("without a reference it was joined as %s, want 7 7, 8 8", coords(got[1]))
	}
}

func TestWriteRefusesBrokenTraces(t *testing.T) {
	err := writeInkML(&bytes.Buffer{}, []Trace{{Samples: []Sample{{T: math.NaN()}}}})
	if err == nil || !strings.HasPrefix(err.Error(), "trace 0: sample 0: time NaN s") {
		t.Errorf("error %v, want one that names trace 0, sample 0", err)
	}
}

func FuzzReadInkML(f *testing.F) {
	f.Add(ink(`<trace>1125 18432,'23'43,"7"-8,3-5,7 -3</trace>`))
	f.Add(`<ink><context xml:id="a"><inkSource description="pen"><traceFormat><channel name="X" units="dev"/><channel name="Y" units="in"/><channel name="T"/><intermittentChannels><channel name="F" max="9"/></intermittentChannels></traceFormat><channelProperties><channelProperty channel="X" name="resolution" value="10" units="1/mm"/></channelProperties></inkSource></context><traceGroup contextRef="#a"><trace>1 2 3,4 5 6 7,* ? T</trace></traceGroup></ink>`)
	f.Add(ink(`<trace>0 0, 5 5 !</trace>`))
	f.Add(`<!DOCTYPE ink [<!ENTITY a "b">]><ink><trace>&a;</trace></ink>`)
	f.Fuzz(func(t *testing.T, text string) {
		traces, err := readInkML(strings.NewReader(text))
		if err != nil {
			return
		}
		for i, tr := range traces {
			if err := tr.Validate(); err != nil {
				t.Fatalf("trace %d: %v", i, err)
			}
		}
		var b bytes.Buffer
		if err := writeInkML(&b, traces); err != nil {
			t.Fatal(err)
		}
		again, err := readInkML(&b)
		if err != nil || len(again) != len(traces) {
			t.Fatalf("%d traces came back as %d (%v)", len(traces), len(again), err)
		}
	})
}

// A sign before no value is a fault of the file, wherever it stands.
func TestAStraySignIsRefused(t *testing.T) {
	for _, text := range []string{"0 0, 5 5 !", "0 0, 5 !", "!", "0 0, 5 5 '", "0 0, 5 5 \" "} {
		if _, err := readInkML(strings.NewReader(ink("<trace>" + text + "</trace>"))); err == nil {
			t.Errorf("%q was read", text)
		}
	}
}

// writeInkML writes traces of which nothing else is known; see WriteInk.
func writeInkML(w io.Writer, traces []Trace) error {
	all := make([]Ink, len(traces))
	for i, tr := range traces {
		all[i].Trace = tr
	}
	return WriteInk(w, all)
}

// readInkML reads the movements of an InkML file alone; see ReadInk.
func readInkML(r io.Reader) ([]Trace, error) {
	all, err := ReadInk(r, 0)
	if err != nil {
		return nil, err
	}
	var traces []Trace
	for _, k := range all {
		if !k.Timeless {
			traces = append(traces, k.Trace)
		}
	}
	return traces, nil
}
