package keep

import "encoding/json"

// parts are the members of a document.
type parts map[string]json.RawMessage

// lifts[n] lifts a record of form n to form n+1.
var lifts = map[int]func(parts){
	// Form 1 held the whole report with its sentences, and did not tell by which version of the
	// measures it was made: the record is measured anew when its figures are asked for.
	1: func(p parts) { delete(p, "measures") },
}

// lifted returns a document in the present form. One that is in it already, or is newer, or
// names no form, is returned as it is. Cost: reading the document once or, where it
// is lifted, three times.
func lifted(doc []byte) ([]byte, error) {
	var form struct {
		Schema int `json:"schema"`
	}
	if err := json.Unmarshal(doc, &form); err != nil {
		return nil, err
	}
	if lifts[form.Schema] == nil {
		return doc, nil
	}
	var p parts
	if err := json.Unmarshal(doc, &p); err != nil {
		return nil, err
	}
	for ; lifts[form.Schema] != nil; form.Schema++ {
		lifts[form.Schema](p)
	}
	schema, err := json.Marshal(form.Schema)
	if err != nil {
		return nil, err
	}
	p["schema"] = schema
	return json.Marshal(p)
}
