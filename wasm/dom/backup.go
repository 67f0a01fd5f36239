//go:build js

package dom

import "syscall/js"

// BackupFile is a file that the person chose to take a backup from.
type BackupFile struct{ file js.Value }

// OnBackup has f called with each file that is chosen as a backup; f must not
// block.
func OnBackup(f func(BackupFile)) {
	page.Set("checkBackup", js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(BackupFile{args[0]})
		return nil
	}))
}

// MakeBackup writes everything that is kept into a file of that name and hands it
// to the person; form is the form of the records, progress is told how many of how
// many are done. It returns what was written, as a JSON document. Like the other
// functions here it blocks until that is done.
func MakeBackup(name string, form int, progress func(done, of int)) ([]byte, error) {
	return backup("backup", "make", progress, name, form)
}

// CheckBackup reads a chosen file to its end and returns, as a JSON document, what
// it holds and how that stands to what is kept. A file that cannot be taken gives a
// Fault of kind foreign, newer, damaged or short.
func CheckBackup(f BackupFile, form int, progress func(done, of int)) ([]byte, error) {
	return backup("restore", "check", progress, f.file, form)
}

// TakeBackup takes in the file that was checked last: what is missing here or, with
// replace, all of it in place of what is here. If that succeeds the page is loaded
// anew and nothing comes back; an error means that nothing was changed.
func TakeBackup(replace bool, form int, progress func(done, of int)) error {
	_, err := backup("restore", "run", progress, replace, form)
	return err
}

// UndoBackup takes that back, and loads the page anew.
func UndoBackup() error {
	_, err := await(page.Get("restore").Call("back"))
	return err
}

// TakenBackup tells, as a JSON document, what TakeBackup or UndoBackup did just
// before this page was loaded; empty if they did nothing.
func TakenBackup() []byte { return []byte(page.Get("restore").Call("outcome").String()) }

// backup calls a method that takes its arguments and a function for its progress,
// and returns what it resolves to as a JSON document.
func backup(script, method string, progress func(done, of int), args ...any) ([]byte, error) {
	tell := js.FuncOf(func(_ js.Value, args []js.Value) any {
		of := 0
		if len(args) > 1 {
			of = args[1].Int()
		}
		progress(args[0].Int(), of)
		return nil
	})
	defer tell.Release()
	v, err := await(page.Get(script).Call(method, append(args, tell)...))
	if err != nil || v.IsUndefined() {
		return nil, err
	}
	return []byte(js.Global().Get("JSON").Call("stringify", v).String()), nil
}
