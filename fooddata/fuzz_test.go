package fooddata

import (
	"errors"
	"testing"

	"pottle/fooddata/internal/layout"
)

// readAll reads everything that a table says.
func readAll(table *Table) {
	table.Release()
	for f := range table.All() {
		_, _ = f.Number(), f.Name()
		_, _, _ = f.Description(), f.Group(), f.AddedSugarBasis()
		_, _ = f.State().String(), f.Curated()
		f.Refuse()
		f.Allergens()
		f.Density()
		for n := range Nutrient(NumNutrients) {
			f.Per100g(n)
		}
		for range f.Portions() {
		}
		table.Family(f)
	}
	for i := range table.Names() {
		table.Named(table.file.Text(table.file.Name(i).Text))
	}
	table.Search([]string{"butter", "salted", "carot"}, 5)
}

// FuzzDecode damages a small table. It must open to an error, or read without a
// panic, whether or not the checksum was set right again.
func FuzzDecode(f *testing.F) {
	small := smallTable(f)
	f.Add(0, byte(0), len(small), true)
	for at := 0; at < len(small); at += 7 {
		f.Add(at, byte(0xff), len(small), true)
		f.Add(at, byte(1), at, false)
	}
	f.Fuzz(func(t *testing.T, at int, change byte, length int, seal bool) {
		data := []byte(small)
		if at >= 0 && at < len(data) {
			data[at] ^= change
		}
		if length >= 0 && length < len(data) {
			data = data[:length]
		}
		if seal {
			layout.Seal(data)
		}
		table, err := decode(string(data))
		if err != nil {
			if table != nil {
				t.Error("a table and an error")
			}
			return
		}
		readAll(table)
	})
}

// smallTable returns the bytes of a table of two foods.
func smallTable(tb testing.TB) string {
	tb.Helper()
	w := &layout.Writer{Release: "test"}
	w.Text("")
	text := w.Text("butter")
	w.Groups = []string{"dairy"}
	w.Foods = []layout.Food{{Number: 1, Name: text, Description: text, Family: 1}, {Number: 2, Name: text, Portions: 1, Family: 1}}
	for n := range Nutrient(NumNutrients) {
		w.Column(n.Tag(), n.Decimals(), []uint32{uint32(n) * 1000, layout.NoValue})
	}
	w.Portions = []layout.Portion{{Amount: 1000, Grams: 14200, Measure: uint16(text)}, {Amount: 1, Grams: 1}}
	w.Names = []layout.Name{{Hash: layout.HashWords([]string{"butter"}), Text: text, Food: 1}}
	w.Docs = []layout.Doc{{Food: 0, Weight: 100}, {Food: 1, Weight: 100}}
	w.Words = []layout.Word{{Text: text, Postings: 0, Weight: 100}}
	w.Postings = []uint16{0, 1}
	w.Family = []layout.Member{{Family: 1, Food: 0}, {Family: 1, Food: 1}}
	data, err := w.Bytes()
	if err != nil {
		tb.Fatal(err)
	}
	return string(data)
}

func TestDecodeErrors(t *testing.T) {
	small := smallTable(t)
	if table, err := decode(small); err != nil {
		t.Fatal(err)
	} else {
		readAll(table)
	}
	for length := range len(small) {
		if _, err := decode(small[:length]); !errors.Is(err, layout.ErrDamaged) {
			t.Errorf("the first %d bytes: error %v, want ErrDamaged", length, err)
		}
	}
	w := &layout.Writer{Release: "no columns"}
	data, err := w.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := decode(string(data)); err == nil {
		t.Error("a table without nutrients opens")
	}
	w.Column("XYZ", 0, nil)
	for range NumNutrients - 1 {
		w.Column("XYZ", 0, nil)
	}
	if data, err = w.Bytes(); err != nil {
		t.Fatal(err)
	}
	if _, err := decode(string(data)); err == nil {
		t.Error("a table with other nutrients opens")
	}
}
