package checkhtml

import (
	"fmt"
	"reflect"
)

// Twice returns the lists in what a page shows in which two entries have one id, with it:
// the page keeps the row of an entry by its id.
func Twice(shown any) []string { return twice(reflect.ValueOf(shown), "") }

func twice(v reflect.Value, path string) (wrong []string) {
	v = follow(v)
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				wrong = append(wrong, twice(v.Field(i), path+"."+f.Name)...)
			}
		}
	case reflect.Slice:
		seen := map[string]bool{}
		for i := range v.Len() {
			e := follow(v.Index(i))
			if e.Kind() != reflect.Struct {
				return wrong
			}
			if id := e.FieldByName("ID"); id.Kind() == reflect.String {
				if seen[id.String()] {
					wrong = append(wrong, fmt.Sprintf("%s has two entries %q", path, id.String()))
				}
				seen[id.String()] = true
			}
			wrong = append(wrong, twice(e, path)...)
		}
	}
	return wrong
}
