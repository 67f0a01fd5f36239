package back

import (
	"fmt"
	"strings"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// enough is how many traces in a row make a session that can be judged.
const enough = progress.WarmUpTraces + progress.LeastTraces

// early says why nothing can be said yet, and what to do for it.
func early(f weeks.Found) string {
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
		text := fmt.Sprintf("Too early to say: %s of %d can be judged so far, %s to go.", counted(sure, "session"), progress.LeastSessions, counted(need, "session"))
		if short := len(sessions) - sure; short > 0 && !newestSure {
			text += fmt.Sprintf(" Make %d traces in one sitting; the newest session has %d.", enough, has)
		}
		return text
	case has >= enough:
		return fmt.Sprintf("Too early to say: traces of a warm-up do not count. Make %d more after it in the same sitting; after six such sessions this page can tell.", progress.LeastTraces)
	case len(sessions) == 1:
		return fmt.Sprintf("Your first session has %s so far. Make %d in one sitting; after six such sessions this page can tell whether you get better.", counted(has, "trace"), enough)
	}
	return fmt.Sprintf("Your sessions are too short to judge: make %d traces in one sitting (the newest has %d). After six such sessions this page can tell.", enough, has)
}

// better names traces that can be judged, where those that are looked at cannot.
func better(r *Shown, f weeks.Found, m Room) {
	b := f.Better
	if r.HasBetter = b.Traces > 0; !r.HasBetter {
		return
	}
	var others []string
	for _, k := range weeks.Filters {
		if b.By[k] != f.By[k] {
			others = append(others, valueName(k, b.By[k], m))
		}
	}
	can := "can be judged"
	if !b.Judged() {
		can = "are nearer to that"
	}
	r.Better = fmt.Sprintf("%s (%s) %s.", words.Count(b.Traces, "other trace", "other traces"), strings.Join(others, ", "), can)
}
