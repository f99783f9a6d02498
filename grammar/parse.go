package grammar

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

var lineParser = participle.MustBuild[lineNode](
	participle.Lexer(lineLexer{}),
	participle.CaseInsensitive("Word", "Number"),
	participle.UseLookahead(24),
)

// parseNode parses one cleaned line. The grammar accepts any sequence of
// tokens, so an error means a fault in the grammar itself; the line is then
// given as a single word rather than lost.
func parseNode(s string) *lineNode {
	node, err := lineParser.ParseString("", s)
	if err != nil {
		return &lineNode{Parts: []*partNode{{Word: s}}}
	}
	return node
}

// number returns the exact value of a number node; ok is false if it has
// none ("1/0") or is longer than any kitchen needs.
func (n *numberNode) number() (value *big.Rat, ok bool) {
	switch {
	case n.Whole != "":
		whole, ok1 := parseDigits(n.Whole)
		part, ok2 := parseDigits(n.Part)
		if !ok1 || !ok2 {
			return nil, false
		}
		return whole.Add(whole, part), true
	case n.Digit != "":
		value, ok = parseDigits(n.Digit)
		if ok && n.Dozen {
			value.Mul(value, big.NewRat(12, 1))
		}
		return value, ok
	case len(n.Words) > 0:
		return wordsNumber(n.Words), true
	}
	return big.NewRat(1, 1), true // a, an
}

// maxDigits bounds the digits of one number; longer ones are no amounts.
const maxDigits = 9

// parseDigits reads "2", "1,000", "1.5", "1,5", "1/2" or "½" exactly.
func parseDigits(s string) (*big.Rat, bool) {
	if r, _ := utf8.DecodeRuneInString(s); vulgar[r] != [2]int64{} {
		return big.NewRat(vulgar[r][0], vulgar[r][1]), true
	}
	if len(s) > 2*maxDigits+1 {
		return nil, false
	}
	if comma := strings.IndexByte(s, ','); comma >= 0 {
		if len(s)-comma == 4 || strings.Count(s, ",") > 1 {
			s = strings.ReplaceAll(s, ",", "") // thousands
		} else {
			s = strings.Replace(s, ",", ".", 1) // decimal comma
		}
	}
	if len(s) > maxDigits+1 && !strings.ContainsAny(s, "./") {
		return nil, false
	}
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	return new(big.Rat).SetString(s) // false for a zero denominator
}

// wordsNumber reads "two", "half a", "one and a half", "two thirds",
// "half a dozen", "two dozen".
func wordsNumber(words []string) *big.Rat {
	total, term := new(big.Rat), big.NewRat(1, 1)
	for _, w := range words {
		w = strings.ToLower(w)
		if w == "and" {
			total.Add(total, term)
			term = big.NewRat(1, 1)
		} else if n, ok := numberWords[w]; ok {
			term.Mul(term, big.NewRat(n[0], n[1]))
		}
	}
	return total.Add(total, term)
}

func (n *quantityNode) quantity() (Quantity, *Fault) {
	low, ok := n.Low.number()
	if !ok {
		return Quantity{}, numberFault(n.Low)
	}
	if n.High == nil {
		return Quantity{low, low}, nil
	}
	high, ok := n.High.number()
	if !ok {
		return Quantity{}, numberFault(n.High)
	}
	if high.Cmp(low) < 0 {
		low, high = high, low
	}
	return Quantity{low, high}, nil
}

func numberFault(n *numberNode) *Fault {
	typed := n.Digit
	if n.Whole != "" {
		typed = n.Whole + " " + n.Part
	}
	return &Fault{Column: n.Pos.Column, Part: typed, Reason: "is not an amount a kitchen has",
		Hint: "write it like 2, 1/2, 1 1/2 or 0.75"}
}

// measureOf returns the measure a unit token stands for.
func measureOf(unit string) *Measure {
	if m, ok := MeasureNamed(unit); ok {
		return m
	}
	plain := strings.NewReplacer(".", " ", "-", " ").Replace(strings.ToLower(unit))
	switch words := strings.Fields(plain); {
	case len(words) == 2 && (words[0] == "fl" || words[0] == "fluid"):
		return measureByWord["fl oz"]
	case len(words) == 2:
		if m := measureByWord[words[0]+words[1]]; m != nil {
			return m
		}
		if m := measureByWord[words[0]+strings.TrimSuffix(words[1], "s")]; m != nil {
			return m
		}
	}
	panic(fmt.Sprintf("grammar: the lexer took %q for a measure", unit))
}

func (n *termNode) term() (Term, *Fault) {
	q, fault := n.Quantity.quantity()
	return Term{Quantity: q, Measure: measureOf(n.Unit), Heaped: anyHeaped(n.Hedge)}, fault
}

func (n *packageNode) term(count Quantity) (Term, *Fault) {
	holds, fault := n.Holds.term()
	return Term{Quantity: count, Size: sizeOf(n.Size), Measure: measureOf(n.Unit), Each: &holds}, fault
}

func (n *firstNode) term() (Term, *Fault) {
	if n.Bare != nil {
		return n.Bare.term(Exactly(1, 1))
	}
	q, fault := n.Count.quantity()
	if fault != nil {
		return Term{}, fault
	}
	if n.Package != nil {
		return n.Package.term(q)
	}
	t := Term{Quantity: q, Size: sizeOf(n.Size), Heaped: anyHeaped(n.Hedge) || anyHeaped(n.Level)}
	if n.Unit != "" {
		t.Measure = measureOf(n.Unit)
	}
	return t, nil
}

// amount evaluates the node. A count without a measure followed by a weight
// is that many of that weight ("four 6-ounce"), a container followed by one
// is what the container holds ("1 can 14 oz").
func (n *amountNode) amount() (Amount, *Fault) {
	first, fault := n.Sum.First.term()
	if fault != nil {
		return Amount{}, fault
	}
	a := Amount{Terms: []Term{first}}
	for _, more := range n.Sum.More {
		t, fault := more.term()
		if fault != nil {
			return Amount{}, fault
		}
		if lead := &a.Terms[0]; len(a.Terms) == 1 && lead.Each == nil &&
			(lead.Measure == nil || lead.Measure.Kind == Container) {
			lead.Each = &t
			continue
		}
		a.Terms = append(a.Terms, t)
	}
	for _, same := range n.Same {
		var other Amount
		for _, n := range same.Terms {
			t, fault := n.term()
			if fault != nil {
				return Amount{}, fault
			}
			other.Terms = append(other.Terms, t)
		}
		a.Same = append(a.Same, other)
	}
	return a, nil
}

func sizeOf(word string) string {
	word = strings.TrimSuffix(strings.ToLower(word), ".")
	if strings.HasPrefix(word, "extra") {
		return "extra large"
	}
	return sizes[word]
}

func anyHeaped(words []string) bool {
	for _, w := range words {
		if heaped[strings.ToLower(w)] {
			return true
		}
	}
	return false
}

// balance turns brackets without a partner, and those nested deeper than
// two, into plain marks, so that the grammar need not look far ahead.
func balance(tokens []lexer.Token) {
	var open []int
	for i := range tokens {
		switch tokens[i].Type {
		case tokOpen:
			open = append(open, i)
		case tokClose:
			if len(open) == 0 {
				tokens[i].Type = tokMark
				continue
			}
			if len(open) > 2 {
				tokens[i].Type, tokens[open[len(open)-1]].Type = tokMark, tokMark
			}
			open = open[:len(open)-1]
		}
	}
	for _, i := range open {
		tokens[i].Type = tokMark
	}
}
