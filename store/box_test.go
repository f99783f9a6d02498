package store_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

func exported(t *testing.T, w store.Workspace) string {
	t.Helper()
	var buf bytes.Buffer
	_, err := store.Export(ctx, w, &buf, nil)
	ok(t, err)
	return buf.String()
}

func imported(t *testing.T, w store.Workspace, text string) store.Imported {
	t.Helper()
	done, err := store.Import(ctx, w, strings.NewReader(text), "Eve", nil)
	ok(t, err)
	return done
}

// TestExportFormat holds the format still: others read it.
func TestExportFormat(t *testing.T) {
	b := mustOpen(t, "", store.Options{Now: func() time.Time { return time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC) }})
	r := recipe("Ann's <soup>")
	r.ID = "abcdefghijkla"
	_, err := b.In("T").SaveRecipe(ctx, r, "Ann")
	ok(t, err)
	want := `{"pottle":"recipe box","format":1}
{"id":"abcdefghijkla","name":"Ann's <soup>","tags":["tag"],"saved_by":"Ann","saved_at":"2026-11-25T08:00:00Z","changed_by":"Ann","changed_at":"2026-11-25T08:00:00Z","revision":1,"count":1,"figures":{"K":{"value":0,"at_least":true},"NA":{"value":1}},"versions":[{"text":"text of Ann's <soup>","servings":2,"said":"pasted","who":"Ann","when":"2026-11-25T08:00:00Z"}]}
`
	if got := exported(t, b.In("T")); got != want {
		t.Errorf("exported\n%s\nwant\n%s", got, want)
	}
}

func TestImport(t *testing.T) {
	from := filled(t, store.Options{}).In("T1")
	text := exported(t, from)
	to := mustOpen(t, "", store.Options{})
	w := to.In("T1")
	done := imported(t, w, text)
	if done.Added != 19 || len(done.Refused)+len(done.Renamed)+done.Extended+done.Same > 0 {
		t.Errorf("imported %+v", done)
	}
	clean(t, to)
	if again := exported(t, w); strings.ReplaceAll(again, `"revision":1`, `"revision":2`) != text {
		t.Errorf("exported again\n%s\nwas\n%s", again, text)
	}
	if done := imported(t, w, text); done.Same != 19 || done.Added > 0 {
		t.Errorf("imported again %+v", done)
	}

	t.Run("Extended", func(t *testing.T) {
		r, err := from.RecipeNamed(ctx, "soup 1 of T1")
		ok(t, err)
		r.Versions = append(r.Versions, store.RecipeVersion{Text: "third"})
		_, err = from.SaveRecipe(ctx, r, "Cas")
		ok(t, err)
		if done := imported(t, w, exported(t, from)); done.Extended != 1 || done.Same != 18 {
			t.Errorf("imported %+v", done)
		}
		if done := imported(t, w, text); done.Same != 19 { // the older box takes nothing away
			t.Errorf("imported %+v", done)
		}
		got, err := w.Recipe(ctx, r.ID)
		ok(t, err)
		if len(got.Versions) != 3 || got.Versions[2].Who != "Cas" {
			t.Errorf("recipe %+v", got)
		}
	})
	t.Run("Refused", func(t *testing.T) {
		b := mustOpen(t, "", store.Options{})
		w := b.In("T")
		imported(t, w, text)
		r, err := w.RecipeNamed(ctx, "soup 2 of T1")
		ok(t, err)
		ok(t, w.DeleteRecipe(ctx, r.ID, r.Revision, "Ann"))
		other := strings.ReplaceAll(text, "text of soup 3 of", "another text of soup 3 of")
		done := imported(t, w, other)
		if len(done.Refused) != 2 || done.Same != 17 {
			t.Fatalf("imported %+v", done)
		}
		for i, part := range []string{"deleted here", "has other versions here"} {
			if !strings.Contains(strings.Join(done.Refused, "; "), part) || !strings.HasPrefix(done.Refused[i], "line ") {
				t.Errorf("refused %q", done.Refused)
			}
		}
		clean(t, b)
	})
	t.Run("Renamed", func(t *testing.T) {
		b := mustOpen(t, "", store.Options{})
		w := b.In("T")
		save(t, w, "Soup 5 of T1")
		save(t, w, "soup 5 of T1 (2)")
		done := imported(t, w, text)
		if len(done.Renamed) != 1 || done.Renamed[0] != "soup 5 of T1 (3), was soup 5 of T1" || done.Added != 19 {
			t.Errorf("imported %+v", done)
		}
	})
	t.Run("ByHand", func(t *testing.T) {
		w := mustOpen(t, "", store.Options{}).In("T")
		done := imported(t, w, `{"pottle":"recipe box","format":1}`+"\n\n"+`{"name":"soup","versions":[{"text":"1 carrot"}],"later":true}`+"\n"+
			`{"name":"","versions":[{"text":"x"}]}`+"\n"+`{"name":"broth"}`)
		if done.Added != 1 || len(done.Refused) != 2 {
			t.Errorf("imported %+v", done)
		}
		r, err := w.RecipeNamed(ctx, "soup")
		ok(t, err)
		if r.SavedBy != "Eve" || r.Versions[0].Who != "Eve" {
			t.Errorf("recipe %+v", r)
		}
	})
	t.Run("Large", func(t *testing.T) { // more versions than one step takes
		r := recipe("large")
		for i := range 20 {
			r.Versions = append(r.Versions, store.RecipeVersion{Text: fmt.Sprint(i) + strings.Repeat("x", 100_000)})
		}
		b := mustOpen(t, "", store.Options{})
		w := b.In("A")
		first := r
		first.Versions = r.Versions[:1]
		saved, err := w.SaveRecipe(ctx, first, "Ann")
		ok(t, err)
		for i := 1; i < len(r.Versions); i++ {
			saved.Versions = append(saved.Versions, r.Versions[i])
			saved, err = w.SaveRecipe(ctx, saved, "Ann")
			ok(t, err)
		}
		if done := imported(t, b.In("B"), exported(t, w)); done.Added != 1 {
			t.Errorf("imported %+v", done)
		}
		got, err := b.In("B").RecipeNamed(ctx, "large")
		ok(t, err)
		if len(got.Versions) != 21 || got.Versions[20] != saved.Versions[20] {
			t.Errorf("%d versions", len(got.Versions))
		}
		clean(t, b)
	})
	for name, c := range map[string]struct {
		text string
		code *store.Error
		part string
	}{
		"ErrEmpty":  {"", store.ErrInvalid, "line 1"},
		"ErrOther":  {"hello", store.ErrInvalid, "line 1"},
		"ErrNewer":  {`{"pottle":"recipe box","format":2}`, store.ErrNewerStore, "format 2"},
		"ErrLine":   {`{"pottle":"recipe box","format":1}` + "\n{", store.ErrInvalid, "line 2"},
		"ErrNoHead": {`{"name":"soup","versions":[{"text":"x"}]}`, store.ErrInvalid, "line 1"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := store.Import(ctx, mustOpen(t, "", store.Options{}).In("T"), strings.NewReader(c.text), "Eve", nil)
			wantError(t, err, c.code, c.part)
		})
	}
}
