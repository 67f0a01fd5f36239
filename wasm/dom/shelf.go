//go:build js

package dom

import "syscall/js"

// Thing is a kept document: what it is, its ID and its text.
type Thing struct {
	Kind, ID string
	Doc      []byte
}

// Shelf returns all kept things. Like Keep and Discard it blocks until the browser
// has answered; call it from a goroutine of its own.
func Shelf() ([]Thing, error) {
	v, err := store("things")
	if err != nil {
		return nil, err
	}
	out := make([]Thing, v.Length())
	for i := range out {
		t := v.Index(i)
		out[i] = Thing{Kind: t.Index(0).String(), ID: t.Index(1).String(), Doc: []byte(t.Index(2).String())}
	}
	return out, nil
}

// Keep keeps a thing over the one of the same kind and ID. Where another tab has
// changed that, it returns what stands there and changes nothing, but with force.
func Keep(kind, id string, doc []byte, force bool) (theirs []byte, err error) {
	journal := page.Get("journal")
	journal.Call("thing", kind, id, string(doc)) // for the case that the page goes before it is kept
	v, err := store("keep", kind, id, string(doc), force)
	if err != nil {
		return nil, err
	}
	journal.Call("thingDone", kind, id)
	if text := v.String(); text != "" {
		return []byte(text), nil
	}
	return nil, nil
}

// ThingDone takes a thing out of the journal.
func ThingDone(kind, id string) { page.Get("journal").Call("thingDone", kind, id) }

// Discard takes a thing off the shelf.
func Discard(kind, id string) error {
	_, err := store("discard", kind, id)
	return err
}

// Photo is a picture as OnPhoto gets it: W x H pixels of 4 bytes.
type Photo struct {
	Name, ID string
	W, H     int
	Pix      []byte
	Err      string
}

// OnPhoto has f called with each photo that was chosen or fetched; f must not
// block.
func OnPhoto(f func(Photo)) {
	page.Set("photo", js.FuncOf(func(_ js.Value, args []js.Value) any {
		p := Photo{Name: args[0].String(), ID: args[1].String(), Err: args[5].String()}
		if p.Err == "" {
			p.W, p.H = args[2].Int(), args[3].Int()
			p.Pix = make([]byte, 4*p.W*p.H)
			js.CopyBytesToGo(p.Pix, args[4])
		}
		f(p)
		return nil
	}))
}

// SweepPhotos deletes the photos that nothing has named for a day.
func SweepPhotos() { page.Get("photos").Call("sweep") }

// FetchPhoto asks for a kept photo, which comes to OnPhoto's function.
func FetchPhoto(id string) { page.Get("photos").Call("fetch", id) }
