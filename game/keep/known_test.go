package keep

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"time"

	"unthreaded/path/quilt/order"

	"pgregory.net/rapid"
)

// device is one of two that hand each other files.
type device struct {
	*memory
	file []byte
}

func (d *device) write(t interface{ Fatal(...any) }) {
	it, err := Remember(d)
	if err != nil {
		t.Fatal(err)
	}
	d.items[ThingsPart][it.Name] = it
	var b bytes.Buffer
	if _, err := WriteBackup(&b, d, time.UnixMilli(0), func(int, int) {}); err != nil {
		t.Fatal(err)
	}
	d.file = b.Bytes()
}

func (d *device) take(t interface{ Fatal(...any) }, file []byte) Found {
	found, err := CheckBackup(bytes.NewReader(file), d, func(int) {})
	if err != nil {
		t.Fatal(err)
	}
	rename := func(name string) string { return name + ", from the file" }
	if _, err := TakeBackup(bytes.NewReader(file), d, Taking{Found: found, Rename: rename}, func(int) {}); err != nil {
		t.Fatal(err)
	}
	return found
}

// states returns how often each state is there, by the number in the documents.
func (d *device) states() map[int]int {
	out := map[int]int{}
	for n, it := range d.items[ThingsPart] {
		if n != knownName {
			out[number(it)]++
		}
	}
	return out
}

func number(it Item) int {
	var doc struct{ N int }
	if err := json.Unmarshal([]byte(it.Doc), &doc); err != nil {
		panic(err)
	}
	return doc.N
}

func state(id string, n int) Item {
	return Item{Part: ThingsPart, Name: Name{"design", id}, Doc: fmt.Sprintf(`{"id":%q,"n":%d,"name":"Lily"}`, id, n)}
}

func newDevice(items ...Item) *device { return &device{memory: newMemory(items...)} }

// A block changed on one side only is brought up to date on the other; one changed on both is
// there twice on both, under two names; what has come already does not come again.
func TestTwoDevices(t *testing.T) {
	a, b := newDevice(state("x", 0), state("y", 0)), newDevice()
	put := func(d *device, it Item) { d.items[it.Part][it.Name] = it }
	a.write(t)
	if f := b.take(t, a.file); f.Things != 2 || f.Missing.Things != 2 || f.Later+f.Both != 0 {
		t.Errorf("first %+v", f)
	}
	put(b, state("x", 1))
	put(b, state("y", 2))
	put(a, state("y", 3))
	b.write(t)
	if f := a.take(t, b.file); f.Later != 1 || f.Both != 1 || f.Missing.Things != 0 {
		t.Errorf("back %+v", f)
	}
	copied := Name{"design", "y-" + sumOf(state("y", 2).Doc)[:8]}
	if a.items[ThingsPart][Name{"design", "x"}] != state("x", 1) || a.items[ThingsPart][Name{"design", "y"}] != state("y", 3) {
		t.Error("x was not brought up to date, or y lost its change")
	}
	want := `{"id":"` + copied.ID + `","n":2,"name":"Lily, from the file"}`
	if got := a.items[ThingsPart][copied].Doc; got != want {
		t.Errorf("the copy is %s, want %s", got, want)
	}
	n := len(a.items[ThingsPart])
	a.take(t, b.file)
	a.write(t)
	b.take(t, a.file)
	b.write(t)
	a.take(t, b.file)
	for _, d := range []*device{a, b} {
		if got := fmt.Sprint(d.states()); got != "map[1:1 2:1 3:1]" {
			t.Errorf("there are %s", got)
		}
	}
	if len(a.items[ThingsPart]) != n {
		t.Error("what had come already came again")
	}
}

// Ticks made on two devices are on both in the end, each once with its day; a choice of order
// made on both stays on each as it is there.
func TestTicksOfTwoDevicesAreJoined(t *testing.T) {
	ticks := func(days ...string) Item {
		s := order.Sewn{Quilt: "q"}
		for i, day := range days {
			if day != "" {
				s = s.With(order.Tick{Kind: order.StageTick, Stage: fmt.Sprintf("row-%d", i), Day: day})
			}
		}
		doc, err := s.Encode()
		if err != nil {
			t.Fatal(err)
		}
		return Item{Part: ThingsPart, Name: Name{ticksKind, "q"}, Doc: string(doc)}
	}
	of := func(d *device) string {
		s, err := order.DecodeSewn([]byte(d.items[ThingsPart][Name{ticksKind, "q"}].Doc))
		if err != nil {
			t.Fatal(err)
		}
		out := ""
		for i := range 4 {
			out += s.Ticked(order.Tick{Kind: order.StageTick, Stage: fmt.Sprintf("row-%d", i)}) + ","
		}
		return out
	}
	a, b := newDevice(ticks("2026-01-01")), newDevice()
	a.write(t)
	b.take(t, a.file)
	put := func(d *device, it Item) { d.items[it.Part][it.Name] = it }
	put(a, ticks("2026-01-01", "2026-01-02", "", "2026-01-05"))
	put(b, ticks("2026-01-01", "", "2026-01-03", "2026-01-06"))
	b.write(t)
	if f := a.take(t, b.file); f.Later != 1 || f.Both != 0 {
		t.Errorf("found %+v", f)
	}
	const want = "2026-01-01,2026-01-02,2026-01-03,2026-01-05,"
	if got := of(a); got != want {
		t.Errorf("on the first: %s, want %s", got, want)
	}
	a.write(t)
	b.take(t, a.file)
	if got := of(b); got != want {
		t.Errorf("on the second: %s, want %s", got, want)
	}
	b.write(t)
	if f := a.take(t, b.file); f.Later+f.Both+f.Missing.Things != 0 {
		t.Errorf("once both are alike: %+v", f)
	}
}

// A thing that is damaged in the file never takes the place of a sound one, and no document
// about earlier states, however made, makes the reading fail.
func TestDamagedThingsOfAnotherDevice(t *testing.T) {
	for _, doc := range []string{"null", "[]", "", `{"n":`, `"text"`} {
		a, b := newDevice(state("x", 0)), newDevice()
		a.write(t)
		b.take(t, a.file)
		bad := state("x", 1)
		bad.Doc = doc
		b.items[ThingsPart][bad.Name] = bad
		b.write(t)
		for _, mine := range []Item{state("x", 0), state("x", 2)} {
			a.items[ThingsPart][mine.Name] = mine
			f := a.take(t, b.file)
			if got := a.items[ThingsPart][mine.Name]; got != mine || f.Later+f.Both > 0 {
				t.Errorf("%q: the thing here became %+v, found %+v", doc, got, f)
			}
		}
	}
	odd := Item{Part: ThingsPart, Name: knownName, Doc: `{"design.x":["","a"],"design.x-12345678":["` + sumOf(state("x-12345678", 5).Doc) + `"]}`}
	a, b := newDevice(state("x", 0), odd), newDevice(state("x-12345678", 5), odd)
	b.write(t)
	a.take(t, b.file)
	if got := a.states(); got[0] != 1 || got[5] != 1 {
		t.Errorf("there are %v", got)
	}
}

// Whatever is changed, written and taken in on two devices, in any order: a change that
// nothing was made of since is on both in the end, and nothing is there twice.
func TestNothingIsLostOrDoubledBetweenDevices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		both := []*device{newDevice(state("x", 0)), newDevice()}
		next, made := 1, map[int]bool{} // of which states others were made
		for range rapid.IntRange(1, 16).Draw(t, "steps") {
			i := rapid.IntRange(0, 1).Draw(t, "device")
			d, other := both[i], both[1-i]
			switch rapid.IntRange(0, 2).Draw(t, "step") {
			case 0:
				names, _ := d.Names(ThingsPart)
				names = slices.DeleteFunc(names, func(n Name) bool { return n == knownName })
				if len(names) > 0 {
					n := names[rapid.IntRange(0, len(names)-1).Draw(t, "thing")]
					made[number(d.items[ThingsPart][n])] = true
					d.items[ThingsPart][n] = state(n.ID, next)
					next++
				}
			case 1:
				d.write(t)
			case 2:
				if other.file != nil {
					d.take(t, other.file)
				}
			}
		}
		for range 2 {
			for i, d := range both {
				d.write(t)
				both[1-i].take(t, d.file)
			}
		}
		for _, d := range both {
			states := d.states()
			for n := range next {
				if !made[n] && states[n] == 0 || states[n] > 1 {
					t.Fatalf("state %d: %v and %v, of %v others were made", n, both[0].states(), both[1].states(), made)
				}
			}
		}
	})
}
