package grammar

import (
	"fmt"
	"math/big"
	"slices"
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
		value = whole.Add(whole, part)
	case n.Digit != "":
		if value, ok = parseDigits(n.Digit); !ok {
			return nil, false
		}
		if n.Half != "" {
			value.Add(value, wordsNumber([]string{n.Half}))
		}
	case len(n.Words) > 0:
		value = wordsNumber(n.Words)
	default: // a, an
		return big.NewRat(1, 1), true
	}
	if n.Dozen {
		value.Mul(value, dozen)
	}
	return value, readable(value)
}

// maxDigits bounds the digits before and after a point or a fraction's line;
// longer numbers are no amounts, and so is tooMuch.
const maxDigits = 9

var tooMuch, dozen = rat("1000000000"), rat("12")

// readable reports whether r, as written by Quantity, would be read again.
func readable(r *big.Rat) bool {
	return r.Cmp(tooMuch) < 0 && r.Denom().Cmp(tooMuch.Num()) <= 0
}

// parseDigits reads "2", "1,000", "1.5", "1,5", "1/2" or "½" exactly, and such
// numbers with blanks or letters as scanMisread finds them.
func parseDigits(s string) (*big.Rat, bool) {
	if r, _ := utf8.DecodeRuneInString(s); vulgar[r] != [2]int64{} {
		return big.NewRat(vulgar[r][0], vulgar[r][1]), true
	}
	s = misreadDigit.Replace(s)
	if comma := strings.IndexByte(s, ','); comma >= 0 {
		if len(s)-comma == 4 || strings.Count(s, ",") > 1 {
			s = strings.ReplaceAll(s, ",", "") // thousands
		} else {
			s = strings.Replace(s, ",", ".", 1) // decimal comma
		}
	}
	for _, digits := range strings.FieldsFunc(s, func(r rune) bool { return !isDigit(r) }) {
		if len(digits) > maxDigits {
			return nil, false
		}
	}
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	return new(big.Rat).SetString(s) // false for a zero denominator
}

// wordsNumber reads "two", "half a", "one and a half", "two thirds",
// "twenty four", "one hundred twenty", "half a dozen", "one and a half
// dozen", "a dozen and a half".
func wordsNumber(words []string) *big.Rat {
	total, term := new(big.Rat), new(big.Rat)
	part := rat("1") // what a "half" is half of
	last := int64(0) // the whole number just read, else 0
	for _, w := range words {
		w = strings.ToLower(w)
		n, isNumber := numberWords[w]
		switch {
		case w == "and" || w == "&":
			total.Add(total, term)
			term, last = new(big.Rat), 0
		case w == "dozen" || w == "doz":
			if total.Add(total, term).Sign() == 0 {
				total.Set(one)
			}
			total.Mul(total, dozen)
			term, part, last = new(big.Rat), dozen, 0
		case !isNumber: // a, an
		case term.Sign() == 0:
			term, last = big.NewRat(n[0], n[1]), n[0]/n[1]
			if n[1] != 1 {
				term.Mul(term, part)
			}
		case last >= 20 && n[0] < min(last, 100) && n[1] == 1: // twenty four
			term.Add(term, big.NewRat(n[0], 1))
			last = n[0]
		default: // two thirds, two hundred
			term.Mul(term, big.NewRat(n[0], n[1]))
			last = term.Num().Int64() / term.Denom().Int64()
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
	if dozens := new(big.Rat).Mul(low, dozen); n.High.inDozens() && !n.Low.inDozens() && dozens.Cmp(high) <= 0 {
		low = dozens // "2 to 3 dozen"
	}
	if high.Cmp(low) < 0 {
		low, high = high, low
	}
	return Quantity{low, high}, nil
}

// inParts reports the "quarters" of "3 quarters cup".
func (n *numberNode) inParts() bool {
	return len(n.Words) > 0 && numberWords[strings.ToLower(n.Words[0])][1] > 1
}

func (n *numberNode) inDozens() bool {
	return n.Dozen || slices.ContainsFunc(n.Words, func(w string) bool { return strings.EqualFold(w, "dozen") || strings.EqualFold(w, "doz") })
}

// typed is the number as it was typed.
func (n *numberNode) typed() string {
	switch {
	case n.Whole != "":
		return n.Whole + " " + n.Part
	case len(n.Words) > 0:
		return strings.Join(n.Words, " ")
	}
	return strings.TrimSpace(n.Digit + n.One + " " + n.Half)
}

const amountHint = "write it like 2, 1/2, 1 1/2 or 0.75"

func numberFault(n *numberNode) *Fault {
	return &Fault{Column: n.Pos.Column, Part: n.typed(), Reason: "is not an amount a kitchen has",
		Hint: amountHint}
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
	holds, fault := n.Holds[0].term() // the others say the same again
	return Term{Quantity: count, Size: sizeOf(n.Grade + n.Size), Measure: measureOf(n.Unit), Each: &holds}, fault
}

// dashedCount reports whether a dash parts a count from what one package
// holds, and makes no range: "1-15 oz can", "2-5 oz cans".
func (n *packageNode) dashedCount() bool {
	q := n.Holds[0].Quantity
	return q.High != nil && q.Dash && (q.Low.Digit == "1" || strings.HasSuffix(strings.ToLower(n.Unit), "s"))
}

func (n *manyNode) term() (Term, *Fault) {
	each, fault := n.Holds.term()
	if fault != nil {
		return Term{}, fault
	}
	count, fault := n.Count.quantity()
	t := Term{Quantity: count, Each: &each}
	if n.Unit != "" {
		t.Measure = measureOf(n.Unit)
	}
	return t, fault
}

// unitless reports a number that counts whole things.
func (n *firstNode) unitless() bool {
	return n.Unit == "" && n.Package == nil && n.Bare == nil && n.Many == nil
}

// dashedPieces reports ounces or grams with a dash or a stroke in them that may
// part a count from a size: "4-6 oz", "2/8 oz".
func (n *firstNode) dashedPieces() bool {
	if n.Count == nil || n.Unit == "" || !(n.Count.High != nil && n.Count.Dash) && !n.Count.Low.countAndSize() {
		return false
	}
	m := measureOf(n.Unit)
	return m.Name == "oz" || m.Name == "g"
}

func (n *firstNode) term() (Term, *Fault) {
	if n.Bare != nil && n.Bare.Holds[0].Quantity.Low.countAndSize() {
		return Term{}, doubtful(n.Bare.Holds[0].Quantity.Low)
	}
	if n.Bare != nil {
		t, fault := n.Bare.term(Exactly(1, 1).and(n.Part))
		if fault == nil && n.Bare.dashedCount() {
			dashed := n.Bare.Holds[0].Quantity
			count, _ := dashed.Low.number()
			each, _ := dashed.High.number()
			t.Quantity, t.Each.Quantity = Quantity{count, count}, Quantity{each, each}
		}
		return t, fault
	}
	if n.Many != nil {
		return n.Many.term()
	}
	q, fault := n.Count.quantity()
	if fault != nil {
		return Term{}, fault
	}
	q = q.and(n.Part)
	if n.Package != nil {
		return n.Package.term(q)
	}
	t := Term{Quantity: q, Size: sizeOf(n.Size), Heaped: anyHeaped(n.Hedge) || anyHeaped(n.Level)}
	if n.Unit != "" {
		t.Measure = measureOf(n.Unit)
	}
	return t, nil
}

// countAndSize reports a fraction that no cook weighs: "2/8 oz packages" are two
// of 8 oz.
func (n *numberNode) countAndSize() bool {
	above, below, ok := strings.Cut(n.Digit, "/")
	if !ok || n.Whole != "" {
		return false
	}
	r, ok := parseDigits(n.Digit)
	if !ok || r.Num().Sign() == 0 {
		return false
	}
	switch r.Denom().Int64() {
	case 2, 3, 4, 5, 6, 8, 10, 16:
		return misreadDigit.Replace(above) != r.Num().String() || misreadDigit.Replace(below) != r.Denom().String()
	}
	return true
}

// and adds a part in words to q: the "half" of "a cup and a half".
func (q Quantity) and(part string) Quantity {
	more := wordsNumber([]string{part})
	if more.Sign() == 0 {
		var ok bool
		if more, ok = parseDigits(part); !ok {
			return q
		}
	}
	return Quantity{new(big.Rat).Add(q.Low, more), new(big.Rat).Add(q.High, more)}
}

// amount evaluates the node. A count without a measure followed by a weight
// is that many of that weight ("four 6-ounce"), a container followed by one
// is what the container holds ("1 can 14 oz"). Of two measures side by side
// the second is added to the first if it is the lesser part of it
// ("1 lb 8 oz"); else it says the same again ("8 oz 225 g").
func (n *amountNode) amount() (Amount, *Fault) {
	first, fault := n.Sum.First.term()
	if fault != nil {
		return Amount{}, fault
	}
	a := Amount{Terms: []Term{first}}
	for _, more := range n.Sum.More {
		t, fault := more.Term.term()
		if fault != nil {
			return Amount{}, fault
		}
		if first.Measure == nil && first.Size == "" && first.Each == nil && !more.Plus && (t.Measure.Kind == Volume && !more.Term.Joint && !more.Term.Quantity.Low.inParts() || n.Sum.First.Comma != "" && largeWeight(t.Measure)) {
			return Amount{}, doubtful(n.Sum.First.Count.Low) // "1 2 cups"
		}
		if more.Plus || a.Terms[len(a.Terms)-1].hasPart(t) {
			a.Terms = append(a.Terms, t)
		} else {
			a.sayBeside(t)
		}
	}
	if n.To != nil {
		end, fault := n.To.term()
		if fault != nil {
			return Amount{}, fault
		}
		if !a.extend(end) {
			a.sayBeside(end)
		}
	}
	for _, same := range n.Same {
		if first.Measure == nil && first.Size == "" && first.Each == nil && !same.Or {
			return Amount{}, doubtful(n.Sum.First.Count.Low) // "11 / 2 cups"
		}
		var other Amount
		for _, n := range same.Terms {
			t, fault := n.term()
			if fault != nil {
				return Amount{}, fault
			}
			other.Terms = append(other.Terms, t)
		}
		if !same.Or || len(other.Terms) > 1 || !a.extend(other.Terms[0]) {
			a.sayAgain(other)
		}
	}
	return a, nil
}

// doubtful is the fault of two numbers before one measure, which may be a
// fraction that lost its stroke, a range, or a digit too many.
func doubtful(n *numberNode) *Fault {
	fault := numberFault(n)
	fault.Reason = moreThanOneReading
	return fault
}

const moreThanOneReading = "can be read as more than one amount"

// hasPart reports whether next is the lesser part of an amount that begins
// with t: the 8 oz of "1 lb 8 oz".
func (t Term) hasPart(next Term) bool {
	return alike(t.Measure, next.Measure) && t.Quantity.Low.IsInt() &&
		next.Quantity.Times(next.Measure.Amount).High.Cmp(t.Measure.Amount) < 0
}

// alike reports whether a and b are both volumes or both weights, and
// of one system, so that an amount in the one is not merely the other's
// conversion.
func alike(a, b *Measure) bool {
	return a != nil && b != nil && a.Kind == b.Kind && (a.Kind == Volume || a.Kind == Weight) && metricMeasures[a.Name] == metricMeasures[b.Name]
}

var metricMeasures = set("mg g kg ml cl dl l")

// extend makes a single term a range up to end, in the term's own measure:
// "2 cups to 3 cups", "12 oz to 1 lb". It reports false if end is no such end.
func (a *Amount) extend(end Term) bool {
	t := &a.Terms[0]
	if len(a.Terms) > 1 || t.Each != nil || t.Quantity.IsRange() || !alike(t.Measure, end.Measure) {
		return false
	}
	low, high := t.Quantity.Low, end.Quantity.Times(new(big.Rat).Quo(end.Measure.Amount, t.Measure.Amount)).High
	if !readable(high) {
		return false
	}
	if high.Cmp(low) < 0 {
		low, high = high, low
	}
	t.Quantity = Quantity{low, high}
	return true
}

// plus adds b where it is more of the same ("2 eggs plus 1 for brushing") or
// a volume or weight on top of it; ok is false if it is neither. What was
// said to be the same as a is not the same as the sum.
func (a Amount) plus(b Amount) (sum Amount, ok bool) {
	sum = Amount{Terms: slices.Clone(a.Terms)}
	for _, t := range b.Terms {
		last := &sum.Terms[len(sum.Terms)-1]
		switch {
		case t.Each != nil || t.Size != last.Size && t.Size != "":
			return Amount{}, false
		case t.Measure == last.Measure && last.Each == nil:
			low, high := new(big.Rat).Add(last.Quantity.Low, t.Quantity.Low), new(big.Rat).Add(last.Quantity.High, t.Quantity.High)
			if !readable(low) || !readable(high) {
				return Amount{}, false
			}
			last.Quantity = Quantity{low, high}
		case t.Measure != nil && (t.Measure.Kind == Volume || t.Measure.Kind == Weight):
			sum.Terms = append(sum.Terms, t)
		default:
			return Amount{}, false
		}
	}
	return sum, true
}

// sayBeside adds a term that stands beside the amount: what each of a count
// weighs, what each container holds, or else the same amount once more.
func (a *Amount) sayBeside(t Term) {
	if lead := &a.Terms[0]; len(a.Terms) == 1 && lead.Each == nil && (lead.Measure == nil || lead.Measure.Kind == Container) {
		lead.Each = &t
		return
	}
	a.sayAgain(Amount{Terms: []Term{t}})
}

// sayAgain adds the same amount said another way. The weight of a single
// container is what it holds.
func (a *Amount) sayAgain(same Amount) {
	further := same.Same
	same.Same = nil
	t := a.Terms[0]
	if len(a.Terms) == 1 && t.Each == nil && isKind(t.Measure, Container) && isOne(t.Quantity) && len(same.Terms) == 1 && isKind(same.Terms[0].Measure, Weight) && len(same.Words) == 0 {
		a.Terms[0].Each = &same.Terms[0]
		return
	}
	same.Total = (t.Measure == nil || t.Measure.Kind == Count || t.Measure.Kind == Container) && !isOne(t.Quantity)
	a.Same = append(a.Same, same)
	for _, f := range further {
		a.sayAgain(f)
	}
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
