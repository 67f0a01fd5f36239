package motif

// RefusalCode is a reason why a motif cannot be laid.
type RefusalCode string

// The reasons, with what a Refusal holds of each.
const (
	TooFine  RefusalCode = "too-fine"  // Measure of Value mm; at least Limit mm
	TooLarge RefusalCode = "too-large" // Measure of Value mm; at most Limit mm
	NoRoom   RefusalCode = "no-room"   // the margin of Value mm leaves none
	TooMany  RefusalCode = "too-many"  // Value of what Measure counts; at most Limit
	TooSharp RefusalCode = "too-sharp" // the line would not be smooth
	TooLong  RefusalCode = "too-long"  // the line would have too many points
	Unfit    RefusalCode = "unfit"     // the motif does not lie well in the shape: Measure is its Lack
)

// Refusal is why a motif cannot be laid in a shape as it is set, for the words of it.
type Refusal struct {
	Code         RefusalCode
	Measure      string
	Shape        Shape
	Value, Limit float64
	text         error
}

// Error tells it to programmers.
func (r *Refusal) Error() string { return r.text.Error() }
