package keep

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"io"
	"maps"
	"slices"
	"time"
)

// A backup is one JSON document with everything that is kept, a line for each record,
// so that neither writing nor reading it needs the whole in memory:
//
//	{"backup":{"of":"unthreaded","form":2,"records":2,"made":"2026-11-25T06:00:00.000Z"},
//	"settings":[
//	{"id":"settings","doc":"..."}
//	],
//	"traces":[
//	{"id":"...","doc":"...","summary":"..."},
//	...
//	],
//	"things":[{"id":"...","kind":"...","doc":"..."}],
//	"photos":[{"id":"...","type":"image/jpeg","base64":"..."}],
//	"end":{"counts":{"traces":312,...},"crc32":{"backup":"cbf43926","traces":"cbf43926",...}}}
//
// Documents stand as strings, so that each comes back with the same bytes whatever
// other programs do to the space between, to escapes, or to the order of parts. The sums
// are CRC-32 (as in PNG and zip, ISO 3309) over the head and over the records of each
// part, each as WriteBackup writes it, without the commas and ends of line.
//
// In form 1 a document stands as itself where that gives the same bytes again, and the
// head has no sum.
const BackupForm = 2

// backupOf is what a backup says it is of.
const backupOf = "unthreaded"

// Part names one of the lists of a backup.
type Part string

// The parts of a backup; headPart is its head.
const (
	SettingsPart Part = "settings"
	TracesPart   Part = "traces"
	ThingsPart   Part = "things"
	PhotosPart   Part = "photos"
	headPart     Part = "backup"
)

// Parts are all of them, in the order in which they are written.
var Parts = []Part{SettingsPart, TracesPart, ThingsPart, PhotosPart}

// Name names a record among those of its part; Kind is that of a thing, else empty.
type Name struct{ Kind, ID string }

// Item is one kept record as it lies in the storage.
type Item struct {
	Part Part
	Name
	// Doc is the document of settings, a trace or a thing, Summary that of the summary
	// beside a trace; they may be damaged.
	Doc, Summary string
	// Type is the media type of a photo, Base64 its bytes.
	Type, Base64 string
}

// line is the record as a backup of the present form has it.
type line struct {
	ID      string `json:"id"`
	Kind    string `json:"kind,omitempty"`
	Doc     string `json:"doc,omitempty"`
	Summary string `json:"summary,omitempty"`
	Type    string `json:"type,omitempty"`
	Base64  string `json:"base64,omitempty"`
}

// head is the beginning of a backup.
type head struct {
	Of      string `json:"of"`
	Form    int    `json:"form"`
	Records int    `json:"records"`
	Made    string `json:"made"`
}

// ending is the end of a backup.
type ending struct {
	Counts map[Part]int    `json:"counts"`
	CRC32  map[Part]string `json:"crc32"`
}

// compact returns v as JSON without space, and without escapes that JSON does not ask
// for.
func compact(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// sums are the counts and checksums of the parts.
type sums struct {
	count map[Part]int
	crc   map[Part]uint32
}

func newSums() sums { return sums{map[Part]int{}, map[Part]uint32{}} }

func (s sums) add(p Part, record []byte) {
	s.count[p]++
	s.crc[p] = crc32.Update(s.crc[p], crc32.IEEETable, record)
}

func (s sums) ending(form int) ending {
	e := ending{map[Part]int{}, map[Part]string{}}
	for _, p := range Parts {
		e.Counts[p], e.CRC32[p] = s.count[p], fmt.Sprintf("%08x", s.crc[p])
	}
	if form > 1 {
		e.CRC32[headPart] = fmt.Sprintf("%08x", s.crc[headPart])
	}
	return e
}

// milliseconds is the form of the time in a head.
const milliseconds = "2006-01-02T15:04:05.000Z"

// WriteBackup writes all that a source has but what is known of backups, and returns how
// many records of each part there are, but for the one of KnownKind. Tell is told how many are done of how many. Records
// that go in the meantime are left out; a failure of the source or of w ends it.
func WriteBackup(w io.Writer, from Source, made time.Time, tell func(done, of int)) (map[Part]int, error) {
	names, of := map[Part][]Name{}, 0
	for _, p := range Parts {
		all, err := from.Names(p)
		if err != nil {
			return nil, err
		}
		for _, n := range all {
			if !isCare(p, n) {
				names[p] = append(names[p], n)
			}
		}
		of += len(names[p])
	}
	b := &backupWriter{to: w, sums: newSums()}
	b.head(head{Of: backupOf, Form: BackupForm, Records: Schema, Made: made.UTC().Format(milliseconds)})
	done := 0
	for _, p := range Parts {
		b.text(`"` + string(p) + "\":[\n")
		for at := 0; at < len(names[p]) && b.err == nil; at += atOnce {
			group := names[p][at:min(at+atOnce, len(names[p]))]
			items, err := from.Get(p, group)
			if err != nil {
				return nil, err
			}
			for _, it := range items {
				b.item(it)
			}
			done += len(group)
			tell(done, of)
		}
		if b.sums.count[p] > 0 {
			b.text("\n")
		}
		b.text("],\n")
	}
	b.text(`"end":`)
	b.value(b.sums.ending(BackupForm))
	b.text("}\n")
	counts := maps.Clone(b.sums.count)
	if slices.Contains(names[ThingsPart], knownName) {
		counts[ThingsPart]--
	}
	return counts, b.err
}

// backupWriter writes on until the first error, which it keeps.
type backupWriter struct {
	to   io.Writer
	sums sums
	err  error
}

func (b *backupWriter) text(s string) {
	if b.err == nil {
		_, b.err = io.WriteString(b.to, s)
	}
}

func (b *backupWriter) value(v any) []byte {
	doc, err := compact(v)
	if b.err == nil {
		b.err = err
	}
	b.text(string(doc))
	return doc
}

func (b *backupWriter) head(h head) {
	b.text(`{"backup":`)
	doc := b.value(h)
	b.sums.crc[headPart] = crc32.ChecksumIEEE(doc)
	b.text(",\n")
}

func (b *backupWriter) item(it Item) {
	if b.sums.count[it.Part] > 0 {
		b.text(",\n")
	}
	b.sums.add(it.Part, b.value(it.line()))
}

func (it Item) line() line {
	return line{ID: it.ID, Kind: it.Kind, Doc: it.Doc, Summary: it.Summary, Type: it.Type, Base64: it.Base64}
}
