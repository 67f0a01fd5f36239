package back

import (
	"bytes"

	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
)

// backTable hands what is looked at to the person as a table: its traces or its sessions.
func (r Room) table(sessions bool) (Room, []place.Effect) {
	r.Weeks = r.Weeks.Done()
	f := r.Weeks.Found()
	motif := f.Motif
	if motif == "" {
		motif = "all-motifs"
	}
	var b bytes.Buffer
	var err error
	file := "traces-" + motif + ".csv"
	if sessions {
		file = "sessions-" + motif + "-" + string(f.Measure) + ".csv"
		err = weeks.WriteScores(&b, f.Scores, f.Measure)
	} else {
		err = weeks.WriteTraces(&b, r.Weeks.Sessions(), r.Weeks.Shown)
	}
	if err != nil {
		r.Notice = place.Say("back.no-table")
		return r, nil
	}
	return r, []place.Effect{place.Download{Name: file, Type: "text/csv", Data: b.Bytes()}}
}
