package e2e

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"unthreaded/game/keep"
	"unthreaded/game/synth"
	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
	"unthreaded/wasm/e2e/browser"
)

// practice is weeks of practice on one motif, traced by a synthetic hand.
type practice struct {
	motif    string
	sessions int
	traces   int // in each session
	marks    string
	// wobble tells how far the hand swings round its speed in a session: 0 is perfectly
	// even.
	wobble func(session int) float64
	// measured tells whether the summaries hold what is followed over the weeks.
	measured bool
}

// learner gets more even from session to session, down to a plateau, with good and bad days.
func learner(seed uint64) func(int) float64 {
	r := rand.New(rand.NewPCG(seed, 7))
	return func(k int) float64 { return (0.16 + 0.5*math.Exp(-float64(k)/3)) * math.Exp(0.07*r.NormFloat64()) }
}

// stored is a record as the page's store keeps it.
type stored struct{ ID, Doc, Summary string }

// records returns the practice as records; the last session was yesterday, the others two
// days apart before it.
func (p practice) records(t testing.TB) []stored {
	t.Helper()
	m, ok := motif.Find(p.motif)
	if !ok {
		t.Fatalf("no motif %q", p.motif)
	}
	line, err := m.Rehearsal().Line(1)
	if err != nil {
		t.Fatal(err)
	}
	evening := time.Now().Add(-24 * time.Hour)
	var out []stored
	for k := range p.sessions {
		from := evening.AddDate(0, 0, -2*(p.sessions-1-k))
		w := p.wobble(k)
		for i := range p.traces {
			tr := trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: synth.Hand{
				Hz: 60, Speed: func(s float64) float64 { return inchPerSecond * (1 + w*math.Sin(s/13+float64(i))) },
				Beside: func(s float64) float64 { return 2 * w * math.Sin(s/11+float64(i)) },
			}.Samples(line)}
			rec := keep.Record{
				Schema: keep.Schema, ID: fmt.Sprintf("%s-%02d-%d", p.marks, k, i), Started: from.Add(time.Duration(i) * 2 * time.Minute).UnixMilli(),
				Motif: m.ID, Name: m.ID, Repeats: 1, Way: keep.Pencil, Guide: &keep.Guide{Marks: p.marks},
				SPM: 600, StitchMM: 2.54, Zoom: 1, PxPerMM: 3.78,
			}
			rec.SetLine(line)
			rec.SetTrace(tr)
			if err := rec.Measure(); err != nil {
				t.Fatal(err)
			}
			out = append(out, kept(t, rec, p.measured))
		}
	}
	return out
}

func kept(t testing.TB, rec keep.Record, measured bool) stored {
	t.Helper()
	sum := keep.Summarise(rec)
	if !measured {
		sum.Measured = nil
	}
	summary, err := keep.EncodeSummary(sum)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := keep.Encode(rec)
	if err != nil {
		t.Fatal(err)
	}
	return stored{rec.ID, string(doc), string(summary)}
}

// fill puts records into the page's store by its own functions and opens the page anew.
func fill(t *testing.T, d *browser.Page, recs []stored) {
	t.Helper()
	doc, err := json.Marshal(recs)
	if err != nil {
		t.Fatal(err)
	}
	d.Do(`window.filled = 0; (async () => { for (const r of ` + string(doc) + `) await unthreaded.store.put(r.ID, r.Doc, r.Summary); window.filled = 1; })()`)
	d.Until(`window.filled === 1`)
	d.Reload()
	d.Ready()
}

// everything gives all that is kept as one text, photos by their bytes; what is known
// of backups is left out.
const everything = `(async () => {
	const out = [];
	for (const name of ['settings', 'traces', 'summaries', 'things', 'photos']) {
		const [keys, values] = await unthreaded.store.run([name], 'readonly', (at, get, done) =>
			get(at(name).getAllKeys(), (k) => get(at(name).getAll(), (v) => done([k, v]))));
		for (const [i, key] of keys.entries()) {
			if (key[0] === 'backup' || key[0] === 'known') continue;
			out.push([name, key, values[i] instanceof Blob ? values[i].type + ' ' + [...new Uint8Array(await values[i].arrayBuffer())].join() : values[i]]);
		}
	}
	return JSON.stringify(out);
})()`

func (d *table) everything() string { return browser.Eval[string](d.Page, everything) }

// wipe empties the storage, but for what tells that the first visit is over.
func (d *table) wipe() {
	d.Do(`unthreaded.store.run(['settings', 'traces', 'summaries', 'things', 'photos'], 'readwrite', (at) => {
		for (const name of ['settings', 'traces', 'summaries', 'things', 'photos']) at(name).clear();
		at('settings').put('{"visited":true}', 'settings');
	})`)
}

// furnish keeps a few things of each kind, some of which no JSON writer would write
// so, and one that is damaged.
func (d *table) furnish() {
	d.Do(`(async () => {
		await unthreaded.store.keep('design', 'one', '{"schema":1, "text":"a\\u003cb", "n":1.0}');
		await unthreaded.store.keep('note', 'two', 'no document at all \u2028 \n "');
		await unthreaded.store.keep('note', 'three', '{"10":1,"2":"\u00e4\ud83e\uddf5"}');
		await unthreaded.store.keepPhoto('p1', new Blob([new Uint8Array(300).map((_, i) => i)], { type: 'image/jpeg' }));
	})()`)
}
