package fooddata

import (
	"cmp"
	"compress/gzip"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// sourceFile opens a file of Release 28, or skips the test and says what to
// supply.
func sourceFile(t *testing.T, name string) *os.File {
	t.Helper()
	dir := cmp.Or(os.Getenv("POTTLE_SR28"), filepath.FromSlash("../../shared/data/sr28"))
	file, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		t.Skipf("%v: set POTTLE_SR28 to the folder that holds food.csv.gz, nutrient.csv and portion.csv of Release 28", err)
	}
	t.Cleanup(func() { file.Close() })
	return file
}

// readRows reads a CSV file with headings.
func readRows(t *testing.T, r io.Reader) []map[string]string {
	t.Helper()
	records, err := csv.NewReader(r).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := make([]map[string]string, 0, len(records))
	for _, record := range records[1:] {
		row := make(map[string]string, len(record))
		for i, cell := range record {
			row[records[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

// TestFiguresAgainstSource compares every figure with the source.
func TestFiguresAgainstSource(t *testing.T) {
	corrected, err := os.ReadFile("list/refuse.tsv")
	if err != nil {
		t.Fatal(err)
	}
	plain, err := gzip.NewReader(sourceFile(t, "food.csv.gz"))
	if err != nil {
		t.Fatal(err)
	}
	table := openTable(t)
	foods, figures := 0, 0
	for _, row := range readRows(t, plain) {
		f, ok := table.Food(row["ndb_no"])
		if !ok {
			continue
		}
		foods++
		for n := range AddedSugars { // all that the source has
			got, ok := f.Per100g(n).Value()
			cell := row[n.Tag()]
			if n == Cholesterol && cell == "" && ok && got == 0 { // of a plant
				continue
			}
			if ok != (cell != "") {
				t.Errorf("%s: %s is %v, %t, the source says %q", f.Number(), n, got, ok, cell)
				continue
			}
			if !ok {
				continue
			}
			figures++
			if want, err := strconv.ParseFloat(cell, 64); err != nil || got != want {
				t.Errorf("%s: %s is %v, the source says %q", f.Number(), n, got, cell)
			}
		}
		if f.Description() != row["description"] && f.Description() != f.Name() { // a brand: our own name
			t.Errorf("%s: %q, the source says %q", f.Number(), f.Description(), row["description"])
		}
		if f.Group() != row["group"] {
			t.Errorf("%s: group %q, the source says %q", f.Number(), f.Group(), row["group"])
		}
		if refuse, _ := f.Refuse(); refuse != 0 && !strings.Contains(string(corrected), "\n"+f.Number()+"\t") && strconv.Itoa(int(refuse)) != row["refuse_pct"] {
			t.Errorf("%s: refuse %v, the source says %q", f.Number(), refuse, row["refuse_pct"])
		}
	}
	if foods != table.Len() || figures < 100_000 {
		t.Errorf("compared %d of %d foods, %d figures", foods, table.Len(), figures)
	}
}

// TestPortionsAgainstSource checks that the grams of every portion said to be
// from Release 28 are in it, and that no portion but those of brands was lost.
func TestPortionsAgainstSource(t *testing.T) {
	table := openTable(t)
	source := make(map[string]map[float64]bool) // grams of one, by food
	lost, total := 0, 0
	for _, row := range readRows(t, sourceFile(t, "portion.csv")) {
		f, ok := table.Food(row["ndb_no"])
		if !ok {
			continue
		}
		grams, err := strconv.ParseFloat(row["grams"], 64)
		if err != nil {
			t.Fatal(err)
		}
		if source[f.Number()] == nil {
			source[f.Number()] = make(map[float64]bool)
		}
		for times := 1.0; times <= 8; times++ { // "serving 1/4 cup" is kept as one cup
			source[f.Number()][grams*times] = true
		}
		total++
		if !hasGrams(f, grams) {
			lost++
		}
	}
	for f := range table.All() {
		for p := range f.Portions() {
			if p.Source == "SR28" && !source[f.Number()][float64(p.Grams)] {
				t.Errorf("%s: portion %+v is not in the source", f.Number(), p)
			}
		}
	}
	if lost*100 > total {
		t.Errorf("%d of %d portions of the source are lost", lost, total)
	}
}

func hasGrams(f Food, grams float64) bool {
	for p := range f.Portions() {
		for times := 1.0; times <= 8; times++ {
			if float64(p.Grams) == grams*times {
				return true
			}
		}
	}
	return false
}
