package house

import (
	"encoding/json"
	"errors"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "layshaft"

type listed struct {
	ImportPath, Name, Doc string
	Imports               []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	command := exec.Command("go", "list", "-json=ImportPath,Name,Doc,Imports", "./...")
	command.Dir = "../.."
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []listed
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func floorOf(path string) int {
	short := strings.TrimPrefix(path, module+"/")
	return slices.IndexFunc(Floors, func(f Floor) bool { return f.Package == short })
}

func TestImportsPointInwards(t *testing.T) {
	for _, p := range packages(t) {
		short := strings.TrimPrefix(p.ImportPath, module+"/")
		if strings.HasPrefix(short, "internal/") {
			continue
		}
		floor := floorOf(p.ImportPath)
		if floor < 0 {
			t.Errorf("package %s has no floor: say in house.go where it stands and what it is for", short)
			continue
		}
		for _, path := range p.Imports {
			if !strings.HasPrefix(path, module+"/") {
				continue
			}
			if below := floorOf(path); below < 0 || below >= floor {
				t.Errorf("%s imports %s, which stands further out", short, strings.TrimPrefix(path, module+"/"))
			}
			for _, rule := range Apart {
				if rule.From == short && module+"/"+rule.To == path {
					t.Errorf("%s must not import %s: %s", rule.From, rule.To, rule.Why)
				}
			}
		}
	}
}

// pure packages reckon and do nothing else: no files, clock, network, environment or database.
var pure = []string{"uncertain", "quantity", "spring", "driveline", "release", "release/diagnosis", "stripdown", "pricing", "worth", "picture"}

func TestPhysicsPackagesArePure(t *testing.T) {
	forbidden := []string{"os", "net", "net/http", "database/sql", "time", "os/exec", "log", "io/ioutil"}
	checked := 0
	for _, p := range packages(t) {
		short := strings.TrimPrefix(p.ImportPath, module+"/")
		if !slices.Contains(pure, short) {
			continue
		}
		checked++
		for _, path := range p.Imports {
			if slices.Contains(forbidden, path) {
				t.Errorf("%s imports %s; it takes what it needs from its callers", short, path)
			}
		}
	}
	if checked < 8 {
		t.Errorf("only %d pure packages found", checked)
	}
}

func TestEveryPackageSaysWhatItIsFor(t *testing.T) {
	for _, p := range packages(t) {
		if p.Doc == "" {
			t.Errorf("%s has no package comment", p.ImportPath)
		}
	}
}

func TestPackageCommentStandsInOneFile(t *testing.T) {
	comments := map[string][]string{}
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments|parser.PackageClauseOnly)
		if err == nil && file.Doc != nil {
			comments[filepath.Dir(path)] = append(comments[filepath.Dir(path)], filepath.Base(path))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(comments) < 15 {
		t.Fatalf("only %d packages with comments found", len(comments))
	}
	for folder, files := range comments {
		if len(files) > 1 {
			t.Errorf("%s has its package comment in %v; one is enough", folder, files)
		}
	}
}
