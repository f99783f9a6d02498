package store

import "github.com/dgraph-io/badger/v4"

// indexKeys gives the keys by which a recipe is found: its name, the words of
// it, its tags and its figures. A deleted recipe has none.
func indexKeys(a area, h RecipeHead) []*badger.Entry {
	if h.ID == "" || !h.DeletedAt.IsZero() {
		return nil
	}
	entries := make([]*badger.Entry, 0, 8+len(h.Tags)+len(h.Figures))
	add := func(key []byte) { entries = append(entries, badger.NewEntry(key, nil)) }

	entries = append(entries, badger.NewEntry(a.key(kindName, fold(h.Name)), []byte(h.ID)))
	for _, w := range wordsOf(h.Name) {
		add(a.key(kindWord, w, byte(0), h.ID))
	}
	for _, tag := range h.Tags {
		add(a.key(kindTag, tag, byte(0), h.ID))
	}
	for tag, f := range h.Figures {
		add(append(a.figure(tag, f.AtLeast), a.floatID(f.Value, h.ID)...))
	}
	return entries
}

// floatID is the end of an index key of a figure.
func (area) floatID(v float64, id string) []byte { return area(nil).key(0, v, id)[1:] }
