package top

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// A document brings the quilt back with the designs that lie in it, and with no
// others; photos stay behind.
func TestDocumentHoldsTheQuiltAndItsDesigns(t *testing.T) {
	q, designs := quilt.Demo()
	other := designs["demo-lily"]
	other.ID = "not-in-it"
	designs[other.ID] = other
	doc, err := Open(q, designs).Encode()
	if err != nil {
		t.Fatal(err)
	}
	saved, err := Decode(doc)
	if err != nil {
		t.Fatal(err)
	}
	back, with := saved.Quilt, saved.Designs
	if !reflect.DeepEqual(Open(back, designs).Quilt, back) || back.ID != q.ID || len(with) != 5 {
		t.Errorf("%q came back with %d designs, want the demo with 5", back.ID, len(with))
	}
	for _, d := range with {
		if d.ID == other.ID {
			t.Error("a design came along that does not lie in the quilt")
		}
	}
	moved := Renamed(back, map[string]string{"demo-lily": "lily-2"})
	if moved.ByKind[quilt.Block].Design != "lily-2" || back.ByKind[quilt.Block].Design != "demo-lily" {
		t.Error("the renamed quilt names the wrong design, or the old one was changed")
	}
}

// What is no such document says so, and a newer one is known as newer.
func TestDocumentsThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"a shopping list":                   "no JSON document",
		"{}":                                "no quilt",
		`{"schema":1,"quilt":{"schema":1}}`: "quilt",
		`{"schema":1,"quilt":null,"designs":[{}]}`: "quilt",
	} {
		if _, err := Decode([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q in it", text, err, want)
		}
	}
	if _, err := Decode([]byte(`{"schema":3}`)); !errors.Is(err, quilt.ErrNewer) {
		t.Errorf("a newer form: %v", err)
	}
}

// Choices and ticks travel with the quilt; a document of form 1, from before there were
// any, opens with the usual order and no ticks.
func TestDocumentsTakeTheOrderAlong(t *testing.T) {
	q, designs := quilt.Demo()
	c := order.Choices{Schema: order.Schema, Stages: []string{"row-3"}}
	s := order.Sewn{Schema: order.Schema}.With(order.Tick{Kind: order.StageTick, Stage: "row-3", Day: "2026-02-03"})
	doc, err := Open(q, designs).WithPlan(c, s).Encode()
	if err != nil {
		t.Fatal(err)
	}
	back, err := Decode(doc)
	if err != nil || !reflect.DeepEqual(back.Choices, c) || !reflect.DeepEqual(back.Sewn, s) {
		t.Errorf("came back as %+v and %+v (%v)", back.Choices, back.Sewn, err)
	}
	var parts map[string]json.RawMessage
	if err := json.Unmarshal(doc, &parts); err != nil {
		t.Fatal(err)
	}
	delete(parts, "order")
	delete(parts, "sewn")
	parts["schema"] = json.RawMessage("1")
	if doc, err = json.Marshal(parts); err != nil {
		t.Fatal(err)
	}
	old, err := Decode(doc)
	if err != nil || !reflect.DeepEqual(old.Quilt, back.Quilt) || len(old.Designs) != 5 || !reflect.DeepEqual(old.Choices, order.Choices{}) || len(old.Sewn.Ticks) != 0 {
		t.Errorf("a document of form 1 opens as %q with %d designs, %+v, %+v (%v)", old.Quilt.ID, len(old.Designs), old.Choices, old.Sewn, err)
	}
}

func FuzzDecode(f *testing.F) {
	q, designs := quilt.Demo()
	doc, err := Open(q, designs).Encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"schema":1,"quilt":{},"designs":[{}]}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		saved, err := Decode(doc)
		if err != nil {
			return
		}
		if err := errors.Join(saved.Quilt.Validate(), saved.Choices.Validate(), saved.Sewn.Validate()); err != nil {
			t.Errorf("a quilt was read that cannot be: %v", err)
		}
		for _, d := range saved.Designs {
			if err := d.Validate(); err != nil {
				t.Errorf("a design was read that cannot be: %v", err)
			}
		}
	})
}
