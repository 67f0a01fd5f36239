package checkhtml

import (
	"reflect"
	"slices"
	"strings"
)

// fields are the fields of a struct by their JSON names, or the entries of a map. A struct that stands in several
// places is looked at in each of them.
type fields struct {
	path  string
	names []string
	byKey map[string]*field
}

type field struct {
	path  string
	typ   reflect.Type // nil for an interface that holds nothing
	inner *fields      // of a struct, or of the entries of a list of structs
	list  bool
	bound bool
}

// structFields lists a struct; a pointer or an interface is followed, a list is looked at
// by the type of its entries.
func structFields(v reflect.Value, path string) *fields {
	v = follow(v)
	out := &fields{path: path, byKey: map[string]*field{}}
	if v.Kind() != reflect.Struct {
		return out
	}
	for i := range v.NumField() {
		f := v.Type().Field(i)
		tag, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case tag == "-" || !f.IsExported() && !f.Anonymous:
			continue
		case f.Anonymous && tag == "":
			embedded := structFields(v.Field(i), path)
			for _, name := range embedded.names {
				out.add(name, embedded.byKey[name])
			}
			continue
		case tag == "":
			tag = f.Name
		}
		out.add(tag, newField(v.Field(i), strings.TrimPrefix(path+"."+tag, ".")))
	}
	return out
}

func (f *fields) add(name string, one *field) {
	f.names = append(f.names, name)
	f.byKey[name] = one
}

// follow returns what a pointer or an interface leads to, the zero value behind a
// pointer to nothing.
func follow(v reflect.Value) reflect.Value {
	for v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface {
		if v.IsNil() && v.Kind() == reflect.Pointer {
			v = reflect.Zero(v.Type().Elem())
		} else {
			v = v.Elem()
		}
	}
	return v
}

func newField(v reflect.Value, path string) *field {
	v = follow(v)
	out := &field{path: path}
	if !v.IsValid() {
		return out
	}
	out.typ = v.Type()
	switch {
	case v.Kind() == reflect.Struct:
		out.inner = structFields(v, path)
	case v.Kind() == reflect.Map:
		out.inner = &fields{path: path, byKey: map[string]*field{}}
		for _, key := range v.MapKeys() {
			out.inner.add(key.String(), newField(v.MapIndex(key), path+"."+key.String()))
		}
	case v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Struct:
		out.list = true
		out.inner = structFields(reflect.Zero(v.Type().Elem()), path)
	}
	return out
}

// find follows a path; nil, told of, if it leads nowhere.
func (c *checker) find(at *fields, path, attr string) *field {
	var f *field
	from := ""
	if at != nil && at.path != "" {
		from = " in " + at.path
	}
	for key := range strings.SplitSeq(path, ".") {
		if at == nil || at.byKey[key] == nil {
			c.tell("%s names %s, and there is no such field%s", attr, path, from)
			return nil
		}
		f = at.byKey[key]
		at = nil
		if !f.list {
			at = f.inner
		}
	}
	return f
}

// bind takes note of a field that an element shows and tells of one that it cannot show.
func (c *checker) bind(at *fields, path, attr string) {
	f := c.find(at, path, attr)
	if f == nil {
		return
	}
	f.bound = true
	if f.typ == nil {
		return
	}
	kind := f.typ.Kind()
	switch {
	case attr == "data-show":
	case f.inner != nil || kind == reflect.Slice || kind == reflect.Map:
		c.tell("%s names %s, which is no single value", attr, f.path)
	case slices.Contains([]string{"data-enabled", "data-pressed", "data-checked", "data-modal"}, attr) && kind != reflect.Bool:
		c.tell("%s names %s, which is a %s and not a bool", attr, f.path, kind)
	case slices.Contains([]string{"data-text", "data-value"}, attr) && kind == reflect.Bool:
		c.tell("%s names %s, which is a bool", attr, f.path)
	}
}

// entries returns the fields of the entries of a list and takes note of it.
func (c *checker) entries(at *fields, path string) *fields {
	none := &fields{path: path, byKey: map[string]*field{}}
	f := c.find(at, path, "data-list")
	if f == nil {
		return none
	}
	f.bound = true
	if !f.list {
		c.tell("data-list names %s, which is no list of structs", f.path)
		return none
	}
	if id := f.inner.byKey["id"]; id != nil {
		id.bound = true
	} else {
		c.tell("the entries of %s have no id", f.path)
	}
	return f.inner
}

// unbound returns the paths of fields that nothing shows, but for those given.
func (f *fields) unbound(given []string) []string {
	var out []string
	for _, name := range f.names {
		one := f.byKey[name]
		switch {
		case slices.Contains(given, one.path):
		case !one.bound && (one.inner == nil || one.list):
			out = append(out, one.path)
		case one.inner != nil:
			out = append(out, one.inner.unbound(given)...)
		}
	}
	return out
}
