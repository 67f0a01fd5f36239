package e2e

import (
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

// next opens the page in a new tab of the same storage.
func (d *table) next(v browser.View) *table {
	d.t.Helper()
	n := &table{Page: d.Another(v), t: d.t}
	n.Go(siteURL + "/")
	n.Ready()
	return n
}

const notice = `document.querySelector('.notice.pinned').innerText`

// keptSeconds returns how long the newest kept trace is.
func (d *table) keptSeconds() float64 {
	return browser.Eval[float64](d.Page, `unthreaded.store.newest(1).then(([l]) => unthreaded.store.get(JSON.parse(l[0]).id)).then(JSON.parse)
		.then((r) => r.samples.t_s.at(-1))`)
}

// jots waits until the journal has some pieces of what is in hand.
func (d *table) jots(n int) {
	d.t.Helper()
	d.Until(`unthreaded.store.run(['journal'], 'readonly', (at, get, done) => get(at('journal').count(), done)).then((n) => { window.jots = n; }) && window.jots >= ` + strconv.Itoa(n))
}

// A renderer that crashes in mid-trace loses a second of it at most.
func TestACrashInMidTraceLosesASecond(t *testing.T) {
	for _, way := range []string{"pencil", "cloth"} {
		t.Run(way, func(t *testing.T) {
			d := sit(t, brief, "")
			if way == "cloth" {
				d.choose("rehearse.way", "cloth")
			}
			samples := d.samples(synth.Hand{Hz: 60, Speed: synth.Steady(25.4), Stop: 120})
			s := d.Stroke(browser.Pen)
			s.Down(samples[0])
			s.Move(samples[1:]...)
			d.jots(2)
			d.Steady()
			d.Crash()
			n := d.next(brief)
			n.Until(`document.querySelectorAll('.past li').length === 1`)
			n.Until(notice + `.includes('kept as far as it went')`)
			got := n.keptSeconds()
			if whole := samples[len(samples)-1].T; got < whole-1 {
				t.Errorf("%.2f s are kept of %.2f s", got, whole)
			}
			n.saved(1)
		})
	}
}

// The same of a stroke that is being drawn on a block, which is there as far as it had come.
func TestACrashInMidStrokeLosesASecond(t *testing.T) {
	d := drawBlock(t, desk)
	var all []browser.Sample
	for i := range 90 {
		q := d.at(geom.Pt(30+float64(i), 76.2))
		all = append(all, browser.Sample{T: float64(i) / 60, X: q.X, Y: q.Y, Pressure: 0.5})
	}
	s := d.Stroke(browser.Pen)
	s.Down(all[0])
	s.Move(all[1:]...)
	d.jots(1)
	d.Steady()
	d.Crash()
	n := d.next(desk)
	n.Until(notice + `.includes('drawing when the last visit broke off')`)
	n.Click(`[data-send=place][value=draw]`)
	n.Until(`document.querySelectorAll('[data-list="draw.lines.rows"] li').length === 1`)
}

// Graphics that are lost in mid-stroke reload the page; the stroke is there.
func TestLostGraphicsLoseNoStroke(t *testing.T) {
	d := drawBlock(t, desk)
	s := d.Stroke(browser.Pen)
	for i := range 40 {
		q := d.at(geom.Pt(40+2*float64(i), 76.2))
		at := browser.Sample{T: float64(i) / 60, X: q.X, Y: q.Y, Pressure: 0.5}
		if i == 0 {
			s.Down(at)
			continue
		}
		s.Move(at)
	}
	d.Steady()
	d.Do(`window.before = true; document.querySelector('#cloth canvas').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext()`)
	d.Until(`!window.before && document.documentElement.dataset.state === 'ready'`)
	d.Until(`document.querySelectorAll('[data-list="draw.lines.rows"] li').length === 1`)
}

// A trace that is kept leaves nothing in the journal.
func TestTheJournalIsEmptiedAgain(t *testing.T) {
	d := sit(t, brief, "")
	d.draw(browser.Pen, short(120))
	d.saved(1)
	d.Until(`unthreaded.store.run(['journal'], 'readonly', (at, get, done) => get(at('journal').count(), done)).then((n) => { window.jots = n; }) && window.jots === 0`)
}

// Two tabs: what was deleted in one can be brought back there after another has
// been opened.
func TestUndoSurvivesAnotherTab(t *testing.T) {
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(60))
	d.saved(1)
	d.Do(`document.querySelector('.past li [data-send=delete]').click()`)
	d.saved(0)
	n := d.next(brief)
	n.Until(`!document.querySelector('[data-show="rehearse.pastEmpty"]').hidden`)
	d.Click(`.notice [data-send=undo]`)
	d.saved(1)
	if said := browser.Eval[string](d.Page, notice); !strings.Contains(said, "is back") {
		t.Errorf("the page says %q", said)
	}
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	d.Do(`document.querySelector('.past li [data-send=delete]').click()`)
	d.saved(0)
	d.Do(`unthreaded.store.makeRoom()`)
	d.Click(`.notice [data-send=undo]`)
	d.Until(notice + `.includes('could not be brought back')`)
	d.Until(`document.querySelectorAll('.past li').length === 0`)
}

// A restore that another tab has made impossible to take back is not said to be taken
// back.
func TestTakingBackWhatIsGoneSaysSo(t *testing.T) {
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(60))
	d.saved(1)
	file := d.backup()
	d.wipe()
	d.openBackup(file)
	d.take("[data-send=backup-add]")
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	n := d.next(brief)
	n.Until(`document.querySelectorAll('.past li').length === 1`)
	d.Do(`unthreaded.store.makeRoom()`)
	d.Click(".notice [data-send=backup-undo]")
	d.Until(notice + `.includes('could not be taken back: it is not in the storage any more')`)
	if n := d.past(); n != 1 {
		t.Errorf("%d traces are listed", n)
	}
}

// A block that two tabs have changed is there twice: neither overwrites the other.
func TestABlockChangedInTwoTabs(t *testing.T) {
	d := drawBlock(t, desk)
	d.tell("draw.name", "Mine", "")
	d.Until(`unthreaded.store.things().then((l) => { window.there = l.some((x) => x[2].includes('"Mine"')); }) && window.there`)
	n := &table{Page: d.Another(desk), t: t}
	n.Go(siteURL + "/")
	n.Ready()
	n.Click(`[data-send=place][value=draw]`)
	n.Until(`document.querySelector('[data-send="draw.name"]').value === 'Mine'`)
	n.Do(`unthreaded.send('draw.name', 'Theirs', '')`)
	n.Until(`unthreaded.store.things().then((l) => { window.there = l.some((x) => x[2].includes('"Theirs"')); }) && window.there`)
	d.tell("draw.name", "Mine again", "")
	d.Until(notice + `.includes('changed in another tab too')`)
	d.Until(`unthreaded.store.things().then((l) => { window.names = l.filter((x) => x[0] === 'design').map((x) => JSON.parse(x[2]).name).join(); })
		&& /Theirs/.test(window.names) && /Mine again, this tab/.test(window.names)`)
}

// A quilt that two tabs have changed is there twice too.
func TestAQuiltChangedInTwoTabs(t *testing.T) {
	d := open(t, desk)
	kept := func(p *browser.Page, as string) {
		p.Until(`unthreaded.store.things().then((l) => { window.there = l.some((x) => x[0] === 'quilt' && JSON.parse(x[2]).name === '` + as + `'); }) && window.there`)
	}
	d.Click(`[data-send=place][value=quilt]`)
	d.Do(`unthreaded.send('quilt.name', 'Mine', '')`)
	kept(d, "Mine")
	n := d.Another(desk)
	n.Go(siteURL + "/")
	n.Ready()
	n.Click(`[data-send=place][value=quilt]`)
	n.Do(`unthreaded.send('quilt.name', 'Theirs', '')`)
	kept(n, "Theirs")
	// What the first tab has seen of the storage counts: it must not read Theirs before.
	d.Do(`unthreaded.send('quilt.name', 'Mine again', '')`)
	d.Until(notice + `.includes('changed in another tab too')`)
	kept(d, "Theirs")
	kept(d, "Mine again, this tab")
}

// A browser that is ended at once in mid-trace loses a second of it at most, and nothing that
// was kept before.
func TestAKilledBrowserLosesASecond(t *testing.T) {
	// What is left of a killed browser may still write, so that t.TempDir could not be emptied.
	profile, err := os.MkdirTemp("", "unthreaded-profile")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for range 50 {
			if os.RemoveAll(profile) == nil {
				return
			}
			time.Sleep(100 * time.Millisecond)
		}
		t.Logf("%s could not be removed", profile)
	})
	start := func() *table {
		b, err := browser.StartIn(profile, code())
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(b.Close)
		d := &table{Page: b.OpenKept(t, brief), t: t}
		d.Go(siteURL + "/")
		d.Ready()
		return d
	}
	d := start()
	d.measure()
	d.draw(browser.Mouse, short(60))
	d.saved(1)
	d.Do(`document.querySelector('[data-send=again]').click()`)
	samples := d.samples(synth.Hand{Hz: 60, Speed: synth.Steady(25.4), Stop: 120})
	s := d.Stroke(browser.Pen)
	s.Down(samples[0])
	s.Move(samples[1:]...)
	d.jots(2)
	d.Kill()
	n := start()
	n.Until(`document.querySelectorAll('.past li').length === 2`)
	n.Until(notice + `.includes('kept as far as it went')`)
	got := n.keptSeconds()
	if whole := samples[len(samples)-1].T; got < whole-1 {
		t.Errorf("%.2f s are kept of %.2f s", got, whole)
	}
	n.saved(2)
}

// Settings that two tabs have changed: each keeps what it changed.
func TestSettingsOfTwoTabs(t *testing.T) {
	d := sit(t, brief, "")
	n := d.next(brief)
	d.choose("spm", "800")
	n.choose("units", "mm")
	n.Until(`unthreaded.store.settings().then((s) => { window.doc = s; }) && /"spm":800/.test(window.doc) && /"units":"mm"/.test(window.doc)`)
	d.choose("theme", "dark")
	d.Until(`unthreaded.store.settings().then((s) => { window.doc = s; }) && /"theme":"dark"/.test(window.doc)`)
	if doc := browser.Eval[string](d.Page, `unthreaded.store.settings()`); !strings.Contains(doc, `"units":"mm"`) || !strings.Contains(doc, `"spm":800`) {
		t.Errorf("kept are %s", doc)
	}
}

// Traces made in two tabs at once are all there.
func TestTracesOfTwoTabs(t *testing.T) {
	d := sit(t, brief, "")
	n := d.next(brief)
	n.measure()
	d.draw(browser.Mouse, short(60))
	n.draw(browser.Pen, short(50))
	d.saved(2)
	n.Reload()
	n.Ready()
	n.Until(`document.querySelectorAll('.past li').length === 2`)
}

// A trace of an earlier visit that the storage does not take stands by itself; what is kept is
// listed, and the trace comes in once there is room.
func TestAStuckTraceHidesNothing(t *testing.T) {
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(60))
	d.saved(1)
	d.Do(`unthreaded.store.put = () => new Promise(() => {})`)
	d.draw(browser.Pen, short(50))
	d.Before(`window.full = true; { const real = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...args) {
			if (window.full && this.name === 'traces') throw new DOMException('full', 'QuotaExceededError');
			return real.apply(this, args);
		}; }`)
	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 1 && !document.querySelector('#stuck').hidden`)
	if said := browser.Eval[string](d.Page, `document.querySelector('#stuck').innerText`); !strings.Contains(said, "storage of this browser is full") {
		t.Errorf("the page says %q", said)
	}
	d.Do(`{ const real = unthreaded.download; unthreaded.download = (name, type, ...parts) => {
		new Blob(parts).text().then((text) => { window.file = text; }); unthreaded.download = real; }; }`)
	d.Click(`[data-send=stuck-save]`)
	d.Until(`window.file && window.file.includes('"traces":1')`)
	d.Do(`window.full = false`)
	d.Click(`[data-send=stuck-room]`)
	d.Until(`document.querySelectorAll('.past li').length === 2 && document.querySelector('#stuck').hidden`)
	d.saved(2)
}
