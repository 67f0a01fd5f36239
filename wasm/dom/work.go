//go:build js

package dom

import "syscall/js"

// WorkNews are called with what the second program says: how much of the job in hand is
// done, its answer, that the program has ended, that it runs within the page. They must not
// block.
type WorkNews struct {
	Told  func(share float64)
	Done  func(doc []byte)
	Lost  func()
	Aside func()
}

// OnWork has the news of the second program told.
func OnWork(n WorkNews) {
	w := page.Get("work")
	set := func(name string, f func(args []js.Value)) {
		w.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			f(args)
			return nil
		}))
	}
	set("told", func(args []js.Value) { n.Told(args[0].Float()) })
	set("done", func(args []js.Value) { n.Done(bytesOf(args[0])) })
	set("lost", func([]js.Value) { n.Lost() })
	set("aside", func([]js.Value) { n.Aside() })
}

// Work has a job done, a document of game/work, by the second program, which begins with the
// first. EndWork ends the program at once.
func Work(doc []byte) { page.Get("work").Call("send", toJS(doc)) }

// EndWork ends the second program with the job in hand.
func EndWork() { page.Get("work").Call("end") }

// Jobs is the other side: in the second program it takes jobs for ever and does them, one at
// a time. do is told by tell how far it has come; where tell returns false the job was given
// up, and what do returns is thrown away.
func Jobs(do func(doc []byte, tell func(share float64) bool) []byte) {
	// What the scripts set before the program began belongs to it alone.
	self := js.Global().Get("unthreadedWork")
	docs := make(chan []byte, 16)
	self.Set("take", js.FuncOf(func(_ js.Value, args []js.Value) any {
		docs <- bytesOf(args[0])
		return nil
	}))
	self.Call("ready")
	tell := func(share float64) bool { return self.Call("told", share).Bool() }
	for doc := range docs {
		self.Call("done", toJS(do(doc, tell)))
	}
}

// Rests tells whether the second program runs within the page, so that it has to give
// control back between the parts of a job.
func Rests() bool { return js.Global().Get("unthreadedWork").Get("rest").Truthy() }

func bytesOf(v js.Value) []byte {
	out := make([]byte, v.Get("length").Int())
	js.CopyBytesToGo(out, v)
	return out
}

func toJS(doc []byte) js.Value {
	v := js.Global().Get("Uint8Array").New(len(doc))
	js.CopyBytesToJS(v, doc)
	return v
}
