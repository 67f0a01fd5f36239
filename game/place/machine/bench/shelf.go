package bench

import (
	"fmt"
	"strings"
)

// shelf is what is kept of earlier visits: for each base name the document in
// force, its ID, and the IDs of those that could not be read.
type shelf struct {
	jobs    map[string]Job
	ids     map[string]string
	damaged map[string]bool
}

// Load takes a kept document. One that cannot be read is left as it is, and what
// she changes from then on is kept beside it; the error says what is wrong.
func (b Bench) Load(id string, doc []byte) (Bench, error) {
	b.shelf = b.shelf.copied()
	b.Rev++
	if IsMine(id) {
		m, err := DecodeMine(doc)
		if err != nil {
			b.shelf.damaged[id] = true
			return b, fmt.Errorf("the figures of your machine: %w", err)
		}
		if b.shelf.takes(mineID, id) {
			b.Mine = m
		}
		return b.inRows(), nil
	}
	j, err := DecodeJob(doc)
	if err == nil && id != jobPrefix+j.Plan && !strings.HasPrefix(id, jobPrefix+j.Plan+".") {
		err = fmt.Errorf("plan: %q is kept under the name %q", j.Plan, id)
	}
	if err != nil {
		b.shelf.damaged[id] = true
		return b, fmt.Errorf("the list of a plan: %w", err)
	}
	if b.shelf.takes(jobPrefix+j.Plan, id) {
		b.shelf.jobs[j.Plan] = j
		if b.Job.Plan == j.Plan {
			b.Job = j
		}
	}
	return b.inRows(), nil
}

func (s shelf) copied() shelf {
	out := shelf{map[string]Job{}, map[string]string{}, map[string]bool{}}
	for k, v := range s.jobs {
		out.jobs[k] = v
	}
	for k, v := range s.ids {
		out.ids[k] = v
	}
	for k, v := range s.damaged {
		out.damaged[k] = v
	}
	return out
}

// takes tells whether the document id is newer than those of the same base name
// that were read before: a number was added later.
func (s shelf) takes(base, id string) bool {
	old, ok := s.ids[base]
	if ok && (len(old) > len(id) || len(old) == len(id) && old > id) {
		return false
	}
	s.ids[base] = id
	return true
}

// free returns the name under which a document is kept, past those that could not
// be read.
func (s shelf) free(base string) string {
	id := base
	if last, ok := s.ids[base]; ok {
		id = last
	}
	for n := 2; s.damaged[id]; n++ {
		id = fmt.Sprintf("%s.%d", base, n)
	}
	return id
}

// job returns the kept job of a plan, or a new one.
func (s shelf) job(p Plan, laid *Laid) Job {
	if j, ok := s.jobs[p.ID]; ok {
		return j
	}
	j := JobFor(p)
	if laid != nil {
		j.Quilt = laid.Quilt.ID
	}
	return j
}

// Doc is a document to keep.
type Doc struct {
	ID   string
	Body []byte
}

// Docs returns the documents that a change asks to be kept.
func (b Bench) Docs(c Change) (Bench, []Doc) {
	b.shelf = b.shelf.copied()
	var out []Doc
	if c.Mine {
		id := b.shelf.free(mineID)
		b.shelf.ids[mineID] = id
		out = append(out, Doc{id, encode(b.Mine)})
	}
	if c.Job && b.Job.Plan != "" {
		base := jobPrefix + b.Job.Plan
		id := b.shelf.free(base)
		b.shelf.ids[base], b.shelf.jobs[b.Job.Plan] = id, b.Job
		out = append(out, Doc{id, encode(b.Job)})
	}
	return b, out
}
