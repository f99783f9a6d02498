// Package layout reads and writes the bytes of the food table.
//
// # The bytes
//
// Whole numbers are unsigned and little-endian; u8, u16 and u32 say how many
// bits. A text is its index among the texts. The file is
//
//	magic     8 bytes "pottle\x00\x01", the last byte being the format version
//	length    u32     bytes in the whole file
//	checksum  u32     CRC-32 (Castagnoli) of all bytes after this field
//	sections  13 x {start u32, records u32}, in the order below
//	...       the records, section after section
//
// and the sections, with the size of a record:
//
//	release   4   text
//	texts     4   end u32 in the heap; a text starts where the one before ends
//	heap      1   the bytes of all texts, each text once
//	groups    4   text
//	foods    40   see Food; sorted by number
//	columns  12   see Column; one a nutrient
//	values    1   the columns' figures, food after food
//	portions 16   see Portion; food after food
//	names    12   see Name; sorted by hash
//	docs      6   see Doc; sorted by food
//	words    12   see Word; sorted by text
//	postings  2   docs in which a word occurs, word after word, ascending
//	family    4   see Member; family after family, the foods ascending
//
// A figure in a column of width 2 or 4 bytes is the value times 10 to the
// column's decimals; all bits set means no value.
package layout

// Food is a record of the foods section. Its bytes, in order, are the fields.
type Food struct {
	Number      uint32 // the USDA number
	Name        uint32 // text: our display name
	Description uint32 // text: the USDA description
	AddedBasis  uint32 // text: what the added-sugar figure rests on
	RefuseWhat  uint32 // text
	DensityLike uint32 // text
	Portions    uint32 // first portion; the next food's first portion ends them
	Density     uint16 // mg per mL; 0 is none
	Contains    uint16 // a bit an allergen
	May         uint16 // a bit an allergen
	Family      uint16 // 0 is none
	Group       uint8
	State       uint8
	Flags       uint8 // Curated, CannedLiquid
	Refuse      uint8 // per cent
}

// Bits of Food.Flags.
const (
	Curated      = 1 << 0
	CannedLiquid = 1 << 1
)

// Column says where the figures of one nutrient are.
type Column struct {
	Tag      uint32 // text: the tagname
	Start    uint32 // in the values section
	Decimals uint16
	Width    uint16 // 2 or 4
}

// Portion is a household measure of a food.
type Portion struct {
	Amount  uint32 // thousandths
	Grams   uint32 // thousandths, for Amount of Measure
	Measure uint16 // text, as are the rest
	Size    uint16
	Detail  uint16
	Source  uint16
}

// Name leads from the words of a name, in any order, to a food.
type Name struct {
	Hash uint32 // HashWords of its words in normal form
	Text uint32 // text: the name as the list writes it
	Food uint16
	Mark uint16 // MarkOpen, MarkStandIn
}

// Bits of Name.Mark.
const (
	MarkOpen    = 1 << 0 // the name leaves open which food of the family is meant
	MarkStandIn = 1 << 1 // the named food is not in the table; this is the nearest
)

// Doc is one name or description of a food, for search.
type Doc struct {
	Food   uint16
	Weight uint16 // sum of the weights of its words
	Kind   uint16 // CuratedName, RuleName, Description
}

// Kinds of Doc.
const (
	CuratedName = iota
	RuleName
	Description
)

// Word is a word of the search vocabulary.
type Word struct {
	Text     uint32
	Postings uint32 // first posting; the next word's first posting ends them
	Weight   uint32 // hundredths of the inverse document frequency
}

// Member says that a food is of a family: foods between which a bare name
// leaves the choice.
type Member struct {
	Family uint16 // 1 or more
	Food   uint16
}

const (
	magic      = "pottle\x00\x01"
	headerSize = len(magic) + 8 + sections*8
)

// Sections, in the order of the file.
const (
	release = iota
	texts
	heap
	groups
	foods
	columns
	values
	portions
	names
	docs
	words
	postings
	family

	sections
)

var sectionNames = [sections]string{
	"release", "texts", "heap", "groups", "foods", "columns", "values", "portions",
	"names", "docs", "words", "postings", "family",
}

var recordSize = [sections]int{4, 4, 1, 4, 40, 12, 1, 16, 12, 6, 12, 2, 4}

// HashWords returns a hash of words that does not depend on their order: the sum
// of their 32-bit FNV-1a hashes. Different words may share a hash, so whoever
// looks up a name compares the words too.
func HashWords(words []string) uint32 {
	var sum uint32
	for _, w := range words {
		h := uint32(2166136261)
		for i := range len(w) {
			h = (h ^ uint32(w[i])) * 16777619
		}
		sum += h
	}
	return sum
}
