package place

// JotEvery is how often in s what is in hand is written down: a page that goes down loses
// no more than that, and the time that writing takes.
const JotEvery = 0.5

// Jot writes a piece of what is in hand into the journal, over the one of the same
// number. Unjot takes all its pieces out again.
type Jot struct {
	ID  string
	N   int
	Doc []byte
}

// Unjot takes what was in hand out of the journal.
type Unjot struct{ ID string }

func (Jot) IsEffect()   {}
func (Unjot) IsEffect() {}

// Clashed tells that a block or a quilt was not kept, since another tab has changed it in
// the meantime: Theirs is what is kept.
type Clashed struct {
	Kind, ID string
	Theirs   []byte
}

func (Clashed) IsMsg() {}
