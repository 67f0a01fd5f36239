package bench

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"unthreaded/game/plan"
	"unthreaded/path/machine"
)

// What is kept comes back as it was.
func TestDocumentsComeBack(t *testing.T) {
	b := benchFor(t, "diamonds")
	b, _ = b.Type("throat-width", "11", true)
	b, _ = b.Pick("paper", "letter")
	b, _ = b.Tick("power", true)
	b, _ = b.Choose(machine.WalkingFoot)
	b, docs := b.Docs(Change{Mine: true, Job: true})
	if len(docs) != 2 || docs[0].ID != "mine" || docs[1].ID != "plan-diamonds" {
		t.Fatalf("kept as %+v", docs)
	}
	next := New()
	for _, d := range docs {
		var err error
		if next, err = next.Load(d.ID, d.Body); err != nil {
			t.Fatal(err)
		}
	}
	next = next.Sew(b.Plan, nil, usual)
	if next.Mine != b.Mine || !reflect.DeepEqual(next.Job, b.Job) {
		t.Errorf("kept %+v and %+v, came back as %+v and %+v", b.Mine, b.Job, next.Mine, next.Job)
	}
}

// Each plan has its own list; the machine is the same.
func TestListsAreApart(t *testing.T) {
	b := benchFor(t, "diamonds")
	b, _ = b.Tick("power", true)
	b, _ = b.Docs(Change{Job: true})
	other := benchFor(t, "orange-peel").Plan
	if b = b.Sew(other, nil, usual); b.Job.Ticked("power") {
		t.Error("a tick went over to another plan")
	}
	if b = b.Sew(benchFor(t, "diamonds").Plan, nil, usual); !b.Job.Ticked("power") {
		t.Error("the tick is gone on coming back")
	}
	if b = b.Sew(Plan{}, errors.New("no route"), usual); b.Trouble == nil || len(b.Items()) > 0 {
		t.Error("without a route there is a list")
	}
	if _, err := PlanOf(plan.Desk{}); err == nil {
		t.Error("an empty desk has a plan")
	}
}

// A damaged document, or one of a newer version, names what is wrong, is left as it
// is, and what is changed afterwards is kept beside it and found again.
func TestDamagedDocumentsAreLeftAlone(t *testing.T) {
	for name, c := range map[string]struct{ id, doc, says string }{
		"no JSON":      {"mine", `{"schema":1,`, "not the figures"},
		"newer":        {"mine", `{"schema":99}`, "newer version"},
		"no form":      {"mine", `{}`, "schema"},
		"throat":       {"mine", string(encode(with(func(m *Mine) { m.ThroatW = 3 }))), "throat_width_mm"},
		"bobbin":       {"mine", string(encode(with(func(m *Mine) { m.Bobbin = "Z" }))), "bobbin"},
		"paper":        {"mine", string(encode(with(func(m *Mine) { m.Paper = "a3" }))), "paper"},
		"speeds":       {"mine", string(encode(with(func(m *Mine) { m.MinSPM = 1500 }))), "min_spm"},
		"hand":         {"mine", string(encode(with(func(m *Mine) { m.Hand = 190 }))), "hand_room_mm"},
		"job's rows":   {"plan-diamonds", `{"schema":1,"plan":"diamonds","along_mm":500,"across_mm":500,"rows":0,"thickness_mm":2,"dot_spacing_mm":50}`, "rows"},
		"job's method": {"plan-diamonds", `{"schema":1,"plan":"diamonds","method":"hover"}`, "method"},
		"job's name":   {"plan-other", string(encode(benchFor(t, "diamonds").Job)), "plan"},
	} {
		b, err := New().Load(c.id, []byte(c.doc))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: says %v, want it to name %q", name, err, c.says)
			continue
		}
		if b.Mine != Usual() {
			t.Errorf("%s: something of it was taken: %+v", name, b.Mine)
		}
		b = b.Sew(benchFor(t, "diamonds").Plan, nil, usual)
		b, changed := b.Type("throat-width", "9", true)
		b, ticked := b.Tick("power", true)
		_, docs := b.Docs(Change{Mine: changed.Mine, Job: ticked.Job})
		next, _ := New().Load(c.id, []byte(c.doc))
		for _, d := range docs {
			if d.ID == c.id {
				t.Errorf("%s: it is written over", name)
			}
			if next, err = next.Load(d.ID, d.Body); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
		if next = next.Sew(b.Plan, nil, usual); next.Mine != b.Mine || !next.Job.Ticked("power") {
			t.Errorf("%s: what was changed afterwards is not found again", name)
		}
	}
}

func with(change func(*Mine)) Mine {
	m := Usual()
	change(&m)
	return m
}

// Whatever a document holds, what is taken can be worked with.
func FuzzLoad(f *testing.F) {
	b := benchFor(f, "diamonds")
	f.Add("mine", encode(Usual()))
	f.Add("plan-diamonds", encode(b.Job))
	f.Add("mine.2", []byte(`{"schema":1,"min_spm":1e308}`))
	f.Fuzz(func(t *testing.T, id string, doc []byte) {
		next, err := New().Load(id, doc)
		if err != nil {
			return
		}
		next = next.Sew(b.Plan, nil, usual)
		if _, err := next.Orders(); err != nil {
			t.Errorf("orders: %v", err)
		}
		if _, err := next.Bobbins(2.54); err != nil {
			t.Errorf("bobbins: %v", err)
		}
		if err := next.Job.Validate(); err != nil {
			t.Error(err)
		}
	})
}
