package grammar

import "strings"

// Item is one food of an ingredient line with its amount. Words are in lower
// case, as written, brackets and commas taken out.
type Item struct {
	Amount    *Amount    // nil if none was written
	Words     []string   // the food and what stands beside it: "finely chopped fresh parsley"
	Prep      []string   // what follows the food's name: "drained", "rinsed"
	Tail      [][]string // the same by commas: {"drained", "and", "rinsed"}, {"at", "room", "temperature"}
	Aside     []string   // bracketed remarks and what follows "such as", each whole
	Or        []Item     // the other choices, in order
	Shares    []string   // words of a neighbour that may complete these: "red" or "green bell pepper"
	Part      Part       // the part of the food that is used
	Optional  bool
	Uncounted string   // why nothing is counted: "to taste", "a few", "for frying"; empty if there is an amount
	More      string   // what is added on top without an amount: "plus more for dusting"
	Notes     []string // how a doubtful amount was read, in plain words
}

// Part is the part of a fruit that a line asks for.
type Part uint8

// The parts: the whole food, its juice, its zest.
const (
	Whole Part = iota
	Juice
	Zest
)

// Amount is how much: the sum of its terms. Same holds the same amount said
// another way ("8 oz / 225 g", "3 carrots (1 cup)").
type Amount struct {
	Terms []Term
	Same  []Amount
	Words []string // preparation that belongs to this amount: "(1 cup sliced)"
	Total bool     // in Same of several pieces: of all of them, not of one
}

// Term is a quantity of one measure.
type Term struct {
	Quantity Quantity
	Measure  *Measure // nil for whole items: "3 carrots"
	Size     string   // small, medium, large, extra large, jumbo, mini; or empty
	Each     *Term    // what one of them holds or weighs: "2 (400 g) tins"
	Heaped   bool     // written heaped, rounded or generous; read as level
}

// String writes the term so that it parses back to the same term.
func (t Term) String() string {
	var b strings.Builder
	b.WriteString(t.Quantity.String())
	if t.Each != nil && t.Measure != nil && t.Measure.Kind == Container {
		b.WriteString(" (" + t.Each.String() + ")")
	}
	if t.Heaped {
		b.WriteString(" heaped")
	}
	switch t.Size {
	case "":
	case "thumb": // a thumb is a measure too
		b.WriteString(" thumb-sized")
	default:
		b.WriteString(" " + t.Size)
	}
	if t.Measure != nil {
		b.WriteString(" " + t.Measure.Name)
	}
	if t.Each != nil && (t.Measure == nil || t.Measure.Kind != Container) {
		b.WriteString(" (" + t.Each.String() + " each)")
	}
	return b.String()
}

// String writes the amount so that it parses back to the same amount; what
// was said another way follows in brackets.
func (a Amount) String() string {
	var b strings.Builder
	for i, t := range a.Terms {
		if i > 0 {
			b.WriteString(" plus ")
		}
		b.WriteString(t.String())
	}
	for _, same := range a.Same {
		b.WriteString(" (" + strings.Join(append([]string{same.String()}, same.Words...), " "))
		if same.Total {
			b.WriteString(" total")
		}
		b.WriteString(")")
	}
	return b.String()
}

// IsPreparation reports whether word, in lower case, tells of preparation or
// grade and not of the food itself.
func IsPreparation(word string) bool {
	return preparation[word] || strings.HasSuffix(word, "ly") && !notAdverbs[word]
}

// String writes the item as an ingredient line: amount, food, preparation.
func (i Item) String() string {
	var parts []string
	if i.Amount != nil {
		parts = append(parts, i.Amount.String())
	}
	switch i.Part {
	case Juice:
		parts = append([]string{"juice of"}, parts...)
	case Zest:
		parts = append([]string{"zest of"}, parts...)
	}
	s := strings.Join(append(parts, i.Words...), " ")
	if len(i.Prep) > 0 {
		s += ", " + strings.Join(i.Prep, " ")
	}
	if i.Amount == nil && i.Uncounted != "" && i.Uncounted != "no amount" {
		s += ", " + i.Uncounted
	}
	if i.Optional {
		s += " (optional)"
	}
	return s
}
