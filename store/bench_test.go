package store

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/dgraph-io/badger/v4"
)

// benchTags are the figures of a recipe of the benchmarks: those of a label and
// the minerals of a kidney diet.
var benchTags = strings.Fields("ENERC_KCAL PROCNT FAT FASAT FATRN CHOLE CHOCDF FIBTG SUGAR SUGAR_ADDED NA K CA FE VITD P")

// benchRecipe is a recipe as they are: 20 lines, 16 figures.
func benchRecipe(i int, random *rand.Rand) Recipe {
	r := Recipe{RecipeHead: RecipeHead{
		Name:    fmt.Sprintf("%s %s %06d", []string{"barley", "turkey", "carrot", "lentil"}[i%4], []string{"soup", "salad", "stew"}[i%3], i),
		Tags:    []string{[]string{"winter", "summer"}[i%2], fmt.Sprint("shelf ", i%100)},
		Figures: map[string]Figure{},
	}}
	for _, tag := range benchTags {
		r.Figures[tag] = Figure{Value: float64(random.IntN(16000)) / 10, AtLeast: random.IntN(20) == 0}
	}
	r.Versions = []RecipeVersion{{Text: strings.Repeat("1 1/2 cups pearl barley, rinsed and drained\n", 20), Servings: 4, Said: "pasted"}}
	return r
}

// fill puts n recipes in, without the waits of n durable writes.
func fill(b *Badger, workspace string, n int) error {
	random := rand.New(rand.NewPCG(1, 2))
	a := areaOf(workspace)
	batch := b.db.NewWriteBatch()
	defer batch.Cancel()
	set := func(key []byte, v any) error {
		value, err := json.Marshal(v)
		if err != nil {
			return err
		}
		return batch.SetEntry(badger.NewEntry(key, value))
	}
	for i := range n {
		r := benchRecipe(i, random)
		r.ID, r.Count, r.Revision = newID(), 1, 1
		r.SavedBy, r.SavedAt, r.ChangedBy, r.ChangedAt = "Ann", b.now(), "Ann", b.now()
		r.Versions[0].Who, r.Versions[0].When = "Ann", b.now()
		if err := set(a.key(kindRecipe, r.ID), r.RecipeHead); err != nil {
			return err
		}
		if err := set(a.key(kindVersion, r.ID, uint32(1)), r.Versions[0]); err != nil {
			return err
		}
		for _, e := range indexKeys(a, r.RecipeHead) {
			if err := batch.SetEntry(e); err != nil {
				return err
			}
		}
	}
	return batch.Flush()
}

// benchDirs are stores by number of recipes, made once per run.
var benchDirs = map[int]string{}

func benchDir(b *testing.B, n int) string {
	b.Helper()
	if benchDirs[n] != "" {
		return benchDirs[n]
	}
	dir, err := os.MkdirTemp("", "pottle-bench")
	if err != nil {
		b.Fatal(err)
	}
	s, err := Open(dir, Options{Housekeeping: -1})
	if err != nil {
		b.Fatal(err)
	}
	start := time.Now()
	if err := fill(s, "T", n); err != nil {
		b.Fatal(err)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	size := int64(0)
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if info, err := e.Info(); err == nil && strings.HasSuffix(e.Name(), ".sst") {
			size += info.Size()
		}
	}
	b.Logf("%d recipes made in %v, %d MiB", n, time.Since(start).Round(time.Millisecond), size>>20)
	benchDirs[n] = dir
	return dir
}

// RemoveBenchDirs is for TestMain.
func RemoveBenchDirs() {
	for _, dir := range benchDirs {
		_ = os.RemoveAll(dir)
	}
}

func BenchmarkSave(b *testing.B) {
	open := func(b *testing.B) Workspace {
		s, err := Open(b.TempDir(), Options{Housekeeping: -1})
		if err != nil {
			b.Fatal(err)
		}
		b.Cleanup(func() { _ = s.Close() })
		return s.In("T")
	}
	state := json.RawMessage(`"` + strings.Repeat("x", 4<<10) + `"`)
	var n atomic.Int64
	conversation := func(b *testing.B, w Workspace) {
		_, err := w.SaveConversation(ctxAlways, Conversation{ID: fmt.Sprint(n.Add(1)), State: state})
		if err != nil {
			b.Error(err)
		}
	}
	recipe := func(b *testing.B, w Workspace) {
		i := int(n.Add(1))
		if _, err := w.SaveRecipe(ctxAlways, benchRecipe(i, rand.New(rand.NewPCG(1, uint64(i)))), "Ann"); err != nil {
			b.Error(err)
		}
	}
	for name, save := range map[string]func(*testing.B, Workspace){"Conversation4KiB": conversation, "Recipe": recipe} {
		b.Run(name, func(b *testing.B) {
			w := open(b)
			for b.Loop() {
				save(b, w)
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "saves/s")
		})
		b.Run(name+"Parallel", func(b *testing.B) {
			w := open(b)
			b.SetParallelism(16)
			b.RunParallel(func(pb *testing.PB) {
				for pb.Next() {
					save(b, w)
				}
			})
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "saves/s")
		})
	}
}

func BenchmarkOpenToFirstRead(b *testing.B) {
	for _, n := range []int{10, 1_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			dir := benchDir(b, n)
			var total time.Duration
			for b.Loop() {
				start := time.Now()
				s, err := Open(dir, Options{Housekeeping: -1})
				if err != nil {
					b.Fatal(err)
				}
				r, err := s.In("T").RecipeNamed(ctxAlways, "barley soup 000000")
				if err != nil || len(r.Versions) != 1 {
					b.Fatal(err)
				}
				total += time.Since(start)
				if err := s.Close(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(total.Microseconds())/float64(b.N)/1000, "ms/open")
		})
	}
}

// BenchmarkFind searches 100,000 recipes by the index, and by reading every
// recipe as the measure of comparison.
func BenchmarkFind(b *testing.B) {
	s, err := Open(benchDir(b, 100_000), Options{Housekeeping: -1})
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	w := s.In("T")
	most := func(tag string, v float64) Limit { return Limit{tag, AtMost, v} }
	for _, c := range []struct {
		name string
		q    Query
	}{
		{"Sodium", Query{Limits: []Limit{most("NA", 400)}}},
		{"SodiumFew", Query{Limits: []Limit{most("NA", 5)}}},
		{"SodiumPotassiumPhosphorus", Query{Limits: []Limit{most("NA", 500), most("K", 600), most("P", 250)}}},
		{"SodiumAndTag", Query{Limits: []Limit{most("NA", 400)}, Tags: []string{"shelf 7"}}},
		{"Words", Query{Words: "barley soup"}},
		{"All", Query{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			total := 0
			for b.Loop() {
				f, err := w.FindRecipes(ctxAlways, c.q)
				if err != nil || len(f.Recipes) != 20 {
					b.Fatal(len(f.Recipes), err)
				}
				total = f.Total
			}
			b.ReportMetric(float64(total), "found")
		})
	}
	b.Run("SodiumByScan", func(b *testing.B) {
		total := 0
		for b.Loop() {
			total = 0
			err := s.view(ctxAlways, func(t *tx) error {
				return t.each(areaOf("T").key(kindRecipe), false, func(_, value []byte) (bool, error) {
					var h RecipeHead
					if err := json.Unmarshal(value, &h); err != nil {
						return false, err
					}
					if f, ok := h.Figures["NA"]; ok && !f.AtLeast && f.Value <= 400 {
						total++
					}
					return true, nil
				})
			})
			if err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(total), "found")
	})
}
