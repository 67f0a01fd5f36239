package words

// Day and DayAndTime are the forms of a date and of a date with its time (package
// time): the same on the whole page, and in no country another day.
const (
	Day        = "2 Jan 2006"
	DayAndTime = "2 Jan 2006, 15:04"
)
