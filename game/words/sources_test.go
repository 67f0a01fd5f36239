//go:build !js

package words_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"unthreaded/game/words"
)

const root = "../.."

// notation are literals of two words that are no sentence: a query of CSS, the head of a
// column that the page reads, codes that stand in kept documents, words of
// an error of encoding/xml. Markup begins with < and a
// shader with //.
var notation = []string{"(prefers-color-scheme: dark)", "(prefers-reduced-motion: reduce)", "began [UTC]", "character entity", "tight left", "tight right", "very even"}

// tables are the files whose literals are heads of columns with their units: names of data
// for other programs, the same in every language.
var tables = []string{"scoring/csv.go", "game/place/back/weeks/table.go"}

// use is a place in the sources where a message is named.
type use struct {
	at  string
	key string
	// args is how many arguments it is given, -1 for any.
	args int
	// prefix tells that key is only the beginning, up to a point.
	prefix bool
}

// Every key that the sources name is there in each language, with the number of arguments
// that it is given; every message is named somewhere.
func TestKeysAndUsesAgree(t *testing.T) {
	english, err := words.Keys(words.English)
	if err != nil {
		t.Fatal(err)
	}
	uses := append(usesInGo(t), usesOnPage(t)...)
	used := map[string]bool{}
	for _, u := range uses {
		found := false
		for key, arity := range english {
			if key != u.key && !(u.prefix && strings.HasPrefix(key, u.key)) {
				continue
			}
			found, used[key] = true, true
			if u.args >= 0 && arity != u.args {
				t.Errorf("%s: %s takes %d arguments and is given %d", u.at, key, arity, u.args)
			}
		}
		if !found {
			t.Errorf("%s: there is no message %s", u.at, u.key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(english)) {
		if !used[key] {
			t.Errorf("message %s is said nowhere", key)
		}
	}
}

// languagesWhole are the languages that have every message.
var languagesWhole = []words.Lang{words.English, words.German}

// The languages say the same: the same keys with the same arguments.
func TestLanguagesAgree(t *testing.T) {
	english, err := words.Keys(words.English)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range words.Languages() {
		keys, err := words.Keys(l)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range slices.Sorted(maps.Keys(keys)) {
			if arity, known := english[key]; !known {
				t.Errorf("%s has the message %s, English has not", l, key)
			} else if arity != keys[key] {
				t.Errorf("%s: %s takes %d arguments, in English %d", l, key, keys[key], arity)
			}
		}
		for _, key := range slices.Sorted(maps.Keys(english)) {
			if _, there := keys[key]; !there && slices.Contains(languagesWhole, l) {
				t.Errorf("%s lacks the message %s", l, key)
			}
		}
	}
}

// No sentence stands outside the catalogue: no literal of two words or more, but for the
// texts of errors, which are for programmers.
func TestNoSentenceOutsideTheCatalogue(t *testing.T) {
	for name, file := range goFiles(t) {
		if slices.Contains(tables, name) {
			continue
		}
		for _, s := range sentences(file) {
			t.Errorf("%s: %s belongs in the catalogue", name, s)
		}
	}
}

// No text of an error reaches the page: below the places errors are typed and become
// messages; what the browser says of its own goes to the console (dom.Note, dom.Complain).
func TestNoTextOfAnErrorReachesThePage(t *testing.T) {
	for name, file := range goFiles(t) {
		if !strings.HasPrefix(name, "game/") && !strings.HasPrefix(name, "wasm/") {
			continue
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				return n.Name.Name != "Error" // an error made of another
			case *ast.CompositeLit:
				return types.ExprString(n.Type) != "work.Broken" // which the page notes on the console
			case *ast.CallExpr:
				called := types.ExprString(n.Fun)
				if called == "Note" || called == "dom.Note" || called == "dom.Complain" {
					return false
				}
				if strings.HasSuffix(called, ".Error") && len(n.Args) == 0 {
					t.Errorf("%s asks for the text of an error: %s", name, called)
				}
			}
			return true
		})
	}
	scripts, err := filepath.Glob(root + "/wasm/site/*.js")
	if err != nil || len(scripts) == 0 {
		t.Fatalf("no scripts: %v", err)
	}
	for _, name := range scripts {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(text)) {
			// The page of the second program writes what it is lost by on the console.
			told := strings.Contains(line, "console.") || strings.Contains(line, "lose(") || strings.Contains(line, "{ fault: ")
			if strings.Contains(line, ".message") && !told {
				t.Errorf("%s: the text of an error is asked for: %s", filepath.Base(name), strings.TrimSpace(line))
			}
		}
	}
}

func TestSentences(t *testing.T) {
	for code, want := range map[string]int{
		`f("two words")`:          1,
		`f("one")`:                0,
		`f("%d rows of %s")`:      1,
		`f("M 0 0 L 1 1")`:        0,
		`errors.New("two words")`: 0,
		`fmt.Errorf("two words: %w", f("a b c d"))`: 0,
		`panic("two words")`:                        0,
		`panic(f("two words"))`:                     0,
		"f(struct{ A int `json:\"two words\"` }{})": 0,
		`f("a" + "two words" + "b")`:                1,
		`f("über alle")`:                            1,
		`console.Log("two words")`:                  1,
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "a.go", "package a\nfunc g() { "+code+" }", 0)
		if err != nil {
			t.Fatal(err)
		}
		if got := sentences(file); len(got) != want {
			t.Errorf("%s: found %q", code, got)
		}
	}
	file, err := parser.ParseFile(token.NewFileSet(), "a.go", `package a
func (e *Fault) Error() string { return "what went wrong" }
func (e *Fault) Told() string { return "what went wrong" }`, 0)
	if got := sentences(file); err != nil || len(got) != 1 {
		t.Errorf("found %q (%v)", got, err)
	}
}

// goFiles returns the parsed sources of the program by name, tests and what only tests
// or the build use left out.
func goFiles(t *testing.T) map[string]*ast.File {
	t.Helper()
	skip := strings.Fields("wasm/serve wasm/e2e wasm/site testdata game/control/checkhtml game/synth game/words")
	out := map[string]*ast.File{}
	set := token.NewFileSet()
	for _, top := range []string{"game", "path", "scoring", "wasm"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, entry fs.DirEntry, err error) error {
			name, _ := filepath.Rel(root, path)
			name = filepath.ToSlash(name)
			if err != nil {
				return err
			}
			if entry.IsDir() {
				if slices.Contains(skip, name) || entry.Name() == "testdata" {
					return filepath.SkipDir
				}
				return nil
			}
			if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return nil
			}
			out[name], err = parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// twoWords is two words of letters with a space between.
var twoWords = regexp.MustCompile(`\p{L}{2,}[^\p{L}\s]*\s+[^\p{L}\s]*\p{L}{2,}`)

var markup = regexp.MustCompile(`^(<|//kage)`)

// sentences returns the literals of a file that a person could read.
func sentences(file *ast.File) []string {
	var out []string
	var look func(ast.Node) bool
	look = func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.FuncDecl:
			return n.Recv == nil || n.Name.Name != "Error"
		case *ast.Field:
			if n.Type != nil {
				ast.Inspect(n.Type, look)
			}
			return false
		case *ast.CallExpr:
			return !forProgrammers(n)
		case *ast.BasicLit:
			if n.Kind != token.STRING {
				return false
			}
			text, err := strconv.Unquote(n.Value)
			if err == nil && twoWords.MatchString(text) && !markup.MatchString(text) && !slices.Contains(notation, text) {
				out = append(out, n.Value)
			}
		}
		return true
	}
	ast.Inspect(file, look)
	return out
}

// forProgrammers tells a call whose texts no person reads.
func forProgrammers(call *ast.CallExpr) bool {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		// stop and drawable make the errors of path/svg.
		return slices.Contains([]string{"panic", "stop", "drawable"}, f.Name)
	case *ast.SelectorExpr:
		of, _ := f.X.(*ast.Ident)
		return of != nil && (of.Name == "errors" && f.Sel.Name == "New" || of.Name == "fmt" && f.Sel.Name == "Errorf" || of.Name == "regexp")
	}
	return false
}

// usesInGo returns the messages that the Go sources name: by Say, words.Of or a Msg.
func usesInGo(t *testing.T) []use {
	t.Helper()
	files := goFiles(t)
	for _, name := range []string{"amounts.go", "motif.go", "parse.go", "refused.go", "sizes.go", "spans.go"} { // book.go hands keys on
		own, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files["game/words/"+name] = own
	}
	var out []use
	for name, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			var u use
			var err error
			switch n := n.(type) {
			case *ast.CallExpr:
				u, err = usedByCall(n)
			case *ast.CompositeLit:
				u, err = usedByLiteral(n)
			}
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if u.key != "" {
				u.at = name
				out = append(out, u)
			}
			return true
		})
	}
	return out
}

// usedByCall reads Say(key, args...), words.Of(key, args...) and words.Refuse(key, args...).
func usedByCall(call *ast.CallExpr) (use, error) {
	name := ""
	switch f := call.Fun.(type) {
	case *ast.SelectorExpr:
		name = f.Sel.Name
		if of, _ := identOf(f); of == "words" {
			name = "words." + name
		}
	case *ast.Ident:
		if f.Name == "Refuse" || f.Name == "Of" { // in package words itself
			name = "words." + f.Name
		}
	}
	if len(call.Args) == 0 || !slices.Contains([]string{"Say", "words.Of", "words.Refuse"}, name) {
		return use{}, nil
	}
	args := len(call.Args) - 1
	if call.Ellipsis != token.NoPos {
		args = -1
	}
	u, err := keyed(call.Args[0], args)
	if f, ok := call.Fun.(*ast.Ident); ok && f.Name == "Of" && err != nil {
		return use{}, nil // the Of of another package
	}
	return u, err
}

// usedByLiteral reads words.Msg{Key: key, Args: []any{...}}, also without the names.
func usedByLiteral(lit *ast.CompositeLit) (use, error) {
	sel, ok := lit.Type.(*ast.SelectorExpr)
	if of, isIdent := identOf(sel); !ok || !isIdent || of != "words" || sel.Sel.Name != "Msg" || len(lit.Elts) == 0 {
		return use{}, nil
	}
	var key, args ast.Expr
	for i, e := range lit.Elts {
		if pair, named := e.(*ast.KeyValueExpr); named {
			if name, _ := pair.Key.(*ast.Ident); name.Name == "Key" {
				key = pair.Value
			} else {
				args = pair.Value
			}
		} else if i == 0 {
			key = e
		} else {
			args = e
		}
	}
	n := 0
	if list, ok := args.(*ast.CompositeLit); ok {
		n = len(list.Elts)
	} else if args != nil {
		n = -1
	}
	return keyed(key, n)
}

func identOf(sel *ast.SelectorExpr) (string, bool) {
	if sel == nil {
		return "", false
	}
	of, ok := sel.X.(*ast.Ident)
	if !ok {
		return "", false
	}
	return of.Name, true
}

// keyed reads the key of a message: a literal, or a literal that ends in a point and
// anything after it. One that is handed on with all its arguments is none of its own.
func keyed(e ast.Expr, args int) (use, error) {
	prefix := false
	for {
		sum, ok := e.(*ast.BinaryExpr)
		if !ok {
			break
		}
		e, prefix = sum.X, true
	}
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		if args == -1 {
			return use{}, nil
		}
		return use{}, fmt.Errorf("a message is named by neither a literal nor a literal prefix")
	}
	key, err := strconv.Unquote(lit.Value)
	if err != nil {
		return use{}, err
	}
	if prefix && !strings.HasSuffix(key, ".") {
		return use{}, fmt.Errorf("the prefix %q of a message does not end in a point", key)
	}
	return use{key: key, args: args, prefix: prefix}, nil
}
