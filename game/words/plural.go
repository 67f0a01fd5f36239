package words

import "strings"

// Lang is a language of the catalogue, by its tag (BCP 47). The empty one is English.
type Lang string

// The languages of the catalogue. Another one is a folder of files and a line in
// languages.
const (
	English Lang = "en"
	German  Lang = "de"
)

// language is what a language needs beside its messages.
type language struct {
	tag Lang
	// name is what the language calls itself.
	name string
	// point stands between whole and parts of a number.
	point string
	// plural returns the CLDR category of a number as it is written, with "." before
	// its parts (unicode.org/cldr/charts, language plural rules, cardinal).
	plural func(number string) string
}

var languages = []language{
	{English, "English", ".", oneAlone},
	{German, "Deutsch", ",", oneAlone},
}

// oneAlone is the rule of English, German, Dutch, Swedish and others: one for i = 1
// and v = 0, that is 1 without written parts.
func oneAlone(number string) string {
	if strings.TrimPrefix(number, "-") == "1" {
		return "one"
	}
	return other
}

// Languages returns the languages in which the catalogue is written, English first.
func Languages() []Lang {
	var out []Lang
	for _, l := range languages {
		out = append(out, l.tag)
	}
	return out
}

// Name returns what a language calls itself.
func (l Lang) Name() string { return l.of().name }

// of returns the facts of a language; those of English for an unknown one.
func (l Lang) of() language {
	for _, one := range languages {
		if one.tag == l {
			return one
		}
	}
	return languages[0]
}

// Prefer returns the first language that the catalogue has of those a person reads,
// best first, as tags ("de-AT"); English if it has none.
func Prefer(tags ...string) Lang {
	for _, tag := range tags {
		base, _, _ := strings.Cut(strings.ToLower(tag), "-")
		for _, l := range languages {
			if string(l.tag) == base {
				return l.tag
			}
		}
	}
	return English
}
