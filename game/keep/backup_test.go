package keep

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"
)

// memory is a shelf in memory.
type memory struct {
	items  map[Part]map[Name]Item
	staged []Item
	undo   []map[Part]map[Name]Item
	// full has the n-th staging fail, 0 for none.
	full int
}

func newMemory(items ...Item) *memory {
	m := &memory{items: map[Part]map[Name]Item{}}
	for _, p := range Parts {
		m.items[p] = map[Name]Item{}
	}
	for _, it := range items {
		m.items[it.Part][it.Name] = it
	}
	return m
}

func (m *memory) Names(p Part) ([]Name, error) {
	names := slices.Collect(maps.Keys(m.items[p]))
	slices.SortFunc(names, func(a, b Name) int { return strings.Compare(a.Kind+a.ID, b.Kind+b.ID) })
	return names, nil
}

func (m *memory) Get(p Part, names []Name) (out []Item, err error) {
	for _, n := range names {
		if it, ok := m.items[p][n]; ok {
			out = append(out, it)
		}
	}
	return out, nil
}

var errFull = errors.New("full")

func (m *memory) Stage(items []Item) error {
	m.staged = append(m.staged, items...)
	if m.full--; m.full == 0 {
		return errFull
	}
	return nil
}

func (m *memory) Unstage() error { m.staged = nil; return nil }

func (m *memory) Swap(replace bool) (Swapped, error) {
	before := map[Part]map[Name]Item{}
	for p, items := range m.items {
		before[p] = maps.Clone(items)
		if replace {
			maps.DeleteFunc(items, func(n Name, _ Item) bool { return !isCare(p, n) })
		}
	}
	for _, it := range m.staged {
		m.items[it.Part][it.Name] = it
	}
	m.undo = append(m.undo, before)
	same := len(m.staged) == 0
	m.staged = nil
	return Swapped{Same: same, More: len(m.undo) > 1}, nil
}

// work is a shelf with records of every kind, some damaged, some of which no JSON writer
// would write so.
func work(t testing.TB) *memory {
	t.Helper()
	doc, err := os.ReadFile("../../testdata/records/v1-pen-zigzag.json")
	if err != nil {
		t.Fatal(err)
	}
	thing := func(kind, id, doc string) Item { return Item{Part: ThingsPart, Name: Name{kind, id}, Doc: doc} }
	trace := func(id, doc, sum string) Item {
		return Item{Part: TracesPart, Name: Name{ID: id}, Doc: doc, Summary: sum}
	}
	return newMemory(
		Item{Part: SettingsPart, Name: Name{ID: "settings"}, Doc: `{"visited":true}`},
		trace("a", string(doc), `{"id":"a"}`), trace("b", string(doc), `{"id":`), trace("c", `{"schema":1,"id":`, ""),
		thing("design", "one", `{"schema":1, "text":"a\u003cb", "n":1.0}`), thing("note", "two", "no document at all \u2028 \n \""),
		thing("note", "three", `{"10":1,"2":"ä🧵"}`), thing(CareKind, "last", `{"made":5}`),
		Item{Part: PhotosPart, Name: Name{ID: "p1"}, Type: "image/jpeg", Base64: "AAECAwQ="},
	)
}

func backupOfWork(t testing.TB, m *memory) []byte {
	t.Helper()
	var b bytes.Buffer
	if _, err := WriteBackup(&b, m, time.UnixMilli(1795586403000), func(int, int) {}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func itemsOf(doc []byte) (items []Item, h BackupHead, err error) {
	h, err = ReadBackup(bytes.NewReader(doc), func(it Item) error { items = append(items, it); return nil })
	return items, h, err
}

// layouts are what happens to a JSON file on its way through other programs.
func layouts(t testing.TB, doc []byte) map[string][]byte {
	t.Helper()
	var pretty, one bytes.Buffer
	if json.Indent(&pretty, doc, "\t", "  ") != nil || json.Compact(&one, doc) != nil {
		t.Fatal("the backup is no JSON document")
	}
	return map[string][]byte{
		"as written": doc, "pretty": pretty.Bytes(), "on one line": one.Bytes(),
		"CRLF":        bytes.ReplaceAll(doc, []byte("\n"), []byte("\r\n")),
		"pretty CRLF": bytes.ReplaceAll(pretty.Bytes(), []byte("\n"), []byte("\r\n")),
	}
}

// A backup gives every record back with its bytes, but for what is known of backups,
// however the file was laid out on the way.
func TestABackupSurvivesOtherLayouts(t *testing.T) {
	m := work(t)
	doc := backupOfWork(t, m)
	all := layouts(t, doc)
	var v any
	if err := json.Unmarshal(doc, &v); err != nil {
		t.Fatal(err)
	}
	sorted, err := json.MarshalIndent(v, "", " ") // with sorted names and other escapes
	if err != nil {
		t.Fatal(err)
	}
	all["written anew"] = sorted
	for name, doc := range all {
		items, h, err := itemsOf(doc)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		back := newMemory(items...)
		back.items[ThingsPart][Name{CareKind, "last"}] = m.items[ThingsPart][Name{CareKind, "last"}]
		if !reflect.DeepEqual(back.items, m.items) {
			t.Errorf("%s: other records came back", name)
		}
		if h.Made != 1795586403000 || h.Counts[TracesPart] != 3 || h.Counts[ThingsPart] != 3 {
			t.Errorf("%s: it says %+v", name, h)
		}
	}
}

// Every backup ever written opens, also laid out anew, with at least one trace that can be
// read. A new form adds a file and takes none away.
func TestEveryFormOpens(t *testing.T) {
	files, err := filepath.Glob("../../testdata/backups/*.json")
	if err != nil || len(files) < BackupForm {
		t.Fatalf("%d backups found: %v", len(files), err)
	}
	for _, f := range files {
		doc, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for name, doc := range layouts(t, doc) {
			items, _, err := itemsOf(doc)
			if err != nil {
				t.Errorf("%s, %s: %v", filepath.Base(f), name, err)
			}
			traces := 0
			for _, it := range items {
				if it.Part != TracesPart {
					continue
				}
				if _, err := Decode([]byte(it.Doc)); err != nil {
					t.Errorf("%s, %s: %v", filepath.Base(f), name, err)
				}
				traces++
			}
			if traces == 0 {
				t.Errorf("%s, %s holds no trace", filepath.Base(f), name)
			}
		}
	}
}

// The sums are CRC-32 (ISO 3309) over the lines of a part as they stand in a file that was
// just written.
func TestTheSumsOfABackup(t *testing.T) {
	doc := backupOfWork(t, work(t))
	var end struct {
		End struct{ CRC32 map[string]string }
	}
	if err := json.Unmarshal(doc, &end); err != nil {
		t.Fatal(err)
	}
	sums, part := map[string]uint32{}, ""
	for i, l := range strings.Split(string(doc), "\n") {
		l = strings.TrimSuffix(l, ",")
		switch name, begins := strings.CutSuffix(l, `":[`); {
		case i == 0:
			sums["backup"] = crc32.ChecksumIEEE([]byte(strings.TrimPrefix(l, `{"backup":`)))
		case begins:
			part = name[1:]
			sums[part] = 0
		case l == "]":
			part = ""
		case part != "":
			sums[part] = crc32.Update(sums[part], crc32.IEEETable, []byte(l))
		}
	}
	if len(end.End.CRC32) != len(Parts)+1 {
		t.Errorf("%d sums, want one of the head and one of each part", len(end.End.CRC32))
	}
	for p, want := range end.End.CRC32 {
		if got := fmt.Sprintf("%08x", sums[p]); got != want {
			t.Errorf("the sum of %s is %s, the file says %s", p, got, want)
		}
	}
}

// A file that cannot be taken says why.
func TestBackupsThatCannotBeTaken(t *testing.T) {
	file := string(backupOfWork(t, work(t)))
	lines := strings.SplitAfter(file, "\n")
	for name, c := range map[string]struct {
		text string
		want BackupFaultKind
		part Part
	}{
		"half of it":               {file[:len(file)/2], ShortBackup, TracesPart},
		"without its last line":    {strings.Join(lines[:len(lines)-2], ""), ShortBackup, PhotosPart},
		"without its last bracket": {strings.TrimRight(file, "}\n"), ShortBackup, "end"},
		"another digit":            {strings.Replace(file, `\"px_per_mm\":3`, `\"px_per_mm\":4`, 1), DamagedBackup, TracesPart},
		"a record taken out":       {strings.Replace(file, lines[len(lines)-4], "", 1), DamagedBackup, PhotosPart},
		"a broken line":            {strings.Replace(file, `{"id":"one"`, `{id":"one"`, 1), DamagedBackup, ThingsPart},
		"another head":             {strings.Replace(file, `"made":"2026`, `"made":"2025`, 1), DamagedBackup, "backup"},
		"another kind":             {strings.Replace(file, `"kind":"note"`, `"kind":"mote"`, 1), DamagedBackup, ThingsPart},
		"a part twice":             {strings.Replace(file, `"photos":[`, `"things":[`, 1), DamagedBackup, ThingsPart},
		"a damaged sum":            {strings.Replace(file, `"crc32":{`, `"crc32":{"settings":7,`, 1), DamagedBackup, "end"},
		"no sum":                   {strings.Replace(file, `"crc32"`, `"crc"`, 1), DamagedBackup, "backup"},
		"something after it":       {file + "{}", DamagedBackup, "end"},
		"no name":                  {strings.Replace(file, `"id":"p1"`, `"id":""`, 1), DamagedBackup, PhotosPart},
		"no photo":                 {strings.Replace(file, `AAECAwQ=`, `AAECAwQ`, 1), DamagedBackup, PhotosPart},
		"of a later form":          {strings.Replace(file, `"form":2`, `"form":3`, 1), NewerBackup, ""},
		"with later records":       {strings.Replace(file, `"records":`, `"records":9`, 1), NewerBackup, ""},
		"a drawing":                {"<svg/>", ForeignBackup, ""},
		"another document":         {`{"a":1}`, ForeignBackup, "a"},
		"of something else":        {`{"backup":{"of":"else","form":1}}`, ForeignBackup, "backup"},
		"nothing":                  {"", ForeignBackup, ""},
		"its first byte":           {"{", ForeignBackup, ""},
	} {
		_, _, err := itemsOf([]byte(c.text))
		var f *BackupFault
		if !errors.As(err, &f) || f.Kind != c.want || f.Part != c.part {
			t.Errorf("%s: %v, want %s in %q", name, err, c.want, c.part)
		}
	}
}

// What the file itself fails with is no fault of the backup.
func TestAFileThatCannotBeRead(t *testing.T) {
	broken := errors.New("gone")
	doc := backupOfWork(t, work(t))
	_, err := ReadBackup(io.MultiReader(bytes.NewReader(doc[:300]), iotest.ErrReader(broken)), func(Item) error { return nil })
	if !errors.Is(err, broken) {
		t.Errorf("it fails with %v", err)
	}
}

// Whatever one byte of a backup becomes, the records that come back are those that were
// written, or none are believed.
func TestOneOtherByte(t *testing.T) {
	doc := backupOfWork(t, work(t))
	want, _, err := itemsOf(doc)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(3, 5))
	for range 3000 {
		bad := slices.Clone(doc)
		at := r.IntN(len(bad))
		if r.IntN(2) == 0 {
			at = r.IntN(400) // the head and the first records
		}
		bad[at] = byte(r.IntN(256))
		if got, _, err := itemsOf(bad); err == nil && !reflect.DeepEqual(got, want) {
			t.Fatalf("byte %d as %q: other records were believed", at, bad[at])
		}
	}
}

// Adding takes what is missing and mends what is damaged; replacing puts everything in
// the place of what is here; what is known of backups stays.
func TestTakingABackupIn(t *testing.T) {
	full := work(t)
	doc := backupOfWork(t, full)
	half := work(t)
	a, b := Name{ID: "a"}, Name{ID: "b"}
	delete(half.items[TracesPart], a)
	delete(half.items[ThingsPart], Name{"note", "two"})
	half.items[ThingsPart][Name{"design", "one"}] = Item{Part: ThingsPart, Name: Name{"design", "one"}, Doc: `{"schema":`}
	broken := half.items[TracesPart][b]
	broken.Doc, broken.Summary = `{"schema":1,"id":`, `{}`
	half.items[TracesPart][b] = broken
	half.items[SettingsPart][Name{ID: "settings"}] = Item{Part: SettingsPart, Name: Name{ID: "settings"}, Doc: `{"visited":false}`}
	half.items[ThingsPart][Name{"note", "since"}] = Item{Part: ThingsPart, Name: Name{"note", "since"}, Doc: `{}`}

	found, err := CheckBackup(bytes.NewReader(doc), half, func(int) {})
	if err != nil {
		t.Fatal(err)
	}
	// The trace b has a damaged summary in the backup too: it mends nothing.
	want := Found{Made: 1795586403000, Traces: 3, Things: 3, Photos: 1, Here: 2}
	want.Kept.New, want.Kept.Same, want.Kept.Other = 1, 1, 1
	want.Missing.Things = 2
	if !reflect.DeepEqual(found, want) {
		t.Errorf("found %+v\nwant  %+v", found, want)
	}
	before := fmt.Sprint(half.items)
	half.full = 1
	if _, err := TakeBackup(bytes.NewReader(doc), half, Taking{Replace: true}, func(int) {}); !errors.Is(err, errFull) || fmt.Sprint(half.items) != before || half.staged != nil {
		t.Errorf("a full storage: %v, or something was changed", err)
	}
	sw, err := TakeBackup(bytes.NewReader(doc), half, Taking{}, func(int) {})
	if err != nil || sw.Same || sw.More {
		t.Errorf("%+v, %v", sw, err)
	}
	if half.items[TracesPart][a] != full.items[TracesPart][a] || half.items[ThingsPart][Name{"design", "one"}] != full.items[ThingsPart][Name{"design", "one"}] {
		t.Error("what was missing or damaged has not come")
	}
	if half.items[SettingsPart][Name{ID: "settings"}].Doc != `{"visited":false}` || len(half.items[ThingsPart]) != 5 {
		t.Error("adding took something away")
	}
	if sw, err := TakeBackup(bytes.NewReader(doc), half, Taking{Replace: true}, func(int) {}); err != nil || !sw.More {
		t.Errorf("%+v, %v", sw, err)
	}
	if !reflect.DeepEqual(half.items, full.items) {
		t.Error("replacing left something else")
	}
}

// A damaged trace here is mended by a sound one; one of a newer version is not damaged.
func TestWhatIsMended(t *testing.T) {
	m := work(t)
	good := m.items[TracesPart][Name{ID: "a"}]
	newer := good
	newer.Doc = strings.Replace(good.Doc, `"schema":1`, `"schema":99`, 1)
	cut := good
	cut.Doc = good.Doc[:100]
	bare := good
	bare.Summary = ""
	other := good
	other.Doc = strings.Replace(good.Doc, `"repeats":1`, `"repeats":2`, 1)
	for name, c := range map[string]struct {
		kept Item
		want Standing
	}{
		"same": {good, SameHere}, "cut": {cut, MendHere}, "without summary": {bare, MendHere}, "newer": {newer, OtherHere}, "other": {other, OtherHere},
	} {
		if got := Stands(c.kept, good); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// FuzzReadBackup: no file makes the reader fail but by an error, and what it takes it can
// write again.
func FuzzReadBackup(f *testing.F) {
	f.Add(backupOfWork(f, newMemory(Item{Part: ThingsPart, Name: Name{"note", "n"}, Doc: "{}"})))
	f.Add([]byte(`{"backup":{"of":"unthreaded","form":1,"records":1,"made":"2026-11-25T11:30:49.297Z"},"end":{}}`))
	f.Add([]byte(`{"backup":{"of":"unthreaded","form":1,"records":1,"made":"2026-11-25T11:30:49.297Z"},"settings":[],"traces":[],` +
		`"things":[],"photos":[],"end":{"counts":{"settings":0},"crc32":{"settings":"00000000","traces":"00000000","things":"00000000","photos":"00000000"}}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		items, _, err := itemsOf(doc)
		if err != nil {
			return
		}
		m := newMemory(items...)
		again, _, err := itemsOf(backupOfWork(t, m))
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range again {
			if m.items[it.Part][it.Name] != it {
				t.Fatalf("%+v came back as %+v", m.items[it.Part][it.Name], it)
			}
		}
	})
}
