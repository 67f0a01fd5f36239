package page

import (
	"unthreaded/game"
	"unthreaded/game/words"
)

// Work is what is being worked out beside the page.
type Work struct {
	// Said says what is worked out, and how much of it is done, or what was stopped or lost.
	Has  bool   `json:"has"`
	Said string `json:"said"`
	// Stop tells that it can be stopped, Again that it can be asked for again.
	Stop  bool `json:"stop"`
	Again bool `json:"again"`
}

func workOf(m game.Model) Work {
	b := m.Book()
	if j, told := m.Worked(); told {
		said := b.Say("work.busy", string(j.Kind), j.Share > 0, words.Share(j.Share), m.Working.Aside)
		return Work{Has: true, Said: said, Stop: true}
	}
	if h, halted := m.Working.Halted(); halted && !m.Working.Busy(h.Kind) {
		return Work{Has: true, Said: b.Say("work.halted", string(h.Kind), h.Lost), Again: true}
	}
	return Work{}
}
