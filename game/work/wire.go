package work

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
	"sync"
	"unsafe"
)

// Values go from one program to the other as they lie in memory, field by field, since both
// are built of the same source at the same time: nothing of this is ever kept. A page left
// open while another tab takes a newer version gets that version's second program: each
// document begins with the print of all types, and one of another print is refused. All fields
// go, those without a capital too; functions do not, and come as nil. What is pointed to
// twice comes twice. An interface holds nil or a value of a type that Carry was told of.

// carried are the types that an interface may hold, by number.
var carried []reflect.Type

// Carry tells the types of some values that interfaces may hold. Both programs call it with
// the same values in the same order, from init.
func Carry(values ...any) {
	for _, v := range values {
		carried = append(carried, reflect.TypeOf(v))
	}
}

// ErrWire is what a document that was not written by Encode is refused with.
var ErrWire = errors.New("work: not a value written by this version")

// ErrVersion is what a document of a program with other types is refused with.
var ErrVersion = fmt.Errorf("%w: its types are others", ErrWire)

// printed is the print of all carried types, in the order in which they were told of.
var printed = sync.OnceValue(func() []byte {
	h := sha256.New()
	seen := map[reflect.Type]bool{}
	for _, t := range carried {
		describe(h, t, seen)
	}
	return h.Sum(nil)[:8]
})

// describe writes how values of a type lie, down to the last field.
func describe(w io.Writer, t reflect.Type, seen map[reflect.Type]bool) {
	fmt.Fprintf(w, "%s %s;", t.Kind(), t)
	if seen[t] {
		return
	}
	seen[t] = true
	switch t.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			io.WriteString(w, t.Field(i).Name+" ")
			describe(w, t.Field(i).Type, seen)
		}
	case reflect.Map:
		describe(w, t.Key(), seen)
		describe(w, t.Elem(), seen)
	case reflect.Array:
		fmt.Fprintf(w, "%d ", t.Len())
		describe(w, t.Elem(), seen)
	case reflect.Slice, reflect.Pointer:
		describe(w, t.Elem(), seen)
	}
}

// Encode writes a value of a type that Carry was told of. Cost O(size).
func Encode(v any) (doc []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			doc, err = nil, fmt.Errorf("work: %v", r)
		}
	}()
	w := writer{slices.Clone(printed())}
	holder := reflect.New(anyType).Elem()
	holder.Set(reflect.ValueOf(v))
	w.value(holder)
	return w.b, nil
}

// Decode reads what Encode wrote. Cost O(size).
func Decode(doc []byte) (v any, err error) {
	defer func() {
		if r := recover(); r != nil {
			v, err = nil, fmt.Errorf("%w: %v", ErrWire, r)
		}
	}()
	body, ours := bytes.CutPrefix(doc, printed())
	switch {
	case ours:
	case len(doc) < len(printed()):
		return nil, ErrWire
	default:
		return nil, ErrVersion
	}
	r := reader{body}
	holder := reflect.New(anyType).Elem()
	r.value(holder)
	if len(r.b) > 0 {
		return nil, ErrWire
	}
	return holder.Interface(), nil
}

var anyType = reflect.TypeFor[any]()

// plain tells that a type is nothing but so many numbers of 64 bits, which go in one piece.
func plain(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Float64:
		return true
	case reflect.Struct:
		for i := range t.NumField() {
			if !plain(t.Field(i).Type) {
				return false
			}
		}
		return t.NumField() > 0
	}
	return false
}

// bytesOf are the n elements of a slice of plain values as they lie in memory.
func bytesOf(v reflect.Value) []byte {
	return unsafe.Slice((*byte)(v.UnsafePointer()), v.Len()*int(v.Type().Elem().Size()))
}

// field returns a field of an addressable struct, to be read and set whether its name begins
// with a capital or not.
func field(v reflect.Value, i int) reflect.Value {
	f := v.Field(i)
	return reflect.NewAt(f.Type(), unsafe.Pointer(f.UnsafeAddr())).Elem()
}

type writer struct{ b []byte }

func (w *writer) count(n int) { w.b = binary.AppendUvarint(w.b, uint64(n)) }

// value writes an addressable value.
func (w *writer) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		w.count(map[bool]int{true: 1}[v.Bool()])
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.b = binary.AppendVarint(w.b, v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		w.b = binary.AppendUvarint(w.b, v.Uint())
	case reflect.Float64:
		w.b = binary.LittleEndian.AppendUint64(w.b, math.Float64bits(v.Float()))
	case reflect.String:
		w.count(v.Len())
		w.b = append(w.b, v.String()...)
	case reflect.Slice:
		w.slice(v)
	case reflect.Array:
		for i := range v.Len() {
			w.value(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			w.value(field(v, i))
		}
	case reflect.Map:
		w.table(v)
	case reflect.Pointer:
		w.held(v.IsNil(), v.Elem)
	case reflect.Interface:
		w.either(v)
	case reflect.Func:
	default:
		panic("no way to write a " + v.Type().String())
	}
}

// held writes whether there is something, and it.
func (w *writer) held(none bool, what func() reflect.Value) {
	if none {
		w.count(0)
		return
	}
	w.count(1)
	w.value(what())
}

// slice tells nil from empty: 0 stands for nil, one more than the length else.
func (w *writer) slice(v reflect.Value) {
	if v.IsNil() {
		w.count(0)
		return
	}
	w.count(v.Len() + 1)
	switch t := v.Type().Elem(); {
	case v.Len() == 0:
	case t.Kind() == reflect.Uint8 || plain(t):
		w.b = append(w.b, bytesOf(v)...)
	default:
		for i := range v.Len() {
			w.value(v.Index(i))
		}
	}
}

// table writes a map in the order of its keys as written, so that equal maps give equal
// bytes.
func (w *writer) table(v reflect.Value) {
	if v.IsNil() {
		w.count(0)
		return
	}
	w.count(v.Len() + 1)
	var entries [][]byte
	for it := v.MapRange(); it.Next(); {
		one := writer{}
		for _, x := range []reflect.Value{it.Key(), it.Value()} {
			at := reflect.New(x.Type()).Elem()
			at.Set(x)
			one.value(at)
		}
		entries = append(entries, one.b)
	}
	slices.SortFunc(entries, slices.Compare)
	for _, e := range entries {
		w.b = append(w.b, e...)
	}
}

func (w *writer) either(v reflect.Value) {
	if v.IsNil() {
		w.count(0)
		return
	}
	t := v.Elem().Type()
	n := slices.Index(carried, t)
	if n < 0 && t.Kind() == reflect.String { // a code as an argument of a message: it reads as its text
		t = reflect.TypeFor[string]()
		n = slices.Index(carried, t)
	}
	if n < 0 {
		panic("nothing carries a " + t.String())
	}
	w.count(n + 1)
	at := reflect.New(t).Elem()
	at.Set(v.Elem().Convert(t))
	w.value(at)
}

type reader struct{ b []byte }

// take returns the next n bytes.
func (r *reader) take(n int) []byte {
	out := r.b[:n] // what is too short panics, which Decode reports
	r.b = r.b[n:]
	return out
}

func (r *reader) uint() uint64 {
	x, n := binary.Uvarint(r.b)
	if n <= 0 {
		panic("a number is cut short")
	}
	r.b = r.b[n:]
	return x
}

// count reads a number of things, each of which takes a byte at least unless it is empty.
func (r *reader) count() int {
	x := r.uint()
	if x > uint64(len(r.b))+1 {
		panic("more things than bytes")
	}
	return int(x)
}

// value reads into a value that can be set.
func (r *reader) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(r.uint() == 1)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		x, n := binary.Varint(r.b)
		if n <= 0 {
			panic("a number is cut short")
		}
		r.b = r.b[n:]
		v.SetInt(x)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(r.uint())
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(binary.LittleEndian.Uint64(r.take(8))))
	case reflect.String:
		v.SetString(string(r.take(r.count())))
	case reflect.Slice:
		r.slice(v)
	case reflect.Array:
		for i := range v.Len() {
			r.value(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			r.value(field(v, i))
		}
	case reflect.Map:
		r.table(v)
	case reflect.Pointer:
		if r.uint() == 1 {
			v.Set(reflect.New(v.Type().Elem()))
			r.value(v.Elem())
		}
	case reflect.Interface:
		r.either(v)
	case reflect.Func:
	default:
		panic("no way to read a " + v.Type().String())
	}
}

func (r *reader) slice(v reflect.Value) {
	n := r.count() - 1
	if n < 0 {
		return
	}
	t := v.Type().Elem()
	if t.Kind() == reflect.Uint8 || plain(t) {
		raw := r.take(n * int(t.Size()))
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		if n > 0 {
			copy(bytesOf(v), raw)
		}
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), n, n))
	for i := range n {
		r.value(v.Index(i))
	}
}

func (r *reader) table(v reflect.Value) {
	n := r.count() - 1
	if n < 0 {
		return
	}
	v.Set(reflect.MakeMap(v.Type()))
	for range n {
		key, val := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		r.value(key)
		r.value(val)
		v.SetMapIndex(key, val)
	}
}

func (r *reader) either(v reflect.Value) {
	n := r.uint()
	if n == 0 {
		return
	}
	held := reflect.New(carried[n-1]).Elem()
	r.value(held)
	v.Set(held)
}
