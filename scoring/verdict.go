package scoring

// Word is what is said of a trace first.
type Word string

type Verdict struct {
	Word Word
}
