package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// allowed are the packages of ours that each package may import: downwards
// only, so that the grammar knows no food and the engine no conversation.
var allowed = map[string]string{
	"grammar":             "",
	"fooddata":            "fooddata/internal/layout",
	"engine":              "grammar fooddata",
	"store":               "",
	"store/storetest":     "store",
	"bot":                 "engine grammar fooddata store",
	"bot/console":         "bot grammar",
	"bot/slack":           "bot engine grammar store",
	"bot/slack/slackfake": "",
	"cmd/pottle":          "bot bot/console bot/slack engine grammar fooddata store",
}

// only says in which package a module of others may be used.
var only = map[string]string{
	"github.com/alecthomas/participle/v2": "grammar",
	"github.com/hashicorp/golang-lru/v2":  "engine",
	"github.com/dgraph-io/badger/v4":      "store",
	"github.com/slack-go/slack":           "bot/slack",
}

// TestImports reads the imports of every file that is not a test.
func TestImports(t *testing.T) {
	root := filepath.Join("..", "..")
	checked := 0
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") || strings.Contains(file, "internal") {
			return err
		}
		rel, err := filepath.Rel(root, file)
		if err != nil {
			return err
		}
		in := path.Dir(filepath.ToSlash(rel))
		may, known := allowed[in]
		if !known {
			t.Errorf("%s: package %s is not in the list of imports", file, in)
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, imp := range f.Imports {
			name := strings.Trim(imp.Path.Value, `"`)
			if ours, isOurs := strings.CutPrefix(name, "pottle/"); isOurs && !slices.Contains(strings.Fields(may), ours) {
				t.Errorf("%s imports %s, which %s may not", file, name, in)
			}
			for module, home := range only {
				if (name == module || strings.HasPrefix(name, module+"/")) && in != home && !strings.HasPrefix(in, home+"/") {
					t.Errorf("%s imports %s, which only %s may", file, name, home)
				}
			}
		}
		checked++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if checked < 20 {
		t.Errorf("only %d files checked", checked)
	}
}
