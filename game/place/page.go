package place

// Page is what the page shows of a place: In under the place's name, the rest
// at the same spot in every place.
type Page struct {
	// Sentence is the one that matters now, Cloth what the canvas is called for those
	// who do not see it.
	Sentence, Cloth string
	// Next is what to do next, where it needs a word of its own.
	Next string
	// HasTrace tells that a finished trace lies on the cloth, of which Figures tell.
	HasTrace bool
	Figures  []Figure
	// Plays tells that the replay's controls are shown, in the state Replay.
	Plays  bool
	Replay *Replay
	Steps  Steps
	In     any
}

// Steps is what stands at the same spot of every place: what takes a step back and does it
// again, and what changes the size.
type Steps struct {
	// Undo and Redo tell that something can be taken back or done again.
	Undo bool `json:"undo"`
	Redo bool `json:"redo"`
	// Sizes tells that what lies on the cloth can be shown larger and smaller; Whole is what
	// the button says that shows all of it again, nothing while all is in sight.
	Sizes bool   `json:"sizes"`
	Whole string `json:"whole"`
}

// Figure is one measure: what it is called, its value with unit, and what it
// means.
type Figure struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Value string `json:"value"`
	Note  string `json:"note"`
}

// Row is a named value and what it means.
type Row struct {
	ID    string `json:"id"`
	Value string `json:"value"`
	Note  string `json:"note"`
}

// Option is one choice of a select.
type Option struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// Replay is the state of the replay's controls.
type Replay struct {
	Enabled bool     `json:"enabled"`
	Play    string   `json:"play"`
	Rate    string   `json:"rate"`
	Rates   []Option `json:"rates"`
	Scrub   string   `json:"scrub"`
	Max     string   `json:"max"`
	Spoken  string   `json:"spoken"`
	Time    string   `json:"time"`
}
