package house

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The papers say by which tests a model is checked; a test that was renamed or dropped is found here.
func TestTestsNamedInTheDocumentsExist(t *testing.T) {
	const root = "../.."
	declared := map[string]bool{}
	function := regexp.MustCompile(`(?m)^func ((?:Test|Example|Fuzz)\w*)\(`)
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, found := range function.FindAllStringSubmatch(string(text), -1) {
			declared[found[1]] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	papers, err := filepath.Glob(root + "/docs/*.md")
	if err != nil {
		t.Fatal(err)
	}
	named := 0
	for _, paper := range papers {
		text, err := os.ReadFile(paper)
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range regexp.MustCompile("`((?:Test|Example|Fuzz)[A-Z]\\w*)`").FindAllStringSubmatch(string(text), -1) {
			named++
			if !declared[found[1]] {
				t.Errorf("%s names %s, which does not exist", filepath.Base(paper), found[1])
			}
		}
	}
	if named < 40 {
		t.Errorf("only %d tests are named", named)
	}
}
