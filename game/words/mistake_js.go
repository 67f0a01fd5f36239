package words

// mistaken shows the key where the text should stand.
func mistaken(key string, _ error) string { return "[" + key + "]" }
