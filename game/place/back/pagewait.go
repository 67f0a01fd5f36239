package back

import (
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// enough is how many traces in a row make a session that can be judged.
const enough = progress.WarmUpTraces + progress.LeastTraces

// early says why nothing can be said yet, and what to do for it.
func early(f weeks.Found) words.Msg {
	newest := f.Marks[len(f.Marks)-1].Session
	sessions := map[int]bool{}
	for _, k := range f.Marks {
		sessions[k.Session] = true
	}
	sure, newestSure := 0, false
	for _, s := range f.Scores {
		if s.Sure() {
			sure++
			newestSure = newestSure || s.Session == newest
		}
	}
	has := len(f.InSession(newest))
	switch need := progress.LeastSessions - sure; {
	case sure > 0:
		short := len(sessions) > sure && !newestSure
		return words.Of("back.early.to-go", sure, progress.LeastSessions, need, short, enough, has)
	case has >= enough:
		return words.Of("back.early.warm-up", progress.LeastTraces)
	case len(sessions) == 1:
		return words.Of("back.early.first", has, enough)
	}
	return words.Of("back.early.short", enough, has)
}

// better names traces that can be judged, where those that are looked at cannot.
func better(r *Shown, f weeks.Found, m Room) {
	b := f.Better
	if r.HasBetter = b.Traces > 0; !r.HasBetter {
		return
	}
	var others words.List
	for _, k := range weeks.Filters {
		if b.By[k] != f.By[k] {
			others = append(others, valueName(k, b.By[k]))
		}
	}
	r.Better = m.Book().Say("back.others", b.Traces, others, b.Judged())
}
