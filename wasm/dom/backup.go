//go:build js

package dom

import (
	"io"
	"syscall/js"
)

// The functions of this file block until the browser has answered; call them from a
// goroutine of their own.

// File is a file that the person chose.
type File struct{ file js.Value }

// OnBackup has f called with each file that is chosen as a backup; f must not
// block.
func OnBackup(f func(File)) {
	page.Set("checkBackup", js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(File{args[0]})
		return nil
	}))
}

// Reader returns the bytes of the file from its beginning.
func (f File) Reader() io.Reader { return &fileReader{file: f.file, size: f.file.Get("size").Float()} }

// pieceOf is how much of a file is read at once: between two pieces the page moves.
const pieceOf = 1 << 17

type fileReader struct {
	file     js.Value
	at, size float64
	rest     []byte
}

func (r *fileReader) Read(b []byte) (int, error) {
	if len(r.rest) == 0 {
		if r.at >= r.size {
			return 0, io.EOF
		}
		v, err := await(r.file.Call("slice", r.at, r.at+pieceOf).Call("arrayBuffer"))
		if err != nil {
			Note(err.Error())
			return 0, Failure{"unreadable"}
		}
		bytes := js.Global().Get("Uint8Array").New(v)
		n := bytes.Length()
		if n == 0 {
			return 0, io.ErrUnexpectedEOF // the file has become shorter
		}
		r.rest = make([]byte, n)
		js.CopyBytesToGo(r.rest, bytes)
		r.at += float64(n)
	}
	n := copy(b, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// Blob is a file in the making; the browser may put what was written on its disk.
type Blob struct {
	parts []any
	rest  []byte
}

// blobPart is how much is written before the browser gets it.
const blobPart = 1 << 20

// Write adds to the file; it does not fail.
func (b *Blob) Write(p []byte) (int, error) {
	b.rest = append(b.rest, p...)
	if len(b.rest) >= blobPart {
		b.flush()
	}
	return len(p), nil
}

func (b *Blob) flush() {
	bytes := js.Global().Get("Uint8Array").New(len(b.rest))
	js.CopyBytesToJS(bytes, b.rest)
	b.parts = append(b.parts, js.Global().Get("Blob").New([]any{bytes}))
	b.rest = b.rest[:0]
}

// Hand gives the file to the person.
func (b *Blob) Hand(name, mime string) {
	b.flush()
	page.Call("download", append([]any{name, mime}, b.parts...)...)
}

// Names returns the names of all records of a part of what is kept, each with its kind
// and its ID.
func Names(part string) ([][]string, error) { return table(restore("names", part)) }

// Records returns records by their names, in that order, without those that are gone:
// kind, ID, document, summary, media type and bytes (base64) each.
func Records(part string, names [][]string) ([][]string, error) {
	return table(restore("get", part, rows(names)))
}

// Stage adds records, each as Records gives it with its part before, to those that
// wait to be put in place.
func Stage(records [][]string) error {
	_, err := restore("stage", rows(records))
	return err
}

// Unstage throws away what waits.
func Unstage() error {
	_, err := restore("unstage")
	return err
}

// Swap puts what waits in place in one transaction, with replace in the place of all
// that is here. It tells whether that is the same as before, and whether a restore
// before it can be taken back.
func Swap(replace bool) (same, more bool, err error) {
	v, err := restore("swap", replace)
	if err != nil {
		return false, false, err
	}
	return v.Index(0).Bool(), v.Index(1).Bool(), nil
}

// TakeBack undoes the last Swap, and tells whether the one before can be undone then.
func TakeBack() (more bool, err error) {
	v, err := restore("back")
	if err != nil {
		return false, err
	}
	if v.Type() != js.TypeBoolean {
		return false, Failure{"gone"}
	}
	return v.Bool(), nil
}

// Again loads the page anew; Outcome then returns what was given, once.
func Again(outcome []byte) { page.Get("restore").Call("again", string(outcome)) }

// Outcome returns what Again was told just before this page was loaded, else nothing.
func Outcome() []byte { return []byte(page.Get("restore").Call("outcome").String()) }

func restore(method string, args ...any) (js.Value, error) {
	return await(page.Get("restore").Call(method, args...))
}

// rows makes an array of arrays of texts, table is its reverse.
func rows(of [][]string) []any {
	out := make([]any, len(of))
	for i, r := range of {
		row := make([]any, len(r))
		for k, s := range r {
			row[k] = s
		}
		out[i] = row
	}
	return out
}

func table(v js.Value, err error) ([][]string, error) {
	if err != nil {
		return nil, err
	}
	out := make([][]string, v.Length())
	for i := range out {
		r := v.Index(i)
		out[i] = make([]string, r.Length())
		for k := range out[i] {
			out[i][k] = r.Index(k).String()
		}
	}
	return out, nil
}
