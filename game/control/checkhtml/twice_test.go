package checkhtml

import (
	"strings"
	"testing"
)

func TestTwice(t *testing.T) {
	type row struct{ ID string }
	type list struct{ Rows, Others []row }
	shown := struct{ In any }{list{[]row{{"a"}, {"b"}}, []row{{"a"}, {"c"}, {"a"}}}}
	if got := strings.Join(Twice(shown), ";"); got != `.In.Others has two entries "a"` {
		t.Errorf("found %s", got)
	}
}
