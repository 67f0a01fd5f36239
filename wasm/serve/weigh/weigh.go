// Package weigh tells how many bytes of a WebAssembly program each package takes.
package weigh

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Sections of a module that are looked at (WebAssembly Core Specification 2.0, 5.5.2).
const (
	customSection = 0
	importSection = 2
	codeSection   = 10
	dataSection   = 11
)

// Program is what a module is made of, in bytes.
type Program struct {
	// Functions are its functions by name, as far as it names them.
	Functions []Function
	// Code and Data are the sizes of the sections: the functions, and all that stands in
	// memory from the start: texts, tables, types, and what the runtime knows of functions.
	Code, Data int
}

// Function is a function and the size of its body.
type Function struct {
	Name  string
	Bytes int
}

// Package is the weight of the functions of a package.
type Package struct {
	Path             string
	Bytes, Functions int
}

var errModule = errors.New("not a WebAssembly module with the names of its functions")

// Read reads a module that was linked with the names of its functions. Cost O(bytes).
func Read(module []byte) (p Program, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%w: %v", errModule, r)
		}
	}()
	if !strings.HasPrefix(string(module), "\x00asm") {
		return p, errModule
	}
	var sizes []int
	names := map[int]string{}
	imported := 0
	for r := (reader{module[8:]}); len(r.b) > 0; {
		id := r.take(1)[0]
		body := reader{r.take(r.number())}
		switch id {
		case importSection:
			imported = imports(body)
		case codeSection:
			p.Code = len(body.b)
			for range body.number() {
				n := body.number()
				body.take(n)
				sizes = append(sizes, n)
			}
		case dataSection:
			p.Data = len(body.b)
		case customSection:
			if string(body.take(body.number())) == "name" {
				names = functionNames(body)
			}
		}
	}
	if len(names) == 0 {
		return p, errModule
	}
	for i, n := range sizes {
		p.Functions = append(p.Functions, Function{names[imported+i], n})
	}
	return p, nil
}

// imports counts the imported functions, which stand before the module's own. Go imports
// nothing else.
func imports(r reader) int {
	n := r.number()
	for range n {
		r.take(r.number())
		r.take(r.number())
		if kind := r.take(1)[0]; kind != 0 {
			panic("an import that is no function")
		}
		r.number()
	}
	return n
}

// functionNames reads the part of the name section about functions (Appendix 7.4.1).
func functionNames(r reader) map[int]string {
	out := map[int]string{}
	for len(r.b) > 0 {
		id := r.take(1)[0]
		body := reader{r.take(r.number())}
		if id != 1 {
			continue
		}
		for range body.number() {
			i := body.number()
			out[i] = string(body.take(body.number()))
		}
	}
	return out
}

type reader struct{ b []byte }

func (r *reader) take(n int) []byte {
	out := r.b[:n]
	r.b = r.b[n:]
	return out
}

func (r *reader) number() int {
	x, n := binary.Uvarint(r.b) // LEB128, as the format has it
	if n <= 0 {
		panic("a number is cut short")
	}
	r.b = r.b[n:]
	return int(x)
}

// Packages returns the packages, the heaviest first; paths are those that the module may
// hold. Cost O(functions + paths).
func (p Program) Packages(paths []string) []Package {
	known := map[string]string{}
	for _, path := range paths {
		known[written(path)] = path
	}
	at := map[string]int{}
	var out []Package
	for _, f := range p.Functions {
		path := packageOf(f.Name, known)
		i, seen := at[path]
		if !seen {
			i = len(out)
			at[path] = i
			out = append(out, Package{Path: path})
		}
		out[i].Bytes += f.Bytes
		out[i].Functions++
	}
	slices.SortFunc(out, func(a, b Package) int { return cmp.Or(b.Bytes-a.Bytes, strings.Compare(a.Path, b.Path)) })
	return out
}

// packageOf returns the package of a function: the linker writes "path.Type.Method" with
// what is neither letter, digit nor dot as an underscore. What belongs to none is made by
// the compiler.
func packageOf(function string, known map[string]string) string {
	for i := 0; i < len(function); i++ {
		if function[i] != '.' {
			continue
		}
		if path, ok := known[function[:i]]; ok {
			return path
		}
	}
	return "(made by the compiler)"
}

func written(path string) string {
	return strings.Map(func(r rune) rune {
		if r == '.' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return '_'
	}, path)
}
