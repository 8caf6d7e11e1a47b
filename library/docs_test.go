package library

import (
	"os"
	"reflect"
	"strings"
	"testing"
)

// The file format that people read about is the one that is read.
func TestEveryKeyIsDescribed(t *testing.T) {
	text, err := os.ReadFile("../docs/layoutfile.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range []any{file{}, operationEntry{}, jobEntry{}, partEntry{}, adviceEntry{}} {
		for i := range reflect.TypeOf(entry).NumField() {
			key := reflect.TypeOf(entry).Field(i).Tag.Get("key")
			if !strings.Contains(string(text), "`"+key+"`") {
				t.Errorf("%T: key %s is not described", entry, key)
			}
		}
	}
}

func TestTheExampleInTheDescriptionLoads(t *testing.T) {
	text, err := os.ReadFile("../docs/layoutfile.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "```yaml\n")
	example, _, _ := strings.Cut(rest, "```")
	l, err := Load("example.yaml", []byte(example))
	if err != nil {
		t.Fatal(err)
	}
	// By hand: raised 0.2, beam 0.3 (the jack is no dearer, but one of them is enough), gearbox 1.0, work 0.9.
	if got := plan(t, l, "replace-clutch").Together; got < 2.4-1e-6 || got > 2.4+1e-6 {
		t.Errorf("%v h together, expected 2.4", got)
	}
}
