package machine_test

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/place"
	"unthreaded/game/place/machine"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/plan"
	"unthreaded/game/worktest"
)

var laptop = game.Resized{W: 1026, H: 600, Strip: 112, DPR: 1}

func front(m game.Model) machine.Room { return m.Front().(machine.Room) }

func shown(m game.Model) machine.Shown { return front(m).Page().In.(machine.Shown) }

// atMachine is the place Machine with the route of a ready drawing.
func atMachine(drawing string, controls ...game.Control) game.Model {
	all := append([]game.Control{{Name: "place", Value: "route"}, {Name: "drawing", Value: drawing}, {Name: "place", Value: "machine"}}, controls...)
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), laptop)
	m, _ = worktest.Update(m, game.Shelf{})
	for _, c := range all {
		m, _ = worktest.Update(m, c)
	}
	return m
}

var notANumber = regexp.MustCompile(`\b(NaN|[+-]?Inf)\b|%!`)

// Whatever is typed and chosen through the page's controls: no text holds a number
// that is none, what is refused says what is allowed, and what is kept can be read.
func TestTheMachinesControls(t *testing.T) {
	drawings := plan.Drawings()
	models := map[string]game.Model{}
	for _, d := range drawings[:4] {
		models[d.ID] = atMachine(d.ID)
	}
	names := []string{"set", "set", "set", "method", "tick", "bobbin", "paper", "side", "find", "row-on", "row-back", "line-on", "line-back", "use-trio", "use-pace", "undo", "redo", "topic", "topic", "card"}
	rapid.Check(t, func(t *rapid.T) {
		m := models[rapid.SampledFrom(drawings[:4]).Draw(t, "drawing").ID]
		for range rapid.IntRange(1, 15).Draw(t, "steps") {
			m = pressed(t, m, rapid.SampledFrom(names).Draw(t, "control"))
		}
	})
}

// pressed uses a control with what the page offers for it, or with what a person
// may type, and checks the page after it.
func pressed(t *rapid.T, m game.Model, name string) game.Model {
	pg := shown(m)
	c := game.Control{Name: "machine." + name}
	pick := func(list []place.Option) string { return rapid.SampledFrom(list).Draw(t, name).ID }
	switch name {
	case "set":
		fields := append(append([]machine.FieldRow{}, pg.Fields...), pg.More...)
		if len(fields) == 0 {
			return m
		}
		c.Item = rapid.SampledFrom(fields).Draw(t, "field").ID
		c.Value = rapid.OneOf(rapid.Map(rapid.Float64Range(-5, 3000), func(v float64) string { return fmt.Sprintf("%.1f", v) }),
			rapid.SampledFrom([]string{"", "0", "three", "1/0", "1 1/2", "nan", "1e99"})).Draw(t, "typed")
	case "topic":
		c.Value = rapid.SampledFrom(pg.Topics).Draw(t, name).ID
	case "method":
		c.Item = rapid.SampledFrom([]string{"walking", "free", "ruler", "hover"}).Draw(t, name)
	case "tick":
		c.Item, c.Value = rapid.SampledFrom([]string{"power", "rest", "ruler-fit", "nothing"}).Draw(t, name), rapid.SampledFrom([]string{"on", "off"}).Draw(t, "on")
	case "bobbin", "paper", "side", "find":
		c.Value = map[string]string{"bobbin": "M", "paper": "letter", "side": "left", "find": "stitch"}[name]
		if len(pg.Bobbins) > 0 && name == "bobbin" {
			c.Value = pick(pg.Bobbins)
		}
	case "card":
		c.Item, c.Value = "template", "pdf"
	case "undo", "redo":
		c.Name = name
	}
	next, effects := worktest.Update(m, c)
	kept(t, effects)
	told(t, next, c)
	return next
}

func kept(t *rapid.T, effects []game.Effect) {
	for _, e := range effects {
		k, ok := e.(game.Keep)
		if !ok {
			continue
		}
		if k.Thing.Kind != machine.Thing {
			t.Fatalf("kept as %q", k.Thing.Kind)
		}
		if _, err := bench.New().Load(k.Thing.ID, k.Thing.Doc); err != nil {
			t.Fatalf("what is kept cannot be read: %v", err)
		}
	}
}

func told(t *rapid.T, m game.Model, c game.Control) {
	pg := page.Of(m)
	doc, err := json.Marshal(pg)
	if err != nil {
		t.Fatal(err)
	}
	if bad := notANumber.Find(doc); bad != nil {
		t.Fatalf("after %+v the page says %q: %s", c, bad, doc)
	}
	if pg.Sentence == "" || !shown(m).Ready {
		t.Fatalf("after %+v nothing is said", c)
	}
	if front(m).Bench().Refused.Why == "" {
		return
	}
	for _, f := range append(append([]machine.FieldRow{}, shown(m).Fields...), shown(m).More...) {
		if f.ID == front(m).Bench().Refused.Field {
			if !strings.Contains(f.Error, " to ") || f.Invalid != "true" || f.Value != front(m).Bench().Refused.Text {
				t.Fatalf("%+v is refused with %+v", c, f)
			}
			return
		}
	}
	t.Fatalf("%+v is refused, and no field says so", c)
}

// Without a route the place says what will be here and offers to plan one.
func TestAnEmptyMachine(t *testing.T) {
	pg := machine.New().With(place.Shared{}).Page()
	if in := pg.In.(machine.Shown); !in.Empty || in.Ready || !strings.Contains(pg.Sentence, "Here your sewing machine is set up") {
		t.Errorf("it says %q", pg.Sentence)
	}
}

// Her own speed comes from her kept traces, and 'Use' sets the needle: at 10 stitches
// per inch a hand of 30 mm/s wants 60 x 30 / 2.54 = 709 stitches a minute.
func TestHerOwnSpeed(t *testing.T) {
	m := atMachine("orange-peel", game.Control{Name: "machine.topic", Value: "speed"})
	if pg := shown(m); pg.CanPace || !strings.Contains(pg.PaceText, "No trace is kept yet") {
		t.Errorf("without a trace it says %q", pg.PaceText)
	}
	v := 30.0
	m, _ = worktest.Update(m, game.Listed{Past: []keep.Summary{{ID: "a", Motif: "linked-swirls", CruiseMM: &v}, {ID: "b", Motif: "linked-swirls"}}})
	pg := shown(m)
	if !pg.CanPace || !strings.Contains(pg.PaceText, "1.18 in/s (30.0 mm/s)") || !strings.Contains(pg.PaceText, "709 stitches a minute") {
		t.Errorf("it says %q", pg.PaceText)
	}
	m, effects := worktest.Update(m, game.Control{Name: "machine.use-pace"})
	if len(effects) != 1 || m.Settings.SPM < 708 || m.Settings.SPM > 710 {
		t.Errorf("the needle is set to %v with %d effects", m.Settings.SPM, len(effects))
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.set", Item: "fastest", Value: "500"})
	if pg = shown(m); !strings.Contains(pg.PaceText, "Your machine keeps 500 at the nearest") {
		t.Errorf("on a slow machine it says %q", pg.PaceText)
	}
}

// Rows and ruler lines are looked at one by one, from the first to the last.
func TestRowByRow(t *testing.T) {
	m := atMachine("diamonds", game.Control{Name: "machine.topic", Value: "throat"}, game.Control{Name: "machine.set", Item: "rows", Value: "3"})
	for _, want := range []string{"2 of 3", "3 of 3", "3 of 3"} {
		m, _ = worktest.Update(m, game.Control{Name: "machine.row-on"})
		if got := shown(m).PlaceNow; !strings.HasPrefix(got, want) {
			t.Errorf("it says %q, want %q", got, want)
		}
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.row-back"})
	if got := shown(m).PlaceNow; !strings.HasPrefix(got, "2 of 3") {
		t.Errorf("one back it says %q", got)
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.topic", Value: "marks"})
	m, _ = worktest.Update(m, game.Control{Name: "machine.line-on"})
	if got := shown(m).MarkText; !strings.HasPrefix(got, "Line 2 of ") {
		t.Errorf("it says %q", got)
	}
}

// What was worked out at the machine is what is set, whichever of the three follows in
// the rehearsal: 800 stitches a minute at 8 per inch, 25.4 / 8 = 3.175 mm.
func TestWhatIsUsedIsWhatIsSet(t *testing.T) {
	for _, follows := range []string{"hand", "needle", "stitch"} {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), game.Control{Name: "rehearse.follows", Value: follows})
		for _, c := range []game.Control{
			{Name: "place", Value: "machine"}, {Name: "machine.topic", Value: "speed"},
			{Name: "machine.set", Item: "needle", Value: "800"}, {Name: "machine.set", Item: "stitch", Value: "8"}, {Name: "machine.use-trio"},
		} {
			m, _ = worktest.Update(m, c)
		}
		if s := m.Settings; s.SPM != 800 || math.Abs(s.StitchMM-3.175) > 1e-9 || string(s.Follows) != follows {
			t.Errorf("where the %s follows: %v stitches a minute of %v mm, and the %s follows", follows, s.SPM, s.StitchMM, s.Follows)
		}
		if pg := page.Of(m); !strings.Contains(pg.Sentence, "800 stitches a minute at 8 per inch") || !strings.Contains(pg.Notice, "800") {
			t.Errorf("it says %q and %q", pg.Sentence, pg.Notice)
		}
	}
}
