package layout

import (
	"errors"
	"reflect"
	"strings"
	"testing"
)

// sample returns a writer with a record of each kind.
func sample() *Writer {
	w := &Writer{Release: "sample release"}
	w.Text("")
	w.Groups = []string{"dairy", "fats"}
	w.Foods = []Food{
		{
			Number: 1001, Name: w.Text("butter"), Description: w.Text("Butter, salted"), AddedBasis: w.Text("none added"),
			RefuseWhat: w.Text("wrapper"), DensityLike: w.Text("like lard"), Portions: 0, Density: 959, Contains: 1, May: 6,
			Family: 1, Group: 1, State: 3, Flags: Curated, Refuse: 2,
		},
		{Number: 1002, Portions: 1, Family: 1, Flags: CannedLiquid},
		{Number: 1003, Portions: 3},
	}
	w.Column("ENERC_KCAL", 0, []uint32{717, NoValue, 0})
	w.Column("WIDE", 3, []uint32{81110, NoValue, 65535})
	w.Portions = []Portion{{1000, 14200, uint16(w.Text("tbsp")), 0, 0, 0}, {1, 2, 0, 0, 0, 0}, {3, 4, 0, 0, 0, 0}}
	w.Names = []Name{{Hash: HashWords([]string{"butter"}), Text: w.Text("butter"), Food: 0, Mark: MarkOpen | MarkStandIn}}
	w.Docs = []Doc{{0, 100, CuratedName}, {2, 50, Description}}
	w.Words = []Word{{w.Text("butter"), 0, 123}, {w.Text("salted"), 2, 45}}
	w.Postings = []uint16{0, 1, 1}
	w.Family = []Member{{1, 0}, {1, 1}}
	return w
}

func TestRoundTrip(t *testing.T) {
	w := sample()
	data, err := w.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	f, err := Open(string(data))
	if err != nil {
		t.Fatal(err)
	}
	if f.Release() != w.Release || f.Group(1) != "fats" || f.NumFoods() != 3 || f.NumColumns() != 2 || f.ColumnTag(1) != "WIDE" {
		t.Errorf("release %q, group %q, %d foods, %d columns, %q", f.Release(), f.Group(1), f.NumFoods(), f.NumColumns(), f.ColumnTag(1))
	}
	for i, want := range w.Foods {
		if got := f.Food(i); got != want {
			t.Errorf("food %d = %+v, want %+v", i, got, want)
		}
		if at, ok := f.FoodIndex(want.Number); !ok || at != i {
			t.Errorf("FoodIndex(%d) = %d, %t", want.Number, at, ok)
		}
	}
	if _, ok := f.FoodIndex(1004); ok {
		t.Error("FoodIndex(1004) finds a food")
	}
	for i, want := range w.Portions {
		if got := f.Portion(i); got != want {
			t.Errorf("portion %d = %+v, want %+v", i, got, want)
		}
	}
	for i, want := range [][2]int{{0, 1}, {1, 3}, {3, 3}} {
		if first, end := f.PortionsOf(i); first != want[0] || end != want[1] {
			t.Errorf("PortionsOf(%d) = %d, %d, want %v", i, first, end, want)
		}
	}
	for i, want := range w.Docs {
		if got := f.Doc(i); got != want {
			t.Errorf("doc %d = %+v, want %+v", i, got, want)
		}
	}
	for i, want := range w.Words {
		if got := f.Word(i); got != want {
			t.Errorf("word %d = %+v, want %+v", i, got, want)
		}
	}
	if i, ok := f.WordIndex("salted"); !ok || i != 1 {
		t.Errorf("WordIndex(salted) = %d, %t", i, ok)
	}
	if first, end := f.PostingsOf(1); first != 2 || end != 3 || f.Posting(2) != 1 {
		t.Errorf("PostingsOf(1) = %d, %d", first, end)
	}
	if first, end := f.NamesOf(w.Names[0].Hash); first != 0 || end != 1 || f.Name(0) != w.Names[0] {
		t.Errorf("NamesOf = %d, %d, %+v", first, end, f.Name(0))
	}
	if got := f.Family(1); !reflect.DeepEqual(got, []int{0, 1}) {
		t.Errorf("Family(1) = %v", got)
	}
	if got := f.Family(2); got != nil {
		t.Errorf("Family(2) = %v", got)
	}
}

func TestValue(t *testing.T) {
	data, err := sample().Bytes()
	if err != nil {
		t.Fatal(err)
	}
	f, err := Open(string(data))
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		column, food, decimals int
		value                  uint32
		ok                     bool
	}{
		{0, 0, 0, 717, true},
		{0, 1, 0, 0, false}, // no value
		{0, 2, 0, 0, true},  // zero
		{1, 0, 3, 81110, true},
		{1, 1, 3, 0, false},
		{1, 2, 3, 65535, true}, // "no value" of the narrow width
	} {
		v, decimals, ok := f.Value(tc.column, tc.food)
		if ok != tc.ok || decimals != tc.decimals || ok && v != tc.value {
			t.Errorf("Value(%d, %d) = %d, %d, %t, want %d, %d, %t", tc.column, tc.food, v, decimals, ok, tc.value, tc.decimals, tc.ok)
		}
	}
}

// TestBytesRefuses gives Bytes tables that break a rule of the layout.
func TestBytesRefuses(t *testing.T) {
	for _, tc := range []struct {
		rule  string
		spoil func(*Writer)
		want  string
	}{
		{"foods by number", func(w *Writer) { w.Foods[1].Number = 1001 }, "food 01001 after 01001"},
		{"texts exist", func(w *Writer) { w.Foods[0].Name = 999 }, "food: text 999"},
		{"groups exist", func(w *Writer) { w.Foods[0].Group = 2 }, "group: 2"},
		{"portions in order", func(w *Writer) { w.Foods[2].Portions = 0 }, "portions at 0"},
		{"portions exist", func(w *Writer) { w.Foods[2].Portions = 4 }, "portions at 4"},
		{"first portion first", func(w *Writer) { w.Foods[0].Portions = 1 }, "portions at 1"},
		{"names lead to foods", func(w *Writer) { w.Names[0].Food = 3 }, "name: 3"},
		{"names by hash", func(w *Writer) { w.Names = append(w.Names, Name{}) }, "hash 00000000 after"},
		{"docs lead to foods", func(w *Writer) { w.Docs[0].Food = 3 }, "doc: 3"},
		{"words sorted", func(w *Writer) { w.Words[1].Text = w.Words[0].Text }, `word "butter" after "butter"`},
		{"postings in order", func(w *Writer) { w.Words[1].Postings = 4 }, "postings at 4"},
		{"postings lead to docs", func(w *Writer) { w.Postings[0] = 2 }, "posting: 2"},
		{"members are foods", func(w *Writer) { w.Family[1].Food = 3 }, "family member: 3"},
		{"portion texts exist", func(w *Writer) { w.Portions[0].Detail = 999 }, "portion: text 999"},
		{"a figure for each food", func(w *Writer) { w.Column("SHORT", 0, []uint32{1}) }, "column 2 does not fit"},
		{"few decimals", func(w *Writer) { w.Column("FINE", 7, []uint32{1, 2, 3}) }, "column 2 does not fit"},
	} {
		w := sample()
		tc.spoil(w)
		if _, err := w.Bytes(); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("%s: error %v, want %q in it", tc.rule, err, tc.want)
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	data, err := sample().Bytes()
	if err != nil {
		t.Fatal(err)
	}
	spoil := func(change func(b []byte) []byte) string { return string(change([]byte(string(data)))) }
	for _, tc := range []struct{ what, data, want string }{
		{"nothing", "", "0 bytes"},
		{"header only", string(data[:20]), "20 bytes, fewer"},
		{"another file", spoil(func(b []byte) []byte { b[0] = 'x'; return b }), "starts with"},
		{"another version", spoil(func(b []byte) []byte { b[7] = 2; return b }), "starts with"},
		{"cut short", string(data[:len(data)-1]), "its header says"},
		{"too long", string(data) + "x", "its header says"},
		{"a bit changed", spoil(func(b []byte) []byte { b[len(b)-1] ^= 1; return b }), "checksum"},
		{"a section moved", spoil(func(b []byte) []byte { b[len(magic)+8]++; Seal(b); return b }), "section release"},
		{"a section that grew", spoil(func(b []byte) []byte { b[len(magic)+8+4+3] = 0xff; Seal(b); return b }), "section release"},
		{"a section that shrank", spoil(func(b []byte) []byte { b[headerSize-4]--; Seal(b); return b }), "after the last section"},
	} {
		if _, err := Open(tc.data); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("%s: error %v, want %q in it", tc.what, err, tc.want)
		}
	}
}

func TestHashWords(t *testing.T) {
	if HashWords([]string{"olive", "oil"}) != HashWords([]string{"oil", "olive"}) {
		t.Error("the order of the words changes the hash")
	}
	if HashWords([]string{"olive", "oil"}) == HashWords([]string{"olive"}) || HashWords(nil) != 0 {
		t.Error("the hash does not depend on the words")
	}
	if got := HashWords([]string{"a"}); got != 0xe40c292c { // FNV-1a 32 of "a", by its authors' test vectors
		t.Errorf("HashWords(a) = %#x", got)
	}
}
