package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// backup makes a backup and returns its text.
func (d *table) backup() string {
	d.t.Helper()
	d.Do(`{ window.file = null; const real = unthreaded.download;
		unthreaded.download = (name, type, ...parts) => {
			new Blob(parts).text().then((text) => { window.file = { name, type, text }; });
			unthreaded.download = real;
		}; document.querySelector('.backup [data-send=backup]').click(); }`)
	d.Until(`window.file && document.querySelector('.backup .say').textContent.startsWith('Saved as a file')`)
	d.Do(`document.querySelector('.notice [data-send=dismiss]').click()`)
	d.Until(`document.querySelector('.notice').hidden`)
	return browser.Eval[string](d.Page, `window.file.text`)
}

// openBackup chooses a file as backup and waits for what the page says to it.
func (d *table) openBackup(text string) (said string) {
	d.t.Helper()
	file := filepath.Join(d.t.TempDir(), "backup.json")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		d.t.Fatal(err)
	} // what is said of it may be what was said of the last one
	d.Do(`unthreaded.send('backup-leave', '', '')`)
	d.Until(`document.querySelector('.backup .say').textContent === 'Nothing was changed.'`)
	d.Do(`document.querySelector('.backup .say').textContent = '-'`)
	d.Upload(`[data-backup]`, file)
	d.Until(`((asks, say) => asks || /Nothing was changed.$/.test(say))(
		!document.querySelector('.backup .choices').hidden, document.querySelector('.backup .say').textContent)`)
	return browser.Eval[string](d.Page, `(document.querySelector('.backup .choices').hidden
		? document.querySelector('.backup .say') : document.querySelector('.backup .choices')).textContent.replace(/\s+/g, ' ')`)
}

// take presses a button of the backup that leads to a new load of the page.
func (d *table) take(selector string) {
	d.t.Helper()
	d.Until(`(b => b && !b.closest('[hidden]'))(document.querySelector('` + selector + `'))`)
	d.Do(`window.before = true; document.querySelector('` + selector + `').click()`)
	d.Until(`!window.before && document.documentElement.dataset.state === 'ready' && !document.querySelector('.notice').hidden`)
}

// Backup, wipe, restore: the same bytes of every record; and the restore can be taken
// back.
func TestABackupBringsEverythingBack(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "ruler-zigzag")
	d.draw(browser.Mouse, short(60))
	d.saved(1)
	d.furnish()
	before := d.everything()
	file := d.backup()
	d.wipe()
	empty := d.everything()
	if said := d.openBackup(file); !strings.Contains(said, "1 trace, 9 other things, 1 photo") || !strings.Contains(said, "0 are here already") {
		t.Errorf("before the restore the page says %q", said)
	}
	if now := d.everything(); now != empty {
		t.Error("looking at a backup changed something")
	}
	d.take("[data-send=backup-replace]")
	if after := d.everything(); after != before {
		t.Errorf("after the restore there is\n%.600s\nand was\n%.600s", after, before)
	}
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	d.restoredIs("made > 0") // what it held counts as saved
	// A second restore can be taken back, and then the first too.
	d.Do(`unthreaded.store.discard('note', 'two')`)
	between := d.everything()
	d.openBackup(file)
	d.take("[data-send=backup-add]")
	if after := d.everything(); after != before {
		t.Errorf("after the second restore there is\n%.600s\nand was\n%.600s", after, before)
	}
	d.take(".notice [data-send=backup-undo]")
	if after := d.everything(); after != between {
		t.Errorf("after taking the second back there is\n%.600s\nand was\n%.600s", after, between)
	}
	d.take(".notice [data-send=backup-undo]")
	// The store was empty then; the page gives an empty one the quilt of a first visit.
	d.Until(`unthreaded.store.things().then((l) => { window.demo = l.every((x) => x[0] === 'backup' || x[1].startsWith('demo')); }) && window.demo`)
	d.restoredIs("made === 0")
	if n := d.past(); n != 0 {
		t.Errorf("%d traces are listed after taking it back, want none", n)
	}
}

// restoredIs waits until that is true of the time of the backup that is noted as taken in.
func (d *table) restoredIs(want string) {
	d.t.Helper()
	d.Until(`unthreaded.store.things().then((l) => {
		const care = l.find((x) => x[0] === 'backup'), made = (care && JSON.parse(care[2]).restored) || 0;
		window.noted = ` + want + `; }) && window.noted`)
}

// Adding takes what is missing, mends what is damaged here, and leaves the rest.
func TestABackupAddsWhatIsMissing(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(50))
	d.draw(browser.Mouse, short(60))
	d.saved(2)
	d.furnish()
	before := d.everything()
	file := d.backup()
	d.Do(`unthreaded.store.newest(1e6).then(([l]) => l).then(async (l) => {
		const [a, b] = l.map((s) => JSON.parse(s).id);
		await unthreaded.store.bin(a);
		await unthreaded.store.put(b, '{"schema":1,"id":', l[1]);
		await unthreaded.store.discard('note', 'two');
	})`)
	if said := d.openBackup(file); !strings.Contains(said, "1 is damaged here") || !strings.Contains(said, "missing here (2 traces, 1 other thing)") {
		t.Errorf("the page says %q", said)
	}
	d.take("[data-send=backup-add]")
	if after := d.everything(); after != before {
		t.Errorf("after adding there is\n%.600s\nand was\n%.600s", after, before)
	}
}

// Two devices hand each other one file: what was changed on one is brought up to date on the
// other, what was changed on both is there twice on both, and no trace is doubled.
func TestTwoDevicesHandEachOtherFiles(t *testing.T) {
	t.Parallel()
	a, b := sit(t, brief, ""), sit(t, brief, "")
	a.draw(browser.Mouse, short(50))
	a.saved(1)
	rename := func(d *table, id, name string) {
		d.tell("place", "draw", "")
		d.tell("draw.design", id, "")
		d.Until(`document.querySelector('[data-send="draw.design"]').value === '` + id + `'`)
		d.tell("draw.name", name, "")
		d.Until(`unthreaded.store.things().then((l) => { window.there = l.some((x) => x[1] === '` + id + `' && JSON.parse(x[2]).name === '` + name + `'); }) && window.there`)
		d.tell("place", "rehearse", "")
	}
	rename(a, "demo-lily", "Lily of a")
	b.openBackup(a.backup())
	b.take("[data-send=backup-replace]")
	rename(b, "demo-reeds", "Reeds of b")
	rename(b, "demo-lily", "Lily of b")
	b.measure()
	b.draw(browser.Pen, short(60))
	b.saved(2)
	rename(a, "demo-lily", "Lily of a, later")
	file := b.backup()
	if said := a.openBackup(file); !strings.Contains(said, "1 trace") || !strings.Contains(said, "was changed here and there; adding keeps both") || !strings.Contains(said, "1 thing was changed there since") {
		t.Errorf("the page says %q", said)
	}
	a.take("[data-send=backup-add]")
	b.openBackup(a.backup())
	b.take("[data-send=backup-add]")
	want := map[*table]string{
		a: `["Lily of a, later","Lily of b, from the file","Reeds of b"]`,
		b: `["Lily of a, later, from the file","Lily of b","Reeds of b"]`,
	}
	for d, names := range want {
		got := browser.Eval[string](d.Page, `unthreaded.store.things().then((l) => JSON.stringify(l.filter((x) => x[0] === 'design').map((x) => JSON.parse(x[2]).name).filter((n) => / of /.test(n)).sort()))`)
		if got != names {
			t.Errorf("there are %s, want %s", got, names)
		}
		d.Until(`document.querySelectorAll('.past li').length === 2`)
	}
	if !strings.Contains(browser.Eval[string](b.Page, notice), "changed here and there: yours stays") {
		t.Error("the copy is not said")
	}
}

// A file that cannot be taken: the page says why and what to do, and nothing changes. What
// else can be wrong with one is tested in game/keep.
func TestBackupsThatCannotBeTaken(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(50))
	d.saved(1)
	d.furnish()
	before, file := d.everything(), d.backup()
	for name, c := range map[string]struct{ text, want string }{
		"half of it":       {file[:len(file)/2], "ends too early (traces, record 1)"},
		"another digit":    {strings.Replace(file, `\"px_per_mm\":3`, `\"px_per_mm\":4`, 1), "not as it was written (traces)"},
		"of a later form":  {strings.Replace(file, `"form":2`, `"form":3`, 1), "newer version"},
		"another document": {`{"a":1}`, "no backup of this page"},
		"nothing":          {"", "no backup of this page"},
	} {
		if said := d.openBackup(c.text); !strings.Contains(said, c.want) {
			t.Errorf("%s: the page says %q, want %q", name, said, c.want)
		}
	}
	if after := d.everything(); after != before {
		t.Error("a file that cannot be taken changed something")
	}
}

// fills has the storage run full at the n-th put into a store: the browser ends the
// transaction with this error.
func (d *table) fills(name string, n int) {
	d.Do(fmt.Sprintf(`{ const real = IDBObjectStore.prototype.put; let n = 0;
		IDBObjectStore.prototype.put = function (...args) {
			const request = real.apply(this, args);
			if (this.name === %q && ++n === %d) {
				Object.defineProperty(this.transaction, 'error', { value: new DOMException('full', 'QuotaExceededError') });
				queueMicrotask(() => this.transaction.abort());
			}
			return request;
		}; }`, name, n))
}

// Storage that fills up while a backup is staged: nothing changes, the page says so
// and goes on.
func TestAFullStorageStopsARestore(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.furnish()
	file := d.backup()
	d.Do(`unthreaded.store.keep('note', 'since', '{}')`)
	before := d.everything()
	d.openBackup(file)
	d.fills("staged", 2)
	d.refused("storage of this browser is full", before)
}

// A fault while a backup is put in place undoes what was put there before it: here a
// second entry of the same name is refused.
func TestAFaultInARestoreUndoesIt(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.furnish()
	file := d.backup()
	d.Do(`unthreaded.store.keep('note', 'since', '{}')`)
	before := d.everything()
	d.openBackup(file)
	d.Do(`{ const real = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (v, key) {
			if (this.name !== 'photos') return real.call(this, v, key);
			this.add(v, key);
			return this.add(v, key);
		}; }`)
	d.refused("could not be taken in", before)
	d.Do(`document.querySelector('.notice [data-send=dismiss]').click()`)
	d.Until(`document.querySelector('.notice').hidden`)
	d.measure()
	d.draw(browser.Mouse, short(40))
	d.saved(1)
}

// refused asks for the backup in place of all and expects to be told why not.
func (d *table) refused(why, before string) {
	d.t.Helper()
	d.Do(`document.querySelector('[data-send=backup-replace]').click()`)
	d.Until(`!document.querySelector('.notice').hidden`)
	if said := browser.Eval[string](d.Page, `document.querySelector('.notice').textContent`); !strings.Contains(said, why) {
		d.t.Errorf("the page says %q, want %q", said, why)
	}
	if after := d.everything(); after != before {
		d.t.Errorf("there is\n%.600s\nand was\n%.600s", after, before)
	}
}

// Every backup ever written must open. The files of testdata/backups are backups of
// past versions of this program; a new form adds one and takes none away. Each holds
// at least one trace, which opens.
func TestOldBackupsOpen(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../testdata/backups/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no backups found: %v", err)
	}
	d := sit(t, brief, "")
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		d.wipe()
		if said := d.openBackup(string(text)); strings.Contains(said, "Nothing was changed.") {
			t.Errorf("%s: the page says %q", filepath.Base(f), said)
			continue
		}
		d.take("[data-send=backup-add]")
		d.Do(`unthreaded.store.newest(1e6).then(([l]) => l).then((l) => unthreaded.send('open', '', JSON.parse(l[0]).id))`)
		d.Until(`document.querySelectorAll('.figure').length === 4`)
	}
}
