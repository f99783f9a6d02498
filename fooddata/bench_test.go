package fooddata

import (
	"strings"
	"testing"
)

// BenchmarkOpen decodes the table from its bytes, which Open does once.
func BenchmarkOpen(b *testing.B) {
	b.ReportAllocs()
	b.SetBytes(int64(len(embedded)))
	for b.Loop() {
		if _, err := decode(embedded); err != nil {
			b.Fatal(err)
		}
	}
}

var benchNames = []string{"butter", "all-purpose flour", "Tomatoes", "extra virgin olive oil", "crème fraîche", "no such food"}

func BenchmarkNamed(b *testing.B) {
	table := openTable(b)
	b.ReportAllocs()
	for b.Loop() {
		for _, name := range benchNames {
			table.Named(name)
		}
	}
}

// BenchmarkNamedMap is the baseline: a map by the normalised name, which costs
// time and memory to fill that BenchmarkNamed does not need.
func BenchmarkNamedMap(b *testing.B) {
	table := openTable(b)
	byName := nameMap(table)
	b.ReportAllocs()
	for b.Loop() {
		for _, name := range benchNames {
			_ = byName[strings.Join(Normalise(name), " ")]
		}
	}
}

// BenchmarkNameMapFill is what filling that map costs.
func BenchmarkNameMapFill(b *testing.B) {
	table := openTable(b)
	b.ReportAllocs()
	for b.Loop() {
		nameMap(table)
	}
}

func nameMap(table *Table) map[string]Food {
	byName := make(map[string]Food)
	for i := range table.Names() {
		n := table.file.Name(i)
		byName[strings.Join(Normalise(table.file.Text(n.Text)), " ")] = Food{table, n.Food}
	}
	return byName
}

func BenchmarkSearch(b *testing.B) {
	table := openTable(b)
	for _, words := range []string{"butter", "low fat chicken broth", "shredded monterey jack cheese", "zuchini"} {
		query := Normalise(words)
		b.Run(strings.ReplaceAll(words, " ", "_"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				table.Search(query, 9)
			}
		})
	}
}

func BenchmarkPer100g(b *testing.B) {
	f := food(b, "11529")
	b.ReportAllocs()
	for b.Loop() {
		for n := range Nutrient(NumNutrients) {
			f.Per100g(n)
		}
	}
}

func BenchmarkNormalise(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		for _, name := range benchNames {
			Normalise(name)
		}
	}
}
