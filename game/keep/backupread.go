package keep

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"time"
)

// BackupFault tells why a file cannot be taken as a backup.
type BackupFault struct {
	Kind BackupFaultKind
	// Part and Record tell where: the list and the number of the record in it, from 1;
	// empty and 0 where the whole or the list is meant.
	Part   Part
	Record int
	Err    error // what was found there; may be nil
}

// BackupFaultKind is a code.
type BackupFaultKind string

// What may be wrong with a file: it is no backup, was written by a newer version of the
// program, is not as it was written, or ends too early.
const (
	ForeignBackup BackupFaultKind = "foreign"
	NewerBackup   BackupFaultKind = "newer"
	DamagedBackup BackupFaultKind = "damaged"
	ShortBackup   BackupFaultKind = "short"
)

// Error returns kind, place and cause.
func (f *BackupFault) Error() string {
	return fmt.Sprintf("backup: %s (%s, record %d): %v", f.Kind, f.Part, f.Record, f.Err)
}

// Unwrap returns what was found.
func (f *BackupFault) Unwrap() error { return f.Err }

// BackupHead tells when a backup was made, in ms since 1970, and how many records of
// each part it holds.
type BackupHead struct {
	Made   int64
	Counts map[Part]int
}

// longest is the most that one record may take, in bytes; a photo of 1600 pixels takes
// 1 MB.
const longest = 1 << 28

// ReadBackup reads a backup of any form, however it was laid out anew, and hands each
// record to use. It fails with a BackupFault on a file that is not wholly as it was
// written, maybe not before its end, and with the error of use. It holds one record
// at a time; cost linear in the file.
func ReadBackup(from io.Reader, use func(Item) error) (BackupHead, error) {
	in := &limited{from: from}
	r := &backupReader{in: in, dec: json.NewDecoder(in), use: use, sums: newSums()}
	if err := r.all(); err != nil {
		var used *useError
		if errors.As(err, &used) {
			return BackupHead{}, used.err
		}
		return BackupHead{}, r.fault(err)
	}
	return BackupHead{Made: r.made, Counts: r.sums.count}, nil
}

type backupReader struct {
	in   *limited
	dec  *json.Decoder
	use  func(Item) error
	sums sums

	form   int // 0 before the head is read
	made   int64
	part   Part
	record int
	end    *ending
}

// useError is an error of whom the records are handed to.
type useError struct{ err error }

func (e *useError) Error() string { return e.err.Error() }

var errForm = errors.New("its parts are not those of a backup")

// fault makes a BackupFault of what went wrong.
func (r *backupReader) fault(err error) error {
	var known *BackupFault
	if errors.As(err, &known) {
		return known
	}
	f := &BackupFault{Kind: DamagedBackup, Part: r.part, Record: r.record, Err: err}
	switch {
	case r.in.failed != nil && r.in.failed != errLong:
		return r.in.failed
	case r.form == 0:
		f.Kind = ForeignBackup
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		f.Kind = ShortBackup
	}
	return f
}

func (r *backupReader) all() error {
	if err := r.delim('{'); err != nil {
		return err
	}
	for r.dec.More() {
		t, err := r.token()
		if err != nil {
			return err
		}
		if err := r.member(t); err != nil {
			return err
		}
	}
	if err := r.delim('}'); err != nil {
		return err
	}
	if r.end == nil {
		return io.ErrUnexpectedEOF
	}
	if t, err := r.token(); err != io.EOF {
		return fmt.Errorf("%v stands after the end", t)
	}
	return r.checked()
}

// member reads one part of the document, whose name has been read.
func (r *backupReader) member(name json.Token) error {
	p, _ := name.(string)
	r.part, r.record = Part(p), 0
	switch {
	case r.form == 0:
		if r.part != headPart {
			return errForm
		}
		return r.head()
	case p == "end" && r.end == nil:
		r.end = &ending{}
		return r.decode(r.end)
	}
	for _, known := range Parts {
		if _, twice := r.sums.count[r.part]; known == r.part && !twice {
			return r.list()
		}
	}
	return errForm
}

func (r *backupReader) head() error {
	var h head
	if err := r.decode(&h); err != nil {
		return err
	}
	if h.Of != backupOf || h.Form < 1 {
		return errForm
	}
	if h.Form > BackupForm || h.Records > Schema {
		return &BackupFault{Kind: NewerBackup, Err: fmt.Errorf("form %d, records %d", h.Form, h.Records)}
	}
	r.form = h.Form
	made, err := time.Parse(time.RFC3339, h.Made)
	if err != nil {
		return err
	}
	r.made = made.UnixMilli()
	doc, err := compact(h)
	r.sums.crc[headPart] = crc32.ChecksumIEEE(doc)
	return err
}

// list reads the records of a part.
func (r *backupReader) list() error {
	if err := r.delim('['); err != nil {
		return err
	}
	r.sums.count[r.part] = 0
	for r.dec.More() {
		r.record++
		it, err := r.item()
		if err != nil {
			return err
		}
		if err := r.use(it); err != nil {
			return &useError{err}
		}
	}
	r.record = 0
	return r.delim(']')
}

// item reads one record and adds it to the sums.
func (r *backupReader) item() (Item, error) {
	var raw json.RawMessage
	if err := r.decode(&raw); err != nil {
		return Item{}, err
	}
	var l struct {
		line
		Doc     json.RawMessage `json:"doc"`
		Summary json.RawMessage `json:"summary"`
	}
	if err := json.Unmarshal(raw, &l); err != nil {
		return Item{}, err
	}
	it := Item{Part: r.part, Name: Name{l.Kind, l.ID}, Type: l.Type, Base64: l.Base64}
	var err error
	if it.Doc, err = textOf(l.Doc); err != nil {
		return it, err
	}
	if it.Summary, err = textOf(l.Summary); err != nil {
		return it, err
	}
	if l.ID == "" || r.part == ThingsPart && l.Kind == "" {
		return it, errors.New("a record without a name")
	}
	if _, err := base64.StdEncoding.DecodeString(l.Base64); err != nil {
		return it, err
	}
	doc, err := r.summed(raw, it)
	r.sums.add(r.part, doc)
	return it, err
}

// summed returns what a record is summed over.
func (r *backupReader) summed(raw json.RawMessage, it Item) ([]byte, error) {
	if r.form > 1 {
		return compact(it.line())
	}
	var b bytes.Buffer
	err := json.Compact(&b, raw)
	return b.Bytes(), err
}

// textOf returns a document that stands as a string or as itself.
func textOf(raw json.RawMessage) (string, error) {
	if len(raw) == 0 {
		return "", nil
	}
	if raw[0] == '"' {
		var s string
		err := json.Unmarshal(raw, &s)
		return s, err
	}
	var b bytes.Buffer
	err := json.Compact(&b, raw)
	return b.String(), err
}

// checked compares counts and sums with those that the end tells.
func (r *backupReader) checked() error {
	want := r.sums.ending(r.form)
	for _, p := range append([]Part{headPart}, Parts...) {
		if r.end.CRC32[p] != want.CRC32[p] && (p != headPart || r.form > 1) || r.end.Counts[p] != want.Counts[p] {
			return &BackupFault{Kind: DamagedBackup, Part: p, Err: errors.New("the sum is another")}
		}
	}
	return nil
}

func (r *backupReader) token() (json.Token, error) {
	r.in.left = longest
	return r.dec.Token()
}

func (r *backupReader) decode(v any) error {
	r.in.left = longest
	err := r.dec.Decode(v)
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

func (r *backupReader) delim(d json.Delim) error {
	t, err := r.token()
	if err == nil && t != d {
		err = fmt.Errorf("%v stands in the place of %v", t, d)
	}
	return err
}

var errLong = errors.New("a record is too long")

// limited reads on as long as there is some left, and keeps why it failed.
type limited struct {
	from   io.Reader
	left   int
	failed error
}

func (l *limited) Read(b []byte) (int, error) {
	if l.left <= 0 {
		l.failed = errLong
		return 0, errLong
	}
	n, err := l.from.Read(b[:min(len(b), l.left)])
	l.left -= n
	if err != nil && err != io.EOF {
		l.failed = err
	}
	return n, err
}
