package jobfile

import (
	"os"
	"reflect"
	"strings"
	"testing"
)

// keysOf lists the dotted keys of a part and of the parts inside it.
func keysOf(part reflect.Type, prefix string) []string {
	var keys []string
	for i := range part.NumField() {
		field := part.Field(i)
		key := prefix + field.Tag.Get("key")
		inner := field.Type
		for inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct && inner.PkgPath() == part.PkgPath() {
			keys = append(keys, keysOf(inner, key+".")...)
			continue
		}
		keys = append(keys, key)
	}
	return keys
}

func TestEveryKeyIsInTheDocument(t *testing.T) {
	text, err := os.ReadFile("../docs/jobfile.md")
	if err != nil {
		t.Fatal(err)
	}
	keys := 0
	for _, part := range []any{shopPart{}, carPart{}, enginePart{}, drivePart{}, clutchPart{}, releasePart{}} {
		for _, key := range keysOf(reflect.TypeOf(part), "") {
			keys++
			if !strings.Contains(string(text), "| `"+key+"` |") {
				t.Errorf("%T: docs/jobfile.md has no row for `%s`", part, key)
			}
		}
	}
	if keys < 60 {
		t.Errorf("only %d keys looked for", keys)
	}
}
