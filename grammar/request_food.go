package grammar

import (
	"regexp"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// The questions about foods by themselves that need more than an amount and a
// nutrient: one measure in another, how much of a food holds so much of a
// nutrient, whether a food suits somebody.

// spanNode is a run of anything, up to what its user looks ahead for.
type spanNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'is' | 'are' | 'has' | 'have' | 'gives' | 'give' | 'provides' | 'provide' | 'contains' | 'contain' | 'makes' | 'make' | 'equals' | 'equal' | 'holds' | 'would' | 'do' | 'does' | 'for' | 'in' ) @( Int | Decimal | Fraction | Vulgar | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge | Dash | Slash | Word | Mark ) )+"`
}

// holdsNode is "how many cups is 500 g flour", "how many grapes is 15 g carb",
// "how much salt is 1500 mg sodium", "how many tbsp in 100 g peanut butter".
type holdsNode struct {
	What   *spanNode `parser:"'how' ( 'much' | 'many' ) (   ( (?= ( Volume | Weight | Count | Container ) ( 'in' | 'is' | 'are' | 'of' | 'would' | 'makes' | 'make' | 'do' ) ) @@ ( 'is' | 'are' | 'would' | 'be' | 'in' | 'there' | 'makes' | 'make' | 'do' | 'I' | 'get' | 'from' | 'for' )+ )"`
	Food   *spanNode `parser:"  | ( @@ ( 'is' | 'are' | 'has' | 'have' | 'gives' | 'give' | 'provides' | 'provide' | 'contains' | 'contain' | 'makes' | 'make' | 'equals' | 'equal' | 'holds' | 'would' | 'be' | 'do' ( 'I' | 'we' ) | 'need' | 'for' | 'to' | 'get' )+ ) )"`
	Amount *restNode `parser:"( 'about' | 'exactly' )? (?= Int | Decimal | Fraction | Vulgar | Number | Article ) @@"`
}

// ofFoodNode is "15 g carbohydrate of grapes", "30 g protein from chicken".
type ofFoodNode struct {
	Amount *boughtNode `parser:"(?= Int | Decimal | Fraction | Vulgar | Number | Article ) @@"`
	Food   *restNode   `parser:"( 'of' | 'from' | 'in' | 'as' | 'worth' 'of' | ':' ) @@"`
}

// boughtNode is an amount of a nutrient: "15 g carbohydrate", "200 calories",
// "1 carb choice".
type boughtNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"@( Int | Decimal | Fraction | Vulgar | Number | Article )+ ( @( Weight | 'mcg' | 'iu' ) @'of'? )? ( (?! 'of' | 'from' | 'in' | 'as' | 'worth' | 'and' | 'with' | 'or' ) @( Word | Size ) )+"`
}

// convertNode is "how much is 1/4 cup in ml", "500 g flour in cups".
type convertNode struct {
	What *toUnitNode `parser:"( 'how' ( 'much' | 'many' ) ( 'is' | 'are' ) | 'what' ( 'is' | 'are' ) ( 'the' )? | 'convert' | 'change' )? (?= Int | Decimal | Fraction | Vulgar | Number | Article ) @@"`
	To   string      `parser:"( 'in' | 'to' | 'into' | 'as' ) @( Volume | Weight | 'g' | 'l' ) EOF"`
}

type toUnitNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! ( 'in' | 'to' | 'into' | 'as' ) ( Volume | Weight | 'g' | 'l' ) EOF ) @( Int | Decimal | Fraction | Vulgar | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge | Times | Dash | Slash | Open | Close | Comma | Word | Mark ) )+"`
}

// whichNode is "what has more protein 3 oz chicken or 3 oz salmon", "which is
// higher in potassium, a banana or an orange". Without a sign between them the
// nutrient and the first food are one text.
type whichNode struct {
	Of    *wordsNode `parser:"( 'which' | 'what' ) ( 'has' | 'have' | 'is' | 'are' | 'contains' ) ( 'more' | 'less' | 'fewer' | 'the' | 'most' | 'least' | 'higher' | 'lower' | 'highest' | 'lowest' | 'richer' | 'in' )+ ( ( @@ ( ':' | Comma | Dash )?"`
	Left  *sideNode  `parser:"  @@ ( 'or' | 'vs' | 'versus' )"`
	Right *sideNode  `parser:"  @@ EOF )"`
	Plain *sideNode  `parser:"| ( @@ ( 'or' | 'vs' | 'versus' )"`
	Other *sideNode  `parser:"  @@ EOF ) )"`
}

// rankNode is "what has the most fibre: apple, pear or orange", "more iron: spinach
// or kale", "rank apple, pear and orange by fibre": foods set in order by a nutrient.
type rankNode struct {
	Order string      `parser:"  ( ( 'which' | 'what' ) ( 'food' | 'one' | 'of' | 'these' )* ( 'has' | 'have' | 'is' | 'are' | 'contains' | 'gives' ) )? ( 'the' )? @( 'more' | 'most' | 'less' | 'fewer' | 'least' | 'fewest' | 'higher' | 'highest' | 'lower' | 'lowest' | 'richer' | 'richest' | 'best' | 'better' | 'worse' | 'worst' ) ( 'in' | 'of' | 'for' )*"`
	Of    *wordsNode  `parser:"  @@ ( ':' | Comma | Dash | 'of' | 'in' )"`
	Foods []*sideNode `parser:"  @@ ( Comma (?! 'or' | 'and' ) @@ )* Comma? ( 'or' | 'and' | 'vs' '.'? | 'versus' ) @@ EOF"`
	Rank  []*sideNode `parser:"| ( 'rank' | 'sort' | 'order' | 'compare' ) ':'? ( @@ ( Comma (?! 'or' | 'and' ) @@ )* Comma? ( 'or' | 'and' | 'vs' '.'? | 'versus' )"`
	Last  *rankedNode `parser:"    @@ ( 'by' | 'for' | 'on' | 'in' )"`
	By    *wordsNode  `parser:"    @@ EOF )"`
	Named *wordsNode  `parser:"| 'compare' @@ ( ':' | 'in' | 'of' )"`
	Three []*sideNode `parser:"  @@ ( Comma (?! 'or' | 'and' ) @@ )+ Comma? ( 'or' | 'and' | 'vs' '.'? | 'versus' ) @@ EOF"`
	Plain *wordsNode  `parser:"| @@ ':'"`
	All   []*sideNode `parser:"  @@ ( Comma (?! 'or' | 'and' ) @@ )+ Comma? ( 'or' | 'vs' '.'? | 'versus' ) @@ EOF"`
}

// rankedNode is the last of the foods, before the nutrient.
type rankedNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'by' | 'for' | 'on' | 'in' ) @( Int | Decimal | Fraction | Number | Article | Volume | Weight | Count | Container | Size | Dash | Word | Mark ) )+"`
}

func (n *rankNode) request(side func(*sideNode) string) Request {
	r := Request{Kind: Compare, Nutrient: n.Of.text()}
	foods := n.Foods
	switch {
	case n.Last != nil:
		r.Nutrient, foods = n.By.text(), append(n.Rank, &sideNode{Pos: n.Last.Pos, EndPos: n.Last.EndPos})
	case n.Named != nil:
		r.Nutrient, foods = n.Named.text(), n.Three
	case n.Plain != nil:
		r.Nutrient, foods = n.Plain.text(), n.All
	}
	for _, f := range foods {
		r.Amounts = append(r.Amounts, side(f))
	}
	switch strings.ToLower(n.Order) {
	case "less", "fewer", "least", "fewest", "lower", "lowest":
		r.Least = true
	}
	return r
}

// foodSuitNode asks whether a food suits somebody, or holds something: "is soy
// sauce gluten free", "does pesto contain nuts".
type foodSuitNode struct {
	Is   *foodAsked `parser:"  ( 'is' | 'are' ) ( 'the' | 'there' )? @@"`
	Free *restNode  `parser:"  @@"`
	Does *foodHas   `parser:"| ( 'does' | 'do' ) @@ ( 'contain' | 'contains' | 'have' | 'has' | 'include' ) ( 'any' )?"`
	Has  *restNode  `parser:"  @@"`
	Give *foodGiven `parser:"| ( 'can' | 'could' | 'should' | 'may' ) ( 'I' | 'we' | 'you' | 'they' ) 'give' (   @@ 'to'"`
	To   *restNode  `parser:"    @@"`
	Whom string     `parser:"  | ( 'my' | 'a' | 'an' | 'the' )? @( 'baby' | 'babies' | 'toddler' | 'toddlers' | 'infant' | 'infants' | 'child' | 'children' | 'client' | 'patient' )"`
	Food *restNode  `parser:"    @@ )"`
}

// foodAsked ends before the words that ask.
type foodAsked struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! ( 'gluten' | 'dairy' | 'nut' | 'egg' | 'milk' | 'lactose' | 'soy' | 'wheat' | 'sesame' | 'fish' | 'shellfish' | 'peanut' | 'alcohol' ) 'free' | 'free' ( 'of' | 'from' ) | 'gluten-free' | 'dairy-free' | 'nut-free' | 'egg-free' | 'milk-free' | 'lactose-free' | 'soy-free' | 'wheat-free' | 'sesame-free' | 'fish-free' | 'shellfish-free' | 'peanut-free' | 'alcohol-free' | 'vegan' | 'vegetarian' | 'safe' | 'ok' | 'okay' | 'fine' | 'suitable' | 'allowed' | 'usually' | 'always' | 'considered' ) @( Int | Decimal | Fraction | Number | Article | Volume | Weight | Count | Container | Size | Dash | Comma | Word | Mark ) )+"`
}

// foodGiven ends before whom it is given to.
type foodGiven struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'to' | 'my' | 'baby' | 'babies' | 'toddler' | 'infant' | 'child' | 'client' | 'patient' ) @( Int | Decimal | Fraction | Number | Article | Volume | Weight | Count | Container | Size | Dash | Word | Mark ) )+"`
}

type foodHas struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'contain' | 'contains' | 'have' | 'has' | 'include' ) @( Int | Decimal | Fraction | Number | Article | Volume | Weight | Count | Container | Size | Dash | Comma | Word | Mark ) )+"`
}

// foodSuit evaluates a question whether a food suits.
func (c *change) foodSuit(n *foodSuitNode) (Request, bool) {
	r := Request{Kind: FoodSuits, sure: true}
	switch {
	case n.Is != nil:
		r.Food, r.New = c.span(n.Is.Pos, n.Is.EndPos), suits(c.rest(n.Free))
		for _, lead := range []string{"usually ", "always ", "considered "} {
			r.New = withoutLead(r.New, lead)
		}
	case n.Give != nil:
		r.Food, r.New = c.span(n.Give.Pos, n.Give.EndPos), c.rest(n.To)
	case n.Food != nil:
		r.Food, r.New = c.rest(n.Food), n.Whom
	default:
		r.Food, r.New = c.span(n.Does.Pos, n.Does.EndPos), c.rest(n.Has)
	}
	return r, true
}

// spelling puts the names of nutrients that have a number in one form.
func spelling(s string) string {
	s = threeVitamins.ReplaceAllString(s, "vitamin $1, vitamin $2 and vitamin $3")
	s = twoVitamins.ReplaceAllString(s, "vitamin $1 and vitamin $2")
	return numberedVitamin.ReplaceAllString(numberedOmega.ReplaceAllString(s, "$1-$2"), "$1 b$2")
}

var (
	numberedOmega   = regexp.MustCompile(`(?i)\b(omega) ([369])s?\b`)
	twoVitamins     = regexp.MustCompile(`(?i)\bvitamins? ([abcdek]\d{0,2}) (?:and|&) ([abcdek]\d{0,2})\b`)
	threeVitamins   = regexp.MustCompile(`(?i)\bvitamins? ([abcdek]\d{0,2}), ([abcdek]\d{0,2}),? (?:and|&) ([abcdek]\d{0,2})\b`)
	numberedVitamin = regexp.MustCompile(`(?i)\b(vitamin|vit)\.? b[ -](\d{1,2})\b`)
)

// unitEnds are the words at the end of a question that say in which unit.
var unitEnds = map[string]string{"kj": "kJ", "kilojoules": "kJ", "kilojoule": "kJ", "kcal": "kcal", "calories": "kcal", "kilocalories": "kcal", "mg": "mg", "milligrams": "mg", "g": "g", "grams": "g", "µg": "µg", "mcg": "µg", "micrograms": "µg", "iu": "IU"}

// inUnit takes the unit off the end of a text: "1 banana in kJ".
func inUnit(s string) (text, unit string) {
	words := strings.Fields(s)
	if n := len(words); n > 2 && strings.EqualFold(words[n-2], "in") {
		if unit, ok := unitEnds[strings.ToLower(words[n-1])]; ok {
			return strings.Join(words[:n-2], " "), unit
		}
	}
	return s, ""
}
