package build

import (
	"strings"
	"testing"
)

func TestWordsAreFilledIn(t *testing.T) {
	page := `<!doctype html><title data-words="site.shell.unthreaded"></title><!-- <b data-words="x"> -->
<p data-words="site.common.close" class="a"> <i>b</i></p><img data-words-attr="alt:site.common.stop,title:site.common.why"><br/>
<script>if (1 < 2) x();</script>`
	got, err := fillWords([]byte(page))
	if err != nil {
		t.Fatal(err)
	}
	want := `<!doctype html><title data-words="site.shell.unthreaded">Unthreaded</title><!-- <b data-words="x"> -->
<p data-words="site.common.close" class="a">Close <i>b</i></p><img data-words-attr="alt:site.common.stop,title:site.common.why" alt="Stop" title="Why"><br/>
<script>if (1 < 2) x();</script>`
	if string(got) != want {
		t.Errorf("filled in as\n%s\nwant\n%s", got, want)
	}
	if _, err := fillWords([]byte(`<p data-words="site.no-such">`)); err == nil || !strings.Contains(err.Error(), "site.no-such") {
		t.Errorf("a message that is not there: %v", err)
	}
}

func TestTextsOfTheScript(t *testing.T) {
	got, err := stampTexts([]byte("a\n" + textsMark + "\nb"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"a\nconst TEXTS = {", `"site.common.close":"Close"`, `"unit.day":"{0}. {1} {2}"`, "};\nb"} {
		if !strings.Contains(string(got), want) {
			t.Errorf("lacks %s", want)
		}
	}
	if _, err := stampTexts([]byte("no mark")); err == nil {
		t.Error("a script without the mark is taken")
	}
}
