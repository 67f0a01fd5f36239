package weeks

// FirstAndBest returns the first trace of those compared and the best that counts, by what
// is looked at, the latest of equal ones; false where these are one, or traces of several
// lines, which no two pictures set against each other.
func (f Found) FirstAndBest() (first, best Mark, ok bool) {
	if len(f.Marks) == 0 || f.Motif == "" {
		return first, best, false
	}
	first = f.Marks[0]
	for _, m := range f.Marks {
		if m.Counts && (best.ID == "" || (m.Value-best.Value)*float64(f.Measure.Better()) >= 0) {
			best = m
		}
	}
	return first, best, best.ID != "" && best.ID != first.ID
}
