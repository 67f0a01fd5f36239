package top

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"unthreaded/path/quilt"
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
	back, with, err := Decode(doc)
	if err != nil {
		t.Fatal(err)
	}
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
		if _, _, err := Decode([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q in it", text, err, want)
		}
	}
	if _, _, err := Decode([]byte(`{"schema":2}`)); !errors.Is(err, quilt.ErrNewer) {
		t.Errorf("a newer form: %v", err)
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
		q, designs, err := Decode(doc)
		if err != nil {
			return
		}
		if err := q.Validate(); err != nil {
			t.Errorf("a quilt was read that cannot be: %v", err)
		}
		for _, d := range designs {
			if err := d.Validate(); err != nil {
				t.Errorf("a design was read that cannot be: %v", err)
			}
		}
	})
}
