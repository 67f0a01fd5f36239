package scoring

// Version is that of the measures: it grows whenever a trace would get other figures
// than before. Kept figures of another version are measured anew, never shown beside those
// of this one.
const Version = 2
