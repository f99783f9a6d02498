package grammar

import (
	"math/big"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The requests that change the recipe in hand or ask about it as a whole.
const (
	UseInstead    RequestKind = iota + 100 // "use plain yogurt instead of sour cream"
	SetAmount                              // "salt 1/2 tsp"
	MultiplyFood                           // "half the sugar"
	Drop                                   // "drop the bacon"
	Add                                    // "add 1/2 cup barley"
	Include                                // "with the optional topping"
	Undo                                   // "undo"
	WhatChanged                            // "what changed"
	CompareRecipe                          // "compare with the original"
	Brings                                 // "what brings the sodium"
	Cut                                    // "cut sodium"
	ApplyAdvice                            // "apply 2", "apply all"
	ReplaceWhat                            // "what can replace buttermilk"
	SuitDiet                               // "make it vegetarian"
	Fit                                    // "how much cheese for at most 350 kcal"
	SetTarget                              // "target carb-45: carbohydrate ≤ 45 g"
	CheckTarget                            // "check carb-45"
	Scale                                  // "scale to 24", "double it"
	ScalePan                               // "8x8 to 9x13"
	Cook                                   // "baked 30 minutes"
	CookedWeight                           // "it weighed 1.4 kg cooked"
	Claim                                  // "can I call it high in fibre"
	Label                                  // "label"
	Warnings                               // "warnings"
	ShowCooking                            // "cooking"
	KeepShare                              // "keep 30% of the marinade"
	CompareBefore                          // "compare with the recipe before"
	BackTo                                 // "back to the original", "back to version 2"
	Suitable                               // "is it gluten free", "can my client with diabetes eat this"
	Insulin                                // "how much insulin for 45 g carbs": never answered with a dose
	RecipeFigure                           // "how much sodium per serving"
	ShowRecipe                             // "show the recipe", "figures"
	MakePage                               // "make a page for the client"
	Thanks                                 // "thank you", "hello"
	ServingOf                              // "serving size 1 cup"
)

// scaleNamed scales a saved recipe: "scale barley soup to 24".
type scaleNamed struct {
	Name []string      `parser:"'scale' ( 'the' )? ( (?! 'to' | 'by' | 'up' | 'down' ) @( Word | Container | Count | Size ) )+ 'to'"`
	To   *quantityNode `parser:"@@ ( 'servings' | 'portions' | 'people' )? EOF"`
}

// Limit is a bound on a nutrient: "at most 350 kcal", "fibre ≥ 5 g".
type Limit struct {
	Nutrient string // the words that should name a nutrient; empty for kcal
	AtLeast  bool
	Amount   *big.Rat
	Unit     string // "g", "mg", "kcal" or ""
}

// changeNode is the grammar of these requests, tried before the quick
// questions. Each begins with words of its own.
type changeNode struct {
	Serving     *servingNode  `parser:"  @@ EOF"`
	Box         *boxNode      `parser:"| @@"`
	Undo        bool          `parser:"| @( ( 'undo' | 'revert' | 'take' ) ( 'that' | 'it' | 'this' | ( 'the' )? 'last' ( 'change' | 'one' )? )? ( 'back' )? | 'go' 'back' ) EOF"`
	Back        *backNode     `parser:"| @@ EOF"`
	WhatChanged bool          `parser:"| @( 'what' ( 'has' | 'was' | 'is' | 'have' 'I' | 'have' 'we' )* ( 'the' )? ( 'changed' | 'different' | 'difference' ) | 'what' 'did' ( 'I' | 'we' | 'you' ) 'change' | 'what' 'changes' ( 'have' ( 'I' | 'we' ) 'made' )? | 'changes' | 'versions' | 'history' ) EOF"`
	Original    bool          `parser:"| @( 'compare' ( 'it' | 'this' )? ( 'with' | 'to' ) ( 'the' )? 'original' ( 'recipe' | 'version' | 'one' )? ) EOF"`
	Before      bool          `parser:"| @( 'compare' ( 'it' | 'this' )? ( 'with' | 'to' ) ( 'the' )? ( 'recipe' 'before' | 'previous' ( 'recipe' )? | 'last' 'recipe' | 'other' ( 'recipe' )? | 'first' 'recipe' ) | 'compare' ( 'the' )? ( 'two' | 'both' ) ( 'recipes' )? ) EOF"`
	Keep        *keepNode     `parser:"| @@ EOF"`
	Versions    *versionsNode `parser:"| @@ EOF"`
	Apply       *applyNode    `parser:"| @@ EOF"`
	Claims      *claimsNode   `parser:"| @@ EOF"`
	ServingOf   *servingOf    `parser:"| @@ EOF"`
	Label       bool          `parser:"| @( ( 'show' ( 'me' )? | 'what' 'is' )? ( 'the' )? ( 'label' | 'declaration' ) ) EOF"`
	Warnings    bool          `parser:"| @( ( 'show' | 'any' | 'the' )* ( 'warnings' | 'cautions' | 'allergens' | 'warning' ) ) EOF"`
	Cooking     bool          `parser:"| @( ( 'show' )? ( 'the' )? 'cooking' | 'how' 'is' 'it' 'cooked' ) EOF"`
	Claim       *restNode     `parser:"| ( 'can' | 'may' ) ( 'I' | 'we' | 'you' ) ( 'call' | 'say' | 'claim' | 'describe' ) ( 'it' | 'this' | 'is' | 'as' | 'that' | 'its' | 'the' 'recipe' )* @@"`
	Asked       *askedNode    `parser:"| @@"`
	Brings      *restNode     `parser:"| ( 'what' ( 'brings' | 'gives' | 'contributes' | 'adds' ) | 'where' ( 'does' | 'do' | 'is' ) | 'which' ( 'ingredient' | 'ingredients' | 'line' | 'lines' ) ( 'brings' | 'bring' | 'gives' | 'give' | 'has' | 'have' ) | 'sources' 'of' | ( 'what' | 'how' 'much' ) ( 'percent' | 'percentage' | 'share' | 'part' | 'portion' ) 'of' ) ( 'the' | 'most' | 'all' | 'of' )* @@"`
	Target      *targetNode   `parser:"| @@"`
	Page        bool          `parser:"| @( ( 'make' | 'print' | 'create' | 'write' | 'export' | 'prepare' | 'send' ) ( 'me' )? ( Article | 'the' | 'one' | 'this' | 'as' )* ( 'client' | 'patient' | 'printable' | 'pdf' )? ( 'page' | 'handout' | 'sheet' | 'pdf' | 'leaflet' | 'hand-out' | 'printout' | 'document' ) )"`
	PageFor     *restNode     `parser:"  ( @@ )?"`
	PrintIt     bool          `parser:"| @( 'print' ( 'it' | 'this' | 'that' ) ( 'out' )? | 'handout' | 'leaflet' | 'printout' ) EOF"`
	Check       *restNode     `parser:"| 'check' ( 'against' )? @@"`
	Replace     *restNode     `parser:"| ( ( 'what' | 'which' 'food' ) ( 'can' | 'could' | 'would' | 'might' | 'will' ) ( 'replace' | 'I' 'use' 'instead' 'of' | 'stand' 'in' 'for' ) | ( 'substitute' | 'substitutes' | 'replacement' | 'swap' | 'swaps' ) 'for' ( 'the' )? ) @@"`
	Diet        *restNode     `parser:"| 'make' ( 'it' | 'this' ) (?! 'with' ) @@"`
	Servings    *quantityNode `parser:"| 'scale' ( 'it' | 'this' | 'the' 'recipe' )? ( 'up' | 'down' )? 'to' @@ ( 'servings' | 'portions' | 'people' )?"`
	Factor      *factorNode   `parser:"| @@ EOF"`
	ScaleNamed  *scaleNamed   `parser:"| @@"`
	NoFactor    *restNode     `parser:"| 'scale' @@"`
	Use         *useNode      `parser:"| @@"`
	Reduce      *reduceNode   `parser:"| @@ EOF"`
	Multiply    *multiplyNode `parser:"| @@ EOF"`
	Include     *restNode     `parser:"| ( 'with' | 'include' | 'count' ) ( 'the' )? 'optional' @@"`
	Out         *outNode      `parser:"| @@ EOF"`
	Drop        *restNode     `parser:"| ( 'drop' | 'omit' | 'remove' | 'skip' | 'without' | 'leave' 'out' | 'take' 'out' | ( 'with' )? 'no' (?! Int | '.' | Comma | 'more' 'than' | 'less' | 'fewer' | 'added' ) ) ( 'any' | 'more' )? ( 'the' )? @@"`
	Add         *restNode     `parser:"| 'add' @@"`
	Weighed     *weighedNode  `parser:"| @@ EOF"`
	Set         *setNode      `parser:"| @@ EOF"`
	Fit         *fitNode      `parser:"| @@ EOF"`
	Cut         *restNode     `parser:"| 'use'? (?= 'cut' | 'less' | 'lower' | 'fewer' | 'more' | 'reduce' | 'suggest' | 'suggestions' | 'healthier' | 'improve' ) @@"`
	UseFood     *restNode     `parser:"| ( 'use' | 'try' | 'switch' 'to' | 'go' 'with' ) ( 'the' | 'some' )? @@"`
	With        *restNode     `parser:"| ( 'with' | 'include' | 'count' ) ( 'the' )? @@"`
	Cook        *restNode     `parser:"| (?= 'baked' | 'roasted' | 'boiled' | 'simmered' | 'stewed' | 'fried' | 'steamed' | 'grilled' | 'broiled' | 'microwaved' | 'sauteed' | 'sautéed' | 'flamed' | 'raw' | 'uncooked' | 'cooked' ) @@"`
}

// backNode is "back to the original", "go back to version 2", "start over".
type backNode struct {
	Original bool   `parser:"  @( 'start' 'over' | 'start' 'again' | 'reset' ( 'it' )? | 'undo' ( 'everything' | 'all' ( 'changes' )? ) | ( 'go' | 'revert' | 'return' )? ( 'back' )? 'to' ( 'the' )? 'original' ( 'recipe' | 'version' | 'one' )? )"`
	Version  string `parser:"| ( 'go' | 'revert' | 'return' )? ( 'back' )? 'to' ( 'the' )? 'version' @Int"`
}

// versionsNode is "compare version 2 and 4", "compare with version 1".
type versionsNode struct {
	First  string `parser:"'compare' ( 'it' | 'this' | 'the' 'recipe' | 'with' | 'to' | 'version' | 'versions' )* @Int"`
	Second string `parser:"( ( 'and' | 'with' | 'to' ) ( 'version' )? @Int )?"`
}

// claimsNode is "claims", "claims as a main dish": what may be said of the dish.
type claimsNode struct {
	Said bool      `parser:"@( ( 'list' | 'show' | 'the' | 'all' )* 'claims' )"`
	As   *restNode `parser:"( 'as' ( Article )? @@ )?"`
}

// servingOf is "serving size 1 cup", "a serving is 250 g": a serving by its volume
// or weight.
type servingOf struct {
	Said   bool       `parser:"@( 'make' | 'set' | 'the' | Article | 'each' )* ( 'serving' | 'portion' | 'servings' | 'portions' ) ( 'size' | 'sizes' | 'is' | 'are' | 'of' | 'should' | 'be' | 'to' | '=' | ':' )*"`
	Amount *typedNode `parser:"@@"`
}

// outNode is "leave the salt out".
type outNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Food   *outFood `parser:"( 'leave' | 'take' ) ( 'the' )? @@ 'out'"`
}

type outFood struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'out' ) @( Int | Decimal | Fraction | Number | Article | Volume | Weight | Count | Container | Size | Dash | Word ) )+"`
}

type applyNode struct {
	All     bool     `parser:"'apply' ( @'all'"`
	Numbers []string `parser:"        | ( 'number' | 'suggestion' )? @Int ( ( Comma | 'and' )* @Int )* )"`
}

// keepNode is "keep 30% of the marinade", "the drained fat keeps 60%".
type keepNode struct {
	Share string        `parser:"  'keep' ( @Word"`
	Part  *quantityNode `parser:"         | @@ ) 'of' ( 'the' )?"`
	What  string        `parser:"  ( 'drained' )? @( 'marinade' | 'fat' | 'water' | 'brine' ) ( 'water' )?"`
}

// useNode is "use A instead of B" or "replace B with A".
type useNode struct {
	New *nounNode `parser:"  ( ( 'use' | 'put' | 'try' | 'make' ( 'it' | 'this' ) 'with' )? @@ 'instead' 'of' ( 'the' )?"`
	For *restNode `parser:"    @@ EOF )"`
	Old *nounNode `parser:"| ( ( 'replace' | 'swap' | 'substitute' | 'change' ) ( 'the' )? @@ ( 'with' | 'for' | 'by' | 'to' )"`
	By  *restNode `parser:"    @@ EOF )"`
}

// nounNode is a run of anything up to a small word that ends it.
type nounNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! 'instead' | 'with' | 'for' | 'by' | 'to' | 'at' | 'under' | 'below' | 'less' ) @( Int | Decimal | Fraction | Vulgar | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge | Times | Dash | Slash | Open | Close | Word ) )+"`
}

// multiplyNode is "half the sugar", "double the beans", "2/3 of the oil",
// "a third less sugar", "25% less salt".
type multiplyNode struct {
	Times   string        `parser:"( 'use' | 'with' )? (   @( 'half' | 'double' | 'triple' | 'twice' | 'halve' )"`
	Percent string        `parser:"  | (?! 'no' ) @Word (?= 'less' | 'more' | 'fewer' | 'of' )"`
	Part    *quantityNode `parser:"  | @@ (?= 'less' | 'more' | 'fewer' | 'of' | 'the' ) )"`
	How     string        `parser:"@( 'less' | 'more' | 'fewer' )? ( 'of' | 'the' | 'as' 'much' )*"`
	Food    *restNode     `parser:"@@"`
}

// reduceNode is "cut the sugar by a quarter".
type reduceNode struct {
	How     string        `parser:"@( 'cut' | 'reduce' | 'lower' | 'increase' | 'raise' ) ( 'the' )?"`
	Food    *nounNode     `parser:"@@ 'by'"`
	Percent string        `parser:"( @Word"`
	Part    *quantityNode `parser:"| @@ )"`
}

// setNode is "salt 1/2 tsp", "make the pecans 3/4 cup", "only 2 tbsp oil",
// "reduce the salt to 1/2 tsp".
type setNode struct {
	Only   *restNode  `parser:"  ( ( 'use' )? ( 'only' | 'just' ) ( 'use' )? | 'use' (?= Int | Decimal | Fraction | Vulgar | Number | Article ) ) @@"`
	Down   *setFood   `parser:"| ( ( 'reduce' | 'cut' | 'lower' | 'increase' | 'raise' | 'change' | 'bring' ) ( 'the' )? @@ ( 'down' | 'up' )? 'to'"`
	To     *typedNode `parser:"    @@ )"`
	Food   *setFood   `parser:"| ( 'set' | 'make' | 'the' )* @@"`
	Amount *typedNode `parser:"  ( 'to' | '=' | ':' | 'at' )? (?! 'under' | 'over' ) @@"`
}

// setFood is the food whose amount is set.
type setFood struct {
	Words []string `parser:"( (?! 'how' | 'what' | 'which' | 'in' | 'of' | 'is' | 'are' | 'does' | 'a' | 'per' | 'each' | 'at' | 'to' | 'down' | 'under' | 'below' | 'less' | 'more' | 'up' | 'max' | 'no' | 'within' | 'over' | 'above' | 'min' | 'by' | 'and' ) @Word )+"`
}

// typedNode is an amount with the place where it begins.
type typedNode struct {
	Pos    lexer.Position
	Amount *amountNode `parser:"@@"`
}

// factorNode is "double it", "halve the recipe", "scale by 2", "x3".
type factorNode struct {
	Word string        `parser:"  @( 'double' | 'halve' | 'half' | 'triple' | 'quadruple' ) ( 'it' | 'everything' | 'the' ( 'whole' )? 'recipe' | 'all' )"`
	By   *quantityNode `parser:"| ( 'scale' ( 'it' | 'this' | 'the' 'recipe' )? ( 'up' | 'down' )? ( 'by' | Times )? | 'multiply' ( 'it' )? 'by' | Times ) @@ ( 'times' | Times )?"`
}

// weighedNode is "it weighed 1.4 kg cooked".
type weighedNode struct {
	Weight *termNode `parser:"( 'it' )? ( 'weighed' | 'weighs' | 'cooked' 'weight' ( 'is' | 'was' )? ) @@ ( 'cooked' )?"`
}

// targetNode is "target carb-45: carbohydrate ≤ 45 g, fibre ≥ 5 g".
type targetNode struct {
	Name   *nameNode    `parser:"( 'set' | 'new' | 'a' | 'the' )* 'target' @@ ':'"`
	Limits []*limitNode `parser:"@@ ( ( Comma | 'and' )+ @@ )*"`
}

// nameNode is a name that a team gives: "carb-45", "DASH".
type nameNode struct {
	Pos    lexer.Position
	EndPos lexer.Position
	Tokens []string `parser:"( (?! ':' ) @( Int | Decimal | Fraction | Vulgar | Number | Article | Volume | Weight | Length | Count | Container | Size | Hedge | Times | Dash | Slash | Open | Close | Comma | Word | Mark ) )+"`
}

// limitNode is a nutrient with a bound, in either order.
type limitNode struct {
	Before *boundNode   `parser:"( @@ )?"`
	Amount *numberNode  `parser:"( @@"`
	Unit   string       `parser:"  @( Weight | 'kcal' | 'calories' | 'mcg' )? ( 'of' )?"`
	Of     *wordsOnly   `parser:"  @@?"`
	What   *wordsOnly   `parser:"| @@"`
	Bound  *boundNode   `parser:"  ( @@ )?"`
	Value  *numberNode  `parser:"  @@"`
	In     string       `parser:"  @( Weight | 'kcal' | 'calories' | 'mcg' )? )"`
	Per    *restOfServe `parser:"@@?"`
}

type restOfServe struct {
	Words []string `parser:"( @( 'a' | 'per' | 'each' ) @( 'serving' | 'meal' | 'portion' ) )"`
}

type boundNode struct {
	Most  bool `parser:"  @( '≤' | '<' '='? | 'at' 'most' | 'under' | 'below' | 'less' 'than' | 'up' 'to' | 'max' | 'maximum' | 'no' 'more' 'than' | 'within' )"`
	Least bool `parser:"| @( '≥' | '>' '='? | 'at' 'least' | 'over' | 'above' | 'more' 'than' | 'min' | 'minimum' )"`
}

type wordsOnly struct {
	Words []string `parser:"( (?! 'a' | 'per' | 'each' | 'at' | 'under' | 'below' | 'less' | 'more' | 'up' | 'max' | 'no' | 'within' | 'over' | 'above' | 'min' | 'by' | 'and' ) @Word )+"`
}

// fitNode is "how much cheese for at most 350 kcal a serving", "fit 45 g
// carbohydrate and 500 mg sodium", "servings for 600 mg sodium", "sodium under
// 400 by salt and soy sauce".
type fitNode struct {
	Servings bool         `parser:"(   @( ( 'how' 'many' )? ( 'servings' | 'portions' ) 'for' | ( 'what' )? ( 'serving' | 'portion' ) ( 'size' )? ( 'for' | 'fits' ) )"`
	Food     *nounNode    `parser:"  | 'how' ( 'much' | 'many' ) @@ 'for'"`
	Fit      bool         `parser:"  | @( 'fit' ( 'it' )? ( 'to' | 'in' | 'into' )? ) )?"`
	Limits   []*limitNode `parser:"@@ ( ( Comma | 'and' )+ @@ )*"`
	By       *restNode    `parser:"( 'by' @@ )?"`
}

var changeParser = participle.MustBuild[changeNode](
	participle.Lexer(lineLexer{}),
	participle.CaseInsensitive("Word", "Number", "Count", "Weight", "Article", "Hedge", "Container"),
	participle.UseLookahead(60),
)

// parseChange reads a request that changes or asks about the recipe in hand;
// ok is false if the text is none.
func parseChange(s string) (Request, bool) {
	if r, ok := parsePans(s); ok {
		return r, true
	}
	node, err := changeParser.ParseString("", s)
	if err != nil {
		return Request{}, false
	}
	c := change{text: s}
	r, ok := c.request(node)
	if ok && c.fault != nil {
		r.Fault = c.fault
	}
	return r, ok
}

// change evaluates the nodes of one request.
type change struct {
	text  string
	fault *Fault
}

func (c *change) rest(n *restNode) string { return strings.TrimSpace(c.text[n.Pos.Offset:]) }

func (c *change) span(from, to lexer.Position) string {
	return strings.Trim(c.text[from.Offset:min(max(to.Offset, from.Offset), len(c.text))], " ,:;")
}

func (c *change) number(n *numberNode) *big.Rat {
	v, ok := n.number()
	if !ok {
		c.fault = numberFault(n)
		return new(big.Rat)
	}
	return v
}

func (c *change) quantity(n *quantityNode) *big.Rat {
	q, fault := n.quantity()
	if fault != nil {
		c.fault = fault
		return new(big.Rat)
	}
	return q.Low
}

// simple are the requests that carry nothing, or only the rest of the text.
func (c *change) simple(n *changeNode) (Request, bool) {
	for _, plain := range []struct {
		said bool
		kind RequestKind
	}{{n.Undo, Undo}, {n.WhatChanged, WhatChanged}, {n.Label, Label}, {n.Warnings, Warnings}, {n.Cooking, ShowCooking}} {
		if plain.said {
			return Request{Kind: plain.kind}, true
		}
	}
	for _, plain := range []struct {
		rest *restNode
		kind RequestKind
	}{{n.Claim, Claim}, {n.Check, CheckTarget}, {n.Replace, ReplaceWhat}, {n.Diet, SuitDiet}, {n.Include, Include}, {n.Drop, Drop}, {n.Add, Add}, {n.Cut, Cut}, {n.Cook, Cook}} {
		if plain.rest != nil {
			return Request{Kind: plain.kind, Food: c.rest(plain.rest)}, true
		}
	}
	return Request{}, false
}

func (c *change) request(n *changeNode) (Request, bool) {
	switch {
	case n.Box != nil:
		return c.box(n.Box)
	case n.Serving != nil:
		return n.Serving.request(c.text), true
	case n.Claims != nil:
		r := Request{Kind: Claim, sure: true}
		if n.Claims.As != nil {
			r.New = c.rest(n.Claims.As)
		}
		return r, true
	case n.ServingOf != nil:
		a, fault := n.ServingOf.Amount.Amount.amount()
		if fault != nil || len(a.Terms) != 1 || a.Terms[0].Measure == nil || a.Terms[0].Measure.Amount == nil {
			return Request{}, false
		}
		return Request{Kind: ServingOf, New: strings.TrimSpace(c.text[n.ServingOf.Amount.Pos.Offset:]), sure: true}, true
	case n.Original:
		return Request{Kind: CompareRecipe}, true
	case n.Before:
		return Request{Kind: CompareBefore}, true
	case n.Keep != nil:
		share, ok := c.part(n.Keep.Share, n.Keep.Part)
		return Request{Kind: KeepShare, Food: strings.ToLower(n.Keep.What), Factor: share}, ok
	case n.Back != nil:
		return Request{Kind: BackTo, Numbers: numbers(n.Back.Version)}, true
	case n.Asked != nil:
		return c.asked(n.Asked)
	case n.Out != nil:
		return Request{Kind: Drop, Food: c.span(n.Out.Food.Pos, n.Out.Food.EndPos)}, true
	case n.NoFactor != nil:
		c.fault = &Fault{Part: c.rest(n.NoFactor), Reason: "is no number to scale by", Hint: `say it like "scale by 2", "scale to 24 servings" or "8x8 to 9x13"`}
		return Request{Kind: Scale}, true
	case n.Versions != nil:
		return Request{Kind: CompareRecipe, Numbers: numbers(n.Versions.First, n.Versions.Second)}, true
	case n.Apply != nil:
		return Request{Kind: ApplyAdvice, Numbers: numbers(n.Apply.Numbers...)}, true
	case n.Brings != nil:
		words := strings.Fields(c.rest(n.Brings))
		for i, w := range words { // "what percent of the sodium is from the broth"
			if i > 0 && i+1 < len(words) && (w == "is" || w == "comes" || w == "come") && (words[i+1] == "from" || words[i+1] == "in") {
				words = words[:i]
				break
			}
		}
		for len(words) > 1 && (words[len(words)-1] == "come" || words[len(words)-1] == "from") {
			words = words[:len(words)-1]
		}
		return Request{Kind: Brings, Nutrient: strings.Join(words, " ")}, true
	case n.Target != nil:
		r := Request{Kind: SetTarget, Food: c.span(n.Target.Name.Pos, n.Target.Name.EndPos)}
		for _, l := range n.Target.Limits {
			r.Limits = append(r.Limits, c.limit(l))
		}
		return r, true
	case n.Servings != nil:
		return Request{Kind: Scale, Servings: Quantity{c.quantity(n.Servings), c.quantity(n.Servings)}}, true
	case n.ScaleNamed != nil:
		to := c.quantity(n.ScaleNamed.To)
		return Request{Kind: Scale, Food: strings.Join(n.ScaleNamed.Name, " "), Servings: Quantity{to, to}}, true
	case n.Factor != nil:
		return Request{Kind: Scale, Factor: c.factor(n.Factor)}, true
	case n.Use != nil:
		return c.use(n.Use)
	case n.Reduce != nil:
		part, ok := c.part(n.Reduce.Percent, n.Reduce.Part)
		return Request{Kind: MultiplyFood, Food: c.span(n.Reduce.Food.Pos, n.Reduce.Food.EndPos), Factor: lessOrMore(part, n.Reduce.How)}, ok
	case n.Multiply != nil:
		return c.multiply(n.Multiply)
	case n.Weighed != nil:
		t, fault := n.Weighed.Weight.term()
		ok := fault == nil && t.Measure.Kind == Weight
		if !ok {
			return Request{}, false
		}
		return Request{Kind: CookedWeight, Factor: new(big.Rat).Mul(t.Quantity.Low, t.Measure.Amount)}, true
	case n.Page, n.PrintIt:
		return Request{Kind: MakePage, sure: true}, true
	case n.UseFood != nil:
		if now, old, found := strings.Cut(c.rest(n.UseFood), " instead of "); found { // "use chicken with skin instead of ..."
			return instead(now, strings.TrimPrefix(old, "the ")), true
		}
		if food := withoutLead(c.rest(n.UseFood), "no "); food != c.rest(n.UseFood) {
			return Request{Kind: Drop, Food: food}, true
		}
		return Request{Kind: UseInstead, New: c.rest(n.UseFood)}, true
	case n.With != nil:
		return Request{Kind: Include, Food: c.rest(n.With), New: c.rest(n.With)}, true
	case n.Fit != nil:
		return c.fit(n.Fit)
	case n.Set != nil:
		return c.set(n.Set)
	}
	return c.simple(n)
}

func numbers(digits ...string) []int {
	var ns []int
	for _, d := range digits {
		if n, err := strconv.Atoi(d); err == nil {
			ns = append(ns, n)
		}
	}
	return ns
}

func (c *change) factor(n *factorNode) *big.Rat {
	switch strings.ToLower(n.Word) {
	case "double":
		return big.NewRat(2, 1)
	case "triple":
		return big.NewRat(3, 1)
	case "quadruple":
		return big.NewRat(4, 1)
	case "half", "halve":
		return big.NewRat(1, 2)
	}
	return c.quantity(n.By)
}

func (c *change) use(n *useNode) (Request, bool) {
	if n.New != nil && n.For != nil {
		return instead(c.span(n.New.Pos, n.New.EndPos), c.rest(n.For)), true
	}
	return instead(c.rest(n.By), c.span(n.Old.Pos, n.Old.EndPos)), true
}

// instead is a food in place of another, one pan in place of another ("use a
// 9x13 instead of an 8x8"), or an amount alone ("change the salt to 1/2 tsp").
func instead(now, old string) Request {
	if from, to := withoutArticle(old), withoutArticle(now); isPan(from) && isPan(to) && isSized(from) && isSized(to) {
		return Request{Kind: ScalePan, Amounts: []string{from, to}}
	}
	if line := ParseLine(now); line.Fault == nil && len(line.Items) == 1 && line.Items[0].Amount != nil && len(line.Items[0].Words) == 0 {
		return Request{Kind: SetAmount, Food: old, New: now}
	}
	if line := ParseLine(now); line.Fault == nil && len(line.Items) == 1 && line.Items[0].Amount != nil && isBareNumber(old) { // "use 1 can of beans instead of 2"
		return Request{Kind: SetAmount, Food: strings.Join(line.Items[0].Words, " "), New: line.Items[0].Amount.String()}
	}
	return Request{Kind: UseInstead, New: now, Food: old}
}

// isBareNumber reports a text that is a number and at most a measure: "2", "2 cans".
func isBareNumber(s string) bool {
	line := ParseLine(s)
	return line.Fault == nil && len(line.Items) == 1 && line.Items[0].Amount != nil && len(line.Items[0].Words) == 0
}

// part reads "25%" or a fraction.
func (c *change) part(percent string, q *quantityNode) (*big.Rat, bool) {
	if q != nil {
		return c.quantity(q), true
	}
	digits, isPercent := strings.CutSuffix(percent, "%")
	v, ok := parseDigits(digits)
	if !isPercent || !ok {
		return nil, false
	}
	return v.Quo(v, big.NewRat(100, 1)), true
}

// lessOrMore turns a part taken off or put on into a factor.
func lessOrMore(part *big.Rat, how string) *big.Rat {
	if part == nil {
		return nil
	}
	one := big.NewRat(1, 1)
	switch strings.ToLower(how) {
	case "more", "increase", "raise":
		return one.Add(one, part)
	case "":
		return part
	}
	return one.Sub(one, part)
}

func (c *change) multiply(n *multiplyNode) (Request, bool) {
	r := Request{Kind: MultiplyFood, Food: c.rest(n.Food)}
	switch strings.ToLower(n.Times) {
	case "half", "halve":
		r.Factor = big.NewRat(1, 2)
	case "double", "twice":
		r.Factor = big.NewRat(2, 1)
	case "triple":
		r.Factor = big.NewRat(3, 1)
	default:
		part, ok := c.part(n.Percent, n.Part)
		switch {
		case !ok && n.How != "": // "much less salt"
			return Request{Kind: Cut, Food: strings.ToLower(n.How) + " " + r.Food}, true
		case !ok:
			return Request{}, false
		}
		r.Factor = lessOrMore(part, n.How)
	}
	return r, true
}

func (c *change) set(n *setNode) (Request, bool) {
	if n.Only != nil {
		items, fault := readItems(c.rest(n.Only), 0)
		if fault != nil || items[0].Amount == nil || len(items[0].Words) == 0 {
			return Request{}, false
		}
		return Request{Kind: SetAmount, Food: strings.Join(items[0].Words, " "), New: items[0].Amount.String()}, true
	}
	food, amount := n.Food, n.Amount
	if n.To != nil {
		food, amount = n.Down, n.To
	}
	r := Request{Kind: SetAmount, Food: strings.Join(food.Words, " ")}
	a, fault := amount.Amount.amount()
	if fault != nil {
		c.fault = fault
		return r, true
	}
	if m := a.Terms[0].Measure; n.To != nil && m != nil && m.Name == "mg" && strings.EqualFold(r.Food, "salt") { // sodium may be meant
		return Request{Kind: Cut, Food: c.text}, true
	}
	r.New = strings.TrimSpace(c.text[amount.Pos.Offset:])
	return r, true
}

func (c *change) fit(n *fitNode) (Request, bool) {
	r := Request{Kind: Fit}
	bound := false
	for _, l := range n.Limits {
		r.Limits = append(r.Limits, c.limit(l))
		bound = bound || l.Before != nil || l.Bound != nil
	}
	r.Fill = n.Food != nil || n.Fit
	switch {
	case n.Food != nil:
		r.Foods = []string{c.span(n.Food.Pos, n.Food.EndPos)}
	case n.By != nil:
		r.Foods = foodList(c.rest(n.By))
	case n.Servings || n.Fit:
		r.BySize = true
	case bound: // how is not said
	default:
		return Request{}, false // only an amount of a food
	}
	for _, l := range r.Limits {
		if l.Nutrient == "" && l.Unit != "kcal" {
			return Request{}, false
		}
	}
	return r, true
}

func foodList(s string) []string {
	var foods []string
	for _, part := range strings.FieldsFunc(strings.ReplaceAll(s, " and ", ","), func(r rune) bool { return r == ',' || r == ';' }) {
		if part = strings.TrimSpace(part); part != "" {
			foods = append(foods, part)
		}
	}
	return foods
}

func (c *change) limit(n *limitNode) Limit {
	l := Limit{}
	value, unit, what := n.Value, n.In, n.What
	if n.Amount != nil {
		value, unit, what = n.Amount, n.Unit, n.Of
	}
	if value != nil {
		l.Amount = c.number(value)
	}
	if what != nil {
		words := what.Words
		for len(words) > 1 && limitLeads[strings.ToLower(words[0])] {
			words = words[1:]
		}
		l.Nutrient = strings.Join(words, " ")
	}
	l.AtLeast = n.Before != nil && n.Before.Least || n.Bound != nil && n.Bound.Least
	switch unit = strings.ToLower(strings.TrimSuffix(unit, ".")); unit {
	case "kcal", "calories":
		l.Unit = "kcal"
	case "mcg":
		l.Unit = "µg"
	case "":
	default:
		l.Unit = measureOf(unit).Name
	}
	return l
}

// limitLeads are words before the nutrient of a limit: "get the sodium under 400 mg".
var limitLeads = set("get keep bring the limit want hold lower reduce cut make have has with its total")
