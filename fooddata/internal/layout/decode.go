package layout

import (
	"errors"
	"fmt"
	"hash/crc32"
	"math"
	"sort"
)

// ErrDamaged is wrapped by every error of Open.
var ErrDamaged = errors.New("food table is damaged")

// File is an open table. Its methods read the bytes where they lie, trust what
// Open has checked, and panic on an index that is out of range.
type File struct {
	data    string
	section [sections]struct{ start, count int }
	columns []Column
}

// Open checks data and returns it as a File. It keeps data and copies none of it.
func Open(data string) (*File, error) {
	f := &File{data: data}
	if err := f.readHeader(); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrDamaged, err)
	}
	if err := f.check(); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrDamaged, err)
	}
	return f, nil
}

func (f *File) readHeader() error {
	if len(f.data) < headerSize {
		return fmt.Errorf("%d bytes, fewer than its header", len(f.data))
	}
	if f.data[:len(magic)] != magic {
		return fmt.Errorf("starts with %q, not %q", f.data[:len(magic)], magic)
	}
	if n := f.u32(len(magic)); int(n) != len(f.data) {
		return fmt.Errorf("%d bytes, its header says %d", len(f.data), n)
	}
	if got, want := checksum(f.data[len(magic)+8:]), f.u32(len(magic)+4); got != want {
		return fmt.Errorf("checksum %08x, its header says %08x", got, want)
	}
	next := headerSize
	for i := range f.section {
		at := len(magic) + 8 + i*8
		start, count := int(f.u32(at)), int(f.u32(at+4))
		if start != next || count > (len(f.data)-start)/recordSize[i] {
			return fmt.Errorf("section %s: %d records at %d do not fit", sectionNames[i], count, start)
		}
		f.section[i].start, f.section[i].count = start, count
		next = start + count*recordSize[i]
	}
	if next != len(f.data) {
		return fmt.Errorf("%d bytes after the last section", len(f.data)-next)
	}
	return nil
}

// checksum reads s through a small buffer, so that it need not be copied whole.
func checksum(s string) uint32 {
	var buf [4096]byte
	var sum uint32
	for len(s) > 0 {
		n := copy(buf[:], s)
		sum = crc32.Update(sum, castagnoli, buf[:n])
		s = s[n:]
	}
	return sum
}

// check makes sure that no index in the file leads outside it and that what is
// searched by halving is sorted.
func (f *File) check() error {
	last := uint32(0)
	for i := range f.section[texts].count {
		end := f.u32(f.at(texts, i))
		if end < last || int(end) > f.section[heap].count {
			return fmt.Errorf("text %d ends at %d", i, end)
		}
		last = end
	}
	c := checker{f: f, texts: uint32(f.section[texts].count)}
	if f.section[release].count != 1 {
		c.fail("%d releases", f.section[release].count)
	} else {
		c.text("release", f.u32(f.at(release, 0)))
	}
	for i := range f.section[groups].count {
		c.text("group", f.u32(f.at(groups, i)))
	}
	c.columns()
	c.foods()
	c.portions()
	c.names()
	c.search()
	for i := range f.section[family].count {
		c.below("family member", uint32(f.member(i).Food), f.section[foods].count)
	}
	return c.err
}

// checker keeps the first fault.
type checker struct {
	f     *File
	texts uint32
	err   error
}

func (c *checker) fail(format string, args ...any) {
	if c.err == nil {
		c.err = fmt.Errorf(format, args...)
	}
}

func (c *checker) text(what string, ids ...uint32) {
	for _, id := range ids {
		if id >= c.texts {
			c.fail("%s: text %d of %d", what, id, c.texts)
		}
	}
}

func (c *checker) below(what string, v uint32, limit int) {
	if int64(v) >= int64(limit) {
		c.fail("%s: %d, not below %d", what, v, limit)
	}
}

func (c *checker) columns() {
	f := c.f
	f.columns = make([]Column, f.section[columns].count)
	for i := range f.columns {
		at := f.at(columns, i)
		col := Column{f.u32(at), f.u32(at + 4), f.u16(at + 8), f.u16(at + 10)}
		c.text("column", col.Tag)
		if col.Width != 2 && col.Width != 4 || col.Decimals > 6 ||
			int64(col.Start)+int64(col.Width)*int64(f.NumFoods()) > int64(f.section[values].count) {
			c.fail("column %d does not fit", i)
		}
		f.columns[i] = col
	}
}

func (c *checker) foods() {
	f := c.f
	number, portion := uint32(0), uint32(0)
	for i := range f.NumFoods() {
		r := f.Food(i)
		c.text("food", r.Name, r.Description, r.AddedBasis, r.RefuseWhat, r.DensityLike)
		c.below("group", uint32(r.Group), f.section[groups].count)
		if r.Number <= number && i > 0 {
			c.fail("food %05d after %05d", r.Number, number)
		}
		if r.Portions < portion || int64(r.Portions) > int64(f.section[portions].count) || i == 0 && r.Portions != 0 {
			c.fail("food %05d: portions at %d", r.Number, r.Portions)
		}
		number, portion = r.Number, r.Portions
	}
}

func (c *checker) portions() {
	for i := range c.f.section[portions].count {
		p := c.f.Portion(i)
		c.text("portion", uint32(p.Measure), uint32(p.Size), uint32(p.Detail), uint32(p.Source))
	}
}

func (c *checker) names() {
	f := c.f
	hash := uint32(0)
	for i := range f.NumNames() {
		n := f.Name(i)
		c.text("name", n.Text)
		c.below("name", uint32(n.Food), f.NumFoods())
		if n.Hash < hash {
			c.fail("name %d: hash %08x after %08x", i, n.Hash, hash)
		}
		hash = n.Hash
	}
}

func (c *checker) search() {
	f := c.f
	for i := range f.NumDocs() {
		c.below("doc", uint32(f.Doc(i).Food), f.NumFoods())
	}
	text, posting := "", uint32(0)
	for i := range f.NumWords() {
		w := f.Word(i)
		c.text("word", w.Text)
		if c.err != nil {
			return
		}
		t := f.Text(w.Text)
		if t <= text || w.Postings < posting || int64(w.Postings) > int64(f.section[postings].count) {
			c.fail("word %q after %q, postings at %d", t, text, w.Postings)
		}
		text, posting = t, w.Postings
	}
	for i := range f.section[postings].count {
		c.below("posting", uint32(f.Posting(i)), f.NumDocs())
	}
}

func (f *File) at(section, i int) int { return f.section[section].start + i*recordSize[section] }

func (f *File) u16(at int) uint16 { return uint16(f.data[at]) | uint16(f.data[at+1])<<8 }

func (f *File) u32(at int) uint32 {
	b := f.data[at : at+4]
	return uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 | uint32(b[3])<<24
}

// Text returns a text by its index.
func (f *File) Text(id uint32) string {
	at := f.at(texts, int(id))
	start := uint32(0)
	if id > 0 {
		start = f.u32(at - 4)
	}
	h := f.section[heap].start
	return f.data[h+int(start) : h+int(f.u32(at))]
}

// Release returns the name of the source release.
func (f *File) Release() string { return f.Text(f.u32(f.at(release, 0))) }

// Group returns the name of a food group.
func (f *File) Group(i int) string { return f.Text(f.u32(f.at(groups, i))) }

// NumFoods returns how many foods there are.
func (f *File) NumFoods() int { return f.section[foods].count }

// Food returns the record of food i.
func (f *File) Food(i int) Food {
	at := f.at(foods, i)
	return Food{
		Number: f.u32(at), Name: f.u32(at + 4), Description: f.u32(at + 8), AddedBasis: f.u32(at + 12),
		RefuseWhat: f.u32(at + 16), DensityLike: f.u32(at + 20), Portions: f.u32(at + 24),
		Density: f.u16(at + 28), Contains: f.u16(at + 30), May: f.u16(at + 32), Family: f.u16(at + 34),
		Group: f.data[at+36], State: f.data[at+37], Flags: f.data[at+38], Refuse: f.data[at+39],
	}
}

// FoodIndex returns the index of the food with a number.
func (f *File) FoodIndex(number uint32) (int, bool) {
	n := f.NumFoods()
	i := sort.Search(n, func(i int) bool { return f.u32(f.at(foods, i)) >= number })
	return i, i < n && f.u32(f.at(foods, i)) == number
}

// NumColumns returns how many columns there are.
func (f *File) NumColumns() int { return len(f.columns) }

// ColumnTag returns the tagname of a column.
func (f *File) ColumnTag(column int) string { return f.Text(f.columns[column].Tag) }

// Value returns the figure of a food in a column: value times 10 to the
// decimals. It returns false if there is no value.
func (f *File) Value(column, food int) (value uint32, decimals int, ok bool) {
	c := f.columns[column]
	at := f.section[values].start + int(c.Start) + food*int(c.Width)
	if c.Width == 2 {
		v := f.u16(at)
		return uint32(v), int(c.Decimals), v != math.MaxUint16
	}
	v := f.u32(at)
	return v, int(c.Decimals), v != NoValue
}

// Portion returns portion i of the whole table.
func (f *File) Portion(i int) Portion {
	at := f.at(portions, i)
	return Portion{f.u32(at), f.u32(at + 4), f.u16(at + 8), f.u16(at + 10), f.u16(at + 12), f.u16(at + 14)}
}

// PortionsOf returns the range of the portions of a food: first to end - 1.
func (f *File) PortionsOf(food int) (first, end int) {
	first, end = int(f.Food(food).Portions), f.section[portions].count
	if food+1 < f.NumFoods() {
		end = int(f.Food(food + 1).Portions)
	}
	return first, end
}

// NamesOf returns the range of the names with a hash: first to end - 1.
func (f *File) NamesOf(hash uint32) (first, end int) {
	n := f.NumNames()
	first = sort.Search(n, func(i int) bool { return f.u32(f.at(names, i)) >= hash })
	end = first
	for end < n && f.u32(f.at(names, end)) == hash {
		end++
	}
	return first, end
}

// NumNames returns how many names there are.
func (f *File) NumNames() int { return f.section[names].count }

// Name returns name i in the order of the hashes.
func (f *File) Name(i int) Name {
	at := f.at(names, i)
	return Name{f.u32(at), f.u32(at + 4), f.u16(at + 8), f.u16(at + 10)}
}

// NumDocs returns how many docs there are.
func (f *File) NumDocs() int { return f.section[docs].count }

// Doc returns doc i.
func (f *File) Doc(i int) Doc {
	at := f.at(docs, i)
	return Doc{f.u16(at), f.u16(at + 2), f.u16(at + 4)}
}

// NumWords returns the size of the vocabulary.
func (f *File) NumWords() int { return f.section[words].count }

// Word returns word i in the order of the texts.
func (f *File) Word(i int) Word {
	at := f.at(words, i)
	return Word{f.u32(at), f.u32(at + 4), f.u32(at + 8)}
}

// WordIndex returns the index of a word of the vocabulary.
func (f *File) WordIndex(word string) (int, bool) {
	n := f.NumWords()
	i := sort.Search(n, func(i int) bool { return f.Text(f.u32(f.at(words, i))) >= word })
	return i, i < n && f.Text(f.u32(f.at(words, i))) == word
}

// PostingsOf returns the range of the postings of a word: first to end - 1.
func (f *File) PostingsOf(word int) (first, end int) {
	first, end = int(f.Word(word).Postings), f.section[postings].count
	if word+1 < f.NumWords() {
		end = int(f.Word(word + 1).Postings)
	}
	return first, end
}

// Posting returns the doc of posting i.
func (f *File) Posting(i int) int { return int(f.u16(f.at(postings, i))) }

func (f *File) member(i int) Member {
	at := f.at(family, i)
	return Member{f.u16(at), f.u16(at + 2)}
}

// Family returns the foods of a family, in the order of the foods.
func (f *File) Family(number uint16) []int {
	n := f.section[family].count
	i := sort.Search(n, func(i int) bool { return f.member(i).Family >= number })
	var members []int
	for ; i < n && f.member(i).Family == number; i++ {
		members = append(members, int(f.member(i).Food))
	}
	return members
}
