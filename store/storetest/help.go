package storetest

import (
	"context"
	"errors"
	"strings"
	"testing"

	"pottle/store"
)

var ctx = context.Background()

// must returns v; a test that gets an error ends.
func must[T any](t *testing.T) func(v T, err error) T {
	t.Helper()
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func ok(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// wantError checks the code of an error and a part of its message.
func wantError(t *testing.T, err error, code *store.Error, part string) {
	t.Helper()
	if !errors.Is(err, code) {
		t.Errorf("error %v (code %q), want code %q", err, store.Code(err), code.Code)
		return
	}
	if m := store.Message(err); !strings.Contains(m, part) || m == "" {
		t.Errorf("message %q does not say %q", m, part)
	}
}

func equal[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// soup is a recipe to be saved.
func soup(name string, tags ...string) store.Recipe {
	return store.Recipe{
		RecipeHead: store.RecipeHead{Name: name, Tags: tags},
		Versions:   []store.RecipeVersion{{Text: "1 cup barley\n2 carrots", Servings: 4, Said: "pasted"}},
	}
}

// with gives a recipe figures that are known.
func with(r store.Recipe, figures map[string]float64) store.Recipe {
	r.Figures = map[string]store.Figure{}
	for tag, v := range figures {
		r.Figures[tag] = store.Figure{Value: v}
	}
	return r
}

func names(f store.Found) string {
	var n []string
	for _, r := range f.Recipes {
		n = append(n, r.Name)
	}
	return strings.Join(n, ", ")
}
