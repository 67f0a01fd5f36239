package build

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"golang.org/x/net/html"

	"unthreaded/game/words"
)

// Texts of the page come from the catalogue. An element with data-words="key" gets the
// English text as its first content, one with data-words-attr="attribute:key,..." its
// attributes; TextsFile, the script, gets the texts of all languages and changes them.
const (
	// TextsFile is the script with the texts of the page.
	TextsFile = "words.js"
	textsMark = "const TEXTS = {};"
)

// textsOf are the files of the catalogue that the page and its scripts read.
var textsOf = []string{"site.", "unit."}

// fillWords puts the English texts into a page.
func fillWords(page []byte) ([]byte, error) {
	var out bytes.Buffer
	var missing error
	say := func(key string) string {
		if !words.Has(key) {
			missing = errors.Join(missing, fmt.Errorf("there is no message %q", key))
			return ""
		}
		return words.Book{}.Say(key)
	}
	z := html.NewTokenizer(bytes.NewReader(page))
	for {
		switch z.Next() {
		case html.ErrorToken:
			if err := z.Err(); !errors.Is(err, io.EOF) {
				return nil, err
			}
			return out.Bytes(), missing
		case html.StartTagToken, html.SelfClosingTagToken:
			raw := bytes.Clone(z.Raw())
			text, attributes := worded(z.Token(), say)
			if attributes != "" {
				raw = append(raw[:len(raw)-1], attributes+">"...)
			}
			out.Write(raw)
			out.WriteString(text)
		default:
			out.Write(z.Raw())
		}
	}
}

// worded returns the text and the attributes that a tag asks for, as HTML.
func worded(tag html.Token, say func(key string) string) (text, attributes string) {
	for _, a := range tag.Attr {
		switch a.Key {
		case "data-words":
			text = html.EscapeString(say(a.Val))
		case "data-words-attr":
			for pair := range strings.SplitSeq(a.Val, ",") {
				name, key, _ := strings.Cut(pair, ":")
				attributes += fmt.Sprintf(` %s="%s"`, name, html.EscapeString(say(key)))
			}
		}
	}
	return text, attributes
}

// stampTexts puts the texts of all languages into TextsFile, by language and key; the
// places of arguments stay as {0}, {1}.
func stampTexts(script []byte) ([]byte, error) {
	if bytes.Count(script, []byte(textsMark)) != 1 {
		return nil, fmt.Errorf("it does not hold the line %q once", textsMark)
	}
	all := map[words.Lang]map[string]string{}
	for _, l := range words.Languages() {
		keys, err := words.Keys(l)
		if err != nil {
			return nil, err
		}
		all[l] = map[string]string{}
		for key, arity := range keys {
			if !strings.HasPrefix(key, textsOf[0]) && !strings.HasPrefix(key, textsOf[1]) {
				continue
			}
			var places []any
			for i := range arity {
				places = append(places, fmt.Sprintf("{%d}", i))
			}
			all[l][key] = words.Book{Lang: l}.Say(key, places...)
		}
	}
	texts, err := json.Marshal(all)
	if err != nil {
		return nil, err
	}
	return bytes.Replace(script, []byte(textsMark), fmt.Appendf(nil, "const TEXTS = %s;", texts), 1), nil
}
