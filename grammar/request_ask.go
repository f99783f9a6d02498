package grammar

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"
)

// askedNode is a plain question about the recipe in hand.
type askedNode struct {
	Show    bool          `parser:"  @( ( 'show' ( 'me' )? | 'print' | 'repeat' | 'what' ( 'is' | 'are' ) )? ( 'the' | 'this' | 'my' )? ( 'recipe' | 'figures' | 'overview' | 'summary' | 'nutrition' ( 'facts' )? ) ( 'again' | 'per' 'serving' )? | 'show' ( 'me' )? ( 'it' | 'this' | 'that' )? 'again' | 'show' ( 'me' )? ( 'it' | 'this' ) | 'what' 'is' 'in' ( 'it' | 'this' | 'the' 'recipe' | ( Article | 'one' | 'each' ) ( 'serving' | 'portion' ) ) ) EOF"`
	Hundred bool          `parser:"| @( ( 'show' ( 'me' )? )? ( 'the' | 'all' )* ( 'figures' | 'nutrition' | 'values' | 'numbers' )? 'per' '100' ( Weight | 'g' ) ) EOF"`
	Suit    *suitNode     `parser:"| @@"`
	Food    *foodSuitNode `parser:"| @@"`
	Figure  *figureNode   `parser:"| @@ EOF"`
}

// suitNode asks whether the dish suits someone, or holds something: "is it
// gluten free", "does it contain nuts", "are there nuts in it", "can my client
// with diabetes eat this", "safe for pregnancy".
type suitNode struct {
	Is    *restNode `parser:"  ( 'is' | 'are' | 'would' ) ( ( 'this' | 'that' | 'the' | 'my' | 'our' ) ( 'recipe' | 'dish' | 'meal' | 'soup' | 'one' ) | 'it' | 'this' | 'that' | 'they' | 'these' ) ( 'be' | 'also' | 'really' )* @@"`
	Has   *restNode `parser:"| ( 'does' | 'do' ) ( ( 'this' | 'that' | 'the' | 'my' | 'our' ) ( 'recipe' | 'dish' | 'meal' | 'soup' | 'one' ) | 'it' | 'this' | 'that' | 'they' | 'these' ) ( 'contain' | 'contains' | 'have' | 'has' | 'include' | 'use' ) ( 'any' )? @@"`
	There *restNode `parser:"| ( 'is' | 'are' ) 'there' ( 'any' )? @@"`
	Any   *restNode `parser:"| 'any' @@"`
	Who   *whoNode  `parser:"| ( 'can' | 'could' | 'may' | 'should' | 'would' ) @@ ( 'eat' | 'have' | 'drink' ) ( ( 'this' | 'that' | 'the' | 'my' | 'our' ) ( 'recipe' | 'dish' | 'meal' | 'soup' | 'one' ) | 'it' | 'this' | 'that' | 'they' | 'these' )"`
	When  *restNode `parser:"    ( @@ )?"`
	Eater *whoNode  `parser:"| ( 'can' | 'could' | 'may' | 'should' ) @@ ( 'eat' | 'have' | 'drink' )"`
	What  *restNode `parser:"    @@"`
	For   *restNode `parser:"| ( 'safe' | 'suitable' | 'ok' | 'okay' | 'good' ) 'for' @@"`
}

// whoNode is who would eat.
type whoNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'eat' | 'have' | 'drink' | 'call' | 'say' | 'claim' | 'describe' ) @( Int | Decimal | Fraction | Number | Article | Volume | Weight | Count | Container | Size | Hedge | Dash | Slash | Comma | Word | Mark ) )+"`
}

// figureNode asks for a figure of the recipe: "how much sodium per serving",
// "how many grams of fibre are in it", "what is the potassium", "calories in
// the whole recipe". Without a word for the recipe it must begin as a question.
type figureNode struct {
	What  *figureWords `parser:"  ( 'how' ( 'much' | 'many' ) ( ( Weight | 'mcg' | 'micrograms' ) 'of' )? ( 'the' )? @@"`
	Tail  *figureTail  `parser:"    ( @@ )? )"`
	The   *figureWords `parser:"| ( ( 'what' ( 'is' | 'are' ) ( 'the' )? | ( 'what' | 'how' ) 'about' ( 'the' )? ) @@"`
	After *figureTail  `parser:"    ( @@ )? )"`
	Bare  *figureWords `parser:"| ( ( 'the' )? ( Weight 'of' )? @@"`
	Of    *figureTail  `parser:"    @@ )"`
}

// figureWords are the words that should name a figure.
type figureWords struct {
	Words []string `parser:"( (?! 'is' | 'are' | 'in' | 'of' | 'from' | 'per' | 'for' | 'each' | 'there' | 'does' | 'do' | 'did' | 'I' | 'we' | 'have' | 'contain' | 'has' | 'it' | 'this' | 'that' | 'altogether' | 'vs' | 'versus' | 'or' | 'about' | 'with' | 'show' | 'how' | 'compare' ) @( Word | Count | Size ) @Comma? )+"`
}

// figureTail says that the recipe is meant, and whether all of it or a serving.
type figureTail struct {
	Is      bool          `parser:"  @( ( 'is' | 'are' | 'does' | 'do' ) ( ( 'this' | 'that' | 'the' | 'my' | 'our' ) ( 'recipe' | 'dish' | 'meal' | 'soup' | 'one' ) | 'it' | 'this' | 'that' | 'they' | 'these' ) ( 'have' | 'contain' | 'hold' )? )"`
	Small   bool          `parser:"| ( 'is' | 'are' | 'there' | 'content' | 'do' | 'does' | 'I' | 'we' | 'get' )*"`
	Whole   bool          `parser:"  ( @( ( 'in' | 'of' | 'for' | 'from' )? ( 'the' | 'this' ) ( 'whole' | 'entire' | 'full' ) ( 'recipe' | 'dish' | 'batch' | 'pot' | 'thing' | 'pan' | 'cake' ) | 'in' ( 'all' | 'total' ) | 'altogether' )"`
	One     bool          `parser:"  | @( ( 'in' | 'of' | 'for' | 'from' | 'per' )? ( Article | '1' | 'one' | 'each' | 'per' | 'every' | 'the' )? ( 'serving' | 'portion' | 'person' ) )"`
	Hundred bool          `parser:"  | @( 'per' '100' ( Weight | 'g' ) ( 'of' 'it' )? )"`
	Many    *quantityNode `parser:"  | ( 'in' | 'of' | 'for' | 'from' ) @@ ( 'servings' | 'portions' | 'serving' )"`
	It      bool          `parser:"  | @( ( 'in' | 'of' | 'for' | 'from' ) ( ( 'this' | 'that' | 'the' | 'my' | 'our' ) ( 'recipe' | 'dish' | 'meal' | 'soup' | 'one' ) | 'it' | 'this' | 'that' | 'they' | 'these' ) ) )"`
}

// asked evaluates a plain question about the recipe in hand.
func (c *change) asked(n *askedNode) (Request, bool) {
	switch {
	case n.Show:
		return Request{Kind: ShowRecipe}, true
	case n.Hundred:
		return Request{Kind: RecipeFigure, Hundred: true, sure: true}, true
	case n.Suit != nil:
		return c.suit(n.Suit)
	case n.Food != nil:
		return c.foodSuit(n.Food)
	}
	f := n.Figure
	words, tail := f.What, f.Tail
	switch {
	case f.Of != nil:
		words, tail = f.Bare, f.Of
	case f.The != nil:
		words, tail = f.The, f.After
	}
	r := Request{Kind: RecipeFigure, Nutrient: strings.TrimRight(strings.ReplaceAll(strings.Join(words.Words, " "), " ,", ","), ","), Whole: tail != nil && tail.Whole, Hundred: tail != nil && tail.Hundred}
	if first, rest, more := strings.Cut(r.Nutrient, " "); more && strings.EqualFold(first, "total") && r.Whole {
		r.Nutrient = rest
	}
	r.Nutrient = strings.TrimSuffix(r.Nutrient, " content")
	if tail != nil && tail.Many != nil {
		n := c.quantity(tail.Many)
		r.Servings = Quantity{n, n}
	}
	r.sure = tail != nil
	return r, true
}

func (c *change) suit(n *suitNode) (Request, bool) {
	r := Request{Kind: Suitable, sure: true}
	switch {
	case n.Who != nil:
		r.Food = c.span(n.Who.Pos, n.Who.EndPos)
		if n.When != nil {
			r.Food = suits(strings.TrimPrefix(r.Food+" "+c.rest(n.When), "I "))
		}
		return r, true
	case n.Eater != nil:
		return Request{Kind: FoodSuits, Food: c.rest(n.What), New: c.span(n.Eater.Pos, n.Eater.EndPos), sure: true}, true
	case n.Is != nil:
		r.Food = c.rest(n.Is)
	case n.Has != nil:
		r.Food = c.rest(n.Has)
	case n.For != nil:
		r.Food = c.rest(n.For)
	default:
		asked := n.There
		if asked == nil {
			asked = n.Any
		}
		food, in := withoutIn(c.rest(asked))
		if what, of, found := strings.Cut(food, " in "); found && !in { // "is there gluten in soy sauce"
			return Request{Kind: FoodSuits, Food: strings.TrimSpace(of), New: what, sure: true}, true
		}
		r.Food = food
		return r, in
	}
	r.Food, _ = withoutIn(suits(r.Food))
	return r, true
}

// suits drops the words that ask whether it suits: what stays is whom or what.
func suits(s string) string {
	for _, lead := range []string{"safe", "ok", "okay", "fine", "good", "suitable", "right", "alright", "all right", "allowed", "appropriate", "bad", "to eat", "to have", "to drink", "for", "during", "in", "if", "when"} {
		if len(s) > len(lead)+1 && strings.EqualFold(s[:len(lead)+1], lead+" ") && (lead != "good" || !strings.HasPrefix(s, "good source")) {
			s = strings.TrimSpace(s[len(lead):])
		}
	}
	return s
}

// withoutIn drops "in it" at the end; ok is false if there is none.
func withoutIn(s string) (food string, ok bool) {
	for _, end := range []string{" in it", " in this", " in that", " in the recipe", " in this recipe", " in the dish", " in this dish", " in there", " in here"} {
		if len(s) > len(end) && strings.EqualFold(s[len(s)-len(end):], end) {
			return strings.TrimSpace(s[:len(s)-len(end)]), true
		}
	}
	return s, false
}

// asksDose reports a question about a dose of insulin, in any words.
func asksDose(s string) bool {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) })
	word := func(i int) string {
		if i < 0 || i >= len(words) {
			return ""
		}
		return words[i]
	}
	for i, w := range words {
		switch w {
		case "insulin", "bolus", "boluses":
			return true
		case "dose", "doses", "dosage", "dosing":
			if word(i+1) != "of" {
				return true
			}
		case "units":
			if before := word(i - 1); word(i+1) != "of" && (before == "many" || before == "much" || before == "what" || word(i+1) == "for") {
				return true
			}
		}
	}
	return false
}

// belowZero finds a number with a minus before it. A dash between two numbers
// is none, nor is one within a word or before a space.
func belowZero(s string) *Fault {
	before, afterNumber := ' ', false
	for i, r := range s {
		rest := s[i+utf8.RuneLen(r):]
		switch {
		case r == '-' || r == '−' || r == '–' || r == '‑' || r == '－':
			if end := numberEnd(rest); end > 0 && !afterNumber && (before == ' ' || before == '(' || before == ':' || before == '=') {
				return &Fault{Part: "-" + rest[:end], Reason: "cannot be below zero", Hint: "say a number above zero"}
			}
		case r == 'm' || r == 'M' || r == 'n' || r == 'N':
			if before == ' ' && !strings.ContainsAny(s[:i], "0123456789") {
				word, after, _ := strings.Cut(s[i:], " ")
				if end := numberEnd(after); end > 0 && (strings.EqualFold(word, "minus") || strings.EqualFold(word, "negative")) {
					return &Fault{Part: word + " " + after[:end], Reason: "cannot be below zero", Hint: "say a number above zero"}
				}
			}
		}
		if r != ' ' {
			afterNumber = isDigit(r) || vulgar[r] != [2]int64{}
		}
		before = r
	}
	return nil
}

// numberEnd is the length of the number that s begins with, or 0.
func numberEnd(s string) int {
	if r, width := utf8.DecodeRuneInString(s); vulgar[r] != [2]int64{} {
		return width
	}
	end := strings.IndexFunc(s, func(r rune) bool { return !isDigit(r) && r != '.' && r != ',' && r != '/' })
	if end < 0 {
		end = len(s)
	}
	if !strings.ContainsAny(s[:end], "0123456789") {
		return 0
	}
	return len(strings.TrimRight(s[:end], ".,/"))
}
