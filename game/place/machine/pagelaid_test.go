package machine_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/place/machine"
	"unthreaded/game/work"
	"unthreaded/game/worktest"
)

// atMachineWithQuilt is the place Machine with the cot quilt on the table.
func atMachineWithQuilt(t *testing.T, topic string) game.Model {
	t.Helper()
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), laptop)
	m, _ = worktest.Update(m, game.Shelf{})
	for _, c := range []game.Control{{Name: "place", Value: "quilt"}, {Name: "place", Value: "machine"}, {Name: "machine.topic", Value: topic}} {
		m, _ = worktest.Update(m, c)
	}
	return m
}

func onTopic(m game.Model, topic string) (game.Model, machine.Shown) {
	m, _ = worktest.Update(m, game.Control{Name: "machine.topic", Value: topic})
	return m, shown(m)
}

// With the cot quilt on the table the page takes its rows from the quilt's order, and
// what follows; typed, the fields are there; without a quilt it says so.
func TestWhereTheRowsComeFrom(t *testing.T) {
	m := atMachineWithQuilt(t, "throat")
	p := shown(m)
	if want := "38 in along the rows, 46 in across. 9 rows and strips, in the order in which your quilt is sewn."; !strings.HasPrefix(p.Laid.Text, want) || !p.Laid.Asks || p.Laid.Now != "demo-cot-quilt" || len(p.Fields) != 2 {
		t.Errorf("the throat says %+v with %d fields", p.Laid, len(p.Fields))
	}
	if p.Orders[0].ID != "middle-out" || p.Orders[0].Use || len(p.Orders) != 5 || !p.Orders[1].Use || !strings.HasPrefix(p.PlaceNow, "1 of 9: sashing strip 3.") {
		t.Errorf("the orders are %+v, the first row %q", p.Orders, p.PlaceNow)
	}
	if _, p := onTopic(m, "speed"); len(p.Times) != 2 || p.Times[1].ID != "The whole quilt" {
		t.Errorf("the times are %+v", p.Times)
	}
	next, p := onTopic(m, "thread")
	if !strings.Contains(page.Of(next).Sentence, "in the whole quilt") || len(p.Due) == 0 {
		t.Errorf("the thread says %q, %+v", page.Of(next).Sentence, p.Due)
	}
	if _, p := onTopic(m, "marks"); !p.HasRows || len(p.Rows) != 12 || !strings.HasPrefix(p.Rows[0].Value, "The ditch") {
		t.Errorf("the stages are %+v", p.Rows)
	}
	for _, o := range p.Laid.From {
		if o.ID == "" {
			t.Errorf("the choice %q has no value to send", o.Name)
		}
	}
	m, effects := worktest.Update(m, game.Control{Name: "machine.quilt", Value: "typed"})
	if p := shown(m); p.Laid.Now != "typed" || len(p.Fields) != 5 || len(effects) != 1 || strings.Contains(string(effects[0].(game.Keep).Thing.Doc), `"quilt"`) {
		t.Errorf("typed: %+v, %d fields, kept %v", p.Laid, len(p.Fields), effects)
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.quilt", Value: "demo-cot-quilt"})
	for _, c := range []game.Control{{Name: "place", Value: "quilt"}, {Name: "quilt.delete"}, {Name: "place", Value: "machine"}} {
		m, _ = worktest.Update(m, c)
	}
	if p := shown(m); p.Laid.Asks && p.Laid.Now == "demo-cot-quilt" {
		t.Errorf("without its quilt: %+v, %d fields", p.Laid, len(p.Fields))
	}
	other := atMachine("orange-peel", game.Control{Name: "machine.topic", Value: "throat"})
	if p := shown(other); p.Laid.Asks || len(p.Fields) != 5 {
		t.Errorf("without a quilt: %+v", p.Laid)
	}
}

// Another order of the rows chosen here is the quilt's order: it is kept with the quilt,
// planned anew, and taken back.
func TestAnotherOrderOfTheRows(t *testing.T) {
	m := atMachineWithQuilt(t, "throat")
	m, effects := worktest.Update(m, game.Control{Name: "machine.sew-rows", Item: "first-to-last"})
	if p := shown(m); p.Orders[0].ID != "first-to-last" || !strings.HasPrefix(p.PlaceNow, "1 of 9: row 1.") || len(effects) != 1 {
		t.Errorf("%+v, %q, %d effects", p.Orders[0], p.PlaceNow, len(effects))
	}
	if k := effects[0].(game.Keep); k.Thing.Kind != "order" || !strings.Contains(string(k.Thing.Doc), "first-to-last") {
		t.Errorf("kept %s", k.Thing.Doc)
	}
	if rows := m.Top.Plan.Order.Stages; rows[2].ID != "row-1" {
		t.Errorf("the quilt is sewn from %s", rows[2].ID)
	}
	m, _ = worktest.Update(m, game.Control{Name: "undo"})
	if p := shown(m); p.Orders[0].ID != "middle-out" {
		t.Errorf("taken back it is %+v", p.Orders[0])
	}
	m, _ = worktest.Update(m, game.Control{Name: "redo"})
	if p := shown(m); p.Orders[0].ID != "first-to-last" {
		t.Errorf("done again it is %+v", p.Orders[0])
	}
}

// What is sewn is ticked with its day and kept with the quilt; what is left goes down;
// undo takes the tick back, beside what was typed.
func TestTicksAtTheMachine(t *testing.T) {
	m := atMachineWithQuilt(t, "job")
	p := shown(m).Job
	if !p.Any || p.HasLeft || len(p.Stages) != 12 || p.Stages[0].Done || p.Rests == "" || len(p.Hand) < 3 {
		t.Fatalf("%+v", p)
	}
	m, effects := worktest.Update(m, game.Control{Name: "machine.sewn", Item: p.Stages[0].ID, Value: "on"})
	p = shown(m).Job
	if !p.Stages[0].Done || !strings.HasPrefix(p.Stages[0].Note, "sewn on ") || !p.HasLeft || len(effects) != 1 || effects[0].(game.Keep).Thing.Kind != "sewn" {
		t.Errorf("%+v, kept %v", p.Stages[0], effects)
	}
	if said := page.Of(m).Sentence; !strings.Contains(said, "are left. Next: The ditch down, place 1.") {
		t.Errorf("it says %q", said)
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.changed", Item: p.Bobbins[0].ID, Value: "on"})
	m, _ = worktest.Update(m, game.Control{Name: "machine.set", Item: "stop", Value: "90"})
	if p = shown(m).Job; !p.Bobbins[0].Done {
		t.Error("the bobbin is not ticked")
	}
	slow := p.Sums[2].Value
	for i, want := range []struct {
		bobbin, stage bool
	}{{true, true}, {false, true}, {false, false}, {false, false}} {
		m, _ = worktest.Update(m, game.Control{Name: "undo"})
		if p = shown(m).Job; p.Bobbins[0].Done != want.bobbin || p.Stages[0].Done != want.stage || p.Sums[2].Value == slow {
			t.Errorf("after %d undone: bobbin %v, stage %v", i+1, p.Bobbins[0].Done, p.Stages[0].Done)
		}
	}
	for range 3 {
		m, _ = worktest.Update(m, game.Control{Name: "redo"})
	}
	if p = shown(m).Job; !p.Bobbins[0].Done || !p.Stages[0].Done || p.Sums[2].Value != slow {
		t.Error("it is not done again")
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.sewn", Item: p.Stages[0].ID, Value: "off"})
	if p = shown(m).Job; p.Stages[0].Done {
		t.Error("the tick does not go")
	}
	// Where a plan has changed elsewhere since, its steps are taken back there.
	for _, c := range []game.Control{{Name: "place", Value: "quilt"}, {Name: "quilt.rows", Value: "4"}, {Name: "place", Value: "machine"}, {Name: "undo"}} {
		m, _ = worktest.Update(m, c)
	}
	if m.Top.Quilt.Rows == 5 {
		t.Error("undo at the machine takes back what was done in Quilt")
	}
}

// The cards of a quilt can be had without a route, are named after quilt and stage, and
// say what the screen says.
func TestCardsOfTheQuilt(t *testing.T) {
	m := atMachineWithQuilt(t, "card")
	p := shown(m)
	if len(p.Cards) < 4 || p.Cards[0].ID != "job" || p.Cards[1].ID != "stage" || len(p.Cards[1].Picks) != 12 || p.Cards[2].SVG != "" {
		t.Fatalf("%+v", p.Cards)
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.topic", Value: "job"})
	for _, want := range []bool{true, false} { // pressed again it is the whole
		m, _ = worktest.Update(m, game.Control{Name: "machine.stage", Item: "row-7"})
		_, effects := game.Update(m, game.Frame{Now: 1})
		if made := effects[0].(work.Ask).In.(work.ProofIn); shown(m).Job.Stages[3].Looked != want || (made.What == "stage") != want {
			t.Errorf("looked at: %v, the proof is of %q", shown(m).Job.Stages[3].Looked, made.What)
		}
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.stage-of", Value: "row-7"})
	m, effects := game.Update(m, game.Control{Name: "machine.card", Item: "stage", Value: "pdf"})
	made := effects[0].(work.Ask).In.(work.CardIn)
	if made.Job.File != "cot-quilt-pond-and-reeds" || made.Job.Whole.StageCode(made.Job.Stage) != "row-4" {
		t.Errorf("%q, %s", made.Job.File, made.Job.Whole.StageCode(made.Job.Stage))
	}
	_, effects = worktest.Update(m, game.Control{Name: "machine.card", Item: "job", Value: "pdf"})
	if f, ok := effects[0].(game.Download); !ok || !strings.HasPrefix(string(f.Data), "%PDF-") {
		t.Error("the card of the job is not made")
	}
	if _, effects = worktest.Update(atMachine("orange-peel"), game.Control{Name: "machine.card", Item: "job", Value: "pdf"}); len(effects) != 0 {
		t.Error("without a quilt there is a card of its job")
	}
}
