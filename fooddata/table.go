package fooddata

import (
	_ "embed"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"sync"

	"pottle/fooddata/internal/layout"
)

//go:generate go run ./internal/build

// embedded is the built table. The builder needs the file to exist, be it empty.
//
//go:embed table.bin
var embedded string

// Table is an open food table. It never changes and may be used from many
// goroutines at once.
type Table struct {
	file *layout.File
}

// Open returns the table that is embedded in the program. All callers share it;
// only the first call does any work. It returns an error only if the program
// was built with a damaged table.
func Open() (*Table, error) { return open() }

var open = sync.OnceValues(func() (*Table, error) { return decode(embedded) })

// decode returns the table in data, and an error if it is damaged or does not
// have exactly our nutrients.
func decode(data string) (*Table, error) {
	file, err := layout.Open(data)
	if err != nil {
		return nil, fmt.Errorf("open food table: %w", err)
	}
	if n := file.NumColumns(); n != NumNutrients {
		return nil, fmt.Errorf("open food table: %d nutrients, want %d", n, NumNutrients)
	}
	for i := range NumNutrients {
		if tag := file.ColumnTag(i); tag != Nutrient(i).Tag() {
			return nil, fmt.Errorf("open food table: nutrient %d is %q, want %q", i, tag, Nutrient(i).Tag())
		}
	}
	return &Table{file}, nil
}

// Release returns the name of the release that the figures come from.
func (t *Table) Release() string { return t.file.Release() }

// Len returns how many foods there are.
func (t *Table) Len() int { return t.file.NumFoods() }

// All returns the foods, by number.
func (t *Table) All() iter.Seq[Food] {
	return func(yield func(Food) bool) {
		for i := range t.Len() {
			if !yield(Food{t, uint16(i)}) {
				return
			}
		}
	}
}

// Food returns the food with a USDA number of five digits, such as "01001".
func (t *Table) Food(number string) (Food, bool) {
	if len(number) != 5 {
		return Food{}, false
	}
	n, err := strconv.ParseUint(number, 10, 32)
	if err != nil {
		return Food{}, false
	}
	i, ok := t.file.FoodIndex(uint32(n))
	if !ok {
		return Food{}, false
	}
	return Food{t, uint16(i)}, true
}

// Entry is what a name stands for.
type Entry struct {
	Food Food
	Name string // as the list writes it
	// Open says that the name leaves open which food is meant; Food is the
	// default and Family gives the others.
	Open bool
	// StandIn says that the table does not have the food with this name; Food is
	// the nearest like food.
	StandIn bool
}

// Named returns what a name stands for. The words must be those of the name, in
// its order, in any spelling that [Normalise] makes one of. A display name is a
// name too.
func (t *Table) Named(name string) (Entry, bool) {
	words := Normalise(name)
	first, end := t.file.NamesOf(layout.HashWords(words))
	for i := first; i < end; i++ {
		n := t.file.Name(i)
		if slices.Equal(Normalise(t.file.Text(n.Text)), words) {
			return t.entry(n), true
		}
	}
	return Entry{}, false
}

// NamedAnyOrder is Named for words in any order, in the form that [Normalise]
// gives. Words that make up names of two foods stand for neither, except that a
// name chosen by hand goes before a display name made by rule.
func (t *Table) NamedAnyOrder(words []string) (Entry, bool) {
	sorted := slices.Sorted(slices.Values(words))
	var found Entry
	first, end := t.file.NamesOf(layout.HashWords(words))
	for i := first; i < end; i++ {
		own := Normalise(t.file.Text(t.file.Name(i).Text))
		slices.Sort(own)
		if !slices.Equal(own, sorted) {
			continue
		}
		switch e := t.entry(t.file.Name(i)); {
		case found.Food.IsZero(), e.Food.Curated() && !found.Food.Curated():
			found = e
		case e.Food == found.Food:
			found.Open = found.Open || e.Open
			found.StandIn = found.StandIn || e.StandIn
		case e.Food.Curated() == found.Food.Curated():
			return Entry{}, false
		}
	}
	return found, !found.Food.IsZero()
}

func (t *Table) entry(n layout.Name) Entry {
	return Entry{
		Food:    Food{t, n.Food},
		Name:    t.file.Text(n.Text),
		Open:    n.Mark&layout.MarkOpen != 0,
		StandIn: n.Mark&layout.MarkStandIn != 0,
	}
}

// Names returns how many names the table knows.
func (t *Table) Names() int { return t.file.NumNames() }

// Family returns the foods between which a bare name of f leaves the choice, f
// among them, by number. A food without a family is alone in it.
func (t *Table) Family(f Food) []Food {
	r := f.record()
	if r.Family == 0 {
		return []Food{f}
	}
	var family []Food
	for _, i := range t.file.Family(r.Family) {
		family = append(family, Food{t, uint16(i)})
	}
	return family
}
