package keep

import (
	"bytes"
	"encoding/csv"
	"maps"
	"strings"
	"testing"
	"time"

	"unthreaded/scoring/trace"
)

// FuzzSummary: a summary that is read can be written again, and its measures are read or
// refused.
func FuzzSummary(f *testing.F) {
	doc, err := EncodeSummary(Summarise(sample(f)))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"id":"a","print":"p","measured":{"version":1,"seconds":1,"figures":{"spacing":1e308}}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := DecodeSummary(doc)
		if err != nil {
			return
		}
		s.ReadMeasured()
		if _, err := EncodeSummary(s); err != nil {
			t.Fatal(err)
		}
	})
}

// FuzzFromInk: a record that comes of an InkML file can be kept.
func FuzzFromInk(f *testing.F) {
	f.Add(`<ink><annotation type="id">a</annotation><annotation type="spm">600</annotation><trace>0 0, 5 5</trace></ink>`)
	f.Add(`<ink><trace>0 0, 5 5 !</trace></ink>`)
	f.Fuzz(func(t *testing.T, text string) {
		inks, err := trace.ReadInk(strings.NewReader(text), 0)
		if err != nil {
			return
		}
		for _, k := range inks {
			r, err := FromInk(k)
			if err != nil {
				continue
			}
			doc, err := Encode(r)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := Decode(doc); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// FuzzMerge: adding a backup to what is kept never touches a record that can be read,
// adds each that is missing, and a second time changes nothing; a backup with a byte
// changed anywhere changes nothing at all.
func FuzzMerge(f *testing.F) {
	f.Add("{}", `{"id":"a"}`, `{"schema":1}`, `{"id":"a"}`, "b", uint(0), byte(0))
	f.Add(`{"schema":1`, "", `{"n":1}`, "", "a", uint(40), byte(' '))
	f.Add("{}", `{"id":"a"}`, "{}", `{"id":`, "a", uint(300), byte('"'))
	f.Fuzz(func(t *testing.T, keptDoc, keptSum, doc, sum, id string, at uint, other byte) {
		kept := []Item{
			{Part: TracesPart, Name: Name{ID: "a"}, Doc: keptDoc, Summary: keptSum},
			{Part: ThingsPart, Name: Name{"note", "a"}, Doc: keptDoc},
		}
		come := []Item{
			{Part: TracesPart, Name: Name{ID: id}, Doc: doc, Summary: sum},
			{Part: ThingsPart, Name: Name{"note", id}, Doc: doc},
		}
		var file bytes.Buffer
		if _, err := WriteBackup(&file, newMemory(come...), time.UnixMilli(1795586403000), func(int, int) {}); err != nil {
			return // a name or a document that no backup takes
		}
		m := newMemory(kept...)
		if _, err := TakeBackup(bytes.NewReader(file.Bytes()), m, Taking{}, func(int) {}); err != nil {
			return
		}
		for _, it := range kept {
			if got := m.items[it.Part][it.Name]; !damaged(it) && got != it {
				t.Fatalf("%+v became %+v", it, got)
			}
		}
		for _, it := range come {
			if _, ok := m.items[it.Part][it.Name]; !ok {
				t.Fatalf("%+v is missing", it)
			}
		}
		before := map[Part]map[Name]Item{}
		for p, items := range m.items {
			before[p] = maps.Clone(items)
		}
		unchanged := func(what string) {
			for p := range before {
				if !maps.Equal(before[p], m.items[p]) {
					t.Fatalf("%s changed %v to %v", what, before[p], m.items[p])
				}
			}
		}
		if _, err := TakeBackup(bytes.NewReader(file.Bytes()), m, Taking{}, func(int) {}); err != nil {
			t.Fatal(err)
		}
		unchanged("adding it once more")
		bad := bytes.Clone(file.Bytes())
		bad[at%uint(len(bad))] = other
		if _, err := TakeBackup(bytes.NewReader(bad), m, Taking{Replace: true}, func(int) {}); err != nil {
			unchanged("a backup that was refused")
		}
	})
}

// FuzzTable: a row is written whole or not at all, and what is written is CSV
// (RFC 4180) with as many cells in each row.
func FuzzTable(f *testing.F) {
	f.Add([]byte(`{"schema":1,"id":"a"}`))
	f.Add([]byte(`{"schema":2,"name":"=1+1, \"a\"\n","started":9223372036854775807,"measures":{"version":2,"figures":{"seconds":1e308}}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		var b bytes.Buffer
		table, err := NewTable(&b)
		if err != nil {
			t.Fatal(err)
		}
		want := 1
		if table.Add(doc) == nil {
			want++
		}
		if err := table.Flush(); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != want {
			t.Fatalf("%d rows, want %d: %v", len(rows), want, err)
		}
	})
}
