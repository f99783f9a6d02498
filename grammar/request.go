package grammar

import (
	"cmp"
	"math/big"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// RequestKind says what is asked.
type RequestKind uint8

// The requests. Figures is also what any other text is taken for: an amount
// of a food whose figures are wanted.
const (
	Figures    RequestKind = iota // "1 medium banana"
	Help                          // "help"
	SetServing                    // "servings 6"
	FixLine                       // "line 3 is 2% milk"
	ShowLines                     // "lines": every line with its grams
	GramsOf                       // "how many grams is 1/3 cup packed brown sugar"
	NutrientOf                    // "sodium in 1 tsp soy sauce"
	ChoicesOf                     // "carb choices in 1 cup cooked rice"
	Compare                       // "potassium: banana vs orange"
	Holds                         // "how many grapes is 15 g carb", "how many cups is 500 g flour"
	Convert                       // "1/4 cup in ml"
	FoodSuits                     // "is soy sauce gluten free"
)

// Request is a chat request as read. Which words are nutrients and foods is
// for the engine to find out.
type Request struct {
	Kind     RequestKind
	Nutrient string   // the words that should name a nutrient; may be empty
	Amounts  []string // the texts of the amounts or foods asked about
	Line     int      // of FixLine
	Servings Quantity // of SetServing and Scale; of RecipeFigure how many servings are meant, Low nil if not said
	Fault    *Fault   // an impossible number, or nil

	Food    string   // the food, claim, diet, goal or target name spoken of, as said; of Holds what is to hold the amount, or a measure
	New     string   // of UseInstead the new food, of SetAmount the amount, of FoodSuits whom or what for
	Unit    string   // of NutrientOf and Convert the unit asked for, as said; empty for the usual one
	Hundred bool     // of RecipeFigure: of 100 g; without a nutrient all figures
	Foods   []string // of Fit: the foods whose amounts may change
	BySize  bool     // of Fit: by the size or number of servings
	Fill    bool     // of Fit: up to the limit, also where less is in it now
	Factor  *big.Rat // of MultiplyFood and Scale; grams of CookedWeight
	Numbers []int    // of ApplyAdvice, CompareRecipe and BackTo; none means all, or the original
	Whole   bool     // of RecipeFigure: of the whole recipe, not of a serving
	Least   bool     // of Compare: the food with the least comes first
	OrScale bool     // of SetServing: more food may be meant, not smaller servings
	Limits  []Limit  // of Fit and SetTarget

	sure bool // no other reading is to be tried

	// Else is the other reading of a text that may also be a quick question;
	// nil if there is none.
	Else *Request
}

// requestNode is the grammar of requests; its EBNF is kept in
// testdata/ebnf.golden.
type requestNode struct {
	Help    bool          `parser:"  @( 'help' 'me'? | '?' ) EOF"`
	Lines   bool          `parser:"| @( ( 'show' ( 'me' )? )? ( 'all' )? ( 'the' )? ( 'lines' | 'details' | 'working' ) ) EOF"`
	Serving *servingNode  `parser:"| @@ EOF"`
	Fix     *fixNode      `parser:"| @@"`
	Convert *convertNode  `parser:"| @@"`
	Choices *restNode     `parser:"| ( 'how' 'many' )? ( 'carb' | 'carbs' | 'carbohydrate' ) ( 'choice' | 'choices' | 'exchange' | 'exchanges' ) ( 'is' | 'are' | 'in' | 'for' | 'of' | 'there' | ':' )* @@"`
	Amount  *amountOfNode `parser:"| @@"`
	Grams   *restNode     `parser:"| ( ( 'how' 'many' ( 'grams' | 'g' | 'gram' ) | 'grams' | ( 'what' 'is' 'the' )? 'weight' ) ( 'is' | 'are' | 'in' | 'of' | 'for' | 'does' | 'do' )+ | ( 'how' 'much' | 'what' ) ( 'does' | 'do' ) ) @@"`
	Asked   *restNode     `parser:"| ( 'what' ( 'is' | 'are' ) 'in' | 'figures' 'for' | ( 'nutrition' | 'nutrients' ) ( 'of' | 'for' | 'in' ) | 'show' 'me'? | 'convert' ) @@"`
	Pair    *pairNode     `parser:"| @@"`
	Rank    *rankNode     `parser:"| @@"`
	More    *whichNode    `parser:"| @@"`
	Compare *compareNode  `parser:"| @@"`
	Holds   *holdsNode    `parser:"| @@"`
	OfFood  *ofFoodNode   `parser:"| @@"`
	Content *contentNode  `parser:"| @@"`
	The     *restNode     `parser:"| ( 'what' ( 'is' | 'are' ) 'the' | ( 'what' | 'how' ) 'about' ( 'the' )? ) @@"`
	Figures *restNode     `parser:"| @@"`
}

// amountOfNode is "how many grams of carbohydrate are in 1 cup cooked rice":
// a nutrient, and then the food; or else a food, and then an amount of it.
type amountOfNode struct {
	What *namesNode `parser:"( 'how' ( 'many' | 'much' ) )? ( Weight | 'g' | 'mcg' | 'micrograms' | 'kcal' | 'units' ) 'of' ( 'the' )? @@ ( 'is' | 'are' | 'there' | 'do' | 'does' | 'I' | 'get' | 'content' )*"`
	Of   *restNode  `parser:"( ( 'in' | 'from' | ':' ) @@ | (?= Int | Decimal | Fraction | Vulgar | Number | Article ) @@ )"`
}

type servingNode struct {
	Below  bool          `parser:"  ( 'make' | 'it' | 'set' | 'the' )* ( 'servings' | 'serves' | 'serving' | 'portions' | 'serve' ) ( 'is' | 'are' | '=' | 'to' | ':' )* @Dash?"`
	After  *quantityNode `parser:"  @@ ( 'people' | 'servings' )?"`
	Before *quantityNode `parser:"| ( 'make' | 'that' | 'this' | 'it' | 'is' | 'enough' )* 'for'? @@ ( 'servings' | 'portions' | 'serving' | 'people' )"`
	For    *quantityNode `parser:"| ( 'make' | 'that' | 'this' | 'it' | 'is' | 'enough' )* 'for' @@"`
}

func (n *servingNode) quantity() (Quantity, *Fault) {
	if n.Below && n.After != nil {
		return Quantity{}, &Fault{Reason: "servings cannot be below zero", Hint: `say a number such as "servings 6"`}
	}
	return cmp.Or(n.After, n.Before, n.For).quantity()
}

// request is SetServing. "Make it for 6" may be meant as more food too; "servings
// 6", "6 servings" and "it is for 6" say into how many the pot is divided.
func (n *servingNode) request(s string) Request {
	r := Request{Kind: SetServing}
	r.Servings, r.Fault = n.quantity()
	words := strings.Fields(strings.ToLower(s))
	has := func(w string) bool { return slices.Contains(words, w) }
	r.OrScale = n.After == nil && (has("make") || has("for")) && !has("is")
	return r
}

type fixNode struct {
	Line string    `parser:"( 'line' | 'number' | 'no' '.'? ) @Int ( 'is' | 'was' | 'should' | 'be' | '=' | ':' | Comma )+"`
	Is   *restNode `parser:"@@"`
}

type compareNode struct {
	Asked bool       `parser:"@( 'compare' ':'? | 'which' ( 'has' | 'is' ) ( 'more' | 'less' | 'the' | 'higher' | 'lower' | 'in' )* )?"`
	Of    *wordsNode `parser:"( (   @@ ( ':' | Dash | Comma | 'in' | 'of' )"`
	Left  *sideNode  `parser:"      @@ ( 'vs' '.'? | 'versus' | 'v' | 'or' | 'against' | 'compared' ( 'to' | 'with' ) )"`
	Right *sideNode  `parser:"      @@ )"`
	Plain *sideNode  `parser:"  | ( @@ ( 'vs' '.'? | 'versus' | 'against' | 'compared' ( 'to' | 'with' ) )"`
	Other *sideNode  `parser:"      @@ ) )"`
}

type contentNode struct {
	Unit string     `parser:"( 'how' ( 'much' | 'many' ) | 'what' ( 'is' | 'are' ) ( 'the' )? | 'the' )? ( @( Weight | 'mcg' | 'iu' | 'kcal' | 'kj' ) (?= Word ) (?! 'in' | 'of' | 'from' | 'is' | 'are' ) )?"`
	What *namesNode `parser:"@@"`
	In   string     `parser:"( 'in' @( Weight | 'g' | 'mcg' | 'iu' | 'kcal' | 'kj' | 'kilojoules' | 'calories' ) (?= 'in' | 'of' | 'from' | 'for' | ':' ) )? ( 'is' | 'are' | 'there' | 'do' | 'does' | 'I' | 'get' | 'content' )*"`
	Of   *restNode  `parser:"( ( 'in' | 'of' | 'from' | ':' | 'for' ) @@ | (?= Int | Decimal | Fraction | Vulgar | Number | Article ) @@ )"`
}

// pairNode is "compare butter and margarine", "compare sodium in butter and margarine".
type pairNode struct {
	Of    *wordsNode `parser:"'compare' ( @@ ( ':' | 'in' | 'of' ) )?"`
	Left  *sideNode  `parser:"@@ ( 'vs' '.'? | 'and' | 'with' | 'to' )"`
	Right *sideNode  `parser:"@@ EOF"`
}

// wordsNode is a run of words without the small words that end one.
type wordsNode struct {
	Words []string `parser:"( (?! 'in' | 'of' | 'from' | 'for' | 'is' | 'are' | 'vs' | 'versus' | 'or' | 'there' | 'compare' | 'do' | 'does' | 'content' ) @Word )+"`
}

func (n *wordsNode) text() string {
	if n == nil {
		return ""
	}
	return strings.Join(n.Words, " ")
}

// namesNode is a nutrient, or several: "protein, fat and carbs".
type namesNode struct {
	Names []*wordsNode `parser:"@@ ( ( Comma | '&' | '+' | Slash ) @@ )*"`
}

func (n *namesNode) text() string {
	var names []string
	for _, words := range n.Names {
		names = append(names, words.text())
	}
	return strings.Join(names, ", ")
}

// sideNode is one side of a comparison.
type sideNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'vs' | 'versus' | 'v' | 'or' | 'against' | 'compared' | 'and' | 'with' | 'to' | ':' ) @( Int | Decimal | Fraction | Vulgar | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge | Times | Dash | Slash | Open | Close | Word | Mark ) )+"`
}

// restNode is all that follows.
type restNode struct {
	Pos    lexer.Position
	Tokens []string `parser:"@( Int | Decimal | Fraction | Vulgar | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge | Times | Dash | Slash | Open | Close | Comma | Word | Mark )+"`
}

var requestParser = participle.MustBuild[requestNode](
	participle.Lexer(lineLexer{}),
	participle.CaseInsensitive("Word", "Number", "Count", "Weight", "Article", "Hedge"),
	participle.UseLookahead(60),
)

// MaxRequest is the most bytes of a request of one line.
const MaxRequest = 600

// ParseRequest reads one request of a single line. What fits no other form is
// taken as an amount whose figures are wanted. The error is a *Fault if there
// is nothing to read or the text is too long.
func ParseRequest(text string) (Request, error) {
	if fault := checkText(text); fault != nil {
		return Request{}, fault
	}
	s := strings.TrimRight(strings.TrimSpace(clean(text)), "?! ")
	if strings.TrimSpace(text) == "?" {
		s = "help"
	}
	if thanks(s) {
		return Request{Kind: Thanks}, nil
	}
	s = spelling(worded(polite(unquoted(s))))
	if len(s) > MaxRequest {
		return Request{}, &Fault{Part: firstWords(text), Reason: "is too long for one question", Hint: "paste a recipe with a line for each ingredient, or ask about one food"}
	}
	if s == "" {
		return Request{}, &Fault{Reason: "there is no question to read", Hint: `ask like "sodium in 1 tsp soy sauce"`}
	}
	r := parseRequest(s)
	asksNothingKept := r.Kind < SaveRecipe && r.Kind != SetTarget && r.Kind != CheckTarget
	if asksNothingKept && asksDose(s) && (r.Kind != Suitable && r.Kind != FoodSuits || asksDose(strings.ReplaceAll(strings.ToLower(s), "insulin", ""))) {
		return Request{Kind: Insulin}, nil
	}
	if r.Kind != SetServing && (asksNothingKept || r.Kind == SetTarget || r.Kind == FindRecipes || r.Kind == AddFood) {
		numbers := s
		if r.Kind == SetTarget || r.Kind == AddFood { // their names may hold a dash
			_, numbers, _ = strings.Cut(s, ":")
		}
		if fault := belowZero(numbers); fault != nil {
			r.Fault = fault
		}
	}
	return r, nil
}

// parseRequest reads a text as a change, or else as a quick question.
func parseRequest(s string) Request {
	quick := Request{Kind: Figures, Amounts: []string{s}}
	if node, err := requestParser.ParseString("", s); err == nil {
		quick = node.request(s)
	}
	r, ok := parseChange(s)
	if !ok {
		return quick
	}
	if r.Kind == Cut && quick.Kind == Compare { // "more iron: spinach or kale"
		return quick
	}
	if r.Kind != quick.Kind && r.Kind != Drop && !r.sure { // "no salt" is no food
		r.Else = &quick
	}
	return r
}

func (n *requestNode) request(s string) Request {
	rest := func(r *restNode) []string { return []string{strings.TrimSpace(s[r.Pos.Offset:])} }
	side := func(n *sideNode) string { return span(s, n.Pos, n.EndPos) }
	switch {
	case n.Help:
		return Request{Kind: Help}
	case n.Lines:
		return Request{Kind: ShowLines}
	case n.Serving != nil:
		return n.Serving.request(s)
	case n.Fix != nil:
		line, ok := parseDigits(n.Fix.Line)
		if !ok || !line.Num().IsInt64() {
			line = new(big.Rat)
		}
		return Request{Kind: FixLine, Line: int(line.Num().Int64()), Amounts: rest(n.Fix.Is)}
	case n.Choices != nil:
		return Request{Kind: ChoicesOf, Amounts: rest(n.Choices)}
	case n.Amount != nil:
		amounts := rest(n.Amount.Of)
		if line := ParseLine(amounts[0]); len(line.Items) == 1 && line.Items[0].Amount != nil && len(line.Items[0].Words) == 0 { // "grams of flour in 1 cup"
			return Request{Kind: GramsOf, Amounts: []string{amounts[0] + " " + n.Amount.What.text()}}
		}
		return Request{Kind: NutrientOf, Nutrient: n.Amount.What.text(), Amounts: []string{withoutHas(amounts[0])}}
	case n.Grams != nil:
		amounts := rest(n.Grams)
		amounts[0] = strings.TrimSuffix(amounts[0], " weigh")
		return Request{Kind: GramsOf, Amounts: amounts}
	case n.Pair != nil:
		return Request{Kind: Compare, Nutrient: n.Pair.Of.text(), Amounts: []string{side(n.Pair.Left), side(n.Pair.Right)}}
	case n.Rank != nil:
		return n.Rank.request(side)
	case n.More != nil && n.More.Right != nil:
		return Request{Kind: Compare, Nutrient: n.More.Of.text(), Amounts: []string{side(n.More.Left), side(n.More.Right)}}
	case n.More != nil:
		return Request{Kind: Compare, Amounts: []string{side(n.More.Plain), side(n.More.Other)}}
	case n.Compare != nil && n.Compare.Right != nil:
		return Request{Kind: Compare, Nutrient: n.Compare.Of.text(), Amounts: []string{side(n.Compare.Left), side(n.Compare.Right)}}
	case n.Compare != nil:
		return Request{Kind: Compare, Amounts: []string{side(n.Compare.Plain), side(n.Compare.Other)}}
	case n.Convert != nil:
		return convert(s, n.Convert)
	case n.Holds != nil:
		what := n.Holds.What
		if what == nil {
			what = n.Holds.Food
		}
		return Request{Kind: Holds, Food: span(s, what.Pos, what.EndPos), Amounts: rest(n.Holds.Amount)}
	case n.OfFood != nil:
		return Request{Kind: Holds, Food: rest(n.OfFood.Food)[0], Amounts: []string{span(s, n.OfFood.Amount.Pos, n.OfFood.Amount.EndPos)},
			Else: &Request{Kind: Figures, Amounts: []string{s}}}
	case n.Content != nil:
		amount, unit := inUnit(withoutHas(rest(n.Content.Of)[0]))
		if m, ok := MeasureNamed(n.Content.In); ok && (m.Name == "oz" || m.Name == "lb" || m.Name == "kg") { // "protein in ounce of cheddar"
			n.Content.In, amount = "", "1 "+m.Name+" "+amount
		}
		return Request{Kind: NutrientOf, Nutrient: n.Content.What.text(), Unit: cmp.Or(unit, n.Content.In, n.Content.Unit), Amounts: []string{amount}}
	}
	asked := n.Figures
	if asked == nil {
		asked = cmp.Or(n.Asked, n.The)
	}
	for _, end := range []string{" in grams", " in g", " to grams", " into grams"} {
		if len(s) > len(end)+asked.Pos.Offset && strings.EqualFold(s[len(s)-len(end):], end) {
			return Request{Kind: GramsOf, Amounts: []string{strings.TrimSpace(s[asked.Pos.Offset : len(s)-len(end)])}}
		}
	}
	return Request{Kind: Figures, Amounts: rest(asked)}
}

// span is the text between two places of s.
func span(s string, from, to lexer.Position) string {
	return strings.TrimSpace(s[from.Offset:min(max(to.Offset, from.Offset), len(s))])
}

// convert is one measure in another; grams of a food are asked for by their own
// request.
func convert(s string, n *convertNode) Request {
	amount := span(s, n.What.Pos, n.What.EndPos)
	if m, ok := MeasureNamed(n.To); ok && m.Name == "g" {
		if line := ParseLine(amount); len(line.Items) == 1 && len(line.Items[0].Words) > 0 {
			return Request{Kind: GramsOf, Amounts: []string{amount}}
		}
	}
	return Request{Kind: Convert, Amounts: []string{amount}, Unit: n.To}
}

// withoutHas drops the verb at the end of "how much sodium does soy sauce have".
func withoutHas(s string) string {
	for _, end := range []string{" have", " has", " contain", " contains"} {
		s = strings.TrimSuffix(s, end)
	}
	return s
}
