package work

import "crypto/sha256"

// Queue keeps the order in which jobs are done, one at a time, on the page's side. It knows
// no clock and no browser: what it wants done there, its methods return.
type Queue struct {
	now     *queued
	waiting []queued
	kept    []result
	bytes   int
}

type queued struct {
	Ask
	doc  []byte
	hash [32]byte
	// stale tells that nobody waits for it any more.
	stale bool
}

// result is an answer by the content of what was asked, the one used last at the end.
type result struct {
	hash [32]byte
	doc  []byte
}

// KeptBytes bounds the answers that are kept, so that what was worked out once (equal top,
// equal rules) is not worked out again.
const KeptBytes = 24 << 20

// Turn is what a Queue wants done. At most one of Start, Answer is set.
type Turn struct {
	// Restart ends the program that works and begins it anew, before anything else.
	Restart bool
	// Start is a document to be worked on, nil for none.
	Start []byte
	// Answer ends job N at once, from what is kept.
	Answer []byte
	N      int
	// Linger asks for Overdue a moment later, unless the job in hand has ended.
	Linger bool
}

// Ask takes a job. One of its kind that waits gives way to it; the one in hand, if of its
// kind, is let end for a moment, since to begin the program anew takes one too.
func (q *Queue) Ask(a Ask) (Turn, error) {
	doc, err := Encode(request{a.Kind, a.In})
	if err != nil {
		return Turn{}, err
	}
	j := queued{Ask: a, doc: doc, hash: sha256.Sum256(doc)}
	if doc := q.recall(j.hash); doc != nil {
		return Turn{Answer: doc, N: a.N}, nil
	}
	q.drop(func(x queued) bool { return x.Kind == a.Kind })
	q.waiting = append(q.waiting, j)
	if q.now == nil {
		return q.next(), nil
	}
	if q.now.Kind == a.Kind {
		q.now.stale = true
	}
	return Turn{Linger: q.now.stale}, nil
}

// Stop gives a job up: one that is in hand ends at once.
func (q *Queue) Stop(n int) Turn {
	q.drop(func(x queued) bool { return x.N == n })
	if q.now == nil || q.now.N != n {
		return Turn{}
	}
	q.now = nil
	o := q.next()
	o.Restart = true
	return o
}

// Overdue ends the job in hand if nobody waits for it.
func (q *Queue) Overdue() Turn {
	if q.now == nil || !q.now.stale {
		return Turn{}
	}
	return q.Stop(q.now.N)
}

// Current returns the number of the job in hand, 0 for none.
func (q *Queue) Current() int {
	if q.now == nil {
		return 0
	}
	return q.now.N
}

// Ended takes the answer of the job in hand, keeps it, and returns the job's number and what
// is next.
func (q *Queue) Ended(doc []byte) (n int, o Turn) {
	if q.now == nil {
		return 0, Turn{}
	}
	q.keep(q.now.hash, doc)
	n, q.now = q.now.N, nil
	return n, q.next()
}

// Lost tells that the program that worked has ended: it returns the jobs that are lost with
// it, those that wait too, since the next program may do no better.
func (q *Queue) Lost() []int {
	var out []int
	if q.now != nil {
		out = append(out, q.now.N)
	}
	for _, j := range q.waiting {
		out = append(out, j.N)
	}
	q.now, q.waiting = nil, nil
	return out
}

func (q *Queue) next() Turn {
	if len(q.waiting) == 0 {
		return Turn{}
	}
	j := q.waiting[0]
	q.waiting = q.waiting[1:]
	q.now = &j
	return Turn{Start: j.doc}
}

func (q *Queue) drop(gone func(queued) bool) {
	var left []queued
	for _, j := range q.waiting {
		if !gone(j) {
			left = append(left, j)
		}
	}
	q.waiting = left
}

// recall returns a kept answer, nil for none.
func (q *Queue) recall(hash [32]byte) []byte {
	for i, r := range q.kept {
		if r.hash == hash {
			q.kept = append(append(q.kept[:i:i], q.kept[i+1:]...), r)
			return r.doc
		}
	}
	return nil
}

// keep keeps an answer, and gives up those used longest ago.
func (q *Queue) keep(hash [32]byte, doc []byte) {
	if len(doc) > KeptBytes/4 {
		return // one of its size would leave room for few others
	}
	q.kept = append(q.kept, result{hash, doc})
	for q.bytes += len(doc); q.bytes > KeptBytes; q.kept = q.kept[1:] {
		q.bytes -= len(q.kept[0].doc)
	}
}

// request is what goes to the second program; its Out comes back.
type request struct {
	Kind Kind
	In   any
}

func init() { Carry(request{}) }

// Read returns what a document of the page's asks for.
func Read(doc []byte) (Kind, any, error) {
	v, err := Decode(doc)
	if err != nil {
		return "", nil, err
	}
	r, ok := v.(request)
	if !ok {
		return "", nil, ErrWire
	}
	return r.Kind, r.In, nil
}
