package machine_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/place/machine"
)

// At the machine with a block of the cot quilt the page says how it lies there, and
// what follows; typed, the fields are there; a plan that is in no quilt says so.
func TestWhereTheRowsComeFrom(t *testing.T) {
	m, _ := game.Update(game.New(game.DefaultSettings(), 0), laptop)
	for _, c := range []game.Control{
		{Name: "place", Value: "quilt"}, {Name: "quilt.choose", Item: "block-1-1"}, {Name: "quilt.draw"}, {Name: "draw.route"}, {Name: "place", Value: "machine"},
	} {
		m, _ = game.Update(m, c)
	}
	m, _ = game.Update(m, game.Shelf{})
	say := func(topic string) machine.Shown {
		m, _ = game.Update(m, game.Control{Name: "machine.topic", Value: topic})
		return shown(m)
	}
	p := say("throat")
	if want := "38 in along the rows, 46 in across. It is sewn 10 times, in rows 1 to 5."; !strings.HasPrefix(p.Laid.Text, want) || !p.Laid.Asks || p.Laid.Now != "demo-cot-quilt" || len(p.Fields) != 2 {
		t.Errorf("the throat says %+v with %d fields", p.Laid, len(p.Fields))
	}
	if p := say("speed"); len(p.Times) != 3 || p.Times[1].ID != "A row, 2 blocks" || p.Times[2].ID != "All of it in the quilt, 10 times" {
		t.Errorf("the times are %+v", p.Times)
	}
	if say("thread"); !strings.Contains(page.Of(m).Sentence, "All of it in the quilt takes ") {
		t.Errorf("the thread says %q", page.Of(m).Sentence)
	}
	for _, o := range p.Laid.From {
		if o.ID == "" {
			t.Errorf("the choice %q has no value to send", o.Name)
		}
	}
	m, effects := game.Update(m, game.Control{Name: "machine.quilt", Value: "typed"})
	if p := say("throat"); p.Laid.Now != "typed" || len(p.Fields) != 5 || len(effects) != 1 || strings.Contains(string(effects[0].(game.Keep).Thing.Doc), `"quilt"`) {
		t.Errorf("typed: %+v, %d fields, kept %v", p.Laid, len(p.Fields), effects)
	}
	m, _ = game.Update(m, game.Control{Name: "machine.quilt", Value: "demo-cot-quilt"})
	m, _ = game.Update(m, game.Control{Name: "place", Value: "quilt"})
	m, _ = game.Update(m, game.Control{Name: "quilt.delete"})
	m, _ = game.Update(m, game.Control{Name: "place", Value: "machine"})
	if p := say("throat"); p.Laid.Asks || !strings.Contains(p.Laid.Text, "no longer holds this plan") || len(p.Fields) != 5 {
		t.Errorf("without its quilt: %+v, %d fields", p.Laid, len(p.Fields))
	}
	other := atMachine("orange-peel", game.Control{Name: "machine.topic", Value: "throat"})
	if p := shown(other); p.Laid.Asks || !strings.Contains(p.Laid.Text, "in none of your quilts") {
		t.Errorf("a plan that lies in no quilt: %+v", p.Laid)
	}
}
