package work

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

type leaf struct {
	Text  string
	N     int
	U     uint32
	F     float64
	On    bool
	Bytes []byte
	small geom.Point
}

type tree struct {
	Leaf   leaf
	Many   []leaf
	Places geom.Polyline
	Table  map[string][]int
	Fixed  [3]int8
	To     *tree
	Either any
	do     func()
}

func init() { Carry(tree{}, leaf{}, 0, "") }

func anyLeaf(t *rapid.T) leaf {
	return leaf{
		rapid.String().Draw(t, "text"), rapid.Int().Draw(t, "n"), rapid.Uint32().Draw(t, "u"), rapid.Float64().Draw(t, "f"),
		rapid.Bool().Draw(t, "on"), rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"), geom.Pt(rapid.Float64().Draw(t, "x"), 2),
	}
}

func anyTree(t *rapid.T, deep int) *tree {
	x := &tree{
		Leaf: anyLeaf(t), Many: rapid.SliceOfN(rapid.Custom(anyLeaf), 0, 3).Draw(t, "many"),
		Table: rapid.MapOfN(rapid.String(), rapid.SliceOfN(rapid.Int(), 0, 3), 0, 4).Draw(t, "table"),
		Fixed: [3]int8{1, -128, 127},
	}
	for range rapid.IntRange(0, 4).Draw(t, "points") {
		x.Places = append(x.Places, geom.Pt(rapid.Float64().Draw(t, "x"), rapid.Float64().Draw(t, "y")))
	}
	switch rapid.IntRange(0, 3).Draw(t, "either") {
	case 0:
		x.Either = anyLeaf(t)
	case 1:
		x.Either = rapid.Int().Draw(t, "number")
	case 2:
		x.Either = ""
	}
	if deep > 0 && rapid.Bool().Draw(t, "more") {
		x.To = anyTree(t, deep-1)
	}
	return x
}

// What goes over comes back the same, nil and empty told apart, and the same value gives the
// same bytes, though a map has no order.
func TestValuesComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := *anyTree(t, 2)
		doc, err := Encode(x)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Decode(doc)
		if err != nil || !reflect.DeepEqual(back, any(x)) {
			t.Fatalf("%+v came back as %+v (%v)", x, back, err)
		}
		again, _ := Encode(back)
		if !reflect.DeepEqual(doc, again) {
			t.Fatal("the same value gives other bytes")
		}
	})
}

// A quilt with its designs, recipes and splines, and its order, come back whole.
func TestAQuiltComesBack(t *testing.T) {
	q, designs := quilt.Demo()
	q.Rows, q.Cols = 2, 2
	o, err := order.Plan(q, designs, order.Choices{FarEnd: map[string]bool{"row-1": true}})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []any{OrderIn{Quilt: q, Designs: designs}, OrderOut{Order: o}} {
		doc, err := Encode(x)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Decode(doc); err != nil || !reflect.DeepEqual(back, x) {
			t.Errorf("%T came back otherwise (%v)", x, err)
		}
	}
}

// What was not written by Encode is refused; functions are left behind; a type that nothing
// carries is named.
func TestWhatDoesNotGo(t *testing.T) {
	doc, err := Encode(tree{Leaf: leaf{F: math.Inf(1)}, do: func() {}})
	if err != nil {
		t.Fatal(err)
	}
	for n := range doc {
		if _, err := Decode(doc[:n]); !errors.Is(err, ErrWire) {
			t.Fatalf("%d of %d bytes: %v", n, len(doc), err)
		}
	}
	if back, _ := Decode(doc); back.(tree).do != nil {
		t.Error("a function came along")
	}
	if _, err := Encode(tree{Either: struct{}{}}); err == nil {
		t.Error("a type that nothing carries went over")
	}
}

// A program with another field, or with the same fields in another order, has another print,
// and what it writes is refused as such.
func TestAnotherVersionIsTold(t *testing.T) {
	print := func(t reflect.Type) string {
		var b strings.Builder
		describe(&b, t, map[reflect.Type]bool{})
		return b.String()
	}
	type a = struct {
		X float64
		Y []struct{ N int }
	}
	type b = struct {
		X float64
		Y []struct{ N, M int }
	}
	type c = struct {
		Y []struct{ N int }
		X float64
	}
	if x, y, z := print(reflect.TypeFor[a]()), print(reflect.TypeFor[b]()), print(reflect.TypeFor[c]()); x == y || x == z || y == z {
		t.Error("types that lie otherwise have one print")
	}
	doc, err := Encode(leaf{})
	if err != nil {
		t.Fatal(err)
	}
	doc[0]++
	if _, err := Decode(doc); !errors.Is(err, ErrVersion) {
		t.Errorf("refused with %v", err)
	}
}

func FuzzDecode(f *testing.F) {
	doc, _ := Encode(tree{Many: []leaf{{Text: "a"}}, Table: map[string][]int{"b": {1}}})
	f.Add(doc[len(printed()):])
	f.Fuzz(func(t *testing.T, doc []byte) {
		if _, err := Decode(append(slices.Clone(printed()), doc...)); err != nil && !errors.Is(err, ErrWire) {
			t.Error(err)
		}
	})
}
