package game

import (
	"fmt"
	"time"

	"unthreaded/game/record"
)

// download hands the trace on the cloth to the person as a file.
func (m Model) download() (Model, []Effect) {
	if m.Open == nil {
		return m, nil
	}
	doc, err := record.Encode(m.Open.Rec)
	if err != nil {
		m.Notice = Notice{Text: "The file could not be written: " + err.Error()}
		return m, nil
	}
	at := time.UnixMilli(m.Open.Rec.Started).UTC().Format("2006-01-02-1504")
	return m, []Effect{Download{
		Name: fmt.Sprintf("%s-%s.json", m.Open.Rec.Motif, at), Type: "application/json", Data: doc,
	}}
}
