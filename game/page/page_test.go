package page_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

var laptop = game.Resized{W: 1026, H: 656, Strip: 112, DPR: 1}

func traced(motif string, h synth.Hand) game.Model {
	s := game.DefaultSettings()
	s.Motif = motif
	m, _ := worktest.Update(game.New(s, 0), laptop)
	samples := h.Samples(m.Rehearsal().Line)
	for i, s := range samples {
		p := m.Sight().ToScreen(s.P)
		msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: 1 + s.T, X: p.X, Y: p.Y}
		switch i {
		case 0:
			msg.Kind = game.Down
		case len(samples) - 1:
			msg.Kind = game.Up
		}
		m, _ = worktest.Update(m, msg)
	}
	return m
}

// At 600 stitches a minute and 10 to the inch the planned hand speed is an inch a
// second (25.4 mm); what is said of other hands follows from that.
func TestTheSentenceFits(t *testing.T) {
	wave := func(m float64) func(float64) float64 {
		return func(s float64) float64 { return 25.4 * (1 + m*math.Sin(2*math.Pi*s/90)) }
	}
	for name, c := range map[string]struct {
		h    synth.Hand
		want string
	}{
		"even":      {synth.Hand{Hz: 240, Speed: synth.Steady(25.4)}, "Very even stitches, on the line."},
		"wavering":  {synth.Hand{Hz: 240, Speed: wave(0.3)}, "Even stitches, on the line."},
		"unsteady":  {synth.Hand{Hz: 240, Speed: wave(0.5)}, "to the inch instead of"},
		"fast":      {synth.Hand{Hz: 240, Speed: synth.Steady(38.1)}, "Even, but faster than planned: 6.5 to the inch instead of 10. Aim at 1 inch a second, or set the needle to about 900 a minute."},
		"slow":      {synth.Hand{Hz: 240, Speed: synth.Steady(12.7)}, "Even, but slower than planned: 20 to the inch instead of 10. Aim at 1 inch a second, or set the needle to about 300 a minute."},
		"half done": {synth.Hand{Hz: 240, Speed: synth.Steady(25.4), Stop: 400}, "in before the end. Go on to the end"},
		"a blink":   {synth.Hand{Hz: 240, Speed: synth.Steady(40), Stop: 6}, "in before the end."},
	} {
		p := page.Of(traced("linked-swirls", c.h))
		if got := p.Sentence + " " + p.Next; !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q in it", name, got, c.want)
		}
	}
}

// Each figure has a value with its unit and a note; a measure that could not be
// taken says why.
func TestFiguresSayWhatTheyAre(t *testing.T) {
	for _, motif := range []string{"linked-swirls", "ruler-zigzag"} {
		p := page.Of(traced(motif, synth.Hand{Hz: 240, Speed: synth.Steady(20), Overshoot: 1.5}))
		if len(p.Figures) != 4 {
			t.Fatalf("%s: %d figures, want 4", motif, len(p.Figures))
		}
		for _, f := range p.Figures {
			if f.Name == "" || f.Value == "" || f.Note == "" || strings.Contains(f.Value+f.Note, "NaN") {
				t.Errorf("%s: figure %+v", motif, f)
			}
		}
	}
}

// Every name that the page's elements bind to is one that the program provides.
func TestThePageBindsToWhatThereIs(t *testing.T) {
	parts, err := filepath.Glob("../../wasm/site/parts/*.html")
	if err != nil {
		t.Fatal(err)
	}
	var html []byte
	for _, name := range append(parts, "../../wasm/site/index.html") {
		part, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		html = append(html, part...)
	}
	known := map[string]bool{}
	collect(known, "", reflect.TypeOf(page.Page{}))
	for _, n := range game.Places {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), game.Control{Name: "place", Value: string(n)})
		collect(known, string(n)+".", reflect.TypeOf(m.Front().Page().In))
		known["at."+string(n)] = true
	}
	attr := regexp.MustCompile(`data-(text|value|checked|show|enabled|pressed|list|time|picture|attr|size|modal)="([^"]+)"`)
	found := attr.FindAllStringSubmatch(string(html), -1)
	if len(found) < 30 {
		t.Fatalf("only %d bindings found in the page", len(found))
	}
	for _, m := range found {
		for _, key := range strings.Split(m[2], ",") {
			if m[1] == "attr" || m[1] == "size" {
				key = key[strings.Index(key, ":")+1:]
			}
			if !known[key] {
				t.Errorf("the page binds data-%s to %q, which the program does not provide", m[1], key)
			}
		}
	}
}

// collect lists the JSON names of a type, those of list entries without prefix.
func collect(known map[string]bool, prefix string, t reflect.Type) {
	for i := 0; i < t.NumField(); i++ {
		f := t.Field(i)
		name := prefix + strings.Split(f.Tag.Get("json"), ",")[0]
		if f.Anonymous {
			collect(known, prefix, f.Type)
			continue
		}
		known[name] = true
		switch f.Type.Kind() {
		case reflect.Struct:
			collect(known, name+".", f.Type)
		case reflect.Slice:
			if f.Type.Elem().Kind() == reflect.Struct {
				collect(known, "", f.Type.Elem())
			}
		}
	}
}

// The page is told in JSON; no value may be one that JSON does not know.
func TestThePageIsJSON(t *testing.T) {
	var fresh game.Model = game.New(game.DefaultSettings(), 0)
	for _, m := range []game.Model{fresh, traced("ruler-zigzag", synth.Hand{Hz: 60, Speed: synth.Steady(300), Stop: 20})} {
		doc, err := json.Marshal(page.Of(m))
		if err != nil || !json.Valid(doc) {
			t.Errorf("the page is no JSON: %v", err)
		}
	}
}
